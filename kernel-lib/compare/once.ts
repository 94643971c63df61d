/** The same function of a number, computed once for each. */
export function once<T>(compute: (x: number) => T): (x: number) => T {
	const known = new Map<number, T>();
	return (x) => {
		const before = known.get(x);
		if (before !== undefined) return before;
		const found = compute(x);
		known.set(x, found);
		return found;
	};
}
