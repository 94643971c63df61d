import { describe, expect, test } from "vitest";
import {
	checkRows,
	readTrial,
	type Trial,
	type TrialOptions,
	type TypedRow,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { compareTreatments, marginOf } from "../../kernel-lib/compare/index";
import { residues } from "../../kernel-lib/residue/index";
import { concentrations } from "../../kernel-lib/solutions/index";
import { recoveries, uptakes } from "../../kernel-lib/uptake/index";
import { charRow, plainSolutions } from "../uptake/sheets";

const demo = "data/demo-run/hazelnut.csv";

describe("a trial is read once and never changed", () => {
	const trial = readTrial(demo);

	test("the object and its lists are frozen", () => {
		expect(() => {
			(trial as { file: string }).file = "other";
		}).toThrow(TypeError);
		expect(() => {
			(trial.flasks as unknown[]).pop();
		}).toThrow(TypeError);
		expect(() => {
			(trial.flasks[0] as { treatment: string }).treatment = "other";
		}).toThrow(TypeError);
	});

	test("it keeps the bytes that it was read from", () => {
		expect(trial.sources.map((s) => s.file)).toEqual([
			"hazelnut.csv",
			"hazelnut.solutions.csv",
			"hazelnut.deviations.csv",
			"hazelnut.glassware.csv",
		]);
		expect(trial.sources[0].hash).toBe(trial.hash);
		expect(new TextDecoder().decode(trial.sources[0].content)).toContain(
			"flask",
		);
	});

	test.each([
		["concentrations", concentrations],
		["residues", residues],
		["recoveries", recoveries],
		["uptakes", uptakes],
	])("%s: computed once, the same object when asked again", (_, step) => {
		expect(step(trial)).toBe(step(trial));
	});

	test("two trials never mix: each keeps its own results", () => {
		const other = readTrial(demo);
		expect(uptakes(other)).not.toBe(uptakes(trial));
		expect(uptakes(other)[0].computedUptake.value).toBe(
			uptakes(trial)[0].computedUptake.value,
		);
	});

	test("a result knows its trial", () => {
		const comparison = compareTreatments(trial, { margin: marginOf(25) });
		expect(comparison.trial).toBe(trial);
		expect(comparison.probe).toBe("iodine");
		expect(comparison.confidence).toBe(0.95);
	});
});

describe("options", () => {
	test("one that it does not have is answered with the nearest name", () => {
		expect(() =>
			readTrial(demo, { drifts: "check" } as unknown as TrialOptions),
		).toThrow(/"drifts".*Did you mean "drift"/);
		expect(() =>
			readTrial(demo, { drift: "mend" } as unknown as TrialOptions),
		).toThrow(/"mend".*one of "check", "correct"/);
	});

	test.each([
		[{ alfa: 0.01 }, /"alfa"/],
		[{ deviation: [] }, /"deviation"/],
		[{ margin: 25 }, /number 25.*compare\.marginOf/],
		[{ confidance: 0.9 }, /Did you mean "confidence"/],
		[{ confidence: 95 }, /above 0.5 and below 1/],
	])("of a comparison: %o", (options, message) => {
		expect(() =>
			compareTreatments(readTrial(demo), {
				margin: marginOf(25),
				...options,
			} as never),
		).toThrow(message);
	});
});

/** Two iodine flasks by titre, one by the colour of its iodine, and two flasks with a dye. */
const titrated = [charRow("1"), charRow("2", { "titre (mL)": 6 })];
const standards = [0, 100, 200, 400, 600].map((c, i) => ({
	standard: `I${i}`,
	"concentration (mg/L)": c,
	"absorbance 1": 0.002 * c + 0.001 * (i % 2),
}));
const coloured: TypedRow = {
	...charRow("3"),
	"titre (mL)": "",
	"absorbance 1": 0.8,
};
const dyed: TypedRow = {
	flask: "4",
	treatment: "control",
	"char mass (g)": 0.2,
	"dose (mL)": 50,
	"dose 1 of": "blue",
	"made up to (mL)": 100,
	"char in when made up": "no",
	"absorbance 1": 0.4,
};
const blue = {
	solution: "blue",
	substance: "methylene blue",
	"concentration (mg/L)": 200,
};

describe("the sheet decides how a residue is found", () => {
	const trial = trialFromRows({
		flasks: [...titrated, coloured],
		solutions: plainSolutions,
		calibration: standards,
	});

	test("titres and readings in one sheet, in its order", () => {
		expect(residues(trial).map((r) => [r.flask.name, r.is])).toEqual([
			["1", "titrated"],
			["2", "titrated"],
			["3", "read"],
		]);
		// 0.8 on a line of 0.002 a mg/L
		expect(residues(trial)[2].residue.quantity.in("mg/L")).toBeCloseTo(400, 0);
		expect(uptakes(trial).map((u) => u.probe)).toEqual([
			"iodine",
			"iodine",
			"iodine",
		]);
	});

	test("the table says how each was found", () => {
		const { title, columns, rows } = residues(trial).table;
		expect(title).toBe("Left in solution: iodine");
		expect(rows.map((r) => r[columns.indexOf("found by")])).toEqual([
			"titration",
			"titration",
			"line calibration",
		]);
	});
});

describe("one trial is about one probe", () => {
	const rows = {
		flasks: [...titrated, dyed],
		solutions: [...plainSolutions, blue],
		calibration: standards,
	};

	test("a sheet with two asks which is meant", () => {
		const checked = checkRows(rows);
		expect(checked.ok).toBe(false);
		if (!checked.ok)
			expect(checked.problems.map((p) => [p.code, p.found])).toEqual([
				[
					"several-probes",
					'flasks with char that were dosed with "iodine" and "methylene blue"',
				],
			]);
	});

	test.each([
		["iodine", ["1", "2"]],
		["methylene blue", ["4"]],
		["Methylene Blue", ["4"]],
	])(
		"%s: its flasks, and the trial says what it sets aside",
		(probe, names) => {
			const trial: Trial = trialFromRows(rows, { probe });
			expect(uptakes(trial).map((u) => u.flask.name)).toEqual(names);
			expect(trial.setAside.join(" ")).toContain("set aside");
		},
	);

	test("a probe that no flask was dosed with", () => {
		expect(() => trialFromRows(rows, { probe: "phenol" })).toThrow(
			/the probe "phenol".*"iodine", "methylene blue"/,
		);
	});

	test("the only one needs no choice, and sets nothing aside", () => {
		const trial = trialFromRows({
			flasks: titrated,
			solutions: plainSolutions,
		});
		expect(trial.probe.name).toBe("iodine");
		expect(trial.setAside).toEqual([]);
	});
});
