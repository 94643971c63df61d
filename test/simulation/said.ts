/** What the verdicts of simulated trials said, and how often it was false. */
import type { VerdictWord } from "../../kernel-lib/compare/index";
import { hold } from "./trials";

export const words = [
	"higher",
	"lower",
	"no difference that matters",
	"cannot tell",
] as const;

/** What a trial said of one treatment, and the true difference of what it spoke about (mg/g, at the same residue). */
export interface Said {
	readonly treatment: string;
	readonly word: VerdictWord;
	readonly trueDifference: number;
}

export const falseDirection = ({ word, trueDifference }: Said): boolean =>
	(word === "higher" && trueDifference <= 0) ||
	(word === "lower" && trueDifference >= 0);

export const falseSameness = (said: Said, margin: number): boolean =>
	said.word === "no difference that matters" &&
	Math.abs(said.trueDifference) > margin;

/** Trials, how many were asked for, and the largest share of them that may hold a false word. */
export interface Asked {
	readonly simulation: string;
	readonly design: string;
	readonly asked: number;
	readonly most: number;
}

/** A false "higher" or "lower" for any treatment of a trial. */
export function holdDirections(
	{ most, ...asked }: Asked,
	trials: readonly (readonly Said[])[],
): void {
	hold({
		...asked,
		what: 'a false "higher" or "lower"',
		hits: trials.filter((t) => t.some(falseDirection)).length,
		trials: trials.length,
		most,
	});
}

/** A false "no difference that matters" for any treatment of a trial. */
export function holdSameness(
	{ most, ...asked }: Asked,
	trials: readonly (readonly Said[])[],
	margin: number,
): void {
	hold({
		...asked,
		what: 'a false "no difference that matters"',
		hits: trials.filter((t) => t.some((said) => falseSameness(said, margin)))
			.length,
		trials: trials.length,
		most,
	});
}

/** How often each word was said, in percent. */
export function shareOfWords(said: readonly Said[]): Record<string, number> {
	return Object.fromEntries(
		words.map((word) => [
			word,
			percent(said.filter((s) => s.word === word).length / said.length),
		]),
	);
}

export const percent = (share: number): number =>
	Number((100 * share).toFixed(1));
