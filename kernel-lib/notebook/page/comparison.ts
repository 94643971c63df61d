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

/** That no margin was set stands before everything that is read without one. */
function marginNotice({ margin }: ReportedComparison): string {
	return margin.is === "not set"
		? '<p class="unset">Margin not set: nothing is called "no difference that matters". What three margins would have given stands under the table.</p>'
		: "";
}

function threeMargins({ atThreeMargins }: ReportedComparison): string {
	return atThreeMargins.rows.length === 0
		? ""
		: tableMarkup(atThreeMargins, atThreeMargins.title, false);
}

/** One sentence a treatment, then the table. */
export function answerMarkup(comparison: ReportedComparison): string {
	const sentences = comparison.verdicts
		.map((v) => `<li>${escapeHtml(v.sentence)}</li>`)
		.join("");
	return `${marginNotice(comparison)}<ul class="answers">${sentences}</ul>${verdictMarkup(comparison)}${threeMargins(comparison)}`;
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
