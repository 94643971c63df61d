import { escapeHtml, tableText } from "../quantity";
import { type Bundle, bundleOf, emit, isShowable } from "./display";
import {
	type ReportedContent,
	type ReportedResult,
	resultMimeType,
} from "./reported";
import { type Reportable, resultOf } from "./result";
import {
	notebookTableHtml,
	structuredTable,
	tableMimeType,
} from "./structured-table";
import { verdictTable } from "./verdict-table";

function statementsText(statements: readonly string[]): string {
	return statements.map((s) => `- ${s}`).join("\n");
}

function statementsHtml(statements: readonly string[]): string {
	return `<ul>${statements.map((s) => `<li>${escapeHtml(s)}</li>`).join("")}</ul>`;
}

/** The readable forms of what has no display of its own. */
function readable(content: ReportedContent): Bundle {
	switch (content.kind) {
		case "statements":
			return {
				"text/html": statementsHtml(content.statements),
				"text/plain": statementsText(content.statements),
			};
		case "comparison": {
			const verdicts = verdictTable(content);
			const margins = content.atThreeMargins;
			const sentences = content.verdicts.map((v) => v.sentence);
			return {
				"text/html":
					statementsHtml(sentences) +
					notebookTableHtml(structuredTable(verdicts)) +
					(margins.rows.length > 0 ? notebookTableHtml(margins) : ""),
				"text/plain": `${statementsText(sentences)}\n\n${tableText(verdicts)}`,
			};
		}
		case "bound":
			return {
				"text/plain": `${content.side} ${content.value} ${content.unit} (${content.because})`,
			};
		case "number":
			return { "text/plain": String(content.value) };
		case "text":
			return { "text/plain": content.text };
		case "table":
		case "figure":
		case "quantity":
			return {};
	}
}

function readableForms(value: Reportable, result: ReportedResult): Bundle {
	if (result.content.kind === "comparison" || !isShowable(value))
		return readable(result.content);
	const bundle = bundleOf(value);
	return bundle instanceof Promise ? {} : bundle;
}

/**
 * Shows a result and writes it down: it goes into results.json, its ancestors into ledger.csv, and it has a place on the page.
 *
 * @param name what the result is called in results.json. "verdict" is the answer of the notebook, a comparison or sentences; it stands at the head of the page, as do the sentences named "cautions", "not concluded" and
 * "what to do next".
 * @param value a quantity, a bound, a comparison, a table, a result with a table, a figure, a text, a list of texts, or a number
 * @param note a sentence of your own that goes with it
 * @throws ProblemError for a name that is missing, a value that cannot be reported, a number in it that is not finite
 * @example
 * notebook.report("verdict", ["The steam did nothing that this trial could see."])
 */
export function report(name: string, value: Reportable, note = ""): void {
	const result = resultOf(name, value, note);
	const forms = readableForms(value, result);
	const { content } = result;
	// A large table is in the notebook once, with its result.
	const { [tableMimeType]: again, ...readableOnly } = forms;
	emit({
		...(content.kind === "table" && content.table.large !== undefined
			? readableOnly
			: forms),
		[resultMimeType]: result,
		"text/plain": `${name}: ${forms["text/plain"]}${note === "" ? "" : `\n${note}`}`,
	});
}
