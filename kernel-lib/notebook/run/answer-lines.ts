/** The answer of a run in a few lines, for a terminal. */
import { quoted, valueOrThrow } from "../../quantity";
import { reportedResults } from "../extract";
import { headOf } from "../head";
import type { HeadAnswer } from "../head-answers";
import type { Notebook } from "../ipynb";
import type { ReportedComparison } from "../reported";
import { isDemo } from "../settings";
import { differenceText, sortedVerdicts, verdictText } from "../verdict-table";

/** More answers than this stand on the page only. */
const mostLines = 8;

function verdictLines(comparison: ReportedComparison): string[] {
	return sortedVerdicts(comparison).map((verdict) => {
		const by =
			verdict.difference.is === "not available"
				? ""
				: `, ${differenceText(verdict)} mg/g`;
		return `${quoted(verdict.treatment)} against ${quoted(verdict.control)}: ${verdictText(verdict)}${by}`;
	});
}

/** The finding, and what it rests on in the lines under it. */
function linesOf(answer: HeadAnswer): string[] {
	const under =
		answer.is === "comparison"
			? verdictLines(answer.comparison)
			: answer.statements;
	const more = under.length - mostLines;
	return [
		answer.finding,
		...under.slice(0, mostLines).map((line) => `  ${line}`),
		...(more > 0 ? [`  ${more} more on the page`] : []),
	];
}

/** A name of the sheet must not steer the terminal. */
const plain = (text: string): string => text.replace(/\p{Cc}/gu, " ");

/** What must not be done, the answer, and the one next step. */
export function answerLines(notebook: Notebook): string[] {
	const results = valueOrThrow(reportedResults(notebook));
	const { forbidden, answers, next } = headOf(results);
	return [
		...forbidden,
		...(isDemo(notebook) ? ["Invented demo data."] : []),
		...answers.flatMap(linesOf),
		...next.open.slice(0, 1).map((text) => `Next: ${text}`),
	].map(plain);
}
