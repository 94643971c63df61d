import { toBase } from "../quantity";
import type { FlaskKey } from "./columns";
import {
	isEmpty,
	type NumberCell,
	numbersOf,
	type ParsedRow,
	type ParsedTable,
	textOf,
} from "./parsed-table";
import { filledReadings } from "./reading-cells";
import type { SolutionNames } from "./solution-table";
import type { FlaskContents } from "./trial";

export type FlaskTable = ParsedTable<FlaskKey>;

/** What the checks and the build need to know beside the row. */
export interface FlaskSurroundings {
	readonly table: FlaskTable;
	readonly solutions: SolutionNames;
	/** Sizes in mL: of the burette for titres, of the largest vessel for making up (Infinity where none is named). */
	readonly buretteSize: number;
	readonly largestVessel: number;
	/** Names of the calibration lines; empty where the sheet has none. */
	readonly lines: readonly string[];
}

export const titrationKeys = [
	"titre #",
	"burette start #",
	"burette end #",
	"refilled at #",
	"refilled to #",
] as const satisfies readonly FlaskKey[];

export function contentsOf(table: FlaskTable, row: ParsedRow): FlaskContents {
	return (textOf(table, row, "contents") || "char") as FlaskContents;
}

/** The numbers of the titrations that a row has readings of. */
export function titrationsOf(table: FlaskTable, row: ParsedRow): number[] {
	return numbersOf(table, ...titrationKeys).filter((n) =>
		titrationKeys.some((key) => !isEmpty(table, row, key, n)),
	);
}

/** Tables in which every row that was measured at all was read by an instrument. */
const readOnly = new WeakMap<FlaskTable, boolean>();

function readsOnly(table: FlaskTable): boolean {
	const known = readOnly.get(table);
	if (known !== undefined) return known;
	const read = table.rows.map((row) => filledReadings(table, row).length > 0);
	const found =
		read.includes(true) &&
		table.rows.every(
			(row, i) => read[i] || titrationsOf(table, row).length === 0,
		);
	readOnly.set(table, found);
	return found;
}

/** Whether a row is read by an instrument instead of being titrated. A row with neither is taken for what the other rows of the table are. */
export function isRead(table: FlaskTable, row: ParsedRow): boolean {
	return filledReadings(table, row).length > 0 || readsOnly(table);
}

/** Whether any row is titrated: then there must be iodine and thiosulfate. */
export function anyTitrated(table: FlaskTable): boolean {
	return !readsOnly(table);
}

/** The volume in a cell, mL. */
export const millilitres = (cell: NumberCell): number =>
	toBase("volume", cell.value, cell.unit) * 1000;
/** A volume for a message. */
export const shown = (ml: number): string => `${Number(ml.toPrecision(6))} mL`;
/** Room for the rounding of units and sums. */
export const beyond = (a: number, b: number): boolean =>
	a > b + 1e-6 * Math.abs(b);
