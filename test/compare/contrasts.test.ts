/** Differences as weighted sums of units, those that stand beside the model among them, by hand. */
import { describe, expect, test } from "vitest";
import { fitAdditiveModel } from "../../kernel-lib/compare/additive-model";
import {
	contrastEstimate,
	contrastOf,
	unitsAtLimit,
} from "../../kernel-lib/compare/contrasts";
import { observationsOf } from "../../kernel-lib/compare/observations";
import type { Unit } from "../../kernel-lib/compare/units";
import { flasks } from "./fixtures";

let number = 0;
/** A unit of one flask; its days with the share of each. */
const unit = (
	treatment: string,
	mean: number,
	days: Readonly<Record<string, number>> = { "": 1 },
): Unit => ({
	treatment,
	name: `${treatment} ${mean}`,
	members: [number++],
	mean,
	days: new Map(Object.entries(days)),
});
const pair = (treatment: string, control = "water") => ({ treatment, control });

/** Day 2 lies 10 above day 1. */
const days = fitAdditiveModel([
	unit("water", 100, { 1: 1 }),
	unit("water", 110, { 2: 1 }),
	unit("steam", 120, { 1: 1 }),
	unit("steam", 130, { 2: 1 }),
]);

function difference(
	model: typeof days,
	of: ReturnType<typeof pair>,
	beside: Readonly<Record<string, readonly Unit[]>> = {},
) {
	const found = contrastOf(model, of, new Map(Object.entries(beside)));
	return found.estimable ? contrastEstimate(found.parts) : found;
}
const notEstimable = { estimable: false };

describe("within the model", () => {
	test("the mean of the one less the mean of the other", () => {
		expect(difference(days, pair("steam"))).toBeCloseTo(20, 10);
		expect(difference(days, pair("water", "steam"))).toBeCloseTo(-20, 10);
	});
	test("units of a third treatment have no weight, and are no part", () => {
		const three = fitAdditiveModel([...days.units, unit("smoke", 7, { 1: 1 })]);
		const found = contrastOf(three, pair("steam"), new Map());
		if (!found.estimable) throw new Error("not estimable");
		expect(found.parts.map((p) => p.unit)).toEqual(days.units);
		expect(found.parts.map((p) => p.weight)).toEqual(
			[-0.5, -0.5, 0.5, 0.5].map((w) => expect.closeTo(w, 10)),
		);
	});
	test("not for a treatment that is not there, nor for two that no day joins", () => {
		expect(difference(days, pair("smoke"))).toEqual(notEstimable);
		expect(difference(days, pair("steam", "smoke"))).toEqual(notEstimable);
		const apart = fitAdditiveModel([
			unit("water", 100, { 1: 1 }),
			unit("steam", 120, { 2: 1 }),
		]);
		expect(difference(apart, pair("steam"))).toEqual(notEstimable);
	});
});

describe("beside the model", () => {
	const smoke = (mean: number, on: Readonly<Record<string, number>>) => ({
		smoke: [unit("smoke", mean, on)],
	});
	test("the mean of its units, less what the model says of their days", () => {
		expect(difference(days, pair("smoke"), smoke(150, { 1: 1 }))).toBeCloseTo(
			50,
			10,
		);
		expect(difference(days, pair("smoke"), smoke(150, { 2: 1 }))).toBeCloseTo(
			40,
			10,
		);
		expect(
			difference(days, pair("smoke"), smoke(150, { 1: 0.5, 2: 0.5 })),
		).toBeCloseTo(45, 10);
		expect(
			difference(days, pair("smoke"), {
				smoke: [unit("smoke", 150, { 1: 1 }), unit("smoke", 180, { 2: 1 })],
			}),
		).toBeCloseTo((50 + 70) / 2, 10);
	});
	test("as the control with the other sign", () => {
		expect(
			difference(days, pair("steam", "smoke"), smoke(150, { 2: 1 })),
		).toBeCloseTo(120 - 140, 10);
	});
	test("a treatment that stands in the model too is taken beside it, where units are given", () => {
		expect(
			difference(days, pair("steam"), {
				steam: [unit("steam", 200, { 2: 1 })],
			}),
		).toBeCloseTo(90, 10);
		expect(difference(days, pair("steam"), { steam: [] })).toBeCloseTo(20, 10);
	});
	test("a day that the model does not know, unless both sides stood on it alike", () => {
		expect(difference(days, pair("smoke"), smoke(150, { 3: 1 }))).toEqual(
			notEstimable,
		);
		const both = (share: number) => ({
			...smoke(150, { 3: 1 }),
			ash: [unit("ash", 130, { 1: 1 - share, 3: share })],
		});
		expect(difference(days, pair("smoke", "ash"), both(1))).toBeCloseTo(20, 10);
		expect(difference(days, pair("smoke", "ash"), both(0.5))).toEqual(
			notEstimable,
		);
	});
	test("without any value in the model, flasks of one day", () => {
		const empty = fitAdditiveModel([]);
		const beside = {
			smoke: [
				unit("smoke", 150, { 1: 1 }),
				unit("smoke", 160, { 1: 1 }),
				unit("smoke", 170, { 1: 1 }),
			],
			ash: [unit("ash", 130, { 1: 1 })],
		};
		expect(difference(empty, pair("smoke", "ash"), beside)).toBeCloseTo(30, 10);
	});
});

describe("estimates", () => {
	test("keep the digits of small differences of large uptakes", () => {
		const parts = [
			{ unit: unit("steam", 1e9 + 0.25), weight: 0.5 },
			{ unit: unit("steam", 1e9 + 0.75), weight: 0.5 },
			{ unit: unit("water", 1e9), weight: -1 },
		];
		expect(contrastEstimate(parts)).toBe(0.5);
		const alike = Array.from({ length: 7 }, () => unit("steam", 123456.789));
		const weighted = alike.map((u) => ({ unit: u, weight: 1 / 7 }));
		expect(
			contrastEstimate([...weighted, { unit: alike[0], weight: -1 }]),
		).toBe(0);
		expect(contrastEstimate([])).toBe(0);
	});
	test("units at their limit hold every flask of a treatment, bounds among them", () => {
		const { list } = observationsOf(
			flasks([
				{ flask: "w", treatment: "water", uptake: 1 },
				{ flask: "a", treatment: "steam", soak: "1", uptake: 100 },
				{
					flask: "b",
					treatment: "steam",
					soak: "1",
					uptake: 140,
					is: "at least",
				},
				{ flask: "c", treatment: "steam", soak: "2", uptake: 90 },
			]),
		);
		const shown = (level: "soak" | "flask") =>
			unitsAtLimit(list, "steam", level).map((u) => [u.mean, ...u.members]);
		expect(shown("soak")).toEqual([
			[120, 1, 2],
			[90, 3],
		]);
		expect(shown("flask")).toEqual([
			[100, 1],
			[140, 2],
			[90, 3],
		]);
	});
});
