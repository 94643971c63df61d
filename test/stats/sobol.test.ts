import { describe, expect, it } from "vitest";
import {
	createRandom,
	createSobol,
	normalCdf,
	SOBOL_MAX_DIMENSIONS,
} from "../../kernel-lib/stats/index";

function points(
	dimensions: number,
	count: number,
	seed: number,
	first = 0,
): Float64Array[] {
	const sobol = createSobol(dimensions, seed);
	return Array.from({ length: dimensions }, (_, dimension) => {
		const column = new Float64Array(count);
		sobol.fillUniform(dimension, first, column);
		return column;
	});
}

/** Mean of squared errors over seeds of an estimator. */
function meanSquare(errors: number[]): number {
	return errors.reduce((sum, error) => sum + error * error, 0) / errors.length;
}

describe("Sobol points", () => {
	it("every dimension puts exactly one of the first 2^m points into each of 2^m equal cells", () => {
		const m = 10;
		for (const column of points(SOBOL_MAX_DIMENSIONS, 2 ** m, 3)) {
			const cells = new Set(Array.from(column, (u) => Math.floor(u * 2 ** m)));
			expect(cells.size).toBe(2 ** m);
		}
	});

	it("pairs of the first dimensions fill elementary rectangles evenly (t = 0 for dimensions 1 and 2)", () => {
		const [a, b] = points(2, 256, 5);
		for (const bits of [0, 1, 2, 3, 4, 5, 6, 7, 8]) {
			const cells = new Set(
				Array.from(
					a,
					(u, i) =>
						`${Math.floor(u * 2 ** bits)} ${Math.floor(b[i] * 2 ** (8 - bits))}`,
				),
			);
			expect(cells.size).toBe(256);
		}
	});

	it("blocks from any point on are parts of one sequence", () => {
		const whole = points(4, 1000, 11);
		const part = points(4, 300, 11, 617);
		for (let dimension = 0; dimension < 4; dimension++) {
			expect([...part[dimension]]).toEqual([
				...whole[dimension].subarray(617, 917),
			]);
		}
	});

	it("a scrambled point is uniform: means over seeds are unbiased", () => {
		const values = Array.from({ length: 4000 }, (_, seed) =>
			points(3, 1, seed).map(([u]) => u),
		);
		for (let dimension = 0; dimension < 3; dimension++) {
			const mean =
				values.reduce((sum, point) => sum + point[dimension], 0) /
				values.length;
			expect(Math.abs(mean - 0.5)).toBeLessThan(
				4.5 * Math.sqrt(1 / 12 / values.length),
			);
		}
	});

	it("stays inside (0, 1) and turns normal through the inverse distribution", () => {
		const sobol = createSobol(2, 9);
		const uniform = new Float64Array(4096);
		const normal = new Float64Array(4096);
		sobol.fillUniform(1, 0, uniform);
		sobol.fillNormal(1, 0, normal);
		expect(uniform.every((u) => u > 0 && u < 1)).toBe(true);
		normal.forEach((z, i) => {
			expect(normalCdf(z)).toBeCloseTo(uniform[i], 13);
		});
	});

	it("in 8 and in 32 dimensions a smooth mean has far less variance than with random points", () => {
		for (const [dimensions, gain] of [
			[8, 300],
			[32, 20],
		]) {
			const count = 4096;
			const f = (columns: Float64Array[], i: number): number =>
				columns.reduce(
					(value, column, j) => value * (1 + (column[i] - 0.5) / (j + 1)),
					1,
				);
			const mean = (columns: Float64Array[]): number => {
				let sum = 0;
				for (let i = 0; i < count; i++) sum += f(columns, i);
				return sum / count;
			};
			const seeds = Array.from({ length: 12 }, (_, seed) => seed);
			const sobol = meanSquare(
				seeds.map((seed) => mean(points(dimensions, count, seed)) - 1),
			);
			const random = meanSquare(
				seeds.map((seed) => {
					const stream = createRandom(seed);
					const columns = Array.from(
						{ length: dimensions },
						() => new Float64Array(count),
					);
					for (const column of columns) stream.fillUniform(column);
					return mean(columns) - 1;
				}),
			);
			expect(random / sobol).toBeGreaterThan(gain);
		}
	});

	it("says what it cannot give", () => {
		expect(() => createSobol(65, 1)).toThrow(
			"found 65 dimensions for Sobol points; expected a whole number from 1 to 64",
		);
		expect(() =>
			createSobol(2, 1).fillUniform(2, 0, new Float64Array(1)),
		).toThrow(
			"found dimension 2 for Sobol points; expected a whole number from 0 to 1",
		);
		expect(() =>
			createSobol(2, 1).fillUniform(0, -1, new Float64Array(1)),
		).toThrow("expected whole numbers from 0");
	});
});
