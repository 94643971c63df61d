import { describe, expect, test } from "vitest";
import {
	firingFrame,
	flaskFrame,
	readingFrame,
	readTrial,
	selectFlasks,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { compareTreatments, marginOf } from "../../kernel-lib/compare/index";
import { jupyterDisplay } from "../../kernel-lib/quantity/index";
import { residues } from "../../kernel-lib/residue/index";
import { uptakeFrame, uptakes } from "../../kernel-lib/uptake/index";
import { methodSentences } from "../../kernel-lib/words";

const trial = readTrial("data/demo-run/hazelnut.csv");

/** A frame as a notebook shows it, in plain text. */
const shownText = (frame: object): string =>
	(frame as Record<symbol, () => Record<string, string>>)[jupyterDisplay]()[
		"text/plain"
	];

describe("a filtered frame is handed back", () => {
	const frame = uptakeFrame(trial);
	const treatment = uptakes(trial)[0].flask.treatment;
	const own = frame.query(frame.treatment.eq(treatment));

	test("what follows knows only its flasks; the blanks stay", () => {
		const part = selectFlasks(trial, own);
		expect(uptakes(part).map((u) => u.flask.treatment)).toEqual(
			uptakes(trial)
				.map((u) => u.flask.treatment)
				.filter((t) => t === treatment),
		);
		expect(part.flasks.filter((f) => f.contents !== "char")).toEqual(
			trial.flasks.filter((f) => f.contents !== "char"),
		);
		expect(uptakes(part)[0].computedUptake.value).toBe(
			uptakes(trial)[0].computedUptake.value,
		);
	});

	test("the trial says what it goes without, and the first one is not changed", () => {
		const part = selectFlasks(trial, own);
		expect(part.setAside).toHaveLength(1);
		expect(part.setAside[0]).toMatch(
			/^\d+ of \d+ flasks with char were selected by hand; the other \d+ play no part/,
		);
		expect(trial.setAside).toEqual([]);
	});

	test("a comparison of some flasks says so in its method", () => {
		const names = uptakes(trial)
			.map((u) => u.flask.name)
			.slice(0, -1);
		const comparison = compareTreatments(selectFlasks(trial, names), {
			margin: marginOf(25),
		});
		expect(methodSentences(comparison).join(" ")).toContain("selected by hand");
	});

	test("all flasks: the same trial", () => {
		expect(selectFlasks(trial, frame)).toBe(trial);
	});

	test.each([
		[["no such flask"], /"no such flask"/],
		[[], /no flask at all/],
	])("%o is refused", (names, message) => {
		expect(() => selectFlasks(trial, names as string[])).toThrow(message);
	});

	test("a frame without the column is refused", () => {
		expect(() =>
			selectFlasks(trial, frame.loc({ columns: ["treatment"] })),
		).toThrow(/a column "flask"/);
	});
});

describe("frames of a trial", () => {
	test("flasks: a row each", () => {
		expect(flaskFrame(trial).shape[0]).toBe(trial.flasks.length);
	});

	test("single readings: a row for each titre, in mL", () => {
		const frame = readingFrame(trial);
		const titres = trial.flasks.reduce((n, f) => n + f.titrations.length, 0);
		expect(frame.shape[0]).toBe(titres);
		expect(new Set(frame.unit.values)).toEqual(new Set(["mL"]));
	});

	test("a trial without firings has a frame of none", () => {
		const none = firingFrame(trial);
		expect(none.shape).toEqual([0, 1]);
		expect(none.columns).toEqual(["firing"]);
		expect(shownText(none)).not.toMatch(/NaN|undefined/);
	});

	test("a missing number is shown as an empty cell", () => {
		expect(flaskFrame(trial).values.flat().some(Number.isNaN)).toBe(true);
		const text = shownText(flaskFrame(trial));
		expect(text).toContain("titre");
		expect(text).not.toContain("NaN");
	});

	test("uptakes: value, standard uncertainty and kind of bound side by side", () => {
		const frame = uptakeFrame(trial);
		expect(frame.columns).toEqual(
			expect.arrayContaining([
				"uptake (mg/g)",
				"uptake standard uncertainty (mg/g)",
				"uptake is",
				"residue (mg/L)",
			]),
		);
		expect(frame.shape[0]).toBeGreaterThan(0);
	});
});

test("the drift of an instrument runs along the whole sheet, whatever flasks are selected", () => {
	const drifting = trialFromRows(
		{
			flasks: ["1", "2", "3", "4"].map((flask) => ({
				flask,
				treatment: "control",
				"char mass (g)": 0.2,
				"dose (mL)": 50,
				"made up to (mL)": 100,
				"absorbance 1": 0.3,
			})),
			solutions: [
				{
					solution: "blue",
					substance: "methylene blue",
					"concentration (mg/L)": 200,
				},
			],
			calibration: [
				...[0, 2, 4].map((c) => ({
					standard: `E${c}`,
					"concentration (mg/L)": c,
					"absorbance 1": 0.2 * c + (c === 2 ? 0.001 : 0),
				})),
				{
					standard: "E4",
					"concentration (mg/L)": 4,
					"absorbance 1": 0.4,
					"read after": "4",
				},
			],
		},
		{ drift: "correct" },
	);
	const left = (of: typeof drifting) =>
		new Map(
			residues(of).map((r) => [r.flask.name, r.residue.quantity.in("mg/L")]),
		);
	const all = left(drifting);
	// Half of the signal was lost by the end: the last flask held twice what it shows, 2 × 0.3/0.2 mg/L.
	expect(all.get("4")).toBeCloseTo(3, 1);
	expect(left(selectFlasks(drifting, ["2", "3"])).get("3")).toBe(all.get("3"));
});

describe("a frame knows its trial", () => {
	const mixed = readTrial("data/demo-isotherm/isotherm.csv");
	const frame = flaskFrame(trial);

	test("through every filter", () => {
		for (const made of [
			frame,
			frame.query(frame["char mass (g)"].gt(0)),
			frame.query(frame.contents.eq("char")).head(2),
			frame.sortValues("flask"),
			frame.loc({ rows: [0, 1], columns: ["flask"] }),
			frame.iloc({ rows: [0, 1] }),
			frame.drop({ columns: ["treatment"] }),
			frame.copy(),
			uptakeFrame(trial),
			readingFrame(trial),
		])
			expect(() => selectFlasks(mixed, made)).toThrow(
				"a frame that was made of another trial",
			);
		expect(() => selectFlasks(mixed, frame)).toThrow(
			"isotherm.csv: found a frame that was made of another trial",
		);
	});

	test("a trial read again, or in part, is the same trial", () => {
		const own = uptakeFrame(trial).head(1);
		const again = readTrial("data/demo-run/hazelnut.csv");
		const part = selectFlasks(again, own);
		expect(uptakes(part)).toHaveLength(1);
		expect(selectFlasks(again, uptakeFrame(part)).setAside).toEqual(
			part.setAside,
		);
	});

	test("and shows no column for it", () => {
		expect(frame.columns).not.toContain("trial");
		expect(Object.keys(frame).join()).not.toContain("files");
	});
});

describe("a frame of firings", () => {
	const kiln = readTrial("data/demo-activation/kiln.csv");
	const firings = firingFrame(kiln);

	test("gives the flasks of these firings", () => {
		const one = firings.query(firings.firing.eq(uptakes(kiln)[0].flask.soak));
		const part = selectFlasks(kiln, one);
		const soak = uptakes(kiln)[0].flask.soak;
		expect(new Set(uptakes(part).map((u) => u.flask.soak))).toEqual(
			new Set([soak]),
		);
		expect(uptakes(part)).toHaveLength(
			uptakes(kiln).filter((u) => u.flask.soak === soak).length,
		);
		expect(part.firings).toEqual(kiln.firings);
	});
});
