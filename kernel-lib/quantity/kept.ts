/** A step that is computed when it is first asked for and then kept as long as the object it was computed from. */
export function kept<From extends object, T>(
	compute: (from: From) => T,
): (from: From) => T {
	const results = new WeakMap<From, { readonly value: T }>();
	return (from) => {
		const before = results.get(from);
		if (before !== undefined) return before.value;
		const value = compute(from);
		results.set(from, { value });
		return value;
	};
}
