/** The verdict on a page: the answer at the head, the reasons on demand. */
import { escapeHtml, listed, quoted } from "../../quantity";
import { listHtml } from "../list-html";
import { reasonGroups } from "../reason-groups";
import type { ReportedComparison } from "../reported";
import { structuredTable } from "../structured-table";
import { sortedVerdicts, verdictTable, verdictText } from "../verdict-table";
import { answerRows, type VerdictLinks } from "./answer-rows";
import { type CellLinks, tableMarkup } from "./tables";

const words = [
	"no difference that matters",
	"higher",
	"lower",
	"cannot tell",
] as const;

/** Word and difference of a treatment lead to how its difference was had. */
function rowLinks(
	{ verdicts }: ReportedComparison,
	links?: VerdictLinks,
): CellLinks {
	return {
		inTable: ([first], columns, at) => {
			const verdict = verdicts.find((v) => v.treatment === first.text);
			const leads = /^(?:verdict|difference)/.test(columns[at]);
			return verdict === undefined || !leads
				? ""
				: (links?.difference(verdict) ?? "");
		},
	};
}

function verdictMarkup(
	comparison: ReportedComparison,
	links?: VerdictLinks,
): string {
	return tableMarkup(
		structuredTable(verdictTable(comparison)),
		`Uptake of ${comparison.probe} and verdict of every treatment`,
		true,
		rowLinks(comparison, links),
	);
}

/** That no margin was set stands before everything that is read without one. */
function marginNotice({ margin, verdicts }: ReportedComparison): string {
	const without = verdicts.flatMap((v) =>
		v.margin.is === "value" ? [] : [v.treatment],
	);
	if (margin.is !== "not set" && without.length > 0)
		return `<p class="unset">The margin cannot be had for ${escapeHtml(listed(without.map(quoted)))}: the control's own interval reaches 0. Nothing there is called "no difference that matters".</p>`;
	return margin.is === "not set"
		? '<p class="unset">Margin not set: nothing is called "no difference that matters". What three margins would have given stands under the table.</p>'
		: "";
}

function threeMargins({ atThreeMargins }: ReportedComparison): string {
	return atThreeMargins.rows.length === 0
		? ""
		: tableMarkup(atThreeMargins, atThreeMargins.title, false);
}

/** What the page's script answers from, treatment by treatment. */
function askedOf(comparison: ReportedComparison): readonly unknown[] {
	return sortedVerdicts(comparison).map((v) => ({
		treatment: v.treatment,
		ground: v.wordGround,
		said: Object.fromEntries(
			words.map((word) => [word, verdictText({ ...v, word })]),
		),
	}));
}

/** A question that the page's script answers; hidden without scripts and on paper. */
function askMarkup(comparison: ReportedComparison): string {
	return `<div class="ask screen-only" hidden data-asked="${escapeHtml(JSON.stringify(askedOf(comparison)))}"><label>The words at a margin of your own, mg/g: <input type="text" inputmode="decimal" size="8" autocomplete="off"></label><div role="status"><ul></ul></div><p class="note">The margin that was set beforehand counts: one that is chosen with the results in sight proves nothing.</p></div>`;
}

/** A row a verdict with its picture, its word and its sentence. */
export function answerMarkup(
	comparison: ReportedComparison,
	links?: VerdictLinks,
): string {
	return `${marginNotice(comparison)}${answerRows(comparison, links)}${threeMargins(comparison)}`;
}

/** The verdict in its place in the notebook: table, reasons, method. */
export function comparisonMarkup(
	comparison: ReportedComparison,
	links?: VerdictLinks,
): string {
	const folded = reasonGroups(comparison).map(
		({ about, texts }) =>
			`<details class="why"><summary>${escapeHtml(about)}</summary>${listHtml(texts)}</details>`,
	);
	return `${verdictMarkup(comparison, links)}${askMarkup(comparison)}${folded.join("")}`;
}
