/** What was found, in plain sentences: each word with the treatments that it is said of. */
import { differencePlaces, type VerdictWord } from "../compare";
import { fixed, listed, quoted } from "../quantity";
import type { ReportedComparison, ReportedVerdict } from "./reported";
import { sortedVerdicts } from "./verdict-table";

/** Whether a difference that is higher or lower also exceeds what matters. */
function beyondText({
	word,
	difference,
	margin,
	exceedsMargin,
}: ReportedVerdict): string[] {
	return (word === "higher" || word === "lower") &&
		difference.is !== "not available" &&
		margin.is === "value" &&
		!exceedsMargin
		? ["whether by more than matters is open"]
		: [];
}

/** A difference that does not matter may still be sure. */
function sureText({ word, difference }: ReportedVerdict): string[] {
	if (word !== "no difference that matters" || difference.is !== "estimate")
		return [];
	if (difference.low > 0) return ["yet surely higher"];
	return difference.high < 0 ? ["yet surely lower"] : [];
}

/** A word that hangs on a flask that something happened to is not said without that. */
function unlessKept({
	word,
	withDeviations,
	withoutDeviations,
}: ReportedVerdict): string[] {
	if (withDeviations === withoutDeviations) return [];
	const other = word === withDeviations ? withoutDeviations : withDeviations;
	return [
		`${word === withDeviations ? "without" : "with"} the flasks that a deviation touched: ${other}`,
	];
}

/** What must be said with a word, in brackets behind it. */
function notes(v: ReportedVerdict): string {
	const all = [...beyondText(v), ...sureText(v), ...unlessKept(v)];
	return all.length === 0 ? "" : ` (${all.join("; ")})`;
}

/** "60 mg/g more", "at least 40 mg/g less", "more" */
function amount(verdict: ReportedVerdict): string {
	const { word, difference } = verdict;
	const way = word === "lower" ? "less" : "more";
	const text = (value: number): string =>
		`${fixed(Math.abs(value), differencePlaces(verdict))} mg/g ${way}`;
	switch (difference.is) {
		case "estimate":
			return text(difference.estimate);
		case "at least":
		case "at most":
			return `at least ${text(difference.limit)}`;
		case "not available":
			return way;
	}
}

/** So many treatments are named for each word, more are counted. Our decision. */
export const mostNamed = 6;

/** How the treatments and controls of a comparison are named. */
interface Naming {
	readonly probe: string;
	/** "its control", or its name where a treatment has several. */
	control(v: ReportedVerdict): string;
	/** With the control where a treatment has several. */
	pair(v: ReportedVerdict): string;
}

function namingOf({ probe, verdicts }: ReportedComparison): Naming {
	const treatments = new Set(verdicts.map((v) => v.treatment)).size;
	const several = treatments < verdicts.length;
	return {
		probe,
		control: (v) => (several ? quoted(v.control) : "its control"),
		pair: (v) =>
			several
				? `${quoted(v.treatment)} against ${quoted(v.control)}`
				: quoted(v.treatment),
	};
}

const further = (count: number): string[] =>
	count > 0 ? [`${count} more treatments`] : [];

/** "most" took up 160 mg/g more iodine than its control, "more" 60 mg/g more. */
function differText(
	[first, ...others]: readonly ReportedVerdict[],
	{ probe, control }: Naming,
): string {
	const beyond = first.measuringErrorOnly
		? ", beyond what measuring error explains"
		: "";
	const named = others
		.slice(0, mostNamed - 1)
		.map(
			(v) =>
				`${quoted(v.treatment)} ${amount(v)}${control(v) === "its control" ? "" : ` than ${control(v)}`}${notes(v)}`,
		);
	const way = first.word === "lower" ? "less" : "more";
	return listed([
		`${quoted(first.treatment)} took up ${amount(first)} ${probe} than ${control(first)}${beyond}${notes(first)}`,
		...named,
		...further(others.length - named.length).map((text) => `${text} ${way}`),
	]);
}

/** The names of a group; notes go behind each where there are several. */
function namesText(
	verdicts: readonly ReportedVerdict[],
	naming: Naming,
): string {
	const shown = verdicts.slice(0, mostNamed);
	return listed([
		...shown.map(
			(v) => `${naming.pair(v)}${verdicts.length > 1 ? notes(v) : ""}`,
		),
		...further(verdicts.length - shown.length),
	]);
}

function groupText(
	word: VerdictWord,
	verdicts: readonly ReportedVerdict[],
	naming: Naming,
): string {
	const [first] = verdicts;
	const note = verdicts.length > 1 ? "" : notes(first);
	switch (word) {
		case "higher":
		case "lower":
			return `${differText(verdicts, naming)}.`;
		case "no difference that matters":
			return `${namesText(verdicts, naming)} made no difference that matters${first.measuringErrorOnly ? ", as far as measuring error goes" : ""}${note}.`;
		case "cannot tell":
			return `The trial cannot tell about ${namesText(verdicts, naming)}${note}.`;
	}
}

/** Words that lean on a deviation are named first, so that none of them is only counted. */
const leaning = (v: ReportedVerdict): number =>
	v.withDeviations === v.withoutDeviations ? 1 : 0;

/** What was never seen must not be read into a word. */
function scopeText({ scope, verdicts }: ReportedComparison): {
	readonly before: string;
	readonly after: string;
} {
	const told = verdicts.some((v) => v.word !== "cannot tell");
	switch (scope) {
		case "these lots":
			return { before: "In these lots only: ", after: "" };
		case "measuring error only":
			return {
				before: "",
				after: told
					? " Nothing is said about the treatment, for its spread was not seen."
					: "",
			};
		case "treatment":
			return { before: "", after: "" };
	}
}

/** The clearest word first: "most" took up 160 mg/g more iodine than its control. "like" made no difference that matters. The trial cannot tell about "odd". */
export function findingText(comparison: ReportedComparison): string {
	const naming = namingOf(comparison);
	const groups = new Map<VerdictWord, ReportedVerdict[]>();
	for (const v of sortedVerdicts(comparison))
		groups.set(v.word, [...(groups.get(v.word) ?? []), v]);
	const found = [...groups].map(([word, verdicts]) =>
		groupText(
			word,
			[...verdicts].sort((a, b) => leaning(a) - leaning(b)),
			naming,
		),
	);
	const { before, after } = scopeText(comparison);
	return `${before}${found.join(" ")}${after}`;
}
