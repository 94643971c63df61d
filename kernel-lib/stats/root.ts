import { refuse } from "./checks";

/**
 * Root of a continuous f between `low` and `high`, where f has opposite signs (or is zero): regula falsi with the
 * Illinois correction (Dowell and Jarratt 1971, BIT 11, 168), to `tolerance` in the argument.
 */
export function bracketedRoot(
	f: (x: number) => number,
	low: number,
	high: number,
	tolerance: number,
): number {
	let a = low;
	let b = high;
	let fa = f(a);
	let fb = f(b);
	if (fa === 0) return a;
	if (fb === 0) return b;
	if (!(fa * fb < 0)) {
		refuse(
			"no-root-between",
			`a function with the same sign at ${low} and ${high} (${fa} and ${fb})`,
			"opposite signs at the two ends",
			"Widen the interval in which the root is looked for.",
		);
	}
	for (let iteration = 0; iteration < 200; iteration++) {
		const x = b - (fb * (b - a)) / (fb - fa);
		const fx = f(x);
		if (fx === 0) return x;
		if (fx * fb < 0) {
			a = b;
			fa = fb;
		} else {
			fa /= 2;
		}
		const moved = Math.abs(x - b);
		b = x;
		fb = fx;
		if (Math.abs(b - a) <= tolerance || moved <= tolerance * 0.1) return b;
	}
	return b;
}
