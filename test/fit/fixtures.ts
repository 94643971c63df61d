import { defineModel, type Fit } from "../../kernel-lib/fit";
import type { MaybeKnown } from "../../kernel-lib/quantity";

/** a + b x: everything about it is known in closed form. */
export const line = defineModel({
	name: "line",
	parameters: ["a", "b"],
	curve: (x, a, b) => a + b * x,
});

/** A single level: the location problem. */
export const level = defineModel({
	name: "level",
	parameters: ["a"],
	curve: (_x, a) => a,
});

/** q k x / (1 + k x). */
export const hyperbola = defineModel({
	name: "hyperbola",
	parameters: [
		{ name: "q", unit: "mg/g", lower: 0 },
		{ name: "k", unit: "L/mg", lower: 0 },
	],
	curve: (x, q, k) => (q * k * x) / (1 + k * x),
});

/** a + b exp(-k x), with a not below 0. */
export const decay = defineModel({
	name: "decay",
	parameters: [{ name: "a", lower: 0 }, "b", { name: "k", lower: 0 }],
	curve: (x, a, b, k) => a + b * Math.exp(-k * x),
});

/** Ten concentrations spread like those of an isotherm. */
export const tenDoses: readonly number[] = [
	2, 5, 10, 20, 35, 50, 75, 100, 150, 200,
];

/** The value, or an error that says why there is none. */
export function valueIn<T>(known: MaybeKnown<T>): T {
	if (known.is === "not known") throw new Error(known.because);
	return known.value;
}

export function standardErrors(fit: Fit): number[] {
	return fit.parameters.map((p) => valueIn(p.standardError));
}

/** The value of a limit that is closed. */
export function closed(
	limit: { readonly kind: string } & { readonly value?: number },
): number {
	if (limit.kind !== "closed") throw new Error(`the limit is ${limit.kind}`);
	return limit.value as number;
}

/** Largest relative difference of two rows of numbers. */
export function apart(a: ArrayLike<number>, b: ArrayLike<number>): number {
	if (a.length !== b.length) throw new Error("rows of different length");
	return Array.from(a).reduce(
		(most, v, i) => Math.max(most, Math.abs(v - b[i]) / Math.abs(b[i] || 1)),
		0,
	);
}

/** Solves A x = b by Gaussian elimination with pivoting: the tests' own algebra, which shares nothing with the engine's. */
export function solveLinear(
	matrix: readonly (readonly number[])[],
	right: readonly number[],
): number[] {
	const a = matrix.map((row, i) => [...row, right[i]]);
	const n = a.length;
	for (let c = 0; c < n; c++) {
		const pivot = a
			.slice(c)
			.reduce(
				(best, row, i) =>
					Math.abs(row[c]) > Math.abs(a[best][c]) ? c + i : best,
				c,
			);
		[a[c], a[pivot]] = [a[pivot], a[c]];
		for (let r = 0; r < n; r++) {
			if (r === c) continue;
			const factor = a[r][c] / a[c][c];
			a[r] = a[r].map((v, k) => v - factor * a[c][k]);
		}
	}
	return a.map((row, i) => row[n] / row[i]);
}

export function inverse(matrix: readonly (readonly number[])[]): number[][] {
	const columns = matrix.map((_, j) =>
		solveLinear(
			matrix,
			matrix.map((__, i) => (i === j ? 1 : 0)),
		),
	);
	return matrix.map((_, i) => columns.map((column) => column[i]));
}

/** (X' W X)^-1 X' W y and (X' W X)^-1 for a design X (rows are points) and W the inverse covariance of the points. */
export function generalisedLeastSquares(
	design: readonly (readonly number[])[],
	y: readonly number[],
	weight: readonly (readonly number[])[],
): { estimate: number[]; covariance: number[][] } {
	const p = design[0].length;
	const form = (left: (i: number) => number, right: (j: number) => number) =>
		weight.reduce(
			(sum, row, i) =>
				sum + row.reduce((s, w, j) => s + left(i) * w * right(j), 0),
			0,
		);
	const normal = Array.from({ length: p }, (_, a) =>
		Array.from({ length: p }, (__, b) =>
			form(
				(i) => design[i][a],
				(j) => design[j][b],
			),
		),
	);
	const moment = Array.from({ length: p }, (_, a) =>
		form(
			(i) => design[i][a],
			(j) => y[j],
		),
	);
	return { estimate: solveLinear(normal, moment), covariance: inverse(normal) };
}
