/** What of the large tables and ledgers stays inside an executed notebook, and what lies in files beside its page. */
import type { CodeCell, Notebook, Output } from "../ipynb";
import { type ReportedResult, resultMimeType } from "../reported";
import { resultSchema, tableSchema } from "../schema";
import { type StructuredTable, tableMimeType } from "../structured-table";
import { beside, lengthInside, type PackedFile } from "./packed-file";
import { isPacked, type PackedLedger } from "./packed-ledger";

/** Changes what a notebook's outputs carry compressed; what carries nothing stays as it is. */
interface Change {
	table(file: PackedFile): PackedFile;
	ledger(ledger: PackedLedger): PackedLedger;
}

function changedTable(table: StructuredTable, change: Change): StructuredTable {
	return table.large === undefined
		? table
		: {
				...table,
				large: { ...table.large, whole: change.table(table.large.whole) },
			};
}

function changedResult(result: ReportedResult, change: Change): ReportedResult {
	const { content, ledger } = result;
	return {
		...result,
		content:
			content.kind === "table"
				? { ...content, table: changedTable(content.table, change) }
				: content,
		ledger: isPacked(ledger) ? change.ledger(ledger) : ledger,
	};
}

const carriesFiles = ({ content, ledger }: ReportedResult): boolean =>
	isPacked(ledger) ||
	(content.kind === "table" && content.table.large !== undefined);

function changedData(
	data: Record<string, unknown>,
	change: Change,
): Record<string, unknown> {
	const table = tableSchema.safeParse(data[tableMimeType]);
	const result = resultSchema.safeParse(data[resultMimeType]);
	return {
		...data,
		...(table.success && table.data.large !== undefined
			? { [tableMimeType]: changedTable(table.data, change) }
			: {}),
		...(result.success && carriesFiles(result.data)
			? { [resultMimeType]: changedResult(result.data, change) }
			: {}),
	};
}

function changed(notebook: Notebook, change: Change): Notebook {
	const output = (o: Output): Output =>
		o.output_type === "display_data" || o.output_type === "execute_result"
			? { ...o, data: changedData(o.data, change) }
			: o;
	return {
		...notebook,
		cells: notebook.cells.map((c) =>
			c.cell_type === "code"
				? ({ ...c, outputs: c.outputs.map(output) } as CodeCell)
				: c,
		),
	};
}

/** The compressed tables that a notebook carries, each once, and its compressed ledgers. */
function carried(notebook: Notebook): {
	readonly tables: readonly PackedFile[];
	readonly ledgers: readonly PackedFile[];
} {
	const tables = new Map<string, PackedFile>();
	const ledgers: PackedFile[] = [];
	changed(notebook, {
		table(file) {
			tables.set(file.name, file);
			return file;
		},
		ledger(ledger) {
			ledgers.push(ledger.rows);
			return ledger;
		},
	});
	return { tables: [...tables.values()], ledgers };
}

const lengthOf = (files: readonly PackedFile[]): number =>
	files.reduce((sum, file) => sum + lengthInside(file), 0);

/** What the compressed tables leave of the room. */
export function roomLeft(notebook: Notebook, room: number): number {
	return room - lengthOf(carried(notebook).tables);
}

/** Every compressed table as a file, and the notebook with as many of them inside as there is room for, the smallest first. */
export function withTablesPlaced(
	notebook: Notebook,
	room: number,
): { readonly notebook: Notebook; readonly files: readonly PackedFile[] } {
	const files = carried(notebook).tables;
	let used = 0;
	const inside = new Set<string>();
	for (const file of [...files].sort(
		(a, b) => lengthInside(a) - lengthInside(b),
	)) {
		used += lengthInside(file);
		if (used <= room) inside.add(file.name);
	}
	return {
		files,
		notebook:
			inside.size === files.length
				? notebook
				: changed(notebook, {
						table: (file) => (inside.has(file.name) ? file : beside(file)),
						ledger: (ledger) => ledger,
					}),
	};
}

/** The notebook with its ledgers inside where there is room for them, else with the name and the hash of the ledger that lies beside. */
export function withLedgerPlaced(
	notebook: Notebook,
	room: number,
	file: { readonly name: string; readonly sha256: string },
): Notebook {
	if (lengthOf(carried(notebook).ledgers) <= roomLeft(notebook, room))
		return notebook;
	return changed(notebook, {
		table: (table) => table,
		ledger: (ledger) => ({ ...ledger, rows: { ...file, inside: [] } }),
	});
}
