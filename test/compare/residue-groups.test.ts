/** Treatments as they stand on their curves, each with an interval of its own. */
import { describe, expect, test } from "vitest";
import type {
	CurveEstimate,
	CurveOrNot,
} from "../../kernel-lib/compare/curve-estimate";
import { observationsOf } from "../../kernel-lib/compare/observations";
import {
	curveGroups,
	curveUptakes,
} from "../../kernel-lib/compare/residue-groups";
import { flasks } from "./fixtures";

const estimate = {
	treatment: "water",
	fits: [],
	uptake: 300,
	scatterVariance: 9,
	degreesOfFreedom: 4,
	spread: "about its curve",
	soaks: 1,
	scatterFrom: "readings",
	shared: new Map([["titrant", 4]]),
} as CurveEstimate;
const curves = new Map<string, CurveOrNot>([
	["water", { is: "estimate", estimate }],
	["ash", { is: "none", obstacle: {} as never }],
]);
/** Scatter 9 on four degrees of freedom and a shared error of 4: 25 on 4 x 25^2/81 = 30.86; t(0.975; 30.86) by tables between 2.0395 (31) and 2.0423 (30). */
const half = 2.03988 * 5;

describe("an uptake on a curve", () => {
	test("scatter and shared errors together, with the degrees of freedom of both", () => {
		const [found, ...more] = curveUptakes(curves, 0.95);
		expect(more).toEqual([]);
		expect(found).toMatchObject({
			treatment: "water",
			uptake: 300,
			scatterFrom: "readings",
			degreesOfFreedom: 4,
			fits: [],
		});
		expect(found.low).toBeCloseTo(300 - half, 2);
		expect(found.high).toBeCloseTo(300 + half, 2);
	});
});

describe("groups", () => {
	const list = [
		{ flask: "w1", treatment: "water", soak: "a", uptake: 310, residue: 500 },
		{ flask: "w2", treatment: "water", soak: "a", uptake: 250, residue: 200 },
		{ flask: "w3", treatment: "water", soak: "b", uptake: 350, residue: 800 },
		{ flask: "a1", treatment: "ash", soak: "c", uptake: 400, residue: 90 },
	];
	const groups = curveGroups(
		["water", "ash"],
		curves,
		observationsOf(flasks(list)),
		700,
		0.95,
	);

	test("on the curve at the residue; soaks and flasks counted, the mean of what was left beside", () => {
		expect(groups[0]).toMatchObject({
			treatment: "water",
			units: 2,
			flasks: 3,
			boundFlasks: [],
			mean: 300,
			residue: 700,
			left: 500,
			is: "value",
		});
		expect(groups[0].high - groups[0].low).toBeCloseTo(2 * half, 2);
	});

	test("without a curve as measured, at its own residue", () => {
		expect(groups).toHaveLength(2);
		expect(groups[1]).toMatchObject({
			treatment: "ash",
			units: 1,
			flasks: 1,
			residue: 90,
		});
		expect(groups[1].mean).toBeCloseTo(400, 9);
	});
});
