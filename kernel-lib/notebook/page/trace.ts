/** Where on a page the links lead to: from a flask to its row, from a line of the ledger to its cell. */
import type { LedgerRow } from "../../quantity";
import type { AttachedInput } from "../attach";
import type { ReportedResult } from "../reported";
import type { StructuredTable } from "../structured-table";
import { rowId } from "./anchors";
import { cellAddress, type PageSheet, sheetsOf } from "./sheets";
import { flaskHead } from "./tables";

/** Addresses within the page; "" where it has no such place. */
export interface Trace {
	readonly sheets: readonly PageSheet[];
	/** The cell that a line of the ledger was read from. */
	cell(place: LedgerRow): string;
	flask(name: string): string;
}

/** The flasks that a table names. */
function flasksIn({ columns, rows }: StructuredTable): string[] {
	const at = columns.indexOf(flaskHead);
	return at < 0 ? [] : rows.map((row) => row[at].text);
}

function tablesIn({ content }: ReportedResult): StructuredTable[] {
	return content.kind === "table" ? [content.table] : [];
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

/** @param lines the ledger, as far as the page holds it */
export function traceOf(
	inputs: readonly AttachedInput[],
	results: readonly ReportedResult[],
	lines: readonly LedgerRow[],
): Trace {
	const named = new Set(results.flatMap(tablesIn).flatMap(flasksIn));
	const sheets = sheetsOf(inputs, headsOf(lines), ({ flask }) =>
		named.has(flask),
	);
	const flasks = new Map<string, string>();
	for (const { number, rows } of sheets)
		for (const { row, flask } of rows)
			if (flask !== "" && !flasks.has(flask))
				flasks.set(flask, `#${rowId(number, row)}`);
	return {
		sheets,
		cell: (place) => (place.row === 0 ? "" : cellAddress(sheets, place)),
		flask: (name) => flasks.get(name) ?? "",
	};
}
