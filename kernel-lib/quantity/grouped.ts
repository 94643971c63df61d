/** Items by a key of theirs, in the order of their first. */
export function grouped<T>(
	items: Iterable<T>,
	keyOf: (item: T) => string,
): Map<string, T[]> {
	const groups = new Map<string, T[]>();
	for (const item of items) {
		const key = keyOf(item);
		const own = groups.get(key);
		if (own === undefined) groups.set(key, [item]);
		else own.push(item);
	}
	return groups;
}
