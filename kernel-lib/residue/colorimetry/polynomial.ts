import { inverseOfPositiveDefinite } from "../../linear";
import { ProblemError, problem } from "../../quantity";

/** A polynomial of degree 1 or 2 through weighted points, and how well its coefficients are known. Plain numbers. */
export interface Polynomial {
	/** Of 1, x and x²; 0 for a term that the model does not have. */
	readonly coefficients: readonly [number, number, number];
	/** Covariance of the coefficients for a variance of 1 of a reading of weight 1; zero rows for terms that are not there. */
	readonly unscaledCovariance: readonly (readonly number[])[];
	/** Sum of w (y - f)². */
	readonly residualSquares: number;
}

/** The powers of x that a polynomial has. */
export type Powers = readonly (0 | 1 | 2)[];

/** What is left of a sum of squares, beside the terms before it, must be more than this share of it for the standards to tell the terms apart. */
const tellsApart = 1e-12;

/**
 * Least squares of y = sum of c_p x^p over the given powers, each point with its weight. The work is done in u = (x - centre)/spread, where the normal equations are well conditioned, and carried back
 * to x.
 *
 * @throws ProblemError where the x do not determine the coefficients
 */
export function fitPolynomial(
	x: readonly number[],
	y: readonly number[],
	weights: readonly number[],
	powers: Powers,
): Polynomial {
	const sum = (f: (i: number) => number): number =>
		x.reduce((s, _, i) => s + f(i), 0);
	const total = sum((i) => weights[i]);
	const constant = powers.includes(0);
	const centre = constant ? sum((i) => weights[i] * x[i]) / total : 0;
	const spread =
		Math.sqrt(sum((i) => weights[i] * (x[i] - centre) ** 2) / total) || 1;
	const u = x.map((v) => (v - centre) / spread);
	const inverted = inverseOfPositiveDefinite(
		powers.map((p) =>
			powers.map((q) => sum((i) => weights[i] * u[i] ** (p + q))),
		),
		tellsApart,
	);
	if (inverted.is === "not positive definite")
		throw new ProblemError([
			problem(
				"too-few-standards",
				{ column: "concentration" },
				"standards at too few different concentrations for this line",
				"concentrations that lie clearly apart",
				"Read more standards: five or six, spread over the range, are usual.",
			),
		]);
	const v = inverted.inverse.map((row) => Array.from(row));
	// Centred y keeps the digits of large, nearly equal readings.
	const middle = constant ? sum((i) => weights[i] * y[i]) / total : 0;
	const right = powers.map((p) =>
		sum((i) => weights[i] * u[i] ** p * (y[i] - middle)),
	);
	const inU = v.map((row) => row.reduce((s, e, j) => s + e * right[j], 0));
	const residualSquares = sum((i) => {
		const fitted = powers.reduce<number>(
			(s, p, j) => s + inU[j] * u[i] ** p,
			0,
		);
		return weights[i] * (y[i] - middle - fitted) ** 2;
	});
	// u^p = ((x - centre)/spread)^p, written in powers of x
	const expanded: Readonly<Record<0 | 1 | 2, readonly number[]>> = {
		0: [1, 0, 0],
		1: [-centre / spread, 1 / spread, 0],
		2: [(centre / spread) ** 2, (-2 * centre) / spread ** 2, spread ** -2],
	};
	const toX = [0, 1, 2].map((r) => powers.map((p) => expanded[p][r]));
	const [a, b, k] = toX.map((row) =>
		row.reduce((s, e, j) => s + e * inU[j], 0),
	);
	const unscaledCovariance = toX.map((left) =>
		toX.map((other) =>
			left.reduce(
				(s, l, i) => s + l * other.reduce((r, o, j) => r + v[i][j] * o, 0),
				0,
			),
		),
	);
	return {
		coefficients: [a + middle, b, k],
		unscaledCovariance,
		residualSquares,
	};
}
