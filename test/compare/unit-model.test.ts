/** What counts as a unit, and what is left to judge scatter by. */
import { describe, expect, test } from "vitest";
import {
	distinctDays,
	fitAdditiveModel,
	refitted,
	weightsOf,
} from "../../kernel-lib/compare/additive-model";
import { observationsOf } from "../../kernel-lib/compare/observations";
import { unitModelOf } from "../../kernel-lib/compare/unit-model";
import { soaksRecorded, unitsOf } from "../../kernel-lib/compare/units";
import { type FlaskFixture, flasks, group } from "./fixtures";

const listOf = (fixtures: readonly FlaskFixture[]) =>
	observationsOf(flasks(fixtures)).list;

describe("units", () => {
	const list = listOf([
		{ flask: "a", treatment: "steam", soak: "1", day: "Mon", uptake: 100 },
		{ flask: "b", treatment: "water", soak: "1", day: "Mon", uptake: 40 },
		{ flask: "c", treatment: "steam", soak: "1", day: "Tue", uptake: 110 },
		{ flask: "d", treatment: "steam", soak: "1", day: "Mon", uptake: 120 },
		{ flask: "e", treatment: "steam", soak: "2", day: "Tue", uptake: 90 },
	]);
	test("soaks of one name in two treatments are two; the share of flasks on each day", () => {
		expect(unitsOf(list, [0, 1, 2, 3, 4], "soak")).toEqual([
			{
				treatment: "steam",
				name: "1",
				members: [0, 2, 3],
				mean: 110,
				days: new Map([
					["Mon", expect.closeTo(2 / 3, 12)],
					["Tue", expect.closeTo(1 / 3, 12)],
				]),
			},
			{
				treatment: "water",
				name: "1",
				members: [1],
				mean: 40,
				days: new Map([["Mon", 1]]),
			},
			{
				treatment: "steam",
				name: "2",
				members: [4],
				mean: 90,
				days: new Map([["Tue", 1]]),
			},
		]);
	});
	test("soaks are recorded where one flask names one", () => {
		const named = (...soaks: string[]) =>
			soaksRecorded(
				listOf(
					soaks.map((soak, i) => ({
						flask: String(i),
						treatment: "steam",
						soak,
						uptake: 1,
					})),
				),
			);
		expect(named("", "1")).toBe(true);
		expect(named("", "")).toBe(false);
	});
	test("flasks by themselves, and the chosen ones alone", () => {
		const found = unitsOf(list, [1, 4], "flask");
		expect(found.map((u) => [u.name, u.mean])).toEqual([
			["b", 40],
			["e", 90],
		]);
	});
});

describe("the level that leaves something to judge by", () => {
	const found = (fixtures: readonly FlaskFixture[]) => {
		const { scope, level, model } = unitModelOf(listOf(fixtures));
		return `${scope}, ${level}, ${model.degreesOfFreedom}`;
	};
	test("soaks from two degrees of freedom on", () => {
		const soaks = (n: number) => [
			...group("water", "", [100, 101]),
			...group(
				"steam",
				"water",
				Array.from({ length: n }, () => 120),
			),
		];
		expect(found(soaks(2))).toBe("treatment, soak, 2");
		expect(found(soaks(1))).toBe("these lots, flask, 1");
	});
	test("flasks from one on, else measuring errors only", () => {
		const alone = (water: number, steam: number) => [
			...group(
				"water",
				"",
				Array.from({ length: water }, () => 1),
				{
					soak: "",
				},
			),
			...group(
				"steam",
				"water",
				Array.from({ length: steam }, () => 1),
				{
					soak: "",
				},
			),
		];
		expect(found(alone(2, 1))).toBe("these lots, flask, 1");
		expect(found(alone(1, 1))).toBe("measuring error only, flask, 0");
		expect(found(alone(4, 4))).toBe("these lots, flask, 6");
	});
	test("bounds leave nothing to judge by", () => {
		const bounds = group("steam", "water", [120, 121], { is: "at least" });
		expect(found([...group("water", "", [100, 101]), ...bounds])).toBe(
			"these lots, flask, 1",
		);
	});
});

describe("the model of treatments and days", () => {
	const unit = (treatment: string, mean: number, day: string) => ({
		treatment,
		name: "",
		members: [],
		mean,
		days: new Map([[day, 1]]),
	});
	test("days in their order, a column for each but the first", () => {
		const units = [
			unit("water", 1, "b"),
			unit("water", 1, "a"),
			unit("steam", 1, "c"),
		];
		expect(distinctDays(units)).toEqual(["a", "b", "c"]);
		const model = fitAdditiveModel(units);
		expect(model.columns).toBe(4);
		expect(model.degreesOfFreedom).toBe(0);
	});
	describe("what is left of each unit", () => {
		const design = [
			["water", "1"],
			["water", "2"],
			["steam", "1"],
			["steam", "2"],
			["smoke", "2"],
		] as const;
		const units = (means: readonly number[]) =>
			design.map(([treatment, day], i) => unit(treatment, means[i], day));
		/** Means of treatments 105 and 127, of days 110 and 122: 99, 111, 121 and 133 are fitted, and the fifth as it is. */
		const means = [100, 110, 120, 134, 77];
		const left = [1, -1, -1, 1, 0].map((r) => expect.closeTo(r, 9));
		test("by hand, and after other means were put into the same model", () => {
			const model = fitAdditiveModel(units(means));
			expect([...model.residuals]).toEqual(left);
			const other = refitted(model, units([1, 2, 3, 4, 5]));
			expect(other.units.map((u) => u.mean)).toEqual([1, 2, 3, 4, 5]);
			expect([...other.residuals]).toEqual(
				[0, 0, 0, 0, 0].map((r) => expect.closeTo(r, 9)),
			);
			expect(other.degreesOfFreedom).toBe(1);
			expect([...refitted(other, units(means)).residuals]).toEqual(left);
		});
		test("to as many digits where uptakes are large", () => {
			const { residuals } = fitAdditiveModel(units(means.map((m) => m + 1e13)));
			expect([...residuals]).toEqual(left);
		});
	});
	test("a unit has its share in what is fitted to it: one of one, a half of two, a third of three", () => {
		const { leverages } = fitAdditiveModel(
			["a", "b", "b", "c", "c", "c"].map((treatment) => unit(treatment, 1, "")),
		);
		expect([...leverages]).toEqual(
			[1, 1 / 2, 1 / 2, 1 / 3, 1 / 3, 1 / 3].map((l) => expect.closeTo(l, 10)),
		);
	});
	test("what no unit tells is not estimable", () => {
		const model = fitAdditiveModel([
			unit("water", 1, "1"),
			unit("steam", 1, "2"),
		]);
		expect(weightsOf(model, Float64Array.of(-1, 1, 0))).toEqual({
			estimable: false,
		});
	});
});
