import { describe, expect, test } from "vitest";
import {
	langmuir,
	plainPoints,
	repeatTrial,
	type StraightLine,
	straightLineForms,
} from "../../../kernel-lib/isotherms/index";
import { plateauOfLine } from "../../../kernel-lib/isotherms/straight-lines/plateau";
import { tableText } from "../../../kernel-lib/quantity/index";
import { goodLines, pointsOn } from "../plain-lines";

const points = pointsOn(langmuir, [350, 0.01], goodLines);

/** A line through (0, 1), (1, 3) and (2, 4): slope 3/2, intercept 7/6, sum of squared residuals 1/6, so s = 0.40825; sum of squares across 2. */
const lineOf = (name: string, theta: number): StraightLine => {
	const form = straightLineForms.find((f) => f.name === name);
	if (form === undefined) throw new Error(name);
	return {
		form,
		theta: Float64Array.of(theta, 1),
		intercept: 7 / 6,
		slope: 1.5,
		across: Float64Array.of(0, 1, 2),
		up: Float64Array.of(1, 3, 4),
		leftOut: [],
		makesSense: true,
	};
};
/** Student's t of one degree of freedom at 0.975, as tables print it. */
const t = 12.7062;

describe("the textbook interval of a plateau", () => {
	test.each([
		// slope 1.5 with error 0.40825/sqrt(2): of 1/slope that over slope squared
		["C/q against C", 2 / 3, (t * 0.28868) / 2.25],
		// intercept 7/6 with error 0.40825 sqrt(1/3 + 1/2)
		["1/q against 1/C", 6 / 7, (t * 0.37268 * 36) / 49],
		["q against q/C", 7 / 6, t * 0.37268],
	])("%s, hand-worked", (name, value, half) => {
		const { low, high } = plateauOfLine(lineOf(name, value), 0.95);
		expect(high - value).toBeCloseTo(half, 3);
		expect(value - low).toBeCloseTo(half, 3);
	});

	test("a form without a plateau has no interval of one", () => {
		const { low, high } = plateauOfLine(lineOf("ln q against ln C", 1), 0.95);
		expect([low, high]).toEqual([
			Number.NEGATIVE_INFINITY,
			Number.POSITIVE_INFINITY,
		]);
	});
});

describe("a trial repeated with a known truth", () => {
	test("without errors to speak of every way finds the truth that was put in", () => {
		const { ways, truth } = repeatTrial(points, {
			trials: 3,
			readingErrors: 1e-9,
		});
		expect(truth).toEqual({ plateau: 350, affinity: 0.01 });
		expect(ways.map((w) => w.name)).toEqual([
			"fitted curve",
			"C/q against C",
			"1/q against 1/C",
			"q against q/C",
		]);
		for (const w of ways) expect(w.median / 350).toBeCloseTo(1, 6);
	});

	test("the same seed gives the same chance, another seed another", () => {
		const plateaus = (seed: string): readonly number[] =>
			repeatTrial(points, { trials: 4, seed }).ways[0].estimates;
		expect(plateaus("a")).toEqual(plateaus("a"));
		expect(plateaus("a")).not.toEqual(plateaus("b"));
	});

	test("the weakest flasks, each as often as asked", () => {
		const { first, table } = repeatTrial(points, {
			trials: 1,
			weakest: 3,
			times: 2,
		});
		expect(table.title).toBe(
			"1 repeats with the 3 weakest flasks, each 2 times; true q_max 350 mg/g",
		);
		expect(first.points.map((p) => p.flask)).toEqual(
			["1", "2", "3", "1", "2", "3"].map(String),
		);
		const residues = first.points.map((p) => p.concentration);
		expect(residues[0]).not.toBe(residues[3]);
	});

	test("no residue is read below 1 mg/L, and one just above stays", () => {
		// 350 mg/g and 0.01 L/mg hold 2.778 mg/g at 0.8 mg/L and 4.150 mg/g at 1.2 mg/L; 0.1 L/g more is in solution
		const lines = [
			{ intercept: 2.8578, slope: 0.1 },
			{ intercept: 4.2702, slope: 0.1 },
			...goodLines,
		];
		const { first } = repeatTrial(pointsOn(langmuir, [350, 0.01], lines), {
			trials: 1,
			readingErrors: 1e-9,
		});
		expect(first.points[0].concentration).toBe(1);
		expect(first.points[1].concentration).toBeCloseTo(1.2, 3);
	});

	test("the confidence is in the intervals, the table", () => {
		const wide = repeatTrial(points, { trials: 40, confidence: 0.99 });
		const narrow = repeatTrial(points, { trials: 40, confidence: 0.6 });
		wide.ways.forEach((w, k) => {
			expect(w.covered).toBeGreaterThan(narrow.ways[k].covered);
			expect(w.estimates).toEqual(narrow.ways[k].estimates);
		});
		expect(tableText(wide.table)).toContain("its 99 % interval held the truth");
		expect(narrow.table.columns[3]).toBe("middle 60 % of the trials (mg/g)");
		expect(narrow.table.title).toBe(
			"40 repeats of the trial; true q_max 350 mg/g",
		);
	});

	test("typed-in points have no balance to repeat, options are checked", () => {
		expect(() => repeatTrial(plainPoints("p", [1, 2, 4], [1, 2, 3]))).toThrow(
			/0 points with a residue and a mass balance among 3/,
		);
		expect(() => repeatTrial(points, { weakest: 2 })).toThrow(/at least 3/);
		expect(() => repeatTrial(points, { tirals: 3 } as object)).toThrow(
			/Did you mean "trials"/,
		);
	});
});
