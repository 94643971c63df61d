import { describe, expect, test } from "vitest";
import { type TypedRow, trialFromRows } from "../../kernel-lib/bench/index";
import {
	massConcentrations,
	molarMassOf,
} from "../../kernel-lib/solutions/index";

function strength(solution: TypedRow): number {
	const trial = trialFromRows({
		flasks: [
			{
				flask: "1",
				treatment: "control",
				"char mass (g)": 0.1,
				"dose (mL)": 10,
				"absorbance 1": 0.5,
			},
		],
		solutions: [{ solution: "probe", ...solution }],
	});
	return massConcentrations(trial).of("probe").in("mg/L");
}

describe("grams per litre of what was dosed", () => {
	test("as stated, in any unit of mass", () => {
		expect(
			strength({ substance: "methylene blue", "concentration (g/L)": 0.4 }),
		).toBeCloseTo(400, 9);
	});

	test("weighed: mass times purity over volume; the powder is not all dye", () => {
		expect(
			strength({
				substance: "methylene blue",
				"weighed (g)": 0.5,
				"purity (%)": 85,
				"made up to (mL)": 1000,
			}),
		).toBeCloseTo(425, 9);
	});

	test("moles of a dye on record, of a formula, and of iodine in normality", () => {
		// 16 C 192.176, 18 H 18.144, Cl 35.45, 3 N 42.021, S 32.06
		expect(
			strength({ substance: "methylene blue", "concentration (mmol/L)": 1 }),
		).toBeCloseTo(319.851, 2);
		expect(
			strength({ substance: "CuSO4·5H2O", "concentration (mmol/L)": 2 }),
		).toBeCloseTo(2 * 249.68, 1);
		// 0.05 mol/L of I2 at 2 x 126.90 (abridged atomic weight)
		expect(
			strength({ substance: "iodine", "concentration (N)": 0.1 }),
		).toBeCloseTo(12_690, 6);
	});

	test("by weight percent and density", () => {
		expect(
			strength({
				substance: "phenol",
				"concentration (% w/w)": 2,
				"density (g/mL)": 1.01,
			}),
		).toBeCloseTo(20_200, 6);
	});

	test("moles of a name that is neither on record nor a formula are asked about, and a normality of a dye", () => {
		expect(() =>
			strength({ substance: "beetroot red", "concentration (mmol/L)": 1 }),
		).toThrow(/Write its formula/);
		expect(() =>
			strength({ substance: "methylene blue", "concentration (N)": 1 }),
		).toThrow(/needs a reaction/);
		expect(() => molarMassOf("")).toThrow();
	});

	test("a dye is known by its other names", () => {
		expect(
			strength({
				substance: " Methylene  Blue trihydrate ",
				"concentration (mmol/L)": 1,
			}),
		).toBeCloseTo(319.851, 2);
	});
});
