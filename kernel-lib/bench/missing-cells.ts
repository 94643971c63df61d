import { type Problem, problem } from "../quantity";
import type { Column } from "./column";
import { headerText, type SheetName, sheets } from "./columns";
import {
	isEmpty,
	type ParsedRow,
	type ParsedTable,
	placeOf,
} from "./parsed-table";

/** Collects cells that must be filled and are not. A column that is not there at all is one problem, not one for every row. */
export interface MissingCells<Key extends string> {
	/** `number` for numbered columns; "any" where any of them would do and the caller has looked. */
	require(row: ParsedRow, key: Key, expected: string, number?: number): void;
	/** Adds the problems of whole columns; call it once, after the last row. */
	report(): void;
}

export function missingCells<Key extends string>(
	table: ParsedTable<Key>,
	problems: Problem[],
): MissingCells<Key> {
	const columns = new Map<Key, { expected: string; rows: number[] }>();
	const sheet = table.raw.sheet as SheetName;
	return {
		require(row, key, expected, number = 1) {
			if (!isEmpty(table, row, key, number)) return;
			const absent = !table.columns.get(key);
			if (!absent) {
				problems.push(
					problem(
						"cell-missing",
						placeOf(table, row, key, number),
						"an empty cell",
						expected,
						"Fill the cell; an empty one is never taken for 0.",
					),
				);
				return;
			}
			const known = columns.get(key);
			if (known) known.rows.push(row.row);
			else columns.set(key, { expected, rows: [row.row] });
		},
		report() {
			for (const [key, { expected, rows }] of columns) {
				const column = (sheets[sheet].columns as Record<string, Column>)[key];
				const unit =
					column.holds.is === "number" ? (column.holds.units[0] ?? "") : "";
				const header = headerText(key, key.includes("#") ? "1" : "", unit);
				const near = table.headers.unknown.find((u) =>
					u.perhaps.startsWith(headerText(key, "", "")),
				);
				problems.push(
					problem(
						"column-missing",
						{
							file: table.raw.file,
							sheet,
							row: table.raw.headerRow,
							column: header,
						},
						near
							? `no such column, but one named "${near.header}"`
							: "no such column",
						`${expected}, in row${rows.length === 1 ? "" : "s"} ${rowList(rows)}`,
						near
							? `Did you mean "${header}"? Rename the column.`
							: `Add a column "${header}": ${column.meaning}.`,
					),
				);
			}
		},
	};
}

/** "2, 3, 4 and 17 more" */
export function rowList(rows: readonly number[]): string {
	return rows.length <= 5
		? rows.join(", ")
		: `${rows.slice(0, 4).join(", ")} and ${rows.length - 4} more`;
}
