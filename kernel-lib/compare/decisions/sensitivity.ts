import {
	fixed,
	grouped,
	ProblemError,
	plainNumber,
	quoted,
	type Table,
	table,
} from "../../quantity";
import { differencePlaces } from "../difference-places";
import type { Comparison, TreatmentVerdict } from "../verdict";
import {
	type Alternative,
	type Asked,
	decisionRules,
	type Outcome,
} from "./rules";

/** One treatment under another decision; null where nothing can be compared then. */
type Moved = Outcome | null;

function movedBy(
	alternative: Alternative,
	{ verdicts }: Comparison,
	compare: (asked: Asked) => Comparison,
): readonly Moved[] {
	if (alternative.by === "this comparison")
		return verdicts.map(alternative.outcomeOf);
	try {
		const other = compare(alternative.asked);
		return verdicts.map(
			({ treatment }) =>
				other.verdicts.find((v) => v.treatment === treatment) ?? null,
		);
	} catch (error) {
		if (error instanceof ProblemError) return verdicts.map(() => null);
		throw error;
	}
}

function differenceText({ difference: d }: Outcome, places: number): string {
	switch (d.is) {
		case "estimate":
			return `${fixed(d.estimate, places)} (${fixed(d.low, places)} to ${fixed(d.high, places)})`;
		case "not available":
			return "no difference known";
		default:
			return `${d.is} ${fixed(d.limit, places)}`;
	}
}

/** "by -3: "; "" where only the interval moves, or nothing that can be shown. */
function moveText(own: Outcome, there: Outcome, places: number): string {
	if (own.difference.is !== "estimate" || there.difference.is !== "estimate")
		return "";
	const move = there.difference.estimate - own.difference.estimate;
	return Math.abs(move) < 0.5 * 10 ** -(places + 1)
		? ""
		: `by ${fixed(move, places + 1)}: `;
}

/** "by 2.7: 34 (26 to 42)" or, where the word goes with it, "by -19.2: 12 (-1 to 25), now cannot tell". */
function cellText(own: TreatmentVerdict, moved: Moved): string {
	if (moved === null) return "nothing can be compared";
	const places = differencePlaces(own);
	const there = differenceText(moved, places);
	const sameWord = moved.word === own.word;
	if (sameWord && there === differenceText(own, places)) return "the same";
	return `${moveText(own, moved, places)}${there}${sameWord ? "" : `, now ${moved.word}`}`;
}

interface Row {
	readonly decision: string;
	readonly instead: string;
	readonly moved: readonly Moved[];
}

/** Words that hang on a decision: each once, with all decisions that make it so. */
function wordNote(c: Comparison, rows: readonly Row[]): string {
	const changed = c.verdicts.flatMap((v, i) => {
		const away = rows.flatMap(({ decision, instead, moved }) => {
			const there = moved[i];
			return there === null || there.word === v.word
				? []
				: [{ word: there.word, by: `${decision} ${instead}` }];
		});
		return [...grouped(away, (a) => a.word)].map(
			([word, own]) =>
				`${quoted(v.treatment)} is "${word}" instead of "${v.word}" with ${own.map((a) => a.by).join("; or with ")}`,
		);
	});
	return changed.length === 0
		? "None of them moves a word."
		: `Words that hang on a decision: ${changed.join(". ")}.`;
}

function largestNote(c: Comparison, rows: readonly Row[]): string[] {
	const moves = c.verdicts.flatMap(({ treatment, difference }, i) =>
		rows.flatMap(({ decision, instead, moved }) => {
			const there = moved[i]?.difference;
			return difference.is === "estimate" && there?.is === "estimate"
				? [
						{
							size: Math.abs(there.estimate - difference.estimate),
							where: `${quoted(treatment)}, ${decision} ${instead}`,
						},
					]
				: [];
		}),
	);
	const size = Math.max(0, ...moves.map((m) => m.size));
	return size === 0
		? []
		: [
				`A difference moves by ${plainNumber(Number(size.toPrecision(2)))} mg/g at most (${moves.find((m) => m.size === size)?.where}).`,
			];
}

/** So much is looked at and no more: each row is a comparison of its own, and each treatment a column. Decisions of ours. */
export const sensitivityLimits = { flasks: 2000, treatments: 30 } as const;

const title = "What each decision of ours moves (mg/g)";

/** What is more than is looked at; "" where all is looked at. */
function beyondLimits({ flasks, verdicts }: Comparison): string {
	const limits = sensitivityLimits;
	if (flasks.length > limits.flasks)
		return `${flasks.length} flasks, and this is looked at for ${limits.flasks} at most`;
	return verdicts.length > limits.treatments
		? `${verdicts.length} treatments, and this is looked at for ${limits.treatments} at most`
		: "";
}

/** The decisions as they were taken, and how to see what they move. */
function notLookedAt({ decisions }: Comparison, because: string): Table {
	return table(
		title,
		["decision", "taken"],
		decisions.map(({ name, taken }) => [name, taken]),
		[
			`Not looked at: this comparison is of ${because}. Compare a part of the trial (bench.selectFlasks), or take one decision otherwise (losses, displacement, endPoint in bench.readTrial; slopes, spread, sameness in compare.compareTreatments) and compare again.`,
		],
	);
}

/**
 * What each decision of ours moves: every difference and word as they are, and as they would be had one decision been taken otherwise and all others as they were.
 *
 * @param compare the comparison that was made, for asking it again
 */
export function sensitivityTable(
	c: Comparison,
	asked: Asked,
	compare: (asked: Asked) => Comparison,
): Table {
	const beyond = beyondLimits(c);
	if (beyond !== "") return notLookedAt(c, beyond);
	const looked = decisionRules.map((rule, i) => ({
		...c.decisions[i],
		rows:
			c.decisions[i].idle === ""
				? rule.others(asked).map(
						(other): Row => ({
							decision: rule.name,
							instead: other.text,
							moved: movedBy(other, c, compare),
						}),
					)
				: [],
	}));
	const rows = looked.flatMap((d) => d.rows);
	const nothing = c.verdicts.map(() => "");
	return table(
		title,
		["decision", "taken", "instead", ...c.verdicts.map((v) => v.treatment)],
		[
			[
				"as it is",
				"",
				"",
				...c.verdicts.map(
					(v) => `${differenceText(v, differencePlaces(v))}, ${v.word}`,
				),
			],
			...looked.flatMap(({ name, taken, idle, rows: own }) =>
				idle === ""
					? own.map(({ instead, moved }) => [
							name,
							taken,
							instead,
							...c.verdicts.map((v, i) => cellText(v, moved[i])),
						])
					: [[name, "no part here", idle, ...nothing]],
			),
		],
		[
			wordNote(c, rows),
			...largestNote(c, rows),
			"Each cell says by how much the difference moves, then the difference with its interval, and the word where it is another one; one decision is changed at a time. A laboratory that decides otherwise sets it when it reads the sheet (losses, displacement, endPoint) or compares (slopes, spread, sameness), and gets these figures.",
		],
	);
}
