import { deviance, stirlingError } from "./stirling";

/** A probability and its complement, each with its own full relative accuracy. */
export interface Tails {
	readonly lower: number;
	readonly upper: number;
}

/**
 * Regularised incomplete gamma functions P(a, x) and Q(a, x), a > 0, x >= 0.
 * Series below the mean, continued fraction above it: DLMF 8.11.4 and 8.9.2, the latter by Lentz's method.
 */
export function incompleteGamma(a: number, x: number): Tails {
	if (x <= 0) return { lower: 0, upper: 1 };
	if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
	// x^a e^-x / Gamma(a + 1)
	const power =
		Math.exp(-stirlingError(a) - deviance(a, x)) / Math.sqrt(2 * Math.PI * a);
	if (x < a + 1) {
		let term = 1;
		let sum = 1;
		for (let n = 1; term > sum * 1e-17; n++) {
			term *= x / (a + n);
			sum += term;
		}
		const lower = Math.min(1, power * sum);
		return { lower, upper: 1 - lower };
	}
	const upper = Math.min(1, power * a * upperFraction(a, x));
	return { lower: 1 - upper, upper };
}

/** Gamma(a, x) e^x x^-a as the even part of its continued fraction. */
function upperFraction(a: number, x: number): number {
	let b = x + 1 - a;
	let c = 1e300;
	let d = 1 / b;
	let value = d;
	for (let n = 1; n < 1e6; n++) {
		const numerator = n * (a - n);
		b += 2;
		d = 1 / nonZero(numerator * d + b);
		c = nonZero(b + numerator / c);
		const factor = c * d;
		value *= factor;
		if (Math.abs(factor - 1) < 1e-16) break;
	}
	return value;
}

function nonZero(value: number): number {
	return Math.abs(value) < 1e-300 ? 1e-300 : value;
}
