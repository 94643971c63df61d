/** Made when it is first asked for, and once: following the ends of an interval takes longer than the fit, and whoever only compares curves does not look at them. */
export function lazily<T>(make: () => T): () => T {
	let made: { readonly value: T } | undefined;
	return () => {
		made ??= { value: make() };
		return made.value;
	};
}
