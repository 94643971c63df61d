/** How a value is shown in a notebook: one bundle with every form that front ends know, by the open `Jupyter.display` convention. */
import { jupyterDisplay, type Table, table, tableText } from "../quantity";
import { displayOfRunningKernel } from "./kernel/tslab";
import { type ShownPart, shownPart } from "./large/shown-part";
import {
	isTable,
	notebookTableHtml,
	type StructuredTable,
	structuredPart,
	tableMimeType,
	tableOf,
} from "./structured-table";

/** Forms of one thing by MIME type; `text/plain` is always there. */
export type Bundle = Readonly<Record<string, unknown>>;

interface Showable {
	[jupyterDisplay](): Bundle | Promise<Bundle>;
}

/** A dataframe, known by what it holds: the library that makes it is loaded only by those who use it. */
interface DataFrame {
	readonly columns: readonly string[];
	readonly values: readonly (readonly unknown[])[];
	readonly index: readonly (string | number)[];
}

/** Rows of a dataframe that a notebook shows, and significant digits of its numbers; the dataframe itself keeps all. */
const shownRows = 50;
const shownDigits = 6;

function hasDisplay(value: unknown): value is Showable {
	return (
		typeof value === "object" &&
		value !== null &&
		typeof (value as Record<symbol, unknown>)[jupyterDisplay] === "function"
	);
}

function isDataFrame(value: unknown): value is DataFrame {
	const frame = value as (Partial<DataFrame> & { print?: unknown }) | null;
	return (
		typeof frame === "object" &&
		frame !== null &&
		typeof frame.print === "function" &&
		Array.isArray(frame.columns) &&
		Array.isArray(frame.index) &&
		Array.isArray(frame.values) &&
		frame.values.every(Array.isArray)
	);
}

/** True for what a notebook can show better than as Node's console prints it. */
export function isShowable(value: unknown): boolean {
	return hasDisplay(value) || isDataFrame(value) || tableOf(value) !== null;
}

function frameCell(cell: unknown): string | number {
	if (typeof cell === "number" && Number.isFinite(cell))
		return Number(cell.toPrecision(shownDigits));
	return cell === null || cell === undefined ? "" : String(cell);
}

function tableOfFrame(frame: DataFrame): unknown {
	const hidden = frame.values.length - shownRows;
	return table(
		"",
		["row", ...frame.columns],
		frame.values
			.slice(0, shownRows)
			.map((row, i) => [String(frame.index[i]), ...row.map(frameCell)]),
		hidden > 0 ? [`${hidden} more rows are not shown.`] : [],
	);
}

function withText(bundle: Bundle, value: unknown): Bundle {
	return "text/plain" in bundle
		? bundle
		: { ...bundle, "text/plain": String(value) };
}

function tableForms(form: StructuredTable): Bundle {
	return { [tableMimeType]: form, "text/html": notebookTableHtml(form) };
}

function partText(part: ShownPart): string {
	return part.is === "whole"
		? tableText(part.table)
		: `${tableText(part.summary)}\n\n${tableText(part.table)}`;
}

function tableBundle(whole: Table): Bundle {
	const part = shownPart(whole);
	return { "text/plain": partText(part), ...tableForms(structuredPart(part)) };
}

/** The forms of a value. A table gets its structured form beside the readable ones; what cannot show itself is shown as text. */
export function bundleOf(value: unknown): Bundle | Promise<Bundle> {
	if (isDataFrame(value)) return bundleOf(tableOfFrame(value));
	if (!hasDisplay(value)) {
		const shown = tableOf(value);
		if (shown !== null && shown !== value) return bundleOf(shown);
		return { "text/plain": shown?.title ?? String(value) };
	}
	if (isTable(value)) return tableBundle(value);
	const own = value[jupyterDisplay]();
	return own instanceof Promise
		? own.then((bundle) => withText(bundle, value))
		: withText(own, value);
}

/** Sends a bundle to the notebook as one output; outside a kernel its text goes to the console. */
export function emit(bundle: Bundle): void {
	const write = displayOfRunningKernel();
	if (write === null) console.log(bundle["text/plain"]);
	else write({ data: bundle, metadata: {}, transient: {} }, false);
}

/**
 * Shows a value in the middle of a cell, as the last line of a cell is shown: a quantity, a table, a result with a table, a figure, a dataframe, or anything else as text. Outside a notebook it prints the value's text.
 *
 * @param value what is to be shown
 * @example
 * notebook.display(trial.flasks[0].charMass)
 */
export function display(value: unknown): void {
	const bundle = bundleOf(value);
	if (bundle instanceof Promise) void bundle.then(emit);
	else emit(bundle);
}
