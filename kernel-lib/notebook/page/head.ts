/** The head of a page: notices first, then the answer, what may not be concluded, the cautions, what to do next. */
import { escapeHtml, listed } from "../../quantity";
import { isDemoCell } from "../demo-cells";
import { type Cell, hasTag, type Notebook } from "../ipynb";
import {
	headNames,
	type ReportedComparison,
	type ReportedResult,
} from "../reported";
import { isDemo } from "../settings";
import { cautionsApart, statements } from "../statements";
import { analysesTag } from "../tags";
import { answerMarkup, listMarkup } from "./comparison";
import { renderMarkdown } from "./markdown";
import type { PageContext } from "./outputs";

function isComparison(
	content: ReportedResult["content"],
): content is ReportedComparison {
	return content.kind === "comparison";
}

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

/** The answer and what goes with it. */
export function leadMarkup(results: readonly ReportedResult[]): string {
	const answers =
		listMarkup(
			[
				...statements(results, headNames.verdict),
				...statements(results, headNames.answer),
			],
			"answers",
		) +
		results
			.map((r) => r.content)
			.filter(isComparison)
			.map(answerMarkup)
			.join("");
	const limits = statements(results, headNames.notConcluded);
	return [
		claimMarkup(limits),
		answers === ""
			? ""
			: `<section aria-labelledby="answer"><h2 id="answer" class="quiet">The answer</h2>${answers}</section>`,
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
			"Before you quote this",
			limitsMarkup(limits.filter((text) => !saysUntested(text))),
			"not-concluded",
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

function isDemoNotice(cell: Cell): boolean {
	return cell.cell_type === "markdown" && isDemoCell(cell);
}

/** Cells that stand at the head of the page, or on no page: notices, and what belongs to demo data that are not used. */
export function isSaidAtHead(cell: Cell, demo: boolean): boolean {
	return (
		isStopNotice(cell) ||
		isAnalysesNotice(cell) ||
		isDemoNotice(cell) ||
		(isDemoCell(cell) && !demo)
	);
}

function noticeOf(look: string, role: string) {
	return (cell: Cell, context: PageContext): string =>
		`<div class="${look}" role="${role}">${renderMarkdown(cell.source, context.newId, "").html}</div>`;
}

const stopNotice = noticeOf("stopped", "alert");
const demoNotice = noticeOf("demo", "note");
const analysesNotice = noticeOf("unset", "note");

/** Used where a notebook on demo data has no notice of its own. */
const invented =
	'<div class="demo" role="note"><p>The data of this page are <strong>invented</strong>: a demo sheet.</p></div>';

/** What must be known before the answer is read: that the run was stopped, that it is not the first analysis of its sheet, that the data are invented. */
export function noticesMarkup(
	notebook: Notebook,
	context: PageContext,
): string {
	const first = [
		...notebook.cells
			.filter(isStopNotice)
			.map((cell) => stopNotice(cell, context)),
		...notebook.cells
			.filter(isAnalysesNotice)
			.map((cell) => analysesNotice(cell, context)),
	];
	if (!isDemo(notebook)) return first.join("");
	const demo = notebook.cells
		.filter(isDemoNotice)
		.map((cell) => demoNotice(cell, context));
	return [...first, ...(demo.length > 0 ? demo : [invented])].join("");
}
