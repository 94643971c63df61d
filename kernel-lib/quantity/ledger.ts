import papaparse from "papaparse";
import { requireList } from "../problem";
import {
	expressionOf,
	leavesOf,
	numbersPlain,
	plainSymbol,
	symbolOf,
	symbolsPlain,
} from "./expression";
import { structuralIds } from "./ids";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";
import { type Table, table } from "./table";

/** One line of the ledger: an input with the place it was read at, or a named step with its formula. Empty text or row 0 where a field does not apply. */
export interface LedgerRow {
	/** Made of the formula and of the inputs, never of digits: the same line has the same id in every run and on every machine. */
	readonly id: string;
	readonly symbol: string;
	readonly meaning: string;
	/** In `unit`, like the uncertainty. */
	readonly value: number;
	readonly unit: string;
	readonly standardUncertainty: number;
	/** In symbols; "" for an input. */
	readonly formula: string;
	/** The formula with its numbers and units, as they are shown; corrections of zero are left out of sums. "" for an input. */
	readonly numbers: string;
	/** Ids of the lines that the formula uses. */
	readonly inputs: readonly string[];
	readonly file: string;
	readonly hash: string;
	readonly sheet: string;
	/** As a person counts it in the file, header included; 0 where it was not read from a file. */
	readonly row: number;
	readonly column: string;
	/** Where a number that is not in a file comes from, in words. */
	readonly source: string;
}

/** Twelve digits: free of the tails that binary fractions leave, and more than any reading has. */
function clean(value: number): number {
	return Number(value.toPrecision(12));
}

/**
 * The lines of the ledger for what is reported: its ancestors, operands before results, each once. Unnamed intermediate results are folded into the formula of the
 * named step above them.
 */
export function ledgerRows(
	quantities: readonly Quantity[],
): readonly LedgerRow[] {
	return [...ledgerLines(quantities)];
}

/** The id that each of some values has in their ledger. */
export type LineIds = ReadonlyMap<Quantity, string>;

export function lineIds(quantities: readonly Quantity[]): LineIds {
	return structuralIds(quantities.map((q) => nodeOf(q) as QuantityNode));
}

/** The same one after the other, for ledgers that are too long to be held as a whole. */
export function* ledgerLines(
	quantities: readonly Quantity[],
	idOf: LineIds = lineIds(quantities),
): Generator<LedgerRow> {
	const told = new Set<string>();
	for (const [value, id] of idOf) {
		const node = nodeOf(value) as QuantityNode;
		if (told.has(id)) continue;
		told.add(id);
		yield rowOf(node, id, idOf);
	}
}

const inNoSheet = { file: "", hash: "", sheet: "", row: 0, column: "" };

function rowOf(node: QuantityNode, id: string, idOf: LineIds): LedgerRow {
	const common = {
		id,
		symbol: plainSymbol(
			node.input === null ? node.name.symbol : symbolOf(node),
		),
		meaning: node.name.meaning,
		value: clean(node.value),
		unit: node.unit,
		standardUncertainty: clean(node.standardUncertainty),
	};
	if (node.input === null) {
		const expression = expressionOf(node);
		const ids = leavesOf(expression).map((leaf) => idOf.get(leaf) ?? "");
		return {
			...common,
			formula: symbolsPlain(expression),
			numbers: numbersPlain(expression),
			inputs: [...new Set(ids)].filter((leaf) => leaf !== ""),
			...inNoSheet,
			source: "",
		};
	}
	const { source } = node.input;
	if (source.is === "stated")
		return {
			...common,
			formula: "",
			numbers: "",
			inputs: [],
			...inNoSheet,
			source: source.source,
		};
	const { file, hash, sheet, row, column } = source;
	return {
		...common,
		formula: "",
		numbers: "",
		inputs: [],
		file,
		hash,
		sheet,
		row,
		column,
		source: "",
	};
}

const headings = [
	"id",
	"symbol",
	"meaning",
	"value",
	"unit",
	"standard uncertainty",
	"formula",
	"with numbers",
	"inputs",
	"file",
	"hash",
	"sheet",
	"row",
	"column",
	"source",
] as const;

function fields(row: LedgerRow): (string | number)[] {
	return [
		row.id,
		row.symbol,
		row.meaning,
		row.value,
		row.unit,
		row.standardUncertainty,
		row.formula,
		row.numbers,
		row.inputs.join(" "),
		row.file,
		row.hash,
		row.sheet,
		row.row > 0 ? row.row : "",
		row.column,
		row.source,
	];
}

/** The ledger as CSV (RFC 4180, with a header). Texts that a spreadsheet would take for a formula get a leading apostrophe. With the id of a run, every line carries it in a last column. */
export function ledgerCsv(rows: readonly LedgerRow[], runId = ""): string {
	return [...ledgerCsvLines(rows, runId)].join("");
}

/** The same line by line, the header first. */
export function* ledgerCsvLines(
	rows: Iterable<LedgerRow>,
	runId: string,
): Generator<string> {
	const run = runId === "" ? [] : [runId];
	const line = (cells: readonly (string | number)[]): string =>
		`${papaparse.unparse([[...cells]], { newline: "\r\n", escapeFormulae: true })}\r\n`;
	yield line([...headings, ...run.map(() => "run id")]);
	for (const row of rows) yield line([...fields(row), ...run]);
}

/** The ledger as a table for people. */
export function ledgerTable(rows: readonly LedgerRow[]): Table {
	return table(
		"Ledger",
		["symbol", "meaning", "value", "u", "unit", "formula", "from"],
		rows.map((row) => [
			row.symbol,
			row.meaning,
			row.value,
			Number(row.standardUncertainty.toPrecision(3)),
			row.unit === "1" ? "" : row.unit,
			row.formula,
			placeText(row),
		]),
	);
}

function placeText(row: LedgerRow): string {
	if (row.row === 0) return row.source;
	const sheet = row.sheet === "" ? "" : `, sheet "${row.sheet}"`;
	return `${row.file}${sheet}, row ${row.row}, column "${row.column}"`;
}

/**
 * The ledger of what is reported: every number behind it, one row each, with value, uncertainty, formula and where it was read; operands before results.
 * @example
 * const m = quantity.input("mass", 2, "g", quantity.exact, { symbol: "m", meaning: "char" });
 * quantity.ledger([quantity.named(quantity.scaled(m, 3), "M", "three portions")]).rows.length // => 2
 */
export function ledger(quantities: readonly Quantity[]): Table {
	requireList(quantities, "a quantity", "quantity.ledger");
	return ledgerTable(ledgerRows(quantities));
}
