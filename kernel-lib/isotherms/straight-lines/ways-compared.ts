import {
	fixed,
	listed,
	objectOption,
	problem,
	type ResultKind,
	requireArgument,
	requireResults,
	type Table,
	table,
	throwProblems,
	withTable,
} from "../../quantity";
import { confidenceText } from "../intervals";
import type { RepeatedWay, Repeats } from "./repeated-ways";

/** What the ways of reading a plateau off made of one or two sets of repeats. */
export interface WaysCompared {
	/** Which ways held the true value as often as they promise, in one plain sentence for the title of a page. */
	readonly finding: string;
	/** What holding it often is worth where the estimates scatter widely; empty where none do. */
	readonly statements: readonly string[];
	/** A row a way: how often it held the true value in each set. */
	readonly table: Table;
}

/** From so many repeats on, how often a way holds the truth is known to some per cent. Our decision. */
const enoughTrials = 100;

/** A way holds the truth too seldom where chance gives as little in one of some thousand sets: so many standard deviations of a count. Our decision. */
const chanceWithin = 3;

/** A way that scatters so many times as widely as the fitted curve is called vague. Our decision. */
const vagueFrom = 2;

const mostSets = 2;

const repeatsKind: ResultKind = {
	parts: ["truth", "trials", "ways"],
	expected: "repeats, as isotherms.repeatTrial(points) returns them",
};

type NamedSet = readonly [name: string, repeats: Repeats];

function leastHeld({ confidence, trials }: Repeats): number {
	return (
		confidence -
		chanceWithin * Math.sqrt((confidence * (1 - confidence)) / trials)
	);
}

/** One way through all sets. */
interface Way {
	readonly name: string;
	/** Its lowest share of repeats that held the truth. */
	readonly worst: number;
	readonly tooSeldom: boolean;
}

function waysOf(sets: readonly Repeats[]): Way[] {
	return sets[0].ways.map(({ name }, k) => {
		const covered = sets.map((s) => s.ways[k].covered);
		return {
			name,
			worst: Math.min(...covered),
			tooSeldom: sets.some((s, i) => covered[i] < leastHeld(s)),
		};
	});
}

function ofHundred(share: number): string {
	return fixed(100 * share, 0);
}

/** "80", "80 to 88". */
function rangeText(ways: readonly Way[]): string {
	const [low, high] = [Math.min, Math.max].map((end) =>
		ofHundred(end(...ways.map((w) => w.worst))),
	);
	return low === high ? low : `${low} to ${high}`;
}

function linesText(lines: readonly Way[], fitted: Way): string {
	const bad = lines.filter((w) => w.tooSeldom);
	const but = fitted.tooSeldom ? "and" : "but";
	const all = `those of all ${lines.length} straight-line forms`;
	if (bad.length === 0)
		return fitted.tooSeldom ? `but ${all} did` : `and so did ${all}`;
	const which =
		bad.length === lines.length
			? all
			: `of ${lines.length} straight-line forms those of ${bad.length}`;
	return `${but} ${which} did not (${rangeText(bad)} at worst)`;
}

function findingOf(sets: readonly Repeats[]): string {
	const fewest = Math.min(...sets.map((s) => s.trials));
	if (fewest < enoughTrials)
		return `${fewest} repeats are too few to see which way holds the true value as often as it promises: ${enoughTrials} would show it.`;
	const [fitted, ...lines] = waysOf(sets);
	const { confidence } = sets[0];
	const held = fitted.tooSeldom
		? `here even the fitted curve's did not (${ofHundred(fitted.worst)} at worst)`
		: "the fitted curve's did";
	return `A ${confidenceText(confidence)} interval should hold the true value in ${ofHundred(confidence)} of 100 repeats: ${held}, ${linesText(lines, fitted)}.`;
}

function widthOf({ low, high }: RepeatedWay): number {
	return high - low;
}

/** "with all flasks C/q against C 17 times" */
function vagueIn(
	name: string,
	{ ways: [fitted, ...lines] }: Repeats,
): string[] {
	const vague = lines.flatMap((w) => {
		const times = widthOf(w) / widthOf(fitted);
		return times >= vagueFrom && Number.isFinite(times)
			? [`${w.name} ${fixed(times, 0)} times`]
			: [];
	});
	return vague.length === 0 ? [] : [`with ${name} ${listed(vague)}`];
}

/** What holding the truth often is worth where estimates scatter widely. */
function vagueText(named: readonly NamedSet[]): string[] {
	const vague = named.flatMap(([name, s]) => vagueIn(name, s));
	return vague.length === 0
		? []
		: [
				`A wide interval holds the true value often and says little: ${vague.join("; ")} as widely spread as the fitted curve.`,
			];
}

function waysTable(named: readonly NamedSet[]): Table {
	const [, first] = named[0];
	const confidence = confidenceText(first.confidence);
	return table(
		`True plateau ${fixed(first.truth.plateau, 0)} mg/g; ${listed(named.map(([name, s]) => `${s.trials} repeats with ${name}`))}`,
		["way", ...named.map(([name]) => `${name}: held (%)`)],
		first.ways.map(({ name }, k) => [
			name,
			...named.map(([, s]) => ofHundred(s.ways[k].covered)),
		]),
		[
			`Held: repeats in which the way's own ${confidence} interval held the true value.`,
		],
	);
}

/**
 * Which ways of reading a plateau off held the true value as often as their intervals promise, over one or two sets of repeats: in a sentence and as a table with a row a way.
 *
 * @param sets repeats by what they were made with, such as { "all flasks": repeats }
 * @throws ProblemError for no set, for more than two, and for sets of different confidence
 * @example
 * const points = isotherms.isothermPoints(isothermTrial, "fired twice");
 * const repeats = isotherms.repeatTrial(points, { trials: 2 });
 * isotherms.waysCompared({ "all flasks": repeats }).finding.slice(0, 21) // => "2 repeats are too few"
 */
export function waysCompared(
	sets: Readonly<Record<string, Repeats>>,
): WaysCompared {
	requireArgument(
		sets,
		objectOption('repeats by name, such as { "all flasks": repeats }'),
		"waysCompared",
	);
	const named = Object.entries(sets);
	const repeats = named.map(([, s]) => s);
	requireResults(repeats, repeatsKind, "waysCompared");
	const confidences = new Set(repeats.map((s) => s.confidence)).size;
	throwProblems(
		named.length >= 1 && named.length <= mostSets && confidences === 1
			? []
			: [
					problem(
						"sets-of-repeats",
						{ call: "waysCompared" },
						confidences > 1
							? `sets of ${confidences} confidences`
							: `${named.length} sets of repeats`,
						`one or ${mostSets} sets of one confidence`,
						"Give the two that belong side by side.",
					),
				],
	);
	return withTable(
		{
			finding: findingOf(repeats),
			statements: vagueText(named),
		},
		() => waysTable(named),
	);
}
