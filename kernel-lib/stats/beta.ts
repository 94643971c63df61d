import type { Tails } from "./gamma";
import { deviance, stirlingError } from "./stirling";

/** x^a y^b / B(a, b) with y = 1 - x, in Loader's form (see stirling.ts). */
export function betaPower(a: number, b: number, x: number, y: number): number {
	const n = a + b;
	const exponent =
		stirlingError(n) -
		stirlingError(a) -
		stirlingError(b) -
		deviance(a, n * x) -
		deviance(b, n * y);
	return Math.exp(exponent) * Math.sqrt((a / n) * (b / (2 * Math.PI)));
}

/**
 * Regularised incomplete beta function I_x(a, b) and its complement; a, b > 0. y = 1 - x is asked for because the
 * caller often knows it better than the subtraction would. Continued fraction DLMF 8.17.22 by Lentz's method.
 */
export function incompleteBeta(
	a: number,
	b: number,
	x: number,
	y: number,
): Tails {
	if (x <= 0) return { lower: 0, upper: 1 };
	if (y <= 0) return { lower: 1, upper: 0 };
	const power = betaPower(a, b, x, y);
	if (x * (a + b + 2) < a + 1) {
		const lower = Math.min(1, (power / a) * betaFraction(a, b, x));
		return { lower, upper: 1 - lower };
	}
	const upper = Math.min(1, (power / b) * betaFraction(b, a, y));
	return { lower: 1 - upper, upper };
}

function betaFraction(a: number, b: number, x: number): number {
	let c = 1;
	let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1));
	let value = d;
	for (let m = 1; m < 1e6; m++) {
		const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
		d = 1 / nonZero(1 + even * d);
		c = nonZero(1 + even / c);
		value *= d * c;
		const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
		d = 1 / nonZero(1 + odd * d);
		c = nonZero(1 + odd / c);
		const factor = d * c;
		value *= factor;
		if (Math.abs(factor - 1) < 1e-16) break;
	}
	return value;
}

function nonZero(value: number): number {
	return Math.abs(value) < 1e-300 ? 1e-300 : value;
}
