import { describe, expect, test } from "vitest";
import { fit as fitCurve, jointRegion } from "../../kernel-lib/fit";
import { createRandom } from "../../kernel-lib/stats";
import { referenceData } from "../reference/check";
import { hold, trialsOf } from "../simulation/trials";
import { hyperbola, line, tenDoses, valueIn } from "./fixtures";

const x = [1, 2, 3, 4, 5, 6, 7, 8];
const y = [2.2, 4.1, 5.7, 8.4, 9.9, 12.3, 13.8, 16.1];

/** Sum of squares at a pair. */
const rssOfLine = (a: number, b: number): number =>
	x.reduce((s, v, i) => s + (y[i] - a - b * v) ** 2, 0);

describe("joint confidence region", () => {
	test("of a line is the textbook ellipse: RSS = RSSmin (1 + 2 F(0.95; 2, 6) / 6) all around", () => {
		const found = fitCurve(line, { x, y });
		const region = valueIn(jointRegion(found, "a", "b"));
		expect(region.points.length).toBe(64);
		for (const { first, second, edge } of region.points) {
			expect(edge).toBe("closed");
			expect(rssOfLine(first, second) / found.residualSumOfSquares).toBeCloseTo(
				1 + (2 * 5.143252849784718) / 6,
				5,
			);
		}
		const spread = region.points.map((p) => p.first);
		expect(Math.max(...spread)).toBeGreaterThan(found.theta[0]);
		expect(Math.min(...spread)).toBeLessThan(found.theta[0]);
	});

	test("with absolute sigmas the rise is chi-square with two degrees of freedom", () => {
		const found = fitCurve(line, { x, y, sigmaY: 0.3, sigmaIsAbsolute: true });
		for (const { first, second } of valueIn(jointRegion(found, "a", "b"))
			.points)
			expect(
				rssOfLine(first, second) / 0.09 - found.residualSumOfSquares,
			).toBeCloseTo(5.991464547107979, 4);
	});

	test("the order in which the two are named only exchanges them", () => {
		const found = fitCurve(line, { x, y });
		const ab = valueIn(jointRegion(found, "a", "b", { directions: 90 }));
		const ba = valueIn(jointRegion(found, "b", "a", { directions: 90 }));
		const most = (values: number[]): number => Math.max(...values);
		expect(most(ba.points.map((p) => p.second))).toBeCloseTo(
			most(ab.points.map((p) => p.first)),
			2,
		);
	});

	test("holds a bent pair of truths 95 % of the time", () => {
		const asked = 1000;
		const trials = trialsOf(asked, 150);
		let held = 0;
		for (let seed = 0; seed < trials; seed++) {
			const random = createRandom(seed);
			const y = tenDoses.map(
				(c) => (200 * 0.02 * c) / (1 + 0.02 * c) + 5 * random.normal(),
			);
			const found = fitCurve(
				hyperbola,
				{ x: tenDoses, y },
				{ start: { k: 0.03 } },
			);
			const { points } = valueIn(
				jointRegion(found, "q", "k", { directions: 48 }),
			);
			if (
				inside(
					points.map((p) => [p.first / 200, p.second / 0.02]),
					[1, 1],
				)
			)
				held++;
		}
		hold({
			simulation: "joint confidence region",
			design: "ten doses of a hyperbola",
			what: "holds the truth",
			hits: held,
			trials,
			asked,
			least: 0.922,
			most: 0.978,
		});
	});

	test("that does not close says in which directions", () => {
		const { cases } = referenceData<{
			cases: { id: string; x: number[]; y: number[] }[];
		}>("hard-cases.json");
		const open = cases.find((c) => c.id === "langmuir-open-upper");
		if (open === undefined) throw new Error("no such case");
		const found = fitCurve(
			hyperbola,
			{ x: open.x, y: open.y },
			{ start: { k: 0.002 } },
		);
		const region = valueIn(jointRegion(found, "q", "k"));
		for (const { first, second } of region.points) {
			expect(Number.isFinite(first) && Number.isFinite(second)).toBe(true);
		}
		expect(new Set(region.points.map((p) => p.edge))).toContain("closed");
	});
});

/** Whether a point lies inside a polygon, by counting crossings. */
function inside(
	polygon: readonly (readonly number[])[],
	[px, py]: readonly [number, number],
): boolean {
	let odd = false;
	polygon.forEach(([ax, ay], i) => {
		const [bx, by] = polygon[(i + 1) % polygon.length];
		if (ay > py !== by > py && px < ax + ((py - ay) / (by - ay)) * (bx - ax))
			odd = !odd;
	});
	return odd;
}
