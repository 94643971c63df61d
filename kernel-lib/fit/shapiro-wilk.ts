import { known, type MaybeKnown, notKnown } from "../quantity";
import { normalCdf, normalQuantile } from "../stats";

/**
 * Shapiro and Wilk's W and its p-value for 3 to 5000 values.
 * Source: Royston 1995, Appl. Stat. 44, 547 (algorithm AS R94), approximations of 1992, Stat. Comput. 2, 117.
 */
export function shapiroWilk(
	values: ArrayLike<number>,
): MaybeKnown<{ readonly w: number; readonly p: number }> {
	const x = Float64Array.from(values).sort();
	const n = x.length;
	if (n < 3) return notKnown("a test of normality needs at least 3 values");
	if (n > 5000) return notKnown("the test's approximations end at 5000 values");
	const range = x[n - 1] - x[0];
	if (!x.every(Number.isFinite) || !Number.isFinite(range))
		return notKnown("some values are not finite");
	if (range === 0) return notKnown("all values are equal");
	// W has no unit; in parts of their range the squares of even the smallest values keep their digits.
	for (let i = n - 1; i >= 0; i--) x[i] = (x[i] - x[0]) / range;
	const a = weights(n);
	const mean = x.reduce((s, v) => s + v, 0) / n;
	let squares = 0;
	let sum = 0;
	for (let i = 0; i < n; i++) {
		squares += (x[i] - mean) ** 2;
		sum += a[i] * x[i];
	}
	const w = Math.min(1, (sum * sum) / squares);
	return known({ w, p: pValue(w, n) });
}

/** The weights of the ordered values, antisymmetric and of length 1. */
function weights(n: number): Float64Array {
	const a = new Float64Array(n);
	if (n === 3) {
		a[0] = -Math.SQRT1_2;
		a[2] = Math.SQRT1_2;
		return a;
	}
	const m = Float64Array.from({ length: n }, (_, i) =>
		normalQuantile((i + 1 - 0.375) / (n + 0.25)),
	);
	const length = m.reduce((s, v) => s + v * v, 0);
	const u = 1 / Math.sqrt(n);
	const last =
		m[n - 1] / Math.sqrt(length) +
		polynomial([0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056], u);
	if (n <= 5) {
		const phi = (length - 2 * m[n - 1] ** 2) / (1 - 2 * last * last);
		for (let i = 0; i < n; i++) a[i] = m[i] / Math.sqrt(phi);
	} else {
		const nextToLast =
			m[n - 2] / Math.sqrt(length) +
			polynomial([0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633], u);
		const phi =
			(length - 2 * m[n - 1] ** 2 - 2 * m[n - 2] ** 2) /
			(1 - 2 * last * last - 2 * nextToLast * nextToLast);
		for (let i = 0; i < n; i++) a[i] = m[i] / Math.sqrt(phi);
		a[n - 2] = nextToLast;
		a[1] = -nextToLast;
	}
	a[n - 1] = last;
	a[0] = -last;
	return a;
}

function pValue(w: number, n: number): number {
	if (n === 3)
		return Math.max(
			0,
			(6 / Math.PI) * (Math.asin(Math.sqrt(w)) - Math.asin(Math.sqrt(0.75))),
		);
	const logN = Math.log(n);
	if (n <= 11) {
		const gamma = polynomial([-2.273, 0.459], n);
		const miss = gamma - Math.log1p(-w);
		if (miss <= 0) return 0;
		const z =
			(-Math.log(miss) -
				polynomial([0.544, -0.39978, 0.025054, -6.714e-4], n)) /
			Math.exp(polynomial([1.3822, -0.77857, 0.062767, -0.0020322], n));
		return normalCdf(-z);
	}
	const z =
		(Math.log1p(-w) -
			polynomial([-1.5861, -0.31082, -0.083751, 0.0038915], logN)) /
		Math.exp(polynomial([-0.4803, -0.082676, 0.0030302], logN));
	return normalCdf(-z);
}

function polynomial(coefficients: readonly number[], x: number): number {
	return coefficients.reduceRight((sum, c) => sum * x + c, 0);
}
