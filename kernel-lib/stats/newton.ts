/**
 * Newton's iteration on a variable whose scale is about 1 (a logarithm, say): step(v) returns -f(v)/f'(v).
 * Every use here has a concave f on its logarithmic axis, from which Newton converges wherever it starts.
 */
export function newton(start: number, step: (v: number) => number): number {
	let v = start;
	for (let iteration = 0; iteration < 200; iteration++) {
		const move = step(v);
		v += Math.max(-50, Math.min(50, move));
		if (Math.abs(move) < 1e-9) return v;
	}
	return v;
}
