/** What is decided between a residue and an uptake, just below and just above each limit. */
import { describe, expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench";
import {
	exact,
	input,
	normal,
	type Quantity,
	tableText,
} from "../../kernel-lib/quantity";
import type { TitratedResidue } from "../../kernel-lib/residue";
import {
	methyleneBlueNumbers,
	methyleneBlueTitrations,
	uptakesByFiring,
} from "../../kernel-lib/uptake";
import {
	boundNearZero,
	isAboveZero,
	isBelowZero,
} from "../../kernel-lib/uptake/distinguishable-from-zero";
import type { ProbeBalance } from "../../kernel-lib/uptake/flask-uptake";
import { standardVolumes } from "../../kernel-lib/uptake/iodine-number/conditions";
import { dosageFor } from "../../kernel-lib/uptake/iodine-number/dosage";
import { singleDoses } from "../../kernel-lib/uptake/iodine-number/single-dose";
import { d4607 } from "../../kernel-lib/uptake/iodine-number/standard";
import { lossOf } from "../../kernel-lib/uptake/losses";
import { nextDoseAfterNone } from "../../kernel-lib/uptake/next-dose";
import { brokenLaw } from "../../kernel-lib/uptake/physical-law";
import { firingWords } from "../../kernel-lib/words";
import { charRow, type Row, steps } from "../uptake/sheets";

const mass = (mg: number, u = 0): Quantity<"mass"> =>
	input("mass", mg, "mg", u === 0 ? exact : normal(u), {});

/** mg; left and taken up make up what was added. */
function balance(takenUp: Quantity<"mass">, added = 100): ProbeBalance {
	return {
		added: mass(added),
		takenUp,
		left: mass(added - takenUp.in("mg")),
		withdrawn: mass(0),
		lost: mass(0),
	};
}

describe("an uptake is distinguished from zero from 1.645 standard uncertainties on", () => {
	test.each([
		[1.64, false],
		[1.65, true],
	])("%s of them: %s", (value, told) => {
		expect(isAboveZero(mass(value, 1))).toBe(told);
	});

	test("exactly at the limit it is", () => {
		expect(isAboveZero(mass(1.645, 1))).toBe(true);
	});

	test("else the bound is what error could hide above the value, never below what it could hide above none", () => {
		const bound = (q: number): number =>
			boundNearZero(
				input("uptake", q, "mg/g", normal(2), {}),
				"most",
			).quantity.in("mg/g");
		expect(bound(1)).toBeCloseTo(1 + 1.645 * 2, 12);
		expect(bound(0)).toBeCloseTo(1.645 * 2, 12);
		expect(bound(-1)).toBeCloseTo(1.645 * 2, 12);
	});
});

describe("less than nothing: from 3 standard uncertainties below on error does not explain it", () => {
	test.each([
		[-2.99, false],
		[-3.01, true],
		[3.01, false],
	])("%s of them: %s", (value, clearly) => {
		expect(isBelowZero(mass(value, 1), mass(100))).toBe(clearly);
	});

	test.each([
		[-0.9e-9, false],
		[-1.1e-9, true],
	])(
		"without any error rounding is allowed for: %s of the dose: %s",
		(share, clearly) => {
			expect(isBelowZero(mass(100 * share), mass(100))).toBe(clearly);
		},
	);
});

describe("physical law", () => {
	const { trial } = steps([charRow("a")]);
	const [flask] = trial.flasks;
	const said = (
		of: ProbeBalance,
		char: Quantity<"mass"> = mass(1000),
		millilitres = 100,
	): string =>
		brokenLaw({
			trial,
			flask,
			probe: "iodine",
			balance: of,
			liquid: input("volume", millilitres, "mL", exact, {}),
			char,
		}).found;

	test.each([
		[299, ""],
		[300, ""],
		[301, "301 mg of iodine on 100 mg of char would be 3 times"],
	])("%s mg on 100 mg of char", (takenUp, words) => {
		const text = said(balance(mass(takenUp), 400), mass(100));
		expect(text === "").toBe(words === "");
		expect(text).toContain(words);
	});

	test("more found than dosed tells the parts that there are, with the dose", () => {
		const text = said({
			added: mass(100),
			takenUp: mass(-20),
			left: mass(110),
			withdrawn: mass(0),
			lost: mass(10),
		});
		expect(text).toContain("110 mg left, 10 mg lost, 100 mg dosed");
		expect(text).not.toContain("withdrawn");
	});

	test.each([
		[49_999, ""],
		[50_000, ""],
		[50_001, "50 g of char would hold all of the 100 mL of liquid"],
	])("%s mg of char in 100 mL", (char, words) => {
		const text = said(balance(mass(50)), mass(char));
		expect(text === "").toBe(words === "");
		expect(text).toContain(words);
	});

	test.each([
		[0.01, "would hold all"],
		[0, "would displace more than all of the liquid"],
		[-1, "and leave −1 mL of it"],
	])("%s mL of liquid", (millilitres, words) => {
		expect(said(balance(mass(50)), mass(1000), millilitres)).toContain(words);
	});

	test.each([
		[-2.99, ""],
		[-3.01, "Less than no iodine was left: −3.01 mg"],
	])("%s standard uncertainties left", (left, words) => {
		const text = said({
			added: mass(100),
			takenUp: mass(100),
			left: mass(left, 1),
			withdrawn: mass(0),
			lost: mass(0),
		});
		expect(text === "").toBe(words === "");
		expect(text).toContain(words);
	});

	test.each([
		[102.99, ""],
		[103.01, "More iodine would be taken up (103 mg) than was dosed (100 mg)"],
	])("%s of 100 mg dosed taken up, with an error of 1 mg", (taken, words) => {
		const text = said({
			added: mass(100),
			takenUp: mass(taken, 1),
			left: mass(1),
			withdrawn: mass(0),
			lost: mass(-4),
		});
		expect(text === "").toBe(words === "");
		expect(text).toContain(words);
	});
});

describe("alkaline is a final pH above 7.5", () => {
	const cautions = (pH: number, acidified: string): readonly string[] =>
		steps([charRow("a", { "final pH": pH, acidified })]).uptakes[0].cautions;

	test.each([
		[7.5, 0],
		[7.6, 1],
	])("pH %s, not acidified: %s caution", (pH, count) => {
		expect(cautions(pH, "no")).toHaveLength(count);
	});

	test("acidified, it does not matter", () => {
		expect(cautions(9, "yes")).toEqual([]);
	});

	test("not recorded is not acidified", () => {
		expect(cautions(9, "not recorded")[0]).toContain(
			"not recorded as acidified",
		);
	});
});

describe("the loss of a flask whose blank kept nine tenths, with a tenth of the dose left", () => {
	const one = input("amount", 1, "mmol", exact, {});
	const tenth = input("amount", 0.1, "mmol", exact, {});
	const loss = lossOf(one, tenth, input("ratio", 0.9, "1", exact, {}));

	test("goes with the mean of what was in solution: (1 - R)/(1 + R) (A + L)", () => {
		expect(loss.in("mmol")).toBeCloseTo((0.1 / 1.9) * 1.1, 12);
	});

	test("is spread, all positions alike, over the extremes (1 - R) A and L (1/R - 1)", () => {
		const half = (0.1 - 0.1 * (1 / 0.9 - 1)) / 2;
		expect(loss.to("mmol").standardUncertainty).toBeCloseTo(
			half / Math.sqrt(3),
			12,
		);
	});

	test("gives the blank itself what it lost", () => {
		const left = input("amount", 0.9, "mmol", exact, {});
		expect(
			lossOf(one, left, input("ratio", 0.9, "1", exact, {})).in("mmol"),
		).toBeCloseTo(0.1, 12);
	});
});

describe("what to dose next", () => {
	test("after running dry: what would titrate at 10 mL, 2 mmol here, 40 mL of 0.05 mol/L", () => {
		// 10 mL of 0.1 mol/L thiosulfate are 0.5 mmol I2 in 25 of 100 mL
		const { uptakes } = steps([charRow("a", { "titre (mL)": 0 })]);
		expect(uptakes[0].nextDose).toContain(
			'Add at least 40 mL more of "iodine" (508 mg iodine)',
		);
	});

	const afterNone = (takenUp: number, u = 1): string => {
		const { found } = steps([charRow("a", { "titre (mL)": 10 })]);
		return nextDoseAfterNone(
			mass(takenUp, u),
			found[0] as unknown as TitratedResidue,
		);
	};

	// The factor brings the error to a fifth of the most that could have been taken up.
	test.each([
		[0, 5],
		[1, 5],
		[1.3, 4],
		[1.6, 4],
		[1.7, 3],
		[2.4, 3],
		[2.6, 2],
		[9, 2],
	])(
		"after %s standard uncertainties of uptake: %s times the char",
		(takenUp, factor) => {
			const said = afterNone(takenUp);
			expect(said).toContain(`about ${factor} times as much char`);
			// 40 mL of 0.05 mol/L are 2 mmol, 507.6 mg
			expect(said).toContain(
				`${Number((507.6 / factor).toPrecision(2))} mg iodine instead of 508 mg`,
			);
		},
	);

	test("the size of the error itself does not matter", () => {
		expect(afterNone(2.6, 2)).toContain("about 4 times as much char");
	});

	test("where something was read nothing is advised", () => {
		expect(steps([charRow("a")]).uptakes[0].nextDose).toBe("");
	});
});

describe("the iodine number's standard", () => {
	test("100 mL of 0.1 N on 10 mL, 0.02 N left, 1000 mg/g: (1269.3 - 279.246)/1000 g", () => {
		expect(dosageFor(1000, 0.02)).toBeCloseTo(0.990054, 9);
	});

	test.each([
		[0.0909, true],
		[0.091, false],
	])("a residue of %s N of 0.1 x 100/110 can be reached: %s", (c, reached) => {
		const mass = (): number => dosageFor(1000, c);
		if (reached) expect(mass()).toBeGreaterThan(0);
		else expect(mass).toThrow(/more iodine than is dosed/);
	});

	test("an expected uptake of nothing is refused", () => {
		expect(() => dosageFor(0, 0.02)).toThrow(/above 0/);
	});

	test("its figures are those of the standard, from memory", () => {
		expect(d4607).toEqual({
			milligramsPerMilliequivalent: 126.93,
			iodineVolume_mL: 100,
			acidVolume_mL: 10,
			aliquot_mL: 50,
			iodineNormality: 0.1,
			iodineNormalityTolerance: 0.001,
			windowLow_N: 0.008,
			windowHigh_N: 0.04,
			reportedAt_N: 0.02,
			leastCorrelation: 0.995,
			leastDosages: 3,
			repeatability_percent: 5.6,
			reproducibility_percent: 10.2,
		});
	});
});

describe("the sheet's own word on a soak, and its leachates", () => {
	const demand = (change: Row) =>
		steps([
			charRow("c"),
			charRow("w", {
				treatment: "wood vinegar",
				control: "control",
				...change,
			}),
		]).uptakes[1].demand;

	test.each([
		["yes", "suspected"],
		["no", "none expected"],
	])("%s: %s", (word, is) => {
		expect(demand({ "soak consumes iodine": word }).is).toBe(is);
	});
});

describe("flasks of a firing are averaged up to residues 1.2 times apart", () => {
	const activation = [
		{
			firing: "kiln 3",
			precursor: "hazelnut shell",
			"precursor mass (g)": 500,
			"fired mass (g)": 138,
		},
	];
	// The residue goes with the titre.
	test.each([
		[5.99, true],
		[6.01, false],
	])("titres of 5 and %s mL: %s", (titre, averaged) => {
		const { trial } = steps(
			[
				charRow("1", { "char batch": "kiln 3" }),
				charRow("2", { "char batch": "kiln 3", "titre (mL)": titre }),
			],
			undefined,
			{ activation },
		);
		const [said] = firingWords(uptakesByFiring(trial));
		expect(said.includes("not averaged at residues so unlike")).toBe(!averaged);
	});
});

describe("a methylene-blue titration is told to be done otherwise from 5 % off on", () => {
	const definition = methyleneBlueTitrations["GB/T 12496.10"];
	const otherwise = (strength: number, char: number): string =>
		tableText(
			methyleneBlueNumbers([
				{
					definition,
					sample: "char 1",
					volume: input("volume", 11.5, "mL", exact, {}),
					strength: input("massConcentration", strength, "g/L", exact, {}),
					char: input("mass", char, "g", exact, {}),
				},
			]).table,
		);

	test.each([
		[0.951, 1, false],
		[0.949, 1, true],
		[1.049, 1, false],
		[1.051, 1, true],
		[1, 0.951, false],
		[1, 0.949, true],
		[1, 1.049, false],
		[1, 1.051, true],
	])("%s times the strength, %s times the char: %s", (strength, char, told) => {
		expect(
			otherwise(
				strength * definition.strength,
				char * definition.char,
			).includes("instead of"),
		).toBe(told);
	});
});

describe("the standard's volumes are met within 1 %", () => {
	const met = (iodine: number, acid: number, aliquot: number): boolean => {
		const mL = (v: number) => input("volume", v, "mL", exact, {});
		return standardVolumes([
			{
				flask: {
					events: [
						{ is: "liquid added", volume: mL(acid) },
						{ is: "dose", volume: mL(iodine) },
					],
					aliquot: mL(aliquot),
				},
			} as unknown as TitratedResidue,
		]);
	};

	test.each([
		[100, 10, 50, true],
		[99, 10, 50, true],
		[101, 10, 50, true],
		[99.1, 10, 50, true],
		[98.9, 10, 50, false],
		[101.1, 10, 50, false],
		[100, 9.91, 50, true],
		[100, 9.89, 50, false],
		[100, 10.11, 50, false],
		[100, 10, 49.6, true],
		[100, 10, 49.4, false],
		[100, 10, 50.6, false],
	])("%s, %s, %s mL: %s", (iodine, acid, aliquot, is) => {
		expect(met(iodine, acid, aliquot)).toBe(is);
	});
});

test("a single dosage is carried along slopes of 0.1 to 0.3 unless told otherwise", () => {
	const trial = readTrial("data/demo-isotherm/iodine-number.csv");
	expect(singleDoses(trial)[0].slope).toEqual({ low: 0.1, high: 0.3 });
});
