/** The known word that is nearest to a mistyped one; "" when none is near. Distance: edits of single letters, at most a third of the word. */
export function nearest(word: string, known: readonly string[]): string {
	const scored = known
		.map((k) => ({ k, d: distance(word.toLowerCase(), k.toLowerCase()) }))
		.sort((a, b) => a.d - b.d);
	return scored.length > 0 &&
		scored[0].d <= Math.max(1, Math.floor(scored[0].k.length / 3))
		? scored[0].k
		: "";
}

function distance(a: string, b: string): number {
	let row = Array.from({ length: b.length + 1 }, (_, j) => j);
	for (let i = 1; i <= a.length; i++) {
		const next = [i];
		for (let j = 1; j <= b.length; j++)
			next.push(
				Math.min(
					next[j - 1] + 1,
					row[j] + 1,
					row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1),
				),
			);
		row = next;
	}
	return row[b.length];
}

/** ' Did you mean "x"?' or a list of what there is. */
export function didYouMean(word: string, known: readonly string[]): string {
	const near = nearest(word, known);
	return near === ""
		? `There is ${known.map((k) => `"${k}"`).join(", ")}.`
		: `Did you mean "${near}"?`;
}
