/** The line above everything that a page says: what was computed, from which sheet, when and by whom it was filled in, with which margin, by which version. */
import { escapeHtml, listed, plainNumber } from "../../quantity";
import type { ReportedMargin, ReportedResult } from "../reported";
import { marginSetBy } from "../results-file";
import type { RunRecord } from "../run-record";
import type { SetBy } from "../settings";
import type { PageSheet } from "./sheets";

/** So many letters of a hash tell two runs apart by eye. */
const shortHash = 12;

const whoSet: Readonly<Record<SetBy | "code", string>> = {
	user: "set by the user",
	template: "the template's",
	notebook: "set in the notebook",
	code: "set in a cell",
};

function marginText(
	margin: ReportedMargin,
	settings: RunRecord["settings"],
): string {
	const by = whoSet[marginSetBy(margin, settings)];
	switch (margin.is) {
		case "not set":
			return "no margin set";
		case "uptake":
			return `margin ${plainNumber(margin.value)} ${margin.unit}, ${by}`;
		case "percent of the control":
			return `margin ${plainNumber(margin.value)} % of the control, ${by}`;
	}
}

function marginsOf(
	results: readonly ReportedResult[],
	settings: RunRecord["settings"],
): string[] {
	return [
		...new Set(
			results.flatMap(({ content }) =>
				content.kind === "comparison"
					? [marginText(content.margin, settings)]
					: [],
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

/** What stands in a column of any sheet that the page embeds. */
function cellsUnder(
	sheets: readonly PageSheet[],
	heads: readonly string[],
): string[] {
	return sheets.flatMap(({ headers, rows }) =>
		headers.flatMap((head, at) =>
			heads.includes(head.trim().toLowerCase())
				? rows.map((row) => row.cells[at].trim())
				: [],
		),
	);
}

const dateHeads = ["day", "dosed at", "titrated at", "fired on"];

/** The first and the last day that a sheet names. */
function daysText(sheets: readonly PageSheet[]): string[] {
	const days = cellsUnder(sheets, dateHeads)
		.flatMap((text) => /^\d{4}-\d{2}-\d{2}/.exec(text) ?? [])
		.sort();
	const [first, last] = [days[0], days[days.length - 1]];
	if (first === undefined) return [];
	return [first === last ? first : `${first} to ${last}`];
}

/** So many people are named, more are counted. Our decision. */
const mostPeople = 3;

function operatorsText(sheets: readonly PageSheet[]): string[] {
	const people = [...new Set(cellsUnder(sheets, ["operator"]))].filter(
		(name) => name !== "",
	);
	const more = people.length - mostPeople;
	return people.length === 0
		? []
		: [
				`operator ${listed([...people.slice(0, mostPeople), ...(more > 0 ? [`${more} more`] : [])])}`,
			];
}

/** Invented or not, the files read, their days and operators, the margin and who set it, the day of computing, version and run id. */
export function stampMarkup(
	record: RunRecord,
	results: readonly ReportedResult[],
	sheets: readonly PageSheet[],
	demo: boolean,
): string {
	const { times, versions, id, settings } = record;
	const parts = [
		...filesText(record),
		...daysText(sheets),
		...operatorsText(sheets),
		...marginsOf(results, settings),
		...(times.is === "recorded"
			? [`computed ${times.started.slice(0, 10)}`]
			: []),
		...(versions.is === "known" ? [`Charledger ${versions.library}`] : []),
		`run ${id.replace(/^.*:/, "").slice(0, shortHash)}`,
	].map(escapeHtml);
	return `<p class="stamp">${demo ? '<strong class="chip">Invented demo data</strong> · ' : ""}${parts.join(" · ")}</p>`;
}
