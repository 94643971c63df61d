/** Whether a trial has doses enough for isotherms, and where its treatments meet; its decisions by number have tests in test/decisions. */
import { describe, expect, test } from "vitest";
import { dosesOf } from "../../kernel-lib/compare";
import {
	dosesOfCurve,
	dosesOfTreatment,
} from "../../kernel-lib/compare/several-doses";
import { type FlaskFixture, flasks } from "./fixtures";

const at = (
	treatment: string,
	residues: readonly number[],
	more: Partial<FlaskFixture> = {},
): FlaskFixture[] =>
	residues.map((residue, i) => ({
		flask: `${treatment}${i}${more.soak ?? ""}`,
		treatment,
		control: treatment === "water" ? "" : "water",
		uptake: 100,
		residue,
		...more,
	}));
const four = [100, 200, 400, 800];

describe("one curve", () => {
	test("what it has, in words", () => {
		expect(
			dosesOfCurve("steam", flasks(at("steam", [400, 100, 800, 200]))),
		).toEqual({
			treatment: "steam",
			flasks: 4,
			read: 4,
			levels: 4,
			low: 100,
			high: 800,
			ammonia: "none named",
			enough: true,
			because: "4 clearly different residues from 100 mg/L to 800 mg/L",
		});
	});
	test("what it lacks", () => {
		const because = (residues: readonly number[]) =>
			dosesOfCurve("steam", flasks(at("steam", residues))).because;
		expect(because([100])).toBe(
			"1 clearly different residue; an isotherm takes 4 or more, each at least 1.25 times the next",
		);
		expect(because([])).toMatch(/^0 clearly different residues;/);
		expect(because([100, 130, 170, 220])).toBe(
			"the residues span a factor of 2.2 only; an isotherm takes 3 or more",
		);
	});
	test("flasks without a residue that was read do not count, repeats once", () => {
		const doses = dosesOfCurve(
			"steam",
			flasks([
				...at("steam", [100, 101, 200]),
				...at("steam", [5], { is: "at least", ammonia: "named" }),
			]),
		);
		expect(doses).toMatchObject({
			flasks: 4,
			read: 3,
			levels: 2,
			low: 100,
			ammonia: "named",
		});
	});
	test("residues at nothing and below span any factor", () => {
		expect(
			dosesOfCurve("steam", flasks(at("steam", [-1, 50, 100, 200]))),
		).toMatchObject({ enough: true, low: -1 });
	});
});

describe("soaks with a curve each", () => {
	const soaked = (...soaks: readonly (readonly number[])[]) =>
		dosesOfTreatment(
			"steam",
			flasks(
				soaks.flatMap((residues, k) =>
					at("steam", residues, { soak: String(k) }),
				),
			),
		);
	test("do what the poorest of them does, over the residues that all reached", () => {
		expect(soaked([100, 200, 400, 800, 1600], [150, 300, 600, 1200])).toEqual({
			treatment: "steam",
			flasks: 9,
			read: 9,
			levels: 4,
			low: 150,
			high: 1200,
			ammonia: "none named",
			enough: true,
			because:
				"2 soaks with a curve each, 4 clearly different residues from 150 mg/L to 1.2 g/L",
		});
	});
	test("one that lacks doses lacks them for all", () => {
		for (const soaks of [
			[four, [100, 200]],
			[[100, 200], four],
		])
			expect(soaked(...soaks)).toMatchObject({
				enough: false,
				levels: 2,
				because: expect.stringMatching(
					/^"steam, [01]": 2 clearly different residues.*; where soaks have several flasks, each soak takes a curve of its own$/,
				),
			});
		// As many residues, over too short a span
		expect(soaked(four, [100, 130, 170, 220]).because).toMatch(
			/^"steam, 1": the residues span a factor of 2\.2 only/,
		);
	});
	test("that do not overlap give no residue", () => {
		expect(soaked([100, 150, 200, 300], [300, 450, 600, 900])).toMatchObject({
			enough: false,
			because: "the residues of its soaks do not overlap",
		});
		expect(soaked([100, 150, 200, 301], [300, 450, 600, 900]).enough).toBe(
			true,
		);
	});
	test("soaks of one flask each make one curve", () => {
		expect(
			dosesOfTreatment(
				"steam",
				flasks(four.flatMap((r) => at("steam", [r], { soak: String(r) }))),
			).levels,
		).toBe(4);
	});
});

describe("a trial", () => {
	const trial = (...groups: readonly FlaskFixture[][]) =>
		dosesOf(flasks(groups.flat()));
	test("has several doses where a treatment and its control have, over what they share; the middle in two digits", () => {
		const found = trial(
			at("water", [90, 200, 400, 1210]),
			at("steam", [123, 300, 600, 2000]),
		);
		expect(found).toMatchObject({
			holds: true,
			because:
				"The run has several doses: treatments can be compared at a stated residue, on an isotherm each.",
			common: { low: 123, high: 1210, middle: 390 },
		});
		expect(found.table.rows[0]).toEqual(["water", 4, 4, 4, 90, 1210, "yes"]);
	});
	test("where two digits would lie outside, the middle is not rounded", () => {
		const found = trial(
			at("water", [100.2, 200, 400, 800]),
			at("steam", [20, 40, 80, 100.4]),
		);
		expect(found.common.middle).toBeCloseTo(Math.sqrt(100.2 * 100.4), 9);
	});
	test("names those that have too few, and the residues that do not meet", () => {
		expect(
			trial(at("water", four), at("steam", four), at("smoke", [100])).because,
		).toMatch(/ Not "smoke": it or its control has too few doses\.$/);
		expect(
			trial(
				at("water", four),
				at("steam", four),
				at("smoke", [100]),
				at("ash", [100]),
			).because,
		).toMatch(
			/ Not "smoke" and "ash": they or their controls have too few doses\.$/,
		);
		const apart = trial(
			at("water", [10, 20, 40, 80]),
			at("steam", [80, 160, 320, 640]),
		);
		expect(apart.holds).toBe(false);
		expect(apart.common).toEqual({ low: 0, high: 0, middle: 0 });
		expect(apart.because).toMatch(
			/^The residues of the treatments do not overlap \("water" 10 mg\/L to 80 mg\/L, "steam" 80 mg\/L to 640 mg\/L\).*Dose the flasks of one/,
		);
	});
	test("has not, where a control or doses are lacking", () => {
		expect(trial(at("water", four)).because).toMatch(
			/no treatment with a control/,
		);
		expect(trial().because).toMatch(/no treatment with a control/);
		const few = trial(at("water", four), at("steam", [100, 300]));
		expect(few.holds).toBe(false);
		expect(few.because).toMatch(
			/^The run has not enough doses for isotherms, which take 4 or more.*\("steam" 2\): they are compared at one residue/,
		);
		expect(trial(at("water", [100]), at("steam", four)).holds).toBe(false);
	});
	test("of bounds alone shows no residues", () => {
		const [row] = trial(at("water", [5], { is: "at least" })).table.rows;
		expect(row.slice(0, 6)).toEqual(["water", 1, 0, 0, "", ""]);
		expect(row[6]).toMatch(/^no: 0 clearly/);
	});
});
