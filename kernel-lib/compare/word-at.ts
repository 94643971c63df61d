import { known } from "../quantity";
import { type Audited, auditedAt, harmlessAbove } from "./audit";
import type { Obstacle } from "./obstacle";
import { type Claim, type Interval, type VerdictWord, wordFor } from "./word";

/** What the word of a pair follows from at any margin, as plain data. */
export interface WordGround {
	readonly claim: Claim;
	/** The difference whatever the slopes are and with room for what soaks may have left; where only a bound is known, without the flasks that gave it and with them at their limit, and a word is said where both give it. None where there is no difference. */
	readonly judged: readonly {
		readonly interval: Interval;
		/** What must lie inside the margin for "no difference that matters". */
		readonly within: Interval;
	}[];
	/** Where only a bound is known, the one word that it can prove. */
	readonly provable: "any" | "higher" | "lower";
	/** The words that may not be said, each with what forbids it, and up to which margin (mg/g): a plateau with time is shown by a change that is small against the margin. */
	readonly forbidden: readonly {
		readonly word: VerdictWord;
		readonly obstacles: readonly Obstacle[];
		readonly upTo: "every margin" | number;
	}[];
}

/** The words that obstacles forbid, each with them. */
export function forbiddenWords(
	audited: readonly Audited[],
	obstaclesTo: (
		word: VerdictWord,
		audited: readonly Audited[],
	) => readonly Obstacle[],
): WordGround["forbidden"] {
	const always = auditedAt(audited, known(Number.POSITIVE_INFINITY));
	const below = auditedAt(audited, known(0));
	return (["no difference that matters", "higher", "lower"] as const).flatMap(
		(word): WordGround["forbidden"] => {
			const obstacles = obstaclesTo(word, always);
			if (obstacles.length > 0)
				return [{ word, obstacles, upTo: "every margin" }];
			const few = obstaclesTo(word, below);
			return few.length > 0
				? [{ word, obstacles: few, upTo: harmlessAbove(audited) }]
				: [];
		},
	);
}

/** The word at another margin, mg/g: the same as if it had been set. */
export function wordAt(
	{ claim, judged, provable, forbidden }: WordGround,
	margin: number,
): VerdictWord {
	const words = new Set(
		judged.map(({ interval, within }) =>
			wordFor(interval, { margin: known(margin), claim }, within),
		),
	);
	const [word] = words;
	return words.size === 1 &&
		(provable === "any" || provable === word) &&
		!forbidden.some(
			(f) => f.word === word && (f.upTo === "every margin" || margin <= f.upTo),
		)
		? word
		: "cannot tell";
}
