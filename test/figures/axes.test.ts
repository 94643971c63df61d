import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	axisNumber,
	placeOnAxis,
	spanOf,
	ticksOf,
} from "../../kernel-lib/figures/axes";
import {
	type FigureDescription,
	figure,
	type Point,
	type Scale,
} from "../../kernel-lib/figures/index";

function pointsAt(values: readonly number[], scale: Scale): FigureDescription {
	return figure({
		title: "",
		alt: "",
		x: { label: "", unit: "", scale: { is: "linear" } },
		y: { label: "", unit: "", scale },
		layers: [
			{
				is: "points",
				name: "",
				ink: "text",
				shape: "circle",
				points: values.map((y): Point => ({ x: 0, y, hover: "" })),
			},
		],
		notes: [],
	});
}

describe("numbers at an axis", () => {
	test.each([
		[0, 50, "0"],
		[-50, 50, "−50"],
		[0.30000000000000004, 0.1, "0.3"],
		[1250, 50, "1250"],
		[0.002, 0.002, "0.002"],
		[2e-7, 1e-7, "2×10⁻⁷"],
		[1e-7, 1e-7, "10⁻⁷"],
		[1.5e9, 5e8, "1.5×10⁹"],
		[-2e12, 1e12, "−2×10¹²"],
	])("%d in steps of %d is %s", (value, step, text) => {
		expect(axisNumber(value, step)).toBe(text);
	});
});

test("an axis begins at 0 where the values lie near it or bars must, else near the values", () => {
	expect(spanOf(pointsAt([20, 500], { is: "linear" }), "y", 300).low).toBe(0);
	const far = spanOf(pointsAt([480, 500], { is: "linear" }), "y", 300);
	expect(far.low).toBeGreaterThan(470);
	expect(far.low).toBeLessThan(480);
	expect(
		spanOf(pointsAt([480, 500], { is: "linear", zero: true }), "y", 300).low,
	).toBe(0);
});

test("one value, or none, still has an axis", () => {
	const one = spanOf(pointsAt([42], { is: "linear" }), "y", 300);
	expect(one.low).toBeLessThan(42);
	expect(one.high).toBeGreaterThan(42);
	expect(spanOf(pointsAt([], { is: "linear" }), "y", 300)).toEqual({
		low: 0,
		high: 1,
	});
	expect(spanOf(pointsAt([], { is: "log" }), "y", 300)).toEqual({
		low: 1,
		high: 10,
	});
});

test("what is counted has whole numbers along its axis, and round ones where those are many", () => {
	const texts = (high: number): string[] =>
		ticksOf({ is: "linear", whole: true }, { low: 0, high }, 11).map(
			(t) => t.text,
		);
	expect(texts(4.2)).toEqual(["0", "1", "2", "3", "4"]);
	expect(texts(43)).toEqual([
		"0",
		"5",
		"10",
		"15",
		"20",
		"25",
		"30",
		"35",
		"40",
	]);
});

test("log ticks are decades, with as many marks between them as there is room for, and round numbers where there are no decades", () => {
	const texts = (low: number, high: number): string[] =>
		ticksOf({ is: "log" }, { low, high }, 6).map((t) => t.text);
	expect(texts(0.9, 1100)).toEqual(["1", "10", "100", "1000"]);
	expect(texts(0.9, 60)).toEqual(["1", "2", "5", "10", "20", "50"]);
	expect(texts(0.0075, 0.043)).toEqual([
		"0.008",
		"0.009",
		"0.01",
		"0.02",
		"0.03",
		"0.04",
	]);
	expect(texts(330, 420)).toEqual(["340", "360", "380", "400", "420"]);
	expect(texts(1e-20, 1e20).length).toBeLessThan(10);
});

test("everything lies between the ends of its axis, and larger is farther along", () => {
	fc.assert(
		fc.property(
			fc.array(fc.double({ min: -1e99, max: 1e99, noNaN: true }), {
				minLength: 1,
			}),
			(values) => {
				const f = pointsAt(values, { is: "linear" });
				const span = spanOf(f, "y", 300);
				for (const v of values) {
					expect(v).toBeGreaterThanOrEqual(span.low);
					expect(v).toBeLessThanOrEqual(span.high);
				}
				const places = [...values]
					.sort((a, b) => a - b)
					.map((v) => placeOnAxis(f.y.scale, span, v));
				for (let i = 1; i < places.length; i++)
					expect(places[i]).toBeGreaterThanOrEqual(places[i - 1]);
				const ticks = ticksOf(f.y.scale, span, 6);
				for (const t of ticks)
					expect(
						Number.isFinite(t.at) && !/NaN|undefined|Infinity/.test(t.text),
					).toBe(true);
				expect(new Set(ticks.map((t) => t.text)).size).toBe(ticks.length);
			},
		),
	);
});

test("a place on a log axis of four hundred decades is a number", () => {
	const span = { low: 1e-200, high: 1e200 };
	expect(placeOnAxis({ is: "log" }, span, 1)).toBeCloseTo(0.5, 12);
	expect(placeOnAxis({ is: "log" }, span, 1e200)).toBeCloseTo(1, 12);
});
