/** The head of a page, in order: what must not be done, the stamp, notices, the title that says what was found, what shows it, what to know before it is quoted, what to do next, safety. */

import type { FigureDescription } from "../../figures";
import { escapeHtml } from "../../quantity";
import { isDemoCell } from "../demo-cells";
import { type Folded, foldedAt, type Head } from "../head";
import type { HeadAnswer } from "../head-answers";
import { type Cell, hasTag, type Notebook } from "../ipynb";
import { listHtml } from "../list-html";
import { analysesTag } from "../tags";
import type { VerdictLinks } from "./answer-rows";
import { stillMarkup } from "./chart";
import { answerMarkup } from "./comparison";
import { renderMarkdown } from "./markdown";
import { allCautions, type PageContext } from "./outputs";
import { type CellLinks, tableMarkup } from "./tables";

/** What is in sight, and the rest under a line with its count. */
function foldedMarkup({ open, folded }: Folded): string {
	const inSight =
		open.length === 1 ? `<p>${escapeHtml(open[0])}</p>` : listHtml(open);
	return folded.length === 0
		? inSight
		: `${inSight}<details class="why"><summary>${folded.length} more</summary>${listHtml(folded)}</details>`;
}

function panel(title: string, texts: Folded, id: string): string {
	return texts.open.length === 0
		? ""
		: `<section class="panel" aria-labelledby="${id}"><h2 id="${id}">${escapeHtml(title)}</h2>${foldedMarkup(texts)}</section>`;
}

/** Where the sheet's words promise a use, that nothing tested it stands before the answer and its picture. */
export function claimMarkup({ claims }: Head): string {
	return claims.length === 0
		? ""
		: `<div class="unset" role="note">${listHtml(claims)}</div>`;
}

/** What the sheet brings together that must not be done: above everything. */
export function forbiddenMarkup({ forbidden }: Head): string {
	return forbidden.length === 0
		? ""
		: `<div class="stopped" role="alert">${listHtml(forbidden)}</div>`;
}

/** One line; all cautions stand where the notebook reports them, before the work at the bench. */
function safetyMarkup({
	safety: { line, neverShown, cautions },
}: Head): string {
	if (line === "") return "";
	const where =
		cautions.length === 0
			? ""
			: `<p><a href="#${allCautions}">All cautions, before the work at the bench</a></p>`;
	return `<details class="why safety" id="cautions"><summary><strong>Safety.</strong> ${escapeHtml(line)}</summary>${where}${listHtml(neverShown)}</details>`;
}

/** Sentences behind a finding that stand open where no figure and no table shows it; all others are folded. Our decision. */
const openStatements = 2;

/** The sentences behind a finding: what a figure or a table shows already need not be in sight. */
function behindMarkup(statements: readonly string[], isShown: boolean): string {
	if (statements.length === 0) return "";
	return isShown
		? `<details class="why"><summary>In words</summary>${listHtml(statements)}</details>`
		: foldedMarkup(foldedAt(statements, openStatements));
}

/** An answer's picture fills the head, and its plot is low, px, so that what is below it is on the first screen, too. Our decision. */
const wideSize = { width: 900, plotHeight: 130 };
/** Beside a narrow table it has a little more than half of the head. Our decision. */
const besideSize = { width: 560, plotHeight: 200 };
/** A table of so many columns stands beside its picture. Our decision. */
const mostBeside = 3;
/** A table of more rows is folded under its picture. Our decision. */
const mostOpenRows = 4;

/** The title of the page is the title of its figure; notes after the first stand where it was reported. */
function shownFigure(figure: FigureDescription, size: typeof wideSize): string {
	const shown = { ...figure, title: "", notes: figure.notes.slice(0, 1) };
	return `<figure class="shown">${stillMarkup(shown, size)}</figure>`;
}

/** Where the numbers of a head lead to. */
interface HeadLinks extends VerdictLinks {
	readonly inAnswer: CellLinks["inTable"];
	readonly starts: readonly {
		readonly address: string;
		readonly text: string;
	}[];
}

/** Where to go from the numbers of a title and of sentences. */
function startsMarkup(links?: HeadLinks): string {
	return links === undefined || links.starts.length === 0
		? ""
		: `<p class="starts screen-only">What these numbers were made from: ${links.starts.map(({ address, text }) => `<a href="${address}">${text}</a>`).join(", ")}.</p>`;
}

/** What shows an answer: rows of verdicts, or figure, table and sentences. */
function shownAnswer(answer: HeadAnswer, links?: HeadLinks): string {
	const figures = (size: typeof wideSize): string =>
		answer.figures.map((figure) => shownFigure(figure, size)).join("");
	if (answer.is === "comparison")
		return figures(wideSize) + answerMarkup(answer.comparison, links);
	const { tables, statements } = answer;
	const table = tables
		.map((t) =>
			tableMarkup(t, "The answer", true, links && { inTable: links.inAnswer }),
		)
		.join("");
	const long =
		answer.figures.length > 0 &&
		tables.some((t) => t.rows.length > mostOpenRows);
	const numbers = long
		? `<details class="why"><summary>In numbers</summary>${table}</details>`
		: table;
	const beside =
		!long &&
		answer.figures.length > 0 &&
		tables.some((t) => t.columns.length <= mostBeside);
	return [
		beside
			? `<div class="beside">${figures(besideSize)}<div>${table}</div></div>`
			: figures(wideSize) + numbers,
		behindMarkup(statements, answer.figures.length + tables.length > 0),
	].join("");
}

/** The title of the page: what was found, the notebook's own title small above it. */
export function titleMarkup({ answers: [answer] }: Head, own: string): string {
	return answer === undefined
		? `<h1 id="answer">${escapeHtml(own)}</h1>`
		: `<p class="own">${escapeHtml(own)}</p><h1 id="answer">${escapeHtml(answer.finding)}</h1>`;
}

/** What a browser names the page by. */
export function titleText({ answers }: Head, own: string): string {
	return [...answers.slice(0, 1).map((a) => a.finding), own].join(" \u2013 ");
}

/** The answer and what goes with it. */
export function leadMarkup(head: Head, links?: HeadLinks): string {
	const answers = head.answers
		.map(
			(answer, i) =>
				`${i === 0 ? "" : `<h2 class="finding">${escapeHtml(answer.finding)}</h2>`}${shownAnswer(answer, links)}`,
		)
		.join("");
	return [
		answers === ""
			? ""
			: `<section aria-labelledby="answer">${answers}${startsMarkup(links)}</section>`,
		panel("Before you quote this", head.beforeQuoting, "not-concluded"),
		panel("What to do next", head.next, "next"),
		safetyMarkup(head),
	].join("");
}

/** The notice that a run did not come to its end. */
function isStopNotice(cell: Cell): boolean {
	return hasTag(cell, "charledger-stopped");
}

/** The notice which analysis of its sheet this run was. */
function isAnalysesNotice(cell: Cell): boolean {
	return hasTag(cell, analysesTag);
}

/** Cells that stand at the head of the page, or on no page: notices, and what belongs to demo data that are not used. */
export function isSaidAtHead(cell: Cell, demo: boolean): boolean {
	return (
		isStopNotice(cell) || isAnalysesNotice(cell) || (isDemoCell(cell) && !demo)
	);
}

function noticeOf(look: string, role: string) {
	return (cell: Cell, context: PageContext): string =>
		`<div class="${look}" role="${role}">${renderMarkdown(cell.source, context.newId, "").html}</div>`;
}

const stopNotice = noticeOf("stopped", "alert");
const analysesNotice = noticeOf("unset", "note");

/** What must be known before the answer is read: that the run was stopped, that it is not the first analysis of its sheet. */
export function noticesMarkup(
	notebook: Notebook,
	context: PageContext,
): string {
	return [
		...notebook.cells
			.filter(isStopNotice)
			.map((cell) => stopNotice(cell, context)),
		...notebook.cells
			.filter(isAnalysesNotice)
			.map((cell) => analysesNotice(cell, context)),
	].join("");
}
