import { differences, figureMimeType, readFigure } from "../figures";
import { bareNumber, escapeHtml, jupyterDisplay, tableText } from "../quantity";
import { isAnswer } from "./answer";
import { type Bundle, bundleOf, emit, isShowable } from "./display";
import type { ResultInNotebook } from "./extract";
import { showAtHead } from "./head-display";
import { listHtml } from "./list-html";
import { type ReasonGroup, reasonGroups } from "./reason-groups";
import {
	type ReportedAnswer,
	type ReportedContent,
	type ReportedResult,
	resultMimeType,
} from "./reported";
import { isComparison, type Reportable, resultOf } from "./result";
import {
	notebookTableHtml,
	structuredTable,
	tableMimeType,
} from "./structured-table";
import { verdictTable } from "./verdict-table";

/** The figure of a head draws so many differences. Our decision. */
const mostDrawn = 40;

function statementsText(statements: readonly string[]): string {
	return statements.map((s) => `- ${s}`).join("\n");
}

function groupHtml({ about, texts }: ReasonGroup): string {
	return `<details><summary>${escapeHtml(about)}</summary>${listHtml(texts)}</details>`;
}

function answerHtml({ finding, tables, statements }: ReportedAnswer): string {
	return `<p><strong>${escapeHtml(finding)}</strong></p>${tables.map(notebookTableHtml).join("")}${listHtml(statements)}`;
}

function answerText({ finding, statements }: ReportedAnswer): string {
	return [
		finding,
		...(statements.length === 0 ? [] : [statementsText(statements)]),
	].join("\n");
}

/** The finding, then the figure with all its forms, so that a page can draw it again. */
function withFigure(answer: Bundle, figure: Bundle): Bundle {
	return {
		[figureMimeType]: figure[figureMimeType],
		"text/html": `${answer["text/html"]}${figure["text/html"]}`,
		"text/plain": answer["text/plain"],
	};
}

/** The readable forms of what has no display of its own. */
function readable(content: ReportedContent): Bundle {
	switch (content.kind) {
		case "answer":
			return {
				"text/html": answerHtml(content),
				"text/plain": answerText(content),
			};
		case "statements":
			return {
				"text/html": listHtml(content.statements),
				"text/plain": statementsText(content.statements),
			};
		case "comparison": {
			const verdicts = verdictTable(content);
			const margins = content.atThreeMargins;
			const sentences = content.verdicts.map((v) => v.sentence);
			return {
				"text/html":
					listHtml(sentences) +
					notebookTableHtml(structuredTable(verdicts)) +
					(margins.rows.length > 0 ? notebookTableHtml(margins) : "") +
					reasonGroups(content).map(groupHtml).join(""),
				"text/plain": `${statementsText(sentences)}\n\n${tableText(verdicts)}`,
			};
		}
		case "bound":
			return {
				"text/plain": `${content.side} ${content.value} ${content.unit} (${content.because})`,
			};
		case "number":
			return { "text/plain": bareNumber(content.value) };
		case "text":
			return { "text/plain": content.text };
		case "table":
		case "figure":
		case "quantity":
			return {};
	}
}

function readableForms(value: Reportable, result: ReportedResult): Bundle {
	if (isAnswer(value)) {
		const forms = readable(result.content);
		const figure = value.figure?.[jupyterDisplay]();
		return figure === undefined ? forms : withFigure(forms, figure);
	}
	if (result.content.kind === "comparison" || !isShowable(value))
		return readable(result.content);
	const bundle = bundleOf(value);
	return bundle instanceof Promise ? {} : bundle;
}

/** A result with the figure that its head shows: its own, or the differences of a comparison. */
function atHead(
	result: ReportedResult,
	value: Reportable,
	bundle: Bundle,
): ResultInNotebook {
	if (
		isComparison(value) &&
		value.verdicts.length <= mostDrawn &&
		value.verdicts.length > 0
	)
		return { ...result, figure: differences(value) };
	const figure = readFigure(bundle[figureMimeType]);
	return figure.ok ? { ...result, figure: figure.value } : result;
}

/** A reported result as the output of its cell: for readers, and in our own form. */
export function reportBundle(
	name: string,
	value: Reportable,
	note: string,
): Bundle {
	const result = resultOf(name, value, note);
	const forms = readableForms(value, result);
	const { content } = result;
	// A large table is in the notebook once, with its result.
	const { [tableMimeType]: again, ...readableOnly } = forms;
	return {
		...(content.kind === "table" && content.table.large !== undefined
			? readableOnly
			: forms),
		[resultMimeType]: result,
		"text/plain": `${name}: ${forms["text/plain"]}${note === "" ? "" : `\n${note}`}`,
	};
}

/**
 * Shows a result and writes it down: it goes into results.json, its ancestors into ledger.csv, and it has a place on the page.
 *
 * @param name what the result is called in results.json. "verdict" is the answer of the notebook, a comparison, an answer or sentences; it is the head of the page, where also the sentences named "cautions", "not concluded" and
 * "what to do next" stand, and a figure named "verdict drawn" above the rows of a comparison.
 * @param value a quantity, a bound, a comparison, an answer `{ finding, figure, table, statements }` of which only the finding is needed, a table, a result with a table, a figure, a text, a list of texts, or a number
 * @param note a sentence of your own that goes with it
 * @throws ProblemError for a name that is missing, a value that cannot be reported, a number in it that is not finite
 * @example
 * notebook.report("verdict", { finding: "The steam did nothing that this trial could see." })
 */
export function report(name: string, value: Reportable, note = ""): void {
	const bundle = reportBundle(name, value, note);
	emit(bundle);
	showAtHead(() =>
		atHead(bundle[resultMimeType] as ReportedResult, value, bundle),
	);
}
