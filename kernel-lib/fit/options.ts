import { type Problem, type ProblemPlace, problem } from "../quantity";

/** One problem for every key of `given` that is not among `known`, with the nearest known key. */
export function unknownKeys(
	given: object,
	known: readonly string[],
	where: Partial<ProblemPlace>,
): Problem[] {
	return Object.keys(given)
		.filter((key) => !known.includes(key))
		.map((key) =>
			problem(
				"unknown-option",
				where,
				`"${key}"`,
				`one of ${known.join(", ")}`,
				didYouMean(key, known),
			),
		);
}

/** One problem for every name in `given` that no parameter bears. */
export function unknownParameters(
	given: readonly string[],
	names: readonly string[],
	option: string,
): Problem[] {
	return given
		.filter((name) => !names.includes(name))
		.map((name) =>
			problem(
				"unknown-parameter",
				{ column: option },
				`"${name}"`,
				`a parameter of the model: ${names.join(", ")}`,
				didYouMean(name, names),
			),
		);
}

/** A problem if a word was given that is none of those allowed. */
export function unknownWord(
	column: string,
	value: string | undefined,
	allowed: readonly string[],
): Problem[] {
	return value === undefined || allowed.includes(value)
		? []
		: [
				problem(
					"unknown-word",
					{ column },
					`"${value}"`,
					`one of ${allowed.map((word) => `"${word}"`).join(", ")}`,
					"Take one of these, or leave it out.",
				),
			];
}

function didYouMean(key: string, known: readonly string[]): string {
	const near = known
		.map((candidate) => ({
			candidate,
			distance: editDistance(key.toLowerCase(), candidate.toLowerCase()),
		}))
		.sort((a, b) => a.distance - b.distance)[0];
	return near && near.distance <= Math.max(2, near.candidate.length / 2)
		? `Did you mean "${near.candidate}"?`
		: "Leave it out or correct it.";
}

/** Levenshtein distance of two words. */
function editDistance(a: string, b: string): number {
	let row = Array.from({ length: b.length + 1 }, (_, j) => j);
	for (let i = 1; i <= a.length; i++) {
		const next = [i];
		for (let j = 1; j <= b.length; j++)
			next.push(
				Math.min(
					row[j] + 1,
					next[j - 1] + 1,
					row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1),
				),
			);
		row = next;
	}
	return row[b.length];
}
