/** What a comparison decides by numbers of ours, just below and just above each. */
import { describe, expect, test } from "vitest";
import { marginOf } from "../../kernel-lib/compare";
import { withOtherIsotherms } from "../../kernel-lib/compare/isotherm-choice";
import { adjustedPs, jointOf } from "../../kernel-lib/compare/joint";
import { observationsOf } from "../../kernel-lib/compare/observations";
import { contradictionObstacle } from "../../kernel-lib/compare/obstacles";
import {
	mostUnits,
	spreadToReckonWith,
	unitsThatDecide,
} from "../../kernel-lib/compare/planning";
import { tooFewObstacle } from "../../kernel-lib/compare/residue-obstacles";
import { settingsOf } from "../../kernel-lib/compare/settings";
import { dosesOfCurve } from "../../kernel-lib/compare/several-doses";
import { significanceLevel } from "../../kernel-lib/compare/significance";
import {
	obstacleDose,
	obstacleHeadline,
	obstacleReason,
} from "../../kernel-lib/words/obstacle-words";
import { compareTreatments, flasks, group } from "../compare/fixtures";

describe("doses enough for an isotherm", () => {
	const doses = (residues: readonly number[], residueReading = 0) =>
		dosesOfCurve(
			"steam",
			flasks(
				residues.map((residue, i) => ({
					flask: `s${i}`,
					treatment: "steam",
					uptake: 100,
					residue,
					...(residueReading > 0 && { residueReading }),
				})),
			),
		);

	test("four clearly different residues, three are too few", () => {
		expect(doses([100, 200, 400])).toMatchObject({ levels: 3, enough: false });
		expect(doses([100, 200, 400, 800])).toMatchObject({
			levels: 4,
			enough: true,
		});
	});

	test("clearly different from a ratio of 1.25 on", () => {
		expect(doses([100, 125]).levels).toBe(2);
		expect(doses([100, 124.9]).levels).toBe(1);
	});

	test("and by more than twice the standard uncertainty of their difference", () => {
		// Each known to u: the difference to 1.414 u, k = 2.
		const u = 100 / (2 * Math.SQRT2);
		expect(doses([100, 200], 0.999 * u).levels).toBe(2);
		expect(doses([100, 200], 1.001 * u).levels).toBe(1);
	});

	test("over a factor of three", () => {
		const four = [100, 130, 170, 220];
		expect(doses([...four, 299])).toMatchObject({ levels: 5, enough: false });
		expect(doses([...four, 300])).toMatchObject({ levels: 5, enough: true });
	});
});

test("a contradiction of several flasks is told once; three flasks are named, more are counted", () => {
	const obstacle = (n: number) => {
		const uptakes = flasks([
			...group("water", "", [100, 100]),
			...group("T", "water", Array(n).fill(100), {
				contradiction: "Its numbers cannot be right.",
			}),
		]);
		return contradictionObstacle(observationsOf(uptakes).list, {
			treatment: "T",
			control: "water",
		})[0];
	};
	const once = "Its numbers cannot be right.";
	expect(obstacleReason(obstacle(1))).toBe(`Flask T1: ${once}`);
	expect(obstacleReason(obstacle(3))).toBe(
		`Flasks T1, T2, T3; of flask T1: ${once}`,
	);
	expect(obstacleReason(obstacle(4))).toBe(
		`Flasks T1, T2, T3 and 1 more; of flask T1: ${once}`,
	);
	expect(obstacleHeadline(obstacle(3))).toBe(
		"the numbers of flasks T1, T2 and T3 cannot all be right",
	);
	expect(obstacleHeadline(obstacle(4))).toBe(
		"the numbers of 4 flasks cannot all be right",
	);
});

describe("plans", () => {
	test("reckon with the upper 80 % limit of the spread: chi-square of 0.2 with 4 degrees of freedom is 1.6488 (tables)", () => {
		expect(spreadToReckonWith(10, 4)).toBeCloseTo(
			10 * Math.sqrt(4 / 1.648777),
			5,
		);
	});

	test("give up beyond a thousand units a treatment", () => {
		const units = (margin: number): number =>
			unitsThatDecide({
				pairs: [{ treatment: "T", control: "water" }],
				days: 1,
				deviation: 10,
				sharedVariances: [0],
				confidence: 0.95,
				spread: "moderated",
			})(0, margin);
		// With n units a treatment the full width is 2 × 1.9612 × 10 × sqrt(2/n) at n = 1000 (Student t of 0.975 with 1998 degrees of freedom).
		const width = 2 * 1.96115 * 10 * Math.sqrt(2 / 1000);
		expect(mostUnits).toBe(1000);
		expect(units(1.01 * width)).toBeLessThanOrEqual(1000);
		expect(units(1.01 * width)).toBeGreaterThan(950);
		expect(units(0.99 * width)).toBe(Number.POSITIVE_INFINITY);
	});
});

describe("confidence", () => {
	test("0.95 unless told otherwise, in binary digits that say 5 %", () => {
		expect(settingsOf({ margin: marginOf(25) })).toEqual({
			margin: { is: "uptake", uptake: expect.anything() },
			claim: "difference",
			confidence: 0.95,
			spread: "moderated",
			sameness: "one-sided tests",
			slopes: "of the probe",
		});
		expect(significanceLevel(0.95)).toBe(0.05);
		expect(significanceLevel(0.9)).toBe(0.1);
	});

	const verdict = (confidence: number) =>
		compareTreatments(
			flasks([
				...group("water", "", [100, 101, 99]),
				...group("T", "water", [110, 111, 109]),
			]),
			{ margin: marginOf(5), confidence },
		).verdicts[0].difference;

	test("a smaller one gives a narrower interval about the same estimate", () => {
		const [wide, narrow] = [verdict(0.95), verdict(0.9)];
		if (wide.is !== "estimate" || narrow.is !== "estimate")
			throw new Error("no interval");
		// Student t with 4 degrees of freedom: 2.7764 and 2.1318 (tables); both spreads are 1 mg/g.
		expect(wide.high - wide.low).toBeCloseTo(
			2 * 2.776445 * Math.sqrt(2 / 3),
			4,
		);
		expect(narrow.high - narrow.low).toBeCloseTo(
			2 * 2.131847 * Math.sqrt(2 / 3),
			4,
		);
	});
});

test("a difference far beyond anything has a p of next to nothing, and is not computed for ever", () => {
	const joint = jointOf([[1]], [2], 0.95);
	const [at, beyond] = [adjustedPs(joint, [1e4]), adjustedPs(joint, [1e9])];
	expect(beyond).toEqual(at);
	expect(at[0]).toBeLessThan(1e-4);
	expect(adjustedPs(joint, [9e3])[0]).toBeGreaterThan(at[0]);
});

describe("isotherms with less than a hundredth of the weight are not carried on", () => {
	const none = { name: "other" };
	const chosen = { name: "chosen" };
	const carried = (weight: number): boolean => {
		try {
			withOtherIsotherms(
				{ uptake: 100, shared: new Map() } as never,
				{
					isotherm: chosen,
					tried: [
						{ isotherm: chosen, weight: 1 - weight },
						{ isotherm: none, weight },
					],
					how: "by AICc",
				} as never,
				{} as never,
				300,
				() => {
					throw new Error("fitted");
				},
			);
			return false;
		} catch {
			return true;
		}
	};

	test.each([
		[0.0099, false],
		[0.01, true],
	])("weight %s: %s", (weight, is) => {
		expect(carried(weight)).toBe(is);
	});
});

test("too few doses: the advice reaches from a third to twice the stated residue", () => {
	// A flask of 1 g in 100 mL that takes up 50 mg/g: 100 and 600 mg/L leave 10 and 60 mg in solution.
	const few = flasks(group("steam", "water", [50, 50], { residue: 300 }));
	const obstacle = tooFewObstacle(dosesOfCurve("steam", few), few, 300);
	expect(obstacleDose(obstacle)).toContain("about 60 to 110 mg of iodine (I2)");
});
