/** What was found, in one sentence: the words with the treatments that they are said of. */
import { fixed, listed, quoted } from "../../quantity";
import type { ReportedComparison, ReportedVerdict } from "../reported";
import { sortedVerdicts, verdictText } from "../verdict-table";

function byHowMuch({ word, difference }: ReportedVerdict): string {
	if (word !== "higher" && word !== "lower") return "";
	switch (difference.is) {
		case "estimate":
			return ` by ${fixed(Math.abs(difference.estimate), 0)} mg/g`;
		case "at least":
		case "at most":
			return ` by at least ${fixed(Math.abs(difference.limit), 0)} mg/g`;
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

const capital = (text: string): string =>
	text.slice(0, 1).toUpperCase() + text.slice(1);

/** "Higher than its control: "fired twice" by 69 mg/g. Cannot tell: "potash"." */
export function findingText(comparison: ReportedComparison): string {
	const groups = new Map<string, string[]>();
	for (const v of sortedVerdicts(comparison)) {
		const said = verdictText(v);
		const name = `${quoted(v.treatment)}${byHowMuch(v)}${unlessKept(v)}`;
		groups.set(said, [...(groups.get(said) ?? []), name]);
	}
	return [...groups]
		.map(([said, names]) => `${capital(said)}: ${namesText(names)}.`)
		.join(" ");
}
