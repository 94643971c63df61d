import { describe, expect, test } from "vitest";
import {
	exact,
	input,
	normal,
	type Quantity,
	times,
} from "../../kernel-lib/quantity";
import {
	atOneX,
	type LogLogPoint,
	logLogLine,
} from "../../kernel-lib/uptake/log-log-line";

const ratio = (value: number, u = 0): Quantity<"ratio"> =>
	input("ratio", value, "1", u === 0 ? exact : normal(u), {
		scope: "reading",
	});

const points = (
	xy: readonly (readonly [number, number])[],
	relative = 0,
): LogLogPoint[] =>
	xy.map(([x, y], i) => ({
		x: ratio(x),
		y: ratio(y, relative * y),
		name: `Flask ${i}`,
	}));

/** ln y lies at 0, 2, 1, 3 over ln x of 0, 1, 2, 3. */
const four = [0, 2, 1, 3].map((y, x) => [Math.exp(x), Math.exp(y)] as const);

describe("the straight line of logarithms, by the textbook", () => {
	// means 1.5 and 1.5; sxx = 5, sxy = 4, syy = 5: slope 0.8, r = 0.8, the line leaves 5 - 16/5 = 1.8
	const read = () => logLogLine(points(four), Math.exp(2.5), "x");

	test("slope, correlation, value and range", () => {
		const line = read();
		expect(line.slope).toBeCloseTo(0.8, 12);
		expect(line.correlation).toBeCloseTo(0.8, 12);
		expect(line.value.value).toBeCloseTo(Math.exp(1.5 + 0.8 * 1), 12);
		expect(line.degreesOfFreedom).toBe(2);
		expect(line.range[0]).toBeCloseTo(1, 12);
		expect(line.range[1]).toBeCloseTo(Math.exp(3), 12);
	});

	test("scatter of the value: s = sqrt(1.8/2), leverage 1/4 + 1/5", () => {
		const line = read();
		expect(line.scatter).toBeCloseTo(Math.sqrt(0.9 * (1 / 4 + 1 / 5)), 12);
		expect(line.shared).toBe(0);
		expect(line.readings).toBe(0);
	});

	test("its interval: Student t of 0.975 with 2 degrees of freedom, 4.302653 (tables)", () => {
		const line = read();
		expect(line.intervalFrom).toBe("scatter and shared errors");
		expect(Math.log(line.high / line.value.value)).toBeCloseTo(
			4.302653 * line.scatter,
			5,
		);
		expect(Math.log(line.value.value / line.low)).toBeCloseTo(
			4.302653 * line.scatter,
			5,
		);
	});

	test("a falling line has a correlation below zero, a level one none", () => {
		const falling = four.map(([x, y]) => [x, 1 / y] as const);
		expect(logLogLine(points(falling), 2, "x").correlation).toBeCloseTo(
			-0.8,
			12,
		);
		const level = four.map(([x]) => [x, 5] as const);
		const flat = logLogLine(points(level), 2, "x");
		expect(flat.correlation).toBe(0);
		expect(flat.slope).toBeCloseTo(0, 12);
		expect(flat.value.value).toBeCloseTo(5, 12);
		expect([flat.low, flat.high].every(Number.isFinite)).toBe(true);
	});
});

describe("what errors of the points do", () => {
	const onOneLine = [1, 2, 4].map((x) => [x, 3 * x ** 0.5] as const);

	test("points on one line by luck keep the errors of their readings: normal, 1.959964", () => {
		const line = logLogLine(points(onOneLine, 0.01), 2, "x");
		// at the middle the three count alike
		expect(line.readings).toBeCloseTo(0.01 / Math.sqrt(3), 6);
		expect(line.shared).toBe(0);
		expect(line.intervalFrom).toBe("reading errors and shared errors");
		expect(Math.log(line.high / line.value.value)).toBeCloseTo(
			1.959964 * line.readings,
			6,
		);
	});

	test("an error that every point leans on is shared, though it was one reading", () => {
		const factor = ratio(1, 0.02);
		const line = logLogLine(
			points(onOneLine, 0.01).map((p) => ({ ...p, y: times(p.y, factor) })),
			2,
			"x",
		);
		expect(line.shared).toBeCloseTo(0.02, 6);
		expect(line.readings).toBeCloseTo(0.01 / Math.sqrt(3), 6);
		expect(Math.log(line.high / line.value.value)).toBeCloseTo(
			1.959964 * Math.hypot(0.02, line.readings),
			6,
		);
	});

	test("so is one that only the x of two points lean on, and one of a single point is not", () => {
		const factor = ratio(1, 0.02);
		const leaning = (n: number) =>
			logLogLine(
				points(onOneLine).map((p, i) => ({
					...p,
					x: i < n ? times(p.x, factor) : p.x,
				})),
				2,
				"x",
			);
		expect(leaning(2).shared).toBeGreaterThan(0);
		expect(leaning(2).readings).toBe(0);
		expect(leaning(1).shared).toBe(0);
		expect(leaning(1).readings).toBeGreaterThan(0);
	});

	test("a reading that is in both x and y of one point is still of that point alone", () => {
		const factor = ratio(1, 0.02);
		const leaning = (which: number) =>
			logLogLine(
				points(onOneLine).map((p, i) =>
					i === which
						? { ...p, x: times(p.x, factor), y: times(p.y, factor) }
						: p,
				),
				3,
				"x",
			);
		for (const which of [0, 1, 2]) {
			expect(leaning(which).shared).toBe(0);
			expect(leaning(which).readings).toBeGreaterThan(0);
		}
	});

	test("an input that is shared by its nature is so though one point has it", () => {
		const vessel = input("ratio", 1, "1", normal(0.02), { scope: "shared" });
		const line = logLogLine(
			points(onOneLine).map((p, i) =>
				i === 0 ? { ...p, y: times(p.y, vessel) } : p,
			),
			2,
			"x",
		);
		expect(line.shared).toBeGreaterThan(0);
		expect(line.readings).toBe(0);
	});

	test("scatter and a shared error together: the degrees of freedom grow with what has many", () => {
		const factor = input("ratio", 1, "1", normal(1), { scope: "shared" });
		const line = logLogLine(
			points(four).map((p) => ({ ...p, y: times(p.y, factor) })),
			Math.exp(1.5),
			"x",
		);
		// s = sqrt(0.9), leverage 1/4; Welch-Satterthwaite: 2 (u/s)^4
		const scatter = Math.sqrt(0.9 / 4);
		expect(line.scatter).toBeCloseTo(scatter, 9);
		expect(line.shared).toBeCloseTo(1, 9);
		const half = Math.log(line.high / line.value.value);
		// 2 x (1.225/0.225)^2 = 59.3 degrees of freedom: t of 0.975 between 2.0010 (59) and 2.0003 (60)
		expect(half / Math.hypot(scatter, 1)).toBeGreaterThan(2.0003);
		expect(half / Math.hypot(scatter, 1)).toBeLessThan(2.001);
	});
});

describe("points that make no line", () => {
	const refused = (xy: readonly (readonly [number, number])[]) => () =>
		logLogLine(points(xy), 2, "x");

	test("two are too few", () => {
		expect(
			refused([
				[1, 1],
				[2, 2],
			]),
		).toThrow(/2 points.*at least three/s);
	});

	test.each([[[0, 1]], [[-1, 1]], [[3, 0]], [[3, -1]]] as const)(
		"%s is not above zero, and named",
		(point) => {
			expect(refused([[1, 1], [2, 2], [4, 3], point])).toThrow(
				/Flask 3 at .*both above zero/s,
			);
		},
	);

	test("too few and not above zero are both told", () => {
		expect(
			refused([
				[1, 1],
				[0, 2],
			]),
		).toThrow(/2 points[\s\S]*Flask 1 at/);
	});

	test("points that all lie at 0 are told to be not above zero", () => {
		const none = refused([
			[0, 1],
			[0, 2],
			[0, 3],
		]);
		expect(none).toThrow(/both above zero/);
		expect(none).not.toThrow(/no slope/);
	});

	test("what rounding leaves goes with the size of x", () => {
		const atOne = (x: number): boolean =>
			atOneX([1000, x].map((v) => ({ x: ratio(v) })));
		expect(atOne(1000 + 0.9e-6)).toBe(true);
		expect(atOne(1000 + 1.1e-6)).toBe(false);
	});

	test("points at one x have no slope", () => {
		expect(
			refused([
				[2, 1],
				[2, 2],
				[2, 3],
			]),
		).toThrow(/all 3 points at .*no slope/s);
	});

	test.each([
		[1 + 0.9e-9, true],
		[1 + 1.1e-9, false],
	])("a last x of %s beside 1: at one place %s", (x, one) => {
		expect(atOneX([1, 1, x].map((v) => ({ x: ratio(v) })))).toBe(one);
		expect(atOneX([-1, -x].map((v) => ({ x: ratio(v) })))).toBe(one);
	});
});
