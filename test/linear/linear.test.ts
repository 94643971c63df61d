import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	choleskyFactor,
	dot,
	eigenOfSymmetric,
	inverseOfPositiveDefinite,
	inverseOfTriangle,
	orthonormalBasis,
	pseudoInverse,
	quadraticForm,
	type Rows,
	rowsOf,
	semidefiniteFactor,
	singularValues,
	spannedDirections,
	withoutDirections,
} from "../../kernel-lib/linear/index";

/** L L', row by row. */
function squared(factor: readonly Float64Array[]): number[][] {
	return factor.map((a) => factor.map((b) => dot(a, b)));
}

function expectClose(found: Rows, expected: readonly number[][]): void {
	expected.forEach((row, i) => {
		row.forEach((value, j) => {
			expect(found[i][j]).toBeCloseTo(value, 12);
		});
	});
}

describe("vectors", () => {
	test("products by hand", () => {
		expect(dot([1, 2, 3], [4, 5, 6])).toBe(32);
		// (1, 2) M (1, 2)' = 2 + 2 * 2 * 0.5 + 4 * 3
		expect(quadraticForm(Float64Array.of(2, 0.5, 0.5, 3), [1, 2])).toBe(16);
	});

	test("a variance that rounding has made negative is 0", () => {
		expect(quadraticForm(Float64Array.of(-1e-20), [1])).toBe(0);
	});
});

describe("Cholesky factors", () => {
	test("of a matrix that is the square of whole numbers", () => {
		const found = choleskyFactor([
			[4, 2, 6],
			[2, 10, 9],
			[6, 9, 22],
		]);
		if (found.is !== "factor") throw new Error(found.is);
		expectClose(found.factor, [
			[2, 0, 0],
			[1, 3, 0],
			[3, 2, 3],
		]);
	});

	test("the first row that depends on those before it is named", () => {
		const dependent = [
			[1, 0, 1, 0],
			[0, 1, 1, 0],
			[1, 1, 2, 0],
			[0, 0, 0, 1],
		];
		expect(choleskyFactor(dependent)).toEqual({
			is: "not positive definite",
			row: 2,
		});
		expect(choleskyFactor([[-1]])).toEqual({
			is: "not positive definite",
			row: 0,
		});
		expect(choleskyFactor([[0]])).toMatchObject({ row: 0 });
	});

	test("the tolerance is what must be left of a row", () => {
		const nearly = (left: number): Rows => [
			[1, 1],
			[1, 1 + left],
		];
		expect(choleskyFactor(nearly(1.1e-6), 1e-6).is).toBe("factor");
		expect(choleskyFactor(nearly(0.9e-6), 1e-6).is).toBe(
			"not positive definite",
		);
	});

	test("of a singular matrix: a row that depends on others brings no column", () => {
		const found = semidefiniteFactor([
			[1, 1, 0.6],
			[1, 1, 0.6],
			[0.6, 0.6, 1],
		]);
		if (found.is !== "factor") throw new Error(found.is);
		expectClose(found.factor, [
			[1, 0, 0],
			[1, 0, 0],
			[0.6, 0, 0.8],
		]);
	});

	test("a singular matrix of three correlations gives itself back", () => {
		const third = Math.cos(Math.acos(0.3) + Math.acos(0.8));
		const matrix = [
			[1, 0.3, third],
			[0.3, 1, 0.8],
			[third, 0.8, 1],
		];
		// The angles between the three add up, so that they lie in one plane.
		const found = semidefiniteFactor(matrix);
		if (found.is !== "factor") throw new Error(found.is);
		expectClose(squared(found.factor), matrix);
		expect(found.factor.map((row) => row[2])).toEqual([0, 0, 0]);
	});

	test("correlations that contradict each other have none", () => {
		expect(
			semidefiniteFactor([
				[1, 0.9, -0.9],
				[0.9, 1, 0.9],
				[-0.9, 0.9, 1],
			]),
		).toEqual({ is: "not positive semidefinite" });
	});
});

describe("eigenvalues and singular values", () => {
	test("of a matrix with known ones", () => {
		const { values, vectors } = eigenOfSymmetric([
			[2, 1],
			[1, 2],
		]);
		expect(values[0]).toBeCloseTo(1, 14);
		expect(values[1]).toBeCloseTo(3, 14);
		expect(Math.abs(dot(vectors[0], [1, -1]))).toBeCloseTo(Math.SQRT2, 14);
		expect(Math.abs(dot(vectors[1], [1, 1]))).toBeCloseTo(Math.SQRT2, 14);
		expect(eigenOfSymmetric([])).toEqual({ values: [], vectors: [] });
	});

	test("the weakest direction of a matrix", () => {
		const { values, weakest } = singularValues([
			[3, 0, 0],
			[0, 0, 5],
		]);
		expect(values[0]).toBeCloseTo(5, 14);
		expect(values[1]).toBeCloseTo(3, 14);
		expect(Math.abs(weakest[0])).toBeCloseTo(1, 14);
		expect(weakest[1]).toBeCloseTo(0, 14);
	});

	test.each([
		[
			"fewer vectors than entries",
			[
				[1, 1, 0],
				[2, 2, 0],
			],
			1,
		],
		[
			"more vectors than entries",
			[
				[1, 0],
				[0, 1e9],
				[1, 1],
			],
			2,
		],
		["nothing but zeros", [[0, 0, 0]], 0],
		["no vector", [], 0],
	])("a basis of what they span: %s", (_, vectors, rank) => {
		const basis = orthonormalBasis(vectors);
		expect(basis).toHaveLength(rank);
		basis.forEach((a, i) => {
			basis.forEach((b, j) => {
				expect(dot(a, b)).toBeCloseTo(i === j ? 1 : 0, 14);
			});
		});
		for (const v of vectors) {
			const length = Math.sqrt(dot(v, v)) || 1;
			const rest = withoutDirections(
				basis,
				Float64Array.from(v, (x) => x / length),
			);
			expect(Math.sqrt(dot(rest, rest))).toBeLessThan(1e-14);
		}
	});

	test.each([
		["fewer vectors than places", 7, 3],
		["more vectors than places", 3, 7],
	])(
		"what vectors span: %s, their outer products put together again",
		(_, places, count) => {
			const vectors = Array.from({ length: count }, (_, k) =>
				Float64Array.from({ length: places }, (_, i) => Math.sin(5 * k + i)),
			);
			const spanned = spannedDirections(vectors);
			expect(spanned).toHaveLength(Math.min(places, count));
			const reaches = spanned.map((s) => s.reach);
			expect(reaches).toEqual([...reaches].sort((a, b) => b - a));
			for (let i = 0; i < places; i++)
				for (let j = 0; j < places; j++)
					expect(
						spanned.reduce(
							(sum, { direction: d, reach }) => sum + reach ** 2 * d[i] * d[j],
							0,
						),
					).toBeCloseTo(
						vectors.reduce((sum, v) => sum + v[i] * v[j], 0),
						12,
					);
		},
	);
});

describe("inverses", () => {
	test("of a positive definite matrix", () => {
		const found = inverseOfPositiveDefinite(
			[
				[2, 1],
				[1, 1],
			],
			1e-12,
		);
		if (found.is !== "inverse") throw new Error(found.is);
		expectClose(found.inverse, [
			[1, -1],
			[-1, 2],
		]);
		expect(
			inverseOfPositiveDefinite(
				[
					[1, 2],
					[2, 4],
				],
				1e-12,
			),
		).toEqual({ is: "not positive definite", row: 1 });
	});

	test("of a triangle whose columns differ by many powers of ten", () => {
		const found = inverseOfTriangle([
			[1e9, 1e3],
			[0, 1e-6],
		]);
		expect(found[0][0]).toBeCloseTo(1e-9, 24);
		expect(found[0][1]).toBeCloseTo(-1, 14);
		expect(found[1][0]).toBe(0);
		expect(found[1][1] / 1e6).toBeCloseTo(1, 14);
	});

	test("of a design in which one column is the sum of two others", () => {
		const gram = [
			[2, 1, 3],
			[1, 2, 3],
			[3, 3, 6],
		];
		const { inverse, rank } = pseudoInverse(gram);
		expect(rank).toBe(2);
		// G G^- G = G
		const times = (a: Rows, b: Rows): number[][] =>
			Array.from(a, (row) =>
				Array.from(b, (_, j) =>
					dot(
						row,
						Array.from(b, (r) => r[j]),
					),
				),
			);
		expectClose(times(times(gram, inverse), gram), gram);
		expect(pseudoInverse([[0]])).toEqual({
			inverse: [Float64Array.of(0)],
			rank: 0,
		});
	});
});

test("rows of a matrix that is stored in one array", () => {
	expect(rowsOf(Float64Array.of(1, 2, 3, 4, 5, 6), 2, 3)).toEqual([
		Float64Array.of(1, 2, 3),
		Float64Array.of(4, 5, 6),
	]);
});

describe("the pseudo-inverse of a design", () => {
	test("A G A = A and the rank, for matrices of any rank", () => {
		fc.assert(
			fc.property(
				fc.integer({ min: 1, max: 5 }),
				fc.integer({ min: 1, max: 5 }),
				fc.array(fc.integer({ min: -3, max: 3 }), {
					minLength: 25,
					maxLength: 25,
				}),
				(rows, n, entries) => {
					const x = (i: number, j: number): number => entries[i * n + j];
					const a = new Float64Array(n * n);
					for (let i = 0; i < n; i++)
						for (let j = 0; j < n; j++)
							for (let k = 0; k < rows; k++) a[i * n + j] += x(k, i) * x(k, j);
					const { inverse, rank } = pseudoInverse(rowsOf(a, n, n));
					const g = Float64Array.from(inverse.flatMap((row) => [...row]));
					const times = (p: Float64Array, q: Float64Array): Float64Array => {
						const out = new Float64Array(n * n);
						for (let i = 0; i < n; i++)
							for (let j = 0; j < n; j++)
								for (let k = 0; k < n; k++)
									out[i * n + j] += p[i * n + k] * q[k * n + j];
						return out;
					};
					const back = times(times(a, g), a);
					a.forEach((v, i) => {
						expect(back[i]).toBeCloseTo(v, 7);
					});
					// the trace of G A is the rank
					const ga = times(g, a);
					let trace = 0;
					for (let i = 0; i < n; i++) trace += ga[i * n + i];
					expect(trace).toBeCloseTo(rank, 7);
				},
			),
			{ numRuns: 300, seed: 4 },
		);
	});
});
