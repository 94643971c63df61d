/** The head in the forms that front ends of notebooks show, without any style sheet: one HTML with its styles in it, and a text. */
import { figureHtml } from "../figures";
import { escapeHtml, table } from "../quantity";
import type { Bundle } from "./display";
import type { ResultInNotebook } from "./extract";
import { type Folded, type Head, headOf } from "./head";
import type { HeadAnswer } from "./head-answers";
import { listHtml } from "./list-html";
import type { ReportedComparison } from "./reported";
import { notebookTableHtml, structuredTable } from "./structured-table";
import { differenceText, sortedVerdicts, verdictText } from "./verdict-table";

/** Type of an output that repeats what the notebook reports further down: a page has that at its own head. */
export const headMimeType = "application/vnd.charledger.head+json";

/** How far the notebook has come, and whether what the head shows still holds. */
export interface HeadState {
	/** Of a kernel that cannot tell, "unknown". */
	readonly is: "empty" | "filled" | "failed" | "out of date" | "unknown";
	/** The cell that is meant, by its number; 0 for none. */
	readonly cell: number;
}

const alarm = "border-left:4px solid #b3261e;padding-left:0.8em";

function stateText({ is, cell }: HeadState): string {
	switch (is) {
		case "empty":
			return "The answer comes here when the notebook has run: run all cells.";
		case "filled":
			return `As of cell [${cell}].`;
		case "failed":
			return `Cell [${cell}] failed: what it and the cells below it say has not been computed. Mend it, then run all cells.`;
		case "out of date":
			return `Out of date: cell [${cell}] was run again after this. Run all cells.`;
		case "unknown":
			return "The answer stands at the end of the notebook: this kernel does not tell when a cell was run again.";
	}
}

function verdictsTable(comparison: ReportedComparison): string {
	return notebookTableHtml(
		structuredTable(
			table(
				"",
				["treatment", "control", "verdict", "difference (mg/g)", "why"],
				sortedVerdicts(comparison).map((v) => [
					v.treatment,
					v.control,
					verdictText(v),
					v.difference.is === "not available" ? "" : differenceText(v),
					v.inShort,
				]),
			),
		),
	);
}

function foldedHtml(title: string, { open, folded }: Folded): string {
	if (open.length === 0) return "";
	const rest =
		folded.length === 0
			? ""
			: `<details><summary>${folded.length} more</summary>${listHtml(folded)}</details>`;
	return `<p><strong>${title}</strong></p>${listHtml(open)}${rest}`;
}

function answerHtml(
	answer: HeadAnswer,
	figures: ResultInNotebook["figure"][],
): string {
	const shown = figures.flatMap((figure) =>
		figure === undefined ? [] : [figureHtml({ ...figure, title: "" })],
	);
	return [
		`<p style="font-size:1.35em;line-height:1.3;font-weight:600">${escapeHtml(answer.finding)}</p>`,
		...shown,
		...(answer.is === "comparison"
			? [verdictsTable(answer.comparison)]
			: [...answer.tables.map(notebookTableHtml), listHtml(answer.statements)]),
	].join("");
}

function figuresOf(
	answer: HeadAnswer,
	results: readonly ResultInNotebook[],
): ResultInNotebook["figure"][] {
	return answer.is === "answer"
		? [...answer.figures]
		: results
				.filter(({ content }) => content === answer.comparison)
				.map(({ figure }) => figure);
}

function headHtml(
	head: Head,
	results: readonly ResultInNotebook[],
	state: HeadState,
): string {
	const old = state.is === "failed" || state.is === "out of date";
	const { safety } = head;
	const safetyHtml =
		safety.line === ""
			? ""
			: `<details><summary><strong>Safety.</strong> ${escapeHtml(safety.line)}</summary>${listHtml([...safety.cautions, ...safety.neverShown])}</details>`;
	return [
		old
			? `<p role="alert" style="${alarm}"><strong>${stateText(state)}</strong></p>`
			: `<p style="opacity:0.75">${stateText(state)}</p>`,
		head.forbidden.length === 0
			? ""
			: `<div style="${alarm}">${listHtml(head.forbidden)}</div>`,
		listHtml(head.claims),
		`<div${old ? ' style="opacity:0.55"' : ""}>`,
		...head.answers.map((a) => answerHtml(a, figuresOf(a, results))),
		foldedHtml("Before you quote this", head.beforeQuoting),
		foldedHtml("What to do next", head.next),
		"</div>",
		safetyHtml,
	].join("");
}

function headText(head: Head, state: HeadState): string {
	return [
		stateText(state),
		...head.forbidden,
		...head.answers.map((a) => a.finding),
		...head.next.open.map((text) => `Next: ${text}`),
	].join("\n");
}

/** The head of what was reported so far. */
export function headBundle(
	results: readonly ResultInNotebook[],
	state: HeadState,
): Bundle {
	const head = headOf(results);
	return {
		[headMimeType]: { formatVersion: 1 },
		"text/html": headHtml(head, results, state),
		"text/plain": headText(head, state),
	};
}
