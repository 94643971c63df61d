/** Where the iteration stands: how far the function is from its target, signed towards larger arguments, and how fast it changes. */
export interface NewtonState {
	readonly gap: number;
	readonly slope: number;
}

/** No single step is longer; a start far off is then approached in a few of them. */
const LONGEST_STEP = 8;

/**
 * Newton's iteration on a variable whose scale is about 1 (a logarithm, say). The next argument is
 * v + gap / slope, halved back whenever it would leave the interval that the signs of the gaps have enclosed.
 */
export function newton(start: number, at: (v: number) => NewtonState): number {
	let v = start;
	let low = Number.NEGATIVE_INFINITY;
	let high = Number.POSITIVE_INFINITY;
	for (let iteration = 0; iteration < 200; iteration++) {
		const { gap, slope } = at(v);
		if (gap === 0) return v;
		if (gap > 0) low = v;
		else high = v;
		const step = gap / slope;
		// underflow of the function leaves only the direction
		const move = Number.isFinite(step)
			? Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, step))
			: Math.sign(gap) * LONGEST_STEP;
		const next = v + move;
		if (Math.abs(move) < 1e-9) return next;
		v = next > low && next < high ? next : (low + high) / 2;
	}
	return v;
}
