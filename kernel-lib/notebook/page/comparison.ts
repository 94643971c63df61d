/** The verdict on a page: the answer at the head, the reasons on demand. */
import { escapeHtml } from "../../quantity";
import type { ReportedComparison, ReportedVerdict } from "../reported";
import { structuredTable } from "../structured-table";
import { verdictTable, verdictText } from "../verdict-table";
import { tableMarkup } from "./tables";

export function listMarkup(texts: readonly string[], look = ""): string {
	return texts.length === 0
		? ""
		: `<ul${look === "" ? "" : ` class="${look}"`}>${texts.map((t) => `<li>${escapeHtml(t)}</li>`).join("")}</ul>`;
}

function verdictMarkup(comparison: ReportedComparison): string {
	return tableMarkup(
		structuredTable(verdictTable(comparison)),
		"Uptake and verdict of every treatment",
		true,
	);
}

/** One sentence a treatment, then the table. */
export function answerMarkup(comparison: ReportedComparison): string {
	const sentences = comparison.verdicts
		.map((v) => `<li>${escapeHtml(v.sentence)}</li>`)
		.join("");
	return `<ul class="answers">${sentences}</ul>${verdictMarkup(comparison)}`;
}

function replicatesText(verdict: ReportedVerdict): string {
	const { replicates } = verdict;
	switch (replicates.is) {
		case "enough":
			return "";
		case "number":
			return `${replicates.units} independently treated portions a treatment would tell: ${replicates.because}`;
		case "at least":
			return `At least ${replicates.units} independently treated portions a treatment would be needed: ${replicates.because}`;
		case "not given":
			return `How many replicates would tell is not given: ${replicates.because}`;
	}
}

function deviationsText(verdict: ReportedVerdict): string {
	return verdict.withDeviations === verdict.withoutDeviations
		? `With and without the flasks that a deviation touched the word is the same: ${verdict.word}.`
		: `With the flasks that a deviation touched: ${verdict.withDeviations}. Without them: ${verdict.withoutDeviations}.`;
}

function reasonsMarkup(verdict: ReportedVerdict): string {
	const texts = [
		...verdict.reasons,
		replicatesText(verdict),
		verdict.comparableDose,
		deviationsText(verdict),
	].filter((t) => t !== "");
	return `<details class="why"><summary>${escapeHtml(`${verdict.treatment}, compared with ${verdict.control}: ${verdictText(verdict)}`)}</summary>${listMarkup(texts)}</details>`;
}

/** The verdict in its place in the notebook: table, reasons, method. */
export function comparisonMarkup(comparison: ReportedComparison): string {
	return `${verdictMarkup(comparison)}${comparison.verdicts.map(reasonsMarkup).join("")}<details class="why"><summary>How the treatments were compared</summary>${listMarkup(comparison.method)}</details>`;
}
