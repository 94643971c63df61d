import papaparse from "papaparse";
import {
	expressionOf,
	isStep,
	leavesOf,
	plainSymbol,
	symbolOf,
	symbolsPlain,
} from "./expression";
import { ancestors } from "./graph";
import { contentHash, isTypedIn } from "./input";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";
import { type Table, table } from "./table";

/** One line of the ledger: an input with the place it was read at, or a named step with its formula. Empty text or row 0 where a field does not apply. */
export interface LedgerRow {
	/** Content hash of what the line is: equal lines have equal ids in every run. */
	readonly id: string;
	readonly symbol: string;
	readonly meaning: string;
	/** In `unit`, like the uncertainty. */
	readonly value: number;
	readonly unit: string;
	readonly standardUncertainty: number;
	/** In symbols; "" for an input. */
	readonly formula: string;
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
	const idOf = new Map<QuantityNode, string>();
	const rows = new Map<string, LedgerRow>();
	const twins: Twins = new Map();
	for (const root of quantities.map((q) => nodeOf(q) as QuantityNode)) {
		for (const node of ancestors(root)) {
			if (idOf.has(node) || !(node === root || isStep(node))) continue;
			const row = rowOf(node, idOf, twins);
			idOf.set(node, row.id);
			if (!rows.has(row.id)) rows.set(row.id, row);
		}
	}
	return [...rows.values()];
}

/** For each content, the keys of the inputs that have it, in the order they were met. */
type Twins = Map<string, string[]>;

/** The key of a number typed into a cell counts up through a session, which the ledger must not: what counts is its content, and how many like it came before. */
function typedIdentity(content: string, key: string, twins: Twins): string {
	const keys = twins.get(content) ?? [];
	twins.set(content, keys);
	if (!keys.includes(key)) keys.push(key);
	return `${content}${keys.indexOf(key)}`;
}

function rowOf(
	node: QuantityNode,
	idOf: ReadonlyMap<QuantityNode, string>,
	twins: Twins,
): LedgerRow {
	const common = {
		symbol: plainSymbol(
			node.input === null ? node.name.symbol : symbolOf(node),
		),
		meaning: node.name.meaning,
		value: clean(node.value),
		unit: node.unit,
		standardUncertainty: clean(node.standardUncertainty),
	};
	const nowhere = { file: "", hash: "", sheet: "", row: 0, column: "" };
	if (node.input === null) {
		const expression = expressionOf(node);
		const formula = symbolsPlain(expression);
		const inputs = leavesOf(expression)
			.map((leaf) => idOf.get(leaf) ?? "")
			.filter((id, i, all) => id !== "" && all.indexOf(id) === i);
		const id = contentHash(
			JSON.stringify([
				node.kind,
				common.symbol,
				common.meaning,
				formula,
				...inputs,
			]),
		);
		return { id, ...common, formula, inputs, ...nowhere, source: "" };
	}
	const { key, source, distribution } = node.input;
	const identity = isTypedIn(key)
		? typedIdentity(
				JSON.stringify([node.kind, common, distribution]),
				key,
				twins,
			)
		: key;
	const id = contentHash(
		JSON.stringify([node.kind, common.symbol, common.value, identity]),
	);
	return {
		id,
		...common,
		formula: "",
		inputs: [],
		...(source.is === "cell"
			? {
					file: source.file,
					hash: source.hash,
					sheet: source.sheet,
					row: source.row,
					column: source.column,
					source: "",
				}
			: { ...nowhere, source: source.source }),
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
	const run = runId === "" ? [] : [runId];
	return `${papaparse.unparse(
		{
			fields: [...headings, ...run.map(() => "run id")],
			data: rows.map((row) => [...fields(row), ...run]),
		},
		{ newline: "\r\n", escapeFormulae: true },
	)}\r\n`;
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

/** From a result down to the file, row and column of each reading, as indented text. A part that was already shown is not repeated. */
export function traceTree(q: Quantity): string {
	const root = nodeOf(q) as QuantityNode;
	const lines: string[] = [];
	const shown = new Set<QuantityNode>();
	const walk = (node: QuantityNode, depth: number): void => {
		const symbol = plainSymbol(symbolOf(node));
		const indent = "  ".repeat(depth);
		const meaning = node.name.meaning === "" ? "" : `, ${node.name.meaning}`;
		const head = `${indent}${symbol} = ${node}${meaning}`;
		if (node.input !== null) {
			const { source } = node.input;
			const place =
				source.is === "stated"
					? source.source
					: `${source.file}${source.sheet === "" ? "" : `, sheet "${source.sheet}"`}, row ${source.row}, column "${source.column}"`;
			lines.push(`${head} [${place}]`);
			return;
		}
		if (shown.has(node)) {
			lines.push(`${head} (shown above)`);
			return;
		}
		shown.add(node);
		const expression = expressionOf(node);
		lines.push(`${head}; ${symbol} = ${symbolsPlain(expression)}`);
		for (const leaf of leavesOf(expression)) walk(leaf, depth + 1);
	};
	walk(root, 0);
	return lines.join("\n");
}
