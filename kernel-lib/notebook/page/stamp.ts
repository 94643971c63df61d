/** The line above everything that a page says: what was computed, from which sheet, with which margin, by which version. */
import { escapeHtml, plainNumber } from "../../quantity";
import type { ReportedMargin, ReportedResult } from "../reported";
import type { RunRecord } from "../run-record";

/** So many letters of a hash tell two runs apart by eye. */
const shortHash = 12;

function marginText(margin: ReportedMargin): string {
	switch (margin.is) {
		case "not set":
			return "no margin set";
		case "uptake":
			return `margin ${plainNumber(margin.value)} ${margin.unit}`;
		case "percent of the control":
			return `margin ${plainNumber(margin.value)} % of the control`;
	}
}

function marginsOf(results: readonly ReportedResult[]): string[] {
	return [
		...new Set(
			results.flatMap(({ content }) =>
				content.kind === "comparison" ? [marginText(content.margin)] : [],
			),
		),
	];
}

function filesText({ inputs }: RunRecord): string[] {
	const [first, ...others] = inputs;
	if (first === undefined) return [];
	return [
		others.length === 0
			? first.file
			: `${first.file} and ${others.length} more`,
	];
}

/** Invented or not, the files read, margin, day, version and run id. */
export function stampMarkup(
	record: RunRecord,
	results: readonly ReportedResult[],
	demo: boolean,
): string {
	const { times, versions, id } = record;
	const parts = [
		...filesText(record),
		...marginsOf(results),
		...(times.is === "recorded"
			? [`computed ${times.started.slice(0, 10)}`]
			: []),
		...(versions.is === "known" ? [`Charledger ${versions.library}`] : []),
		`run ${id.replace(/^.*:/, "").slice(0, shortHash)}`,
	].map(escapeHtml);
	return `<p class="stamp">${demo ? '<strong class="chip">Invented demo data</strong> · ' : ""}${parts.join(" · ")}</p>`;
}
