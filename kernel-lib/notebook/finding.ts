/** What was found, in one sentence: the words with the treatments that they are said of. */
import { differencePlaces } from "../compare";
import { fixed, listed, quoted } from "../quantity";
import { capital } from "../words";
import type { ReportedComparison, ReportedVerdict } from "./reported";
import { sortedVerdicts, verdictText } from "./verdict-table";

/** Whether a difference that is higher or lower also exceeds what matters. */
function beyondText({ margin, exceedsMargin }: ReportedVerdict): string {
	return margin.is === "value" && !exceedsMargin
		? " (whether by more than matters is open)"
		: "";
}

/** A difference that does not matter, or whose size is open, may still be sure. */
function sureText(difference: ReportedVerdict["difference"]): string {
	if (difference.is !== "estimate") return "";
	if (difference.low > 0) return " (yet surely higher)";
	return difference.high < 0 ? " (yet surely lower)" : "";
}

function byHowMuch(verdict: ReportedVerdict): string {
	const { word, difference } = verdict;
	if (word !== "higher" && word !== "lower")
		return word === "no difference that matters" ? sureText(difference) : "";
	const places = differencePlaces(verdict);
	const text = (value: number): string => fixed(Math.abs(value), places);
	switch (difference.is) {
		case "estimate":
			return ` by ${text(difference.estimate)} mg/g${beyondText(verdict)}`;
		case "at least":
		case "at most":
			return ` by at least ${text(difference.limit)} mg/g${beyondText(verdict)}`;
		case "not available":
			return "";
	}
}

/** A word that hangs on a flask that something happened to is not said without that. */
function unlessKept({
	word,
	withDeviations,
	withoutDeviations,
}: ReportedVerdict): string {
	if (withDeviations === withoutDeviations) return "";
	const other = word === withDeviations ? withoutDeviations : withDeviations;
	return ` (${word === withDeviations ? "without" : "with"} the flasks that a deviation touched: ${other})`;
}

/** So many treatments are named for each word, more are counted. Our decision. */
export const mostNamed = 6;

function namesText(names: readonly string[]): string {
	const more = names.length - mostNamed;
	return listed(
		more > 0 ? [...names.slice(0, mostNamed), `${more} more`] : names,
	);
}

/** Words that lean on a deviation are named first, so that none of them is only counted. */
const leaning = (v: ReportedVerdict): number =>
	v.withDeviations === v.withoutDeviations ? 1 : 0;

/** "In these lots. Higher: "fired twice" by 69 mg/g. Cannot tell: "potash"." */
export function findingText(comparison: ReportedComparison): string {
	const sorted = sortedVerdicts(comparison);
	const controls = new Set(sorted.map((v) => v.control)).size;
	const treatments = new Set(sorted.map((v) => v.treatment)).size;
	const nameOf = (v: ReportedVerdict): string =>
		controls > 1 && treatments < sorted.length
			? `${quoted(v.treatment)} against ${quoted(v.control)}`
			: quoted(v.treatment);
	const groups = new Map<string, ReportedVerdict[]>();
	for (const v of sorted) {
		const said = verdictText(v);
		groups.set(said, [...(groups.get(said) ?? []), v]);
	}
	const found = [...groups].map(([said, verdicts]) => {
		const names = [...verdicts]
			.sort((a, b) => leaning(a) - leaning(b))
			.map((v) => `${nameOf(v)}${byHowMuch(v)}${unlessKept(v)}`);
		return `${capital(said)}: ${namesText(names)}.`;
	});
	const scope =
		comparison.scope === "these lots" ? ["In these lots only."] : [];
	return [...scope, ...found].join(" ");
}
