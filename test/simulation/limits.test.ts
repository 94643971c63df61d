import { describe, expect, test } from "vitest";
import { highestShare, hitChances, lowestShare } from "./limits";

describe("what chance allows", () => {
	test("ten tosses of a coin: 1, 10, 45, ... of 1024", () => {
		const ways = [1, 10, 45, 120, 210, 252, 210, 120, 45, 10, 1];
		hitChances(0.5, 10).forEach((chance, hits) => {
			expect(chance).toBeCloseTo(ways[hits] / 1024, 12);
		});
	});

	test("ten heads have a chance of 1 in 1024, which is less than one in a thousand; nine or more have 11", () => {
		expect(highestShare(0.5, 10)).toBe(0.9);
		expect(lowestShare(0.5, 10)).toBeCloseTo(0.1, 12);
	});

	test("what never happens may not happen once, and what always happens may not fail once", () => {
		expect(highestShare(0, 50)).toBe(0);
		expect(lowestShare(1, 50)).toBe(1);
	});

	test("with more trials the limit comes closer to the share", () => {
		const limits = [20, 100, 1000, 10_000].map((n) => highestShare(0.05, n));
		expect(limits).toEqual([...limits].sort((a, b) => b - a));
		expect(limits[3]).toBeLessThan(0.058);
		expect(limits[3]).toBeGreaterThan(0.05);
	});

	test("a verdict that is wrong in a quarter of the runs does not pass for one in twenty", () => {
		expect(highestShare(0.05, 40)).toBeLessThan(0.25);
	});
});
