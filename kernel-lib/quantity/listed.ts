const formats = {
	and: new Intl.ListFormat("en-GB", { type: "conjunction" }),
	or: new Intl.ListFormat("en-GB", { type: "disjunction" }),
};

/** "a", "a and b", "a, b and c"; or the same with "or". */
export function listed(
	items: readonly string[],
	word: "and" | "or" = "and",
): string {
	return formats[word].format(items);
}
