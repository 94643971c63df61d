/** What the reader of a bench sheet decides by numbers of ours, just below and just above each. */
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { decimalMark } from "../../kernel-lib/bench/numbers";
import {
	brief,
	changed,
	char,
	problemsOf,
	soundSolutions,
} from "../bench-sheet/rows";
import { charRow, plainSolutions } from "../uptake/sheets";

describe("which mark stands before the decimals", () => {
	test.each([
		[0, 0, "not told"],
		[0, 1, "point"],
		[1, 0, "comma"],
		[1, 5, "mostly point"],
		[1, 4, "both"],
		[5, 1, "mostly comma"],
		[4, 1, "both"],
		[2, 10, "mostly point"],
		[2, 9, "both"],
	])("%s commas, %s points: %s", (commas, points, mark) => {
		expect(decimalMark(commas, points)).toBe(mark);
	});
});

describe("what a cell may hold", () => {
	const told = (flask: string, cells: Record<string, string | number>) =>
		problemsOf(changed(flask, cells)).map(brief);

	test.each([
		["final pH", -1, 15, -1.1, 15.1],
		["moisture, wet basis (%)", 0, 99, -0.1, 99.1],
		["moisture, dry basis (%)", 0, 500, -0.1, 500.1],
	])("%s: %s to %s", (column, least, most, below, above) => {
		expect(told("c1", { [column]: least })).toEqual([]);
		expect(told("c1", { [column]: most })).toEqual([]);
		expect(told("c1", { [column]: below })).toHaveLength(1);
		expect(told("c1", { [column]: above })).toHaveLength(1);
	});
});

describe("a firing without uncertainties of its own", () => {
	const firing = (cells: Record<string, string | number>) =>
		trialFromRows({
			activation: [
				{
					firing: "K1",
					precursor: "hazelnut shell",
					"precursor mass (g)": 50,
					"fired mass (g)": 15,
					...cells,
				},
			],
		}).firings[0];

	test("moisture is known to 0.2 % of the mass, an ash to 1 % of itself", () => {
		const k1 = firing({
			"precursor moisture, wet basis (%)": 8,
			"precursor ash (%)": 2,
		});
		const { precursorMoisture: moisture, precursorAsh: ash } = k1;
		if (!moisture.recorded || !ash.recorded) throw new Error("not recorded");
		expect(moisture.value.fraction.to("1").standardUncertainty).toBeCloseTo(
			0.002,
			12,
		);
		expect(ash.value.to("1").standardUncertainty).toBeCloseTo(0.01 * 0.02, 12);
	});

	test("a conductivity is read to 2 %, a pH to 0.05", () => {
		const k1 = firing({
			agent: "K2CO3",
			"agent mass (g)": 10,
			"rinse 1 (mL)": 200,
			"rinse 1 conductivity (mS/cm)": 2,
			"rinse 1 pH": 10,
		});
		const [rinse] = k1.rinses;
		if (!rinse.conductivity.recorded || !rinse.pH.recorded)
			throw new Error("not recorded");
		expect(
			rinse.conductivity.value.to("mS/cm").standardUncertainty,
		).toBeCloseTo(0.04, 12);
		expect(rinse.pH.value.standardUncertainty).toBeCloseTo(0.05, 12);
	});

	test("the page says with which spreads", () => {
		const { assumptions } = trialFromRows({
			activation: [
				{
					firing: "K1",
					precursor: "hazelnut shell",
					"precursor mass (g)": 50,
					"precursor moisture, wet basis (%)": 8,
					"fired mass (g)": 15,
				},
			],
		});
		expect(assumptions.join(" ")).toContain(
			"conductivities are taken as read to 2 %, pH to 0.05, strengths, contents and energy as known to 1 % of their value, moistures to 0.2 % of the mass",
		);
	});
});

describe("which pipette a volume was taken with", () => {
	const assumed = (dose: number): string =>
		trialFromRows({
			flasks: [
				char("1", "control", 5, {
					"dose 1 (mL)": dose,
					"made up to (mL)": "",
				}),
			],
			solutions: soundSolutions,
		}).assumptions.join(" ");

	// Single-mark pipettes hold 0.5 to 100 mL; five portions of the largest are counted, more are not.
	test.each([
		[500, true],
		[600, false],
	])("%s mL by whole portions of a pipette: %s", (volume, portions) => {
		expect(/volumetric pipette 100 mL for dose/.test(assumed(volume))).toBe(
			portions,
		);
	});
});

describe("a picture's channel", () => {
	const saturated = (intensity: number): boolean =>
		problemsOf({
			flasks: [
				{
					flask: "1",
					treatment: "control",
					"char mass (g)": 0.2,
					"dose (mL)": 50,
					"made up to (mL)": 100,
					"intensity 1": intensity,
					"white intensity": 240,
				},
			],
			solutions: [
				{
					solution: "blue",
					substance: "methylene blue",
					"concentration (mg/L)": 200,
				},
			],
			calibration: [0, 1, 2, 4].map((c, i) => ({
				standard: `E${i}`,
				"concentration (mg/L)": c,
				"intensity 1": 230 - 20 * c,
				"white intensity": 240,
			})),
		}).some((p) => p.code === "saturated");

	test.each([
		[254, false],
		[255, true],
	])("%s of 255 is at its end: %s", (intensity, at) => {
		expect(saturated(intensity)).toBe(at);
	});
});

describe("a portion of char that cannot be what it says", () => {
	const told = (cells: Record<string, string | number | null>) =>
		problemsOf(changed("c1", cells)).map((p) => p.code);

	test.each([
		[50, []],
		[50.1, ["char-mass-in-milligrams"]],
		[1020, ["char-mass-in-milligrams"]],
	])("%s g in 100 mL", (grams, codes) => {
		expect(told({ "char mass (g)": grams })).toEqual(codes);
	});

	test("a whole column is told once, with the first row and the count", () => {
		const heavy = (flask: string) => ({
			...char(flask, "control", 5.2),
			"char mass (g)": 1020,
		});
		const problems = problemsOf({
			flasks: [heavy("c1"), heavy("c2"), heavy("c3")],
			solutions: soundSolutions,
		});
		expect(problems).toHaveLength(1);
		expect(problems[0].found).toMatch(/1020 g of char .* 2 more rows/);
	});

	test.each([
		[5, []],
		[4.9, ["char-mass-in-grams"]],
		[1.02, ["char-mass-in-grams"]],
		[1020, []],
	])("%s under a head in mg", (milligrams, codes) => {
		const inMilligrams = (flask: string, mass: number) => {
			const { "char mass (g)": _, ...row } = char(flask, "control", 5.2);
			return { ...row, "char mass (mg)": mass };
		};
		const rows = {
			flasks: [inMilligrams("c1", milligrams), inMilligrams("c2", 1000)],
			solutions: soundSolutions,
		};
		expect(problemsOf(rows).map((p) => p.code)).toEqual(codes);
	});
});

describe("what nobody states the error of", () => {
	const solution = (change: Record<string, string | number>) => {
		const trial = trialFromRows({
			flasks: [charRow("a")],
			solutions: [
				...plainSolutions,
				{
					solution: "iodate",
					substance: "potassium iodate",
					"weighed (g)": 3.567,
					"made up to (mL)": 1000,
					...change,
				},
			],
		});
		const { basis } = trial.solutions[2];
		if (basis.is !== "weighed") throw new Error(basis.is);
		return { trial, purity: basis.purity };
	};

	test("a purity, stated or not, is good to half a point either way, all alike", () => {
		expect(solution({}).purity.in("%")).toBe(100);
		// half-width 0.5 points, rectangular: 0.5/sqrt(3)
		expect(solution({}).purity.to("%").standardUncertainty).toBeCloseTo(
			0.288675,
			5,
		);
		expect(
			solution({ "purity (%)": 99 }).purity.to("%").standardUncertainty,
		).toBeCloseTo(0.288675, 5);
		expect(
			solution({ "purity (fraction)": 0.99 }).purity.to("%")
				.standardUncertainty,
		).toBeCloseTo(0.288675, 5);
	});

	test("a purity that was assumed is told, one that was stated is not", () => {
		const told = (change: Record<string, string | number>) =>
			solution(change).trial.assumptions.join(" ");
		expect(told({})).toContain(
			'Purity of "iodate" not recorded: 100 % assumed, give or take 0.5 points.',
		);
		expect(told({ "purity (%)": 99 })).not.toContain('Purity of "iodate"');
	});

	test("liquor retained is good to a tenth of its value", () => {
		const trial = trialFromRows({
			flasks: [charRow("a", { "liquor retained (mL)": 2.5 })],
			solutions: plainSolutions,
		});
		const [{ liquorRetained }] = trial.flasks;
		if (!liquorRetained.recorded) throw new Error("not recorded");
		expect(liquorRetained.value.to("mL").standardUncertainty).toBeCloseTo(
			0.25,
			12,
		);
		expect(trial.assumptions.join(" ")).toContain(
			"Liquor retained is taken as good to 10 % of its value.",
		);
	});
});
