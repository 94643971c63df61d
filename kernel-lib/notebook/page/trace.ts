/** Where on a page the links lead to: from a number or a flask to its working, from a line of the ledger to its cell. */
import { grouped, type LedgerRow } from "../../quantity";
import type { AttachedInput } from "../attach";
import { isPacked, linesBehind } from "../large/packed-ledger";
import type { ReportedResult, ReportedVerdict } from "../reported";
import type { StructuredCell, StructuredTable } from "../structured-table";
import { pairText } from "../verdict-table";
import { idMaker, lineId, rowId } from "./anchors";
import {
	comparisonsIn,
	differenceAddress,
	differencesOf,
	type PageDifference,
	weightText,
} from "./differences";
import type { PageFlask } from "./flasks";
import { type Lines, linesOf } from "./lines";
import {
	cellAddress,
	type PageSheet,
	type SheetRow,
	sheetsOf,
	standsIn,
} from "./sheets";
import { flaskHead, treatmentHead } from "./tables";

/** Addresses within the page; "" where it has no such place. */
export interface Trace {
	readonly sheets: readonly PageSheet[];
	readonly flasks: readonly PageFlask[];
	readonly lines: Lines;
	/** Whether the page holds the whole ledger. */
	readonly withLedger: boolean;
	/** The cell that a line of the ledger was read from. */
	cell(place: LedgerRow): string;
	/** A flask by its name; where sheets have one of that name each, the one that stands behind a line. */
	flask(name: string, lines?: readonly string[]): string;
	/** The working of the flask that stands in a row. */
	row(row: SheetRow): string;
	/** Ids of the lists of flasks, by treatment. */
	readonly treatments: ReadonlyMap<string, string>;
	/** By their verdicts. */
	readonly differences: ReadonlyMap<string, PageDifference>;
	/** How a difference was had; where there is none, the flasks of its treatment. */
	difference(verdict: ReportedVerdict): string;
	/** The differences that a flask was weighed in. */
	counted(flask: PageFlask): readonly Link[];
	/** Where the numbers of the answer can be followed from: the parts of the page that it has. */
	readonly starts: readonly Link[];
	/** A cell of the answer's table: where no working is its own, the flasks of its row, or all. */
	inAnswer: Trace["inTable"];
	/** The value of a reported quantity. */
	value(result: ReportedResult): string;
	/** Where the cells stand that a line which the page shows goes back to: flasks, and rows of sheets; none for other lines. */
	restsOn(line: LedgerRow): readonly Link[];
	/** A cell of a table: the flask that it names, the working of its number. */
	inTable(
		row: readonly StructuredCell[],
		columns: readonly string[],
		at: number,
	): string;
}

/** The lines that the cells of a row have. */
const lineIdsIn = (row: readonly StructuredCell[]): string[] =>
	row.flatMap((cell) =>
		"line" in cell && cell.line !== undefined ? [cell.line] : [],
	);

export interface Link {
	readonly address: string;
	readonly text: string;
}

/** The line of a reported quantity is the last of its ledger. */
function rootOf({ content, ledger }: ReportedResult): string[] {
	return (content.kind === "quantity" || content.kind === "bound") &&
		!isPacked(ledger)
		? ledger.slice(-1).map(({ id }) => id)
		: [];
}

interface NamedRow {
	readonly flask: string;
	readonly ids: readonly string[];
}

/** What the tables of a page show of flasks. */
function flaskRows({ columns, rows }: StructuredTable): NamedRow[] {
	const at = columns.indexOf(flaskHead);
	return at < 0
		? []
		: rows.map((row) => ({ flask: row[at].text, ids: lineIdsIn(row) }));
}

export function tablesIn({
	content,
}: ReportedResult): readonly StructuredTable[] {
	switch (content.kind) {
		case "table":
			return [content.table];
		case "answer":
			return content.tables;
		default:
			return [];
	}
}

/** What comparisons weighed. */
function weighedRows(result: ReportedResult): NamedRow[] {
	return comparisonsIn([result]).flatMap(({ verdicts }) =>
		verdicts.flatMap(({ reckoned }) =>
			reckoned.weighed
				.filter(({ flask }) => flask !== "")
				.map(({ flask, line }) => ({ flask, ids: [line] })),
		),
	);
}

/** Heads of columns that the ledger names, by the hash of their file. */
function headsOf(lines: readonly LedgerRow[]): Map<string, Set<string>> {
	const heads = new Map<string, Set<string>>();
	for (const { hash, column } of lines) {
		if (column === "") continue;
		const own = heads.get(hash) ?? new Set();
		heads.set(hash, own.add(column));
	}
	return heads;
}

/** Every flask of the sheets, with what tables show of it. */
function flasksOf(
	sheets: readonly PageSheet[],
	named: readonly NamedRow[],
	lines: Lines,
): PageFlask[] {
	const newId = idMaker("flask");
	const byName = grouped(named, ({ flask }) => flask);
	return sheets.flatMap((sheet) =>
		sheet.rows
			.filter(({ flask }) => flask !== "")
			.map((row): PageFlask => {
				const cited = (byName.get(row.flask) ?? [])
					.flatMap(({ ids }) => ids)
					.flatMap((id) => lines.get(id) ?? [])
					.filter((line) =>
						lines.cells(line).some((cell) => standsIn(sheet, row, cell)),
					);
				return {
					id:
						cited.length > 0 ? newId(row.flask) : rowId(sheet.number, row.row),
					name: row.flask,
					treatment: row.treatment,
					sheet,
					row,
					cited: [...new Set(cited)],
				};
			}),
	);
}

function startsOf(
	sheets: readonly PageSheet[],
	flasks: readonly PageFlask[],
	differences: ReadonlyMap<string, PageDifference>,
): readonly Link[] {
	return [
		...(flasks.some(({ cited }) => cited.length > 0)
			? [{ address: "#flasks", text: "flasks" }]
			: []),
		...(differences.size > 0
			? [{ address: "#differences", text: "differences" }]
			: []),
		...(sheets.some(({ headers }) => headers.length > 0)
			? [{ address: "#sheets", text: "sheets" }]
			: []),
	];
}

/** Ids for the lists of flasks that have a working, by treatment. */
function treatmentIds(flasks: readonly PageFlask[]): Map<string, string> {
	const newId = idMaker("treatment");
	const worked = flasks.filter(
		({ cited, treatment }) => cited.length > 0 && treatment !== "",
	);
	return new Map(
		[...grouped(worked, ({ treatment }) => treatment).keys()].map(
			(treatment) => [treatment, newId(treatment)],
		),
	);
}

/** The lines that the page shows somewhere. */
function idsShown(results: readonly ReportedResult[]): ReadonlySet<string> {
	return new Set(
		results.flatMap((result) => [
			...rootOf(result),
			...tablesIn(result).flatMap(({ rows }) => rows.flatMap(lineIdsIn)),
		]),
	);
}

/** Of ledgers that are too long for a page, the lines behind what its tables show. */
export function linesShown(
	results: readonly ReportedResult[],
): readonly LedgerRow[] {
	return results.flatMap((result) =>
		linesBehind(
			result.ledger,
			tablesIn(result).flatMap(({ rows }) => rows.flatMap(lineIdsIn)),
			comparisonsIn([result]).flatMap(({ verdicts }) =>
				verdicts.flatMap((v) => v.reckoned.lines),
			),
		),
	);
}

/**
 * @param ledger as far as the page holds it
 * @param withLedger whether that is all of it, and shown
 */
export function traceOf(
	inputs: readonly AttachedInput[],
	results: readonly ReportedResult[],
	ledger: readonly LedgerRow[],
	withLedger: boolean,
): Trace {
	const lines = linesOf(ledger);
	const inTables = results.flatMap(tablesIn).flatMap(flaskRows);
	const differences = differencesOf(results, lines);
	const names = new Set(inTables.map(({ flask }) => flask));
	const sheets = sheetsOf(inputs, headsOf(ledger), ({ flask }) =>
		names.has(flask),
	);
	const flasks = flasksOf(
		sheets,
		[...inTables, ...results.flatMap(weighedRows)],
		lines,
	);
	const inRow = new Map(flasks.map((own) => [own.row, own]));
	const byName = grouped(flasks, ({ name }) => name);
	const flaskOf = (
		name: string,
		ids: readonly string[],
	): PageFlask | undefined => {
		const own = byName.get(name) ?? [];
		return (
			own.find(({ cited }) => cited.some(({ id }) => ids.includes(id))) ??
			own[0]
		);
	};
	const treatments = treatmentIds(flasks);
	const treatmentAddress = (treatment: string): string => {
		const id = treatments.get(treatment);
		return id === undefined ? "" : `#${id}`;
	};
	const lineAddress = (id: string | undefined): string =>
		withLedger && id !== undefined && lines.get(id) !== undefined
			? `#${lineId(id)}`
			: "";
	const shown = idsShown(results);
	const rowLink = (cell: LedgerRow): Link[] =>
		sheets.flatMap((sheet) =>
			sheet.rows
				.filter((row) => standsIn(sheet, row, cell))
				.map((row) => {
					const own = inRow.get(row);
					return own === undefined
						? {
								address: `#${rowId(sheet.number, row.row)}`,
								text: `row ${row.row} of ${sheet.file}`,
							}
						: { address: `#${own.id}`, text: `flask ${own.name}` };
				}),
		);
	const flask: Trace["flask"] = (name, ids = []) => {
		const found = flaskOf(name, ids);
		return found === undefined ? "" : `#${found.id}`;
	};
	const inTable: Trace["inTable"] = (row, columns, at) => {
		const named = columns.indexOf(flaskHead);
		const ids = lineIdsIn(row);
		if (at === named) return flask(row[at].text, ids);
		if (columns[at] === treatmentHead) return treatmentAddress(row[at].text);
		const [id] = lineIdsIn([row[at]]);
		const own = named < 0 ? undefined : flaskOf(row[named].text, ids);
		return own?.cited.some((line) => line.id === id)
			? `#${own.id}`
			: lineAddress(id);
	};
	const starts = startsOf(sheets, flasks, differences);
	return {
		sheets,
		flasks,
		lines,
		starts,
		inTable,
		inAnswer: (row, columns, at) => {
			// The first cell names its row: digits in it are no number.
			const isNumber = at > 0 && /\d/.test(row[at].text);
			return (
				inTable(row, columns, at) ||
				(at === 0 || isNumber ? treatmentAddress(row[0].text) : "") ||
				(isNumber ? (starts[0]?.address ?? "") : "")
			);
		},
		withLedger,
		cell: (place) => (place.row === 0 ? "" : cellAddress(sheets, place)),
		flask,
		differences,
		treatments,
		difference: (verdict) =>
			differenceAddress(differences, verdict) ||
			treatmentAddress(verdict.treatment),
		counted: ({ name, sheet, row }) =>
			[...differences.values()].flatMap(({ id, verdict }) =>
				verdict.reckoned.weighed
					.filter(({ flask, line }) => {
						const own = lines.get(line);
						return (
							flask === name &&
							own !== undefined &&
							lines.cells(own).some((cell) => standsIn(sheet, row, cell))
						);
					})
					.map(({ weight }) => ({
						address: `#${id}`,
						text: `${pairText(verdict)}, weight ${weightText(weight)}`,
					})),
			),
		value: (result) => lineAddress(rootOf(result)[0]),
		restsOn: (line) =>
			shown.has(line.id)
				? [
						...new Map(
							lines
								.cells(line)
								.flatMap(rowLink)
								.map((link) => [link.address, link]),
						).values(),
					]
				: [],
		row: (row) => {
			const own = inRow.get(row);
			return own === undefined || own.cited.length === 0 ? "" : `#${own.id}`;
		},
	};
}
