/** Decisions of ours that a laboratory may take otherwise, each against arithmetic done by hand. */
import { describe, expect, test } from "vitest";
import {
	checkRows,
	type LossRule,
	type Trial,
	type TrialOptions,
	trialFromRows,
	withSettings,
} from "../../kernel-lib/bench";
import { budget, tableText } from "../../kernel-lib/quantity";
import { residues } from "../../kernel-lib/residue";
import { uptakes } from "../../kernel-lib/uptake";
import { recoveries } from "../../kernel-lib/uptake/recovery";
import { charRow, plainSolutions, type Row } from "../uptake/sheets";

/** g/mol, from the abridged standard atomic weights (IUPAC 2021, from memory). */
const iodine = 253.81;

/** 2 mmol dosed; a titre of 1 mL leaves 0.2 mmol of it, one of 9 mL 1.8 mmol. */
const tenthLeft = charRow("a", { "titre (mL)": 1 });
const blank = charRow("i", {
	contents: "iodine blank",
	treatment: "",
	"char mass (g)": "",
	"char in when made up": "",
	"titre (mL)": 9,
});

const read = (flasks: Row[], options: TrialOptions = {}): Trial =>
	trialFromRows({ flasks, solutions: plainSolutions }, options);

/** Share of the 2 mmol that 1 g of char took up. */
const share = (trial: Trial): number =>
	uptakes(trial)[0].computedUptake.in("mg/g") / iodine / 2;

const inputsOf = (trial: Trial): string =>
	budget(uptakes(trial)[0].computedUptake)
		.rows.map((row) => row.meaning)
		.join(", ");

describe("losses: recovery 0.90, a tenth of the dose left", () => {
	test.each<[LossRule, number]>([
		["from the dose", 0.9 - 0.1],
		["from what is left", 1 - 0.1 / 0.9],
		["between the extremes", 0.9 - (1.1 * 0.1) / 1.9],
		["the blank is the dose", 0.9 - 0.1],
	])("%s", (losses, expected) => {
		const trial = read([tenthLeft, blank], { losses });
		expect(share(trial)).toBeCloseTo(expected, 4);
		const { added, takenUp, left, withdrawn, lost } = uptakes(trial)[0].balance;
		const parts = [takenUp, left, withdrawn, lost].map((m) => m.in("mg"));
		expect(parts.reduce((a, b) => a + b)).toBeCloseTo(added.in("mg"), 9);
	});

	test("unless told otherwise they lie between the extremes, and where is an error of its own", () => {
		const usual = read([tenthLeft, blank]);
		expect(usual.settings.losses).toBe("between the extremes");
		expect(inputsOf(usual)).toContain("where the loss lies");
		for (const losses of ["from the dose", "from what is left"] as const)
			expect(inputsOf(read([tenthLeft, blank], { losses }))).not.toContain(
				"where the loss lies",
			);
	});

	test("a blank that is the dose was so before anything was withdrawn, and jars do not differ", () => {
		// 5 of 100 mL went out with 0.1 mmol; what is left: 1 mL of 0.1 mol/L on 25 of 95 mL
		const drawn = charRow("a", {
			"titre (mL)": 1,
			"withdrawn 1 (mL)": 5,
			"withdrawn 1 titre (mL)": 2,
		});
		const left = 0.05 * (95 / 25);
		const of = (losses: LossRule): number =>
			2 * share(read([drawn, blank], { losses }));
		expect(of("from the dose")).toBeCloseTo(0.9 * (2 - 0.1) - left, 3);
		expect(of("the blank is the dose")).toBeCloseTo(0.9 * 2 - 0.1 - left, 3);
		expect(
			inputsOf(read([drawn, blank], { losses: "from the dose" })),
		).toContain("what the jar of flask a kept");
		expect(
			inputsOf(read([drawn, blank], { losses: "the blank is the dose" })),
		).not.toContain("jar of flask");
	});

	test("a dry flask keeps the rule that was chosen, where the usual bound takes the worst end", () => {
		const least = (losses: LossRule): number =>
			uptakes(
				read([charRow("a", { "titre (mL)": 0 }), blank], { losses }),
			)[0].uptake.quantity.in("mg/g") / iodine;
		// 0.01 mmol could hide
		expect(least("between the extremes")).toBeCloseTo(2 * 0.9 - 0.01, 3);
		expect(least("from the dose")).toBeCloseTo(2 * 0.9 - 0.01, 3);
		expect(least("from what is left")).toBeCloseTo(2 - 0.01 / 0.9, 3);
	});

	test("without a blank nothing is taken off, by any rule", () => {
		for (const losses of ["from the dose", "the blank is the dose"] as const)
			expect(share(read([tenthLeft], { losses }))).toBeCloseTo(0.9, 4);
	});
});

describe("displacement", () => {
	const liquid = (when: string, options: TrialOptions = {}): number =>
		residues(
			read(
				[charRow("a", { "char in when made up": when, "char mass (g)": 3 })],
				options,
			),
		)[0].account.liquid.in("mL");

	test("3 g of char take 1.5 mL of 100 unless told otherwise, 0 or 2.4 where told", () => {
		expect(liquid("yes")).toBeCloseTo(98.5, 12);
		expect(liquid("yes", { displacement: 0 })).toBe(100);
		expect(liquid("yes", { displacement: 0.8 })).toBeCloseTo(97.6, 12);
	});

	test("a filtrate that was made up is 100 mL, whatever is decided: the sheet says so", () => {
		expect(liquid("no", { displacement: 0.8 })).toBe(100);
	});
});

describe("the error of the end point", () => {
	const variance = (options: TrialOptions): number => {
		const [found] = residues(read([tenthLeft], options));
		return found.is === "titrated" ? found.titre.standardUncertainty ** 2 : -1;
	};

	test("is in every titre once: half a drop unless told otherwise", () => {
		const without = variance({ endPoint: 0 });
		expect(variance({}) - without).toBeCloseTo(0.025 ** 2, 12);
		expect(variance({ endPoint: 0.05 }) - without).toBeCloseTo(0.05 ** 2, 12);
		expect(without).toBeGreaterThan(0);
	});

	test("in reagent blanks, iodine blanks and standardisations too", () => {
		const reagent = charRow("r", {
			contents: "reagent blank",
			treatment: "",
			"char mass (g)": "",
			"dose (mL)": "",
			"made up to (mL)": "",
			"char in when made up": "",
			"aliquot (mL)": "",
			"titre (mL)": 0.1,
		});
		const solutions: Row[] = [
			plainSolutions[0],
			{
				solution: "thiosulfate",
				substance: "sodium thiosulfate",
				"standardised against": "iodine",
				"aliquot (mL)": 25,
				"titre 1 (mL)": 25,
				"blank titre (mL)": 0.1,
			},
		];
		const endPoints = (endPoint: number): number => {
			const trial = trialFromRows(
				{ flasks: [tenthLeft, blank, reagent], solutions },
				{ endPoint },
			);
			return budget(uptakes(trial)[0].computedUptake).rows.filter((row) =>
				row.meaning.includes("end point"),
			).length;
		};
		// flask, iodine blank, reagent blank, standardisation and its blank
		expect(endPoints(0.025)).toBe(5);
		expect(endPoints(0)).toBe(0);
	});
});

describe("the same trial with a setting otherwise", () => {
	const options: TrialOptions = {
		losses: "from what is left",
		displacement: 0,
		endPoint: 0.05,
	};

	test("is what the sheet gives when it is read so, and the trial stays as it was", () => {
		const trial = read([tenthLeft, blank]);
		const before = uptakes(trial)[0].computedUptake;
		const changed = uptakes(withSettings(trial, options))[0].computedUptake;
		const readSo = uptakes(read([tenthLeft, blank], options))[0].computedUptake;
		expect(changed.value).toBe(readSo.value);
		expect(changed.standardUncertainty).toBe(readSo.standardUncertainty);
		expect(changed.value).not.toBe(before.value);
		expect(uptakes(trial)[0].computedUptake).toBe(before);
		expect(recoveries(trial)).not.toBe(recoveries(withSettings(trial, {})));
	});

	test("what was decided otherwise is told where the sheet is looked at", () => {
		const told = (t: Trial): string => tableText(t.table);
		expect(told(read([tenthLeft]))).not.toContain("otherwise than usual");
		const text = told(read([tenthLeft], options));
		expect(text).toContain(
			"losses from what is left only (usually from the dose and",
		);
		expect(text).toContain("displaced by char none (usually 0.5 mL/g)");
		expect(text).toContain("0.05 mL (usually 0.025 mL (half a drop))");
	});
});

test.each([
	[{ losses: "dose" }],
	[{ displacement: -0.1 }],
	[{ displacement: 2.1 }],
	[{ endPoint: "half a drop" }],
	[{ endPoint: 1.1 }],
])("%o is refused", (wrong) => {
	const checked = checkRows(
		{ flasks: [tenthLeft], solutions: plainSolutions },
		wrong as unknown as TrialOptions,
	);
	expect(checked.ok ? [] : checked.problems.map((p) => p.code)).toEqual([
		"option-wrong",
	]);
});
