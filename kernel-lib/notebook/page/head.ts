/** The head of a page: notices first, then the answer, what may not be concluded, the cautions, what to do next. */

import type { FigureDescription } from "../../figures";
import { escapeHtml, listed } from "../../quantity";
import { isDemoCell } from "../demo-cells";
import type { ResultInNotebook } from "../extract";
import { type HeadAnswer, headAnswers } from "../head-answers";
import { type Cell, hasTag, type Notebook } from "../ipynb";
import { headNames, type ReportedResult } from "../reported";
import { cautionsApart, statements } from "../statements";
import { analysesTag } from "../tags";
import type { VerdictLinks } from "./answer-rows";
import { stillMarkup } from "./chart";
import { answerMarkup, listMarkup } from "./comparison";
import { renderMarkdown } from "./markdown";
import type { PageContext } from "./outputs";
import { type CellLinks, tableMarkup } from "./tables";

function panel(title: string, body: string, id: string): string {
	return body === ""
		? ""
		: `<section class="panel" aria-labelledby="${id}"><h2 id="${id}">${escapeHtml(title)}</h2>${body}</section>`;
}

/** The first so many on the first screen, the others folded under a line that says how many and what they are about. */
function foldedMarkup(
	texts: readonly string[],
	open: number,
	about: (folded: readonly string[]) => string,
): string {
	const folded = texts.slice(open);
	return folded.length < 2
		? listMarkup(texts)
		: `${listMarkup(texts.slice(0, open))}<details class="why"><summary>${escapeHtml(about(folded))}</summary>${listMarkup(folded)}</details>`;
}

/** What folded cautions are about stands before their colon. */
function moreCautions(folded: readonly string[]): string {
	const subjects = folded.flatMap(
		(text) => /^(?:Danger|Warning), ([^:]+):/.exec(text)?.[1].split(", ") ?? [],
	);
	const about =
		subjects.length === 0 ? "" : `: ${listed([...new Set(subjects)])}`;
	return `${folded.length} more cautions${about}`;
}

const isGeneralLimit = (text: string): boolean =>
	/^(?:This does not show|(?:Iodine uptake|Uptake of .*) stands for)/.test(
		text,
	);

/** What this trial leaves open stays in sight; what no trial of uptake can show does so in short, its full sentences folded. */
function limitsMarkup(texts: readonly string[]): string {
	const general = texts.filter(isGeneralLimit);
	const own = texts.filter((text) => !isGeneralLimit(text));
	return [
		foldedMarkup(own, 3, (folded) => `${folded.length} more of this trial`),
		general.length === 0
			? ""
			: `<details class="why"><summary>No test for drinking water, breathing or treating poisoning: what no such trial can show</summary>${listMarkup(general)}</details>`,
	].join("");
}

const saysUntested = (text: string): boolean =>
	text.endsWith("nothing here tested it.");

/** Where the sheet's words promise a use, that nothing tested it, with the limits, stands before the answer and its picture. */
function claimMarkup(limits: readonly string[]): string {
	const claims = limits.filter(saysUntested);
	return claims.length === 0
		? ""
		: `<div class="unset" role="note">${listMarkup([...claims, ...limits.filter((text) => text.startsWith("This does not show"))])}</div>`;
}

/** What the sheet brings together that must not be done: above everything. */
export function forbiddenMarkup(results: readonly ReportedResult[]): string {
	const { forbidden } = cautionsApart(results);
	return forbidden.length === 0
		? ""
		: `<div class="stopped" role="alert">${listMarkup(forbidden)}</div>`;
}

/** Sentences behind a finding that stand open; more are folded. Our decision. */
const openStatements = 2;

/** The plot of an answer is lower than others, px, so that the table below it is on the first screen, too. Our decision. */
const plotHeight = 210;

/** The title of the page is the title of its figure. */
function shownFigure(figure: FigureDescription): string {
	return `<figure class="shown">${stillMarkup({ ...figure, title: "" }, plotHeight)}</figure>`;
}

/** What shows an answer: rows of verdicts, or figure, table and sentences. */
function shownAnswer(
	answer: HeadAnswer,
	links?: CellLinks & VerdictLinks,
): string {
	if (answer.is === "comparison") return answerMarkup(answer.comparison, links);
	const { figures, tables, statements: said } = answer;
	return [
		...figures.map(shownFigure),
		...tables.map((table) => tableMarkup(table, "The answer", true, links)),
		foldedMarkup(said, openStatements, (folded) => `${folded.length} more`),
	].join("");
}

/** The title of the page: what was found, the notebook's own title small above it. */
export function titleMarkup(
	results: readonly ResultInNotebook[],
	own: string,
): string {
	const [answer] = headAnswers(results);
	return answer === undefined
		? `<h1>${escapeHtml(own)}</h1>`
		: `<p class="own">${escapeHtml(own)}</p><h1 id="answer">${escapeHtml(answer.finding)}</h1>`;
}

/** What a browser names the page by. */
export function titleText(
	results: readonly ResultInNotebook[],
	own: string,
): string {
	return [
		...headAnswers(results)
			.slice(0, 1)
			.map((a) => a.finding),
		own,
	].join(" \u2013 ");
}

/** The answer and what goes with it. */
export function leadMarkup(
	results: readonly ResultInNotebook[],
	links?: CellLinks & VerdictLinks,
): string {
	const answers = headAnswers(results)
		.map(
			(answer, i) =>
				`${i === 0 ? "" : `<h2 class="finding">${escapeHtml(answer.finding)}</h2>`}${shownAnswer(answer, links)}`,
		)
		.join("");
	const limits = statements(results, headNames.notConcluded);
	return [
		claimMarkup(limits),
		answers === ""
			? ""
			: `<section aria-labelledby="answer">${answers}</section>`,
		panel(
			"Before you quote this",
			limitsMarkup(limits.filter((text) => !saysUntested(text))),
			"not-concluded",
		),
		panel(
			"What to do next",
			foldedMarkup(
				statements(results, headNames.next),
				2,
				(folded) => `${folded.length} more`,
			),
			"next",
		),
		panel(
			"Cautions",
			foldedMarkup(cautionsApart(results).others, 1, moreCautions),
			"cautions",
		),
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
