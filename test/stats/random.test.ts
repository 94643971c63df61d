import { describe, expect, it } from "vitest";
import {
	chiSquareUpperTail,
	createRandom,
	normalCdf,
	normalQuantile,
	type Random,
	studentTCdf,
} from "../../kernel-lib/stats/index";

const SEEDS = Array.from({ length: 20 }, (_, index) => `seed ${index}`);
const COUNT = 50_000;

function each(column: Float64Array, draw: () => number): void {
	for (let i = 0; i < column.length; i++) column[i] = draw();
}

/** p-values over seeds of a chi-square test for equal cells; each is uniform if the numbers have the distribution. */
function cellTests(
	fill: (random: Random, column: Float64Array) => void,
	cdf: (x: number) => number,
	cells: number,
): number[] {
	return SEEDS.map((seed) => {
		const column = new Float64Array(COUNT);
		fill(createRandom(seed), column);
		const counts = new Float64Array(cells);
		for (const value of column)
			counts[Math.min(cells - 1, Math.floor(cdf(value) * cells))] += 1;
		const expected = COUNT / cells;
		const statistic = counts.reduce(
			(sum, count) => sum + (count - expected) ** 2 / expected,
			0,
		);
		return chiSquareUpperTail(statistic, cells - 1);
	});
}

/** Twenty uniform p-values: none absurdly small, the sum of logs within its own distribution. */
function expectUniform(p: number[]): void {
	const fisher = chiSquareUpperTail(
		-2 * p.reduce((sum, value) => sum + Math.log(value), 0),
		2 * p.length,
	);
	expect(fisher).toBeGreaterThan(1e-4);
	expect(fisher).toBeLessThan(1 - 1e-4);
}

describe("the same numbers for the same seed", () => {
	it('a seed fixes the stream; 1 and "1" are one seed; others differ', () => {
		const first = createRandom(1);
		const again = createRandom("1");
		const other = createRandom(2);
		const take = (random: Random): number[] => [
			random.uniform(),
			random.normal(),
			random.integer(1000),
		];
		expect(take(first)).toEqual(take(again));
		expect(take(createRandom(1))).not.toEqual(take(other));
	});

	it("forks depend on seed and label only, not on what was drawn before", () => {
		const parent = createRandom("parent");
		const before = parent.fork("flask 3").uniform();
		for (let draw = 0; draw < 100; draw++) parent.normal();
		expect(parent.fork("flask 3").uniform()).toBe(before);
		expect(parent.fork("flask 4").uniform()).not.toBe(before);
		expect(createRandom("other").fork("flask 3").uniform()).not.toBe(before);
	});

	it("forks with neighbouring labels are uncorrelated", () => {
		const parent = createRandom(7);
		const columns = [0, 1, 2, 3].map((label) => {
			const column = new Float64Array(100_000);
			parent.fork(label).fillNormal(column);
			return column;
		});
		for (const a of columns) {
			for (const b of columns) {
				if (a === b) continue;
				const r = a.reduce((sum, value, i) => sum + value * b[i], 0) / a.length;
				expect(Math.abs(r)).toBeLessThan(5 / Math.sqrt(a.length));
			}
		}
	});
});

describe("the distributions, over twenty seeds", () => {
	it("uniform", () =>
		expectUniform(
			cellTests(
				(random, column) => random.fillUniform(column),
				(x) => x,
				500,
			),
		));
	it("rectangular", () =>
		expectUniform(
			cellTests(
				(random, column) => random.fillRectangular(column),
				(x) => (x + 1) / 2,
				500,
			),
		));
	it("triangular", () =>
		expectUniform(
			cellTests(
				(random, column) => random.fillTriangular(column),
				(x) => (x < 0 ? (1 + x) ** 2 / 2 : 1 - (1 - x) ** 2 / 2),
				500,
			),
		));
	it("normal, filled and one by one", () => {
		expectUniform(
			cellTests((random, column) => random.fillNormal(column), normalCdf, 1000),
		);
		expectUniform(
			cellTests(
				(random, column) => each(column, () => random.normal()),
				normalCdf,
				1000,
			),
		);
	});
	for (const df of [0.7, 1, 2, 3.5, 30, Number.POSITIVE_INFINITY]) {
		it(`Student t with ${df} degrees of freedom`, () =>
			expectUniform(
				cellTests(
					(random, column) => random.fillStudentT(column, df),
					(t) => studentTCdf(t, df),
					200,
				),
			));
	}
	it("integers", () => {
		expectUniform(
			cellTests(
				(random, column) => each(column, () => random.integer(7)),
				(x) => (x + 0.5) / 7,
				7,
			),
		);
		expect(() => createRandom(1).integer(0)).toThrow(
			"expected a whole number from 1",
		);
	});

	it("normal tails beyond 2, 3, 3.65 and 4.5 are neither thin nor fat", () => {
		const column = new Float64Array(1_000_000);
		for (const [seed, limit] of [
			["tail 1", 2],
			["tail 2", 3],
			["tail 3", 3.6541528853610088],
			["tail 4", 4.5],
		] as [string, number][]) {
			createRandom(seed).fillNormal(column);
			const expected = 2 * normalCdf(-limit) * column.length;
			const beyond = column.reduce(
				(count, z) => count + (Math.abs(z) > limit ? 1 : 0),
				0,
			);
			expect(Math.abs(beyond - expected)).toBeLessThan(
				4.5 * Math.sqrt(expected),
			);
			const positive = column.reduce(
				(count, z) => count + (z > limit ? 1 : 0),
				0,
			);
			expect(Math.abs(positive - beyond / 2)).toBeLessThan(
				(4.5 * Math.sqrt(beyond)) / 2,
			);
		}
	});

	it("normal moments: mean 0, variance 1, skewness 0, kurtosis 3, within their errors", () => {
		const column = new Float64Array(1_000_000);
		createRandom("moments").fillNormal(column);
		const moment = (power: number): number =>
			column.reduce((sum, z) => sum + z ** power, 0) / column.length;
		const error = (variance: number): number =>
			4.5 * Math.sqrt(variance / column.length);
		expect(Math.abs(moment(1))).toBeLessThan(error(1));
		expect(Math.abs(moment(2) - 1)).toBeLessThan(error(2));
		expect(Math.abs(moment(3))).toBeLessThan(error(15));
		expect(Math.abs(moment(4) - 3)).toBeLessThan(error(96));
	});

	it("neighbouring normals, which share a draw for their layers, are independent in value and in size", () => {
		const column = new Float64Array(1_000_000);
		createRandom("lags").fillNormal(column);
		for (let lag = 1; lag <= 5; lag++) {
			let values = 0;
			let squares = 0;
			for (let i = lag; i < column.length; i++) {
				values += column[i] * column[i - lag];
				squares += (column[i] ** 2 - 1) * (column[i - lag] ** 2 - 1);
			}
			expect(Math.abs(values / column.length)).toBeLessThan(
				4.5 / Math.sqrt(column.length),
			);
			expect(Math.abs(squares / column.length)).toBeLessThan(
				(4.5 * 2) / Math.sqrt(column.length),
			);
		}
	});

	it("any length of column works, and the fills go on where the last one stopped", () => {
		const random = createRandom("length");
		for (const length of [0, 1, 2, 3, 5]) {
			const column = new Float64Array(length);
			random.fillNormal(column);
			expect(column.every(Number.isFinite)).toBe(true);
		}
		expect(normalQuantile(createRandom("open").uniform())).toSatisfy(
			Number.isFinite,
		);
	});
});
