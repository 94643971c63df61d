import {
	type Evidence,
	exact,
	input,
	type Kind,
	normal,
	type Quantity,
	quoted,
	toBase,
	type UnitOf,
} from "../quantity";
import { readingOf, sourceOf } from "./cell-source";
import type { FiringKey } from "./columns";
import type { FiringTable } from "./firing-checks";
import type { Instruments } from "./glassware/instruments";
import { numberOf, type ParsedRow, textOf } from "./parsed-table";
import type { Recorded } from "./trial";

export const notRecorded = { recorded: false } as const;

/** Relative spread of a conductivity reading: temperature and cell constant move it by about this much (common practice, no source). */
export const conductivitySpread = 0.02;
/** Spread of a pH reading (common practice, no source). */
const pHSpread = 0.05;
/** Relative spread of a strength or a content that the sheet states without its uncertainty (common practice, no source). */
export const contentSpread = 0.01;
/** Spread of a moisture, as a part of the mass (common practice, no source). */
const moistureSpread = 0.002;

/** Said once where an activation table has rows. */
export const spreadsAssumed = `Activation table: conductivities are taken as read to ${100 * conductivitySpread} %, pH to ${pHSpread}, strengths, contents and energy as known to ${100 * contentSpread} % of their value, moistures to ${100 * moistureSpread} % of the mass (common practice, no source).`;

type Spread = (value: number, unitInBase: number) => Evidence;

/** A spread in proportion to the value. */
export const ofItself =
	(part: number): Spread =>
	(value) =>
		normal(Math.abs(value) * part);
export const ofTheMass: Spread = (_, unitInBase) =>
	normal(moistureSpread / unitInBase);
export const ofPH: Spread = () => normal(pHSpread);

/** Reads the cells of one row. */
export interface RowReader {
	readonly name: string;
	text(key: FiringKey, n?: number): string;
	/** `word` stands in the symbol, `meaning` in the working. */
	mass(
		key: FiringKey,
		word: string,
		meaning: string,
		n?: number,
	): Recorded<Quantity<"mass">>;
	number<K extends Kind>(
		kind: K,
		key: FiringKey,
		symbol: string,
		what: string,
		spread?: Spread,
		n?: number,
	): Recorded<Quantity<K>>;
	volume(
		key: FiringKey,
		symbol: string,
		what: string,
		n?: number,
	): Recorded<Quantity<"volume">>;
}

export function readerOf(
	table: FiringTable,
	row: ParsedRow,
	instruments: Instruments,
): RowReader {
	const name = textOf(table, row, "firing");
	const read = (
		key: FiringKey,
		symbol: string,
		meaning: string,
		n: number,
	): ReturnType<typeof readingOf> | null => {
		const cell = numberOf(table, row, key, n);
		return cell === null
			? null
			: readingOf(
					table,
					row,
					cell,
					symbol,
					`${meaning}, firing ${quoted(name)}`,
				);
	};
	return {
		name,
		text: (key, n = 1) => textOf(table, row, key, n),
		mass(key, word, meaning, n = 1) {
			const reading = read(key, `m_{\\text{${word}}}`, meaning, n);
			return reading === null
				? notRecorded
				: { recorded: true, value: instruments.mass("activation", reading) };
		},
		number(kind, key, symbol, what, spread = () => exact, n = 1) {
			const cell = numberOf(table, row, key, n);
			if (cell === null) return notRecorded;
			const unit = (cell.unit === "" ? kind : cell.unit) as UnitOf<typeof kind>;
			// A scale with an offset (°C) has no spread here, so the step of its unit is never asked for.
			const step = toBase(kind, 1, unit) - toBase(kind, 0, unit);
			return {
				recorded: true,
				value: input(kind, cell.value, unit, spread(cell.value, step), {
					symbol,
					meaning: `${what}, firing ${quoted(name)}`,
					source: sourceOf(table, row, cell.header),
					scope: "reading",
				}),
			};
		},
		volume(key, symbol, what, n = 1) {
			const reading = read(key, symbol, `volume of ${what}`, n);
			return reading === null
				? notRecorded
				: { recorded: true, value: instruments.volume("rinse", reading) };
		},
	};
}
