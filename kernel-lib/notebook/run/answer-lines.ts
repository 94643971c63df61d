/** The answer of a run in a few lines, for a terminal. */
import { quoted, valueOrThrow } from "../../quantity";
import { reportedResults } from "../extract";
import type { Notebook } from "../ipynb";
import { findingText } from "../page/finding";
import { headNames, type ReportedComparison } from "../reported";
import { isDemo } from "../settings";
import { cautionsApart, statements } from "../statements";
import { differenceText, sortedVerdicts, verdictText } from "../verdict-table";

/** More answers than this stand on the page only. */
const mostLines = 8;

function linesOf(comparison: ReportedComparison): string[] {
	return [
		findingText(comparison),
		...sortedVerdicts(comparison)
			.slice(0, mostLines)
			.map((verdict) => {
				const by =
					verdict.difference.is === "not available"
						? ""
						: `, ${differenceText(verdict)} mg/g`;
				return `  ${quoted(verdict.treatment)} against ${quoted(verdict.control)}: ${verdictText(verdict)}${by}`;
			}),
	];
}

const further = (lines: readonly string[]): string[] =>
	lines.length > mostLines
		? [
				...lines.slice(0, mostLines),
				`  ${lines.length - mostLines} more on the page`,
			]
		: [...lines];

/** A name of the sheet must not steer the terminal. */
const plain = (text: string): string => text.replace(/\p{Cc}/gu, " ");

/** What must not be done, the answer, and the one next step. */
export function answerLines(notebook: Notebook): string[] {
	const results = valueOrThrow(reportedResults(notebook));
	const compared = results.flatMap(({ content }) =>
		content.kind === "comparison" ? linesOf(content) : [],
	);
	const said = [headNames.verdict, headNames.answer].flatMap((name) =>
		statements(results, name),
	);
	const next = statements(results, headNames.next).slice(0, 1);
	return [
		...cautionsApart(results).forbidden,
		...(isDemo(notebook) ? ["Invented demo data."] : []),
		...compared,
		...further(said),
		...next.map((text) => `Next: ${text}`),
	].map(plain);
}
