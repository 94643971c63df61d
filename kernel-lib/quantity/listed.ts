const conjunction = new Intl.ListFormat("en-GB", {
	style: "long",
	type: "conjunction",
});

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[]): string {
	return conjunction.format(items);
}
