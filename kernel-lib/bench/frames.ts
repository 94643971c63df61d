import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import {
	fromBase,
	isTyped,
	jupyterDisplay,
	type Kind,
	type Measured,
	type Quantity,
	type ResultKind,
	requireResult,
	type Table,
	type TableCell,
	table,
	tableHtml,
	tableText,
	toBase,
} from "../quantity";
import type { DataFrame } from "./data-frame";
import { filterByPlace } from "./filter-by-place";
import { firingReadings } from "./firing-readings";
import { keepMarks, ofTrial } from "./frame-of-trial";
import { readings } from "./readings";
import { requireTrial } from "./require-trial";
import { singleReadings } from "./single-readings";
import type { Trial } from "./trial";

type Columns = Record<string, readonly (string | number)[]>;
type Danfo = {
	DataFrame: new (
		columns: Columns | readonly never[],
		options?: { readonly columns: readonly string[] },
	) => DataFrame;
};

const isQuantity = (cell: TableCell): cell is Quantity =>
	typeof cell === "object" && "kind" in cell;
const isMeasured = (cell: TableCell): cell is Measured<Kind> =>
	typeof cell === "object" && "is" in cell && !isTyped(cell);

/** A number that was typed is a number in a frame. */
const plainCell = (cell: TableCell): TableCell =>
	isTyped(cell) ? cell.value : cell;

/** "uptake" or "uptake (mg/g)", and a word -> "uptake u (mg/g)". */
function head(name: string, word: string, unit: string): string {
	const bare = name.replace(/\s*\([^()]*\)$/, "");
	const inBrackets =
		unit === "1" || unit === "pH" || unit === "" ? "" : ` (${unit})`;
	return `${bare}${word === "" ? "" : ` ${word}`}${inBrackets}`;
}

function withUncertainty(
	name: string,
	cells: readonly TableCell[],
): [string, (string | number)[]][] {
	const quantities = cells.map((c) =>
		isQuantity(c) ? c : isMeasured(c) ? c.quantity : null,
	);
	const unit = quantities.find((q) => q !== null)?.unit ?? "";
	const value = (q: Quantity): number =>
		fromBase(q.kind, toBase(q.kind, q.value, q.unit), unit);
	const factor = (q: Quantity): number =>
		(toBase(q.kind, 1, q.unit) - toBase(q.kind, 0, q.unit)) /
		(toBase(q.kind, 1, unit) - toBase(q.kind, 0, unit));
	const columns: [string, (string | number)[]][] = [
		[
			head(name, "", unit),
			quantities.map((q) => (q === null ? Number.NaN : value(q))),
		],
		[
			head(name, "standard uncertainty", unit),
			quantities.map((q) =>
				q === null ? Number.NaN : q.standardUncertainty * factor(q),
			),
		],
	];
	return cells.some(isMeasured)
		? [
				...columns,
				[
					head(name, "is", ""),
					cells.map((c) =>
						isMeasured(c) ? c.is : isQuantity(c) ? "value" : "",
					),
				],
			]
		: columns;
}

function columnsOf(t: Table): Columns {
	const columns = new Map<string, readonly (string | number)[]>();
	const add = (name: string, cells: readonly (string | number)[]): void => {
		let free = name;
		for (let k = 2; columns.has(free); k++) free = `${name} [${k}]`;
		columns.set(free, cells);
	};
	t.columns.forEach((name, i) => {
		const cells = t.rows.map((r) => plainCell(r[i]));
		if (cells.some((c) => isQuantity(c) || isMeasured(c)))
			for (const [n, c] of withUncertainty(name, cells)) add(n, c);
		else if (
			cells.some((c) => typeof c === "number") &&
			cells.every((c) => typeof c === "number" || c === "")
		)
			add(
				name,
				cells.map((c) => (typeof c === "number" ? c : Number.NaN)),
			);
		else add(name, cells.map(String));
	});
	return Object.fromEntries(columns);
}

/** Rows that a notebook shows of a frame, and significant digits of its numbers; the frame itself keeps all. */
const shownRows = 20;
const shownDigits = 6;

/** A frame as a table of its first rows; what is missing is an empty cell. */
function firstRows(frame: DataFrame): Table {
	return table(
		"",
		frame.columns,
		(frame.shape[0] === 0 ? [] : frame.head(shownRows).values).map((r) =>
			(r as unknown[]).map((c) =>
				typeof c === "number" && Number.isFinite(c)
					? Number(c.toPrecision(shownDigits))
					: typeof c === "string"
						? c
						: "",
			),
		),
		frame.shape[0] > shownRows
			? [`the first ${shownRows} of ${frame.shape[0]} rows`]
			: [],
	);
}

/** Teaches the package's frames to show themselves in a notebook, so that what is filtered or grouped from one does so too. */
function showing({ DataFrame: made }: Danfo): void {
	const prototype = made.prototype as object;
	if (jupyterDisplay in prototype) return;
	Object.defineProperty(prototype, jupyterDisplay, {
		enumerable: false,
		value(this: DataFrame) {
			const shown = firstRows(this);
			return { "text/html": tableHtml(shown), "text/plain": tableText(shown) };
		},
	});
}

/** The distribution carries the package in one file (see dataframe-backend/bundle.mjs); the source uses the package itself. */
function danfo(): Danfo {
	const bundled = join(__dirname, "dataframe-backend", "danfojs-node.js");
	const loaded = createRequire(__filename)(
		existsSync(bundled) ? bundled : "danfojs-node",
	) as Danfo;
	showing(loaded);
	filterByPlace(loaded.DataFrame);
	keepMarks(loaded.DataFrame);
	return loaded;
}

const tableKind: ResultKind = {
	parts: ["title", "columns", "rows"],
	expected: "a table, such as bench.readings(trial) or the `table` of a result",
};

/**
 * A table as a data frame (of the package danfojs-node, which is loaded at the first call and not before). Units stand in the names of the columns. A column of quantities
 * becomes two, value and standard uncertainty, and a third ("is") where some of its cells are bounds; a missing number is NaN, as that package has it.
 * @example
 * bench.frame(quantity.table("Masses", ["flask", "char (g)"], [["1", 1.02], ["2", 0.98]])).shape // => [2, 2]
 */
export function frame(from: Table): DataFrame {
	requireResult(from, tableKind, "bench.frame");
	const columns = columnsOf(from);
	const { DataFrame } = danfo();
	return from.rows.length === 0
		? new DataFrame([], { columns: Object.keys(columns) })
		: new DataFrame(columns);
}

/**
 * What the sheet says of every flask as a data frame, a row a flask: masses, volumes, titres and readings as they were written, the unit of each in the name of its column.
 * @example
 * bench.flaskFrame(trial).shape[0] === trial.flasks.length // => true
 */
export function flaskFrame(trial: Trial): DataFrame {
	requireTrial(trial);
	return ofTrial(trial, frame(readings(trial)));
}

/**
 * Every single reading as a data frame, a row a reading: titres (mL) as delivered by the burette and what instruments showed, with the flask, its treatment and day, the number of the reading, and
 * whether a deviation leaves it out ("yes", "no").
 * @example
 * bench.readingFrame(trial).columns.slice(0, 4) // => ["flask", "contents", "treatment", "day"]
 */
export function readingFrame(trial: Trial): DataFrame {
	requireTrial(trial);
	return ofTrial(trial, frame(singleReadings(trial)));
}

/**
 * The readings of the firings as a data frame, a row a firing.
 * @example
 * bench.firingFrame(kilnTrial).shape[0] // => 6
 */
export function firingFrame(trial: Trial): DataFrame {
	requireTrial(trial);
	return ofTrial(trial, frame(firingReadings(trial)));
}
