import {
	type FurtherRow,
	type FurtherTable,
	measuredVolume,
	tolerancesOf,
} from "../bench";
import {
	input,
	type Kind,
	type Quantity,
	rectangular,
	type Source,
	toBase,
	type UnitOf,
} from "../quantity";
import type { PropertyKey } from "./columns";
import { leastScatter } from "./replicates";
import { sieveOpening } from "./sieve-openings";

/** Largest error of a pH reading after calibration with two buffers, and of a hydrometer in g/mL (common practice, no source). */
const pHError = 0.05;
const hydrometerError = 0.002;

/** The readings of one row as quantities, each known by its cell. Asked for a cell that is empty, it throws: check before. */
export interface RowReadings {
	mass(key: PropertyKey, meaning: string, number?: number): Quantity<"mass">;
	cylinder(key: PropertyKey, meaning: string): Quantity<"volume">;
	pipette(key: PropertyKey, meaning: string): Quantity<"volume">;
	pH(): Quantity<"pH">;
	density(): Quantity<"density">;
	opening(number: number): Quantity<"length">;
}

/** Short symbols for the columns that are masses. */
const symbols: Partial<Record<PropertyKey, string>> = {
	dish: "m_{dish}",
	"dish and sample": "m_{full}",
	"dish after": "m_{after}",
	"sample mass": "m",
	retained: "m_{retained}",
	pan: "m_{pan}",
	floated: "m_{floated}",
	sunk: "m_{sunk}",
};

/** Dishes and crucibles are weighed on one balance, bulk samples on another. */
const dishes: readonly PropertyKey[] = [
	"dish",
	"dish and sample",
	"dish after",
];
const bulk: readonly PropertyKey[] = [
	"sample mass",
	"retained",
	"sieve # mass",
	"pan",
	"floated",
	"sunk",
];

export function assumptionsOf(table: FurtherTable<PropertyKey>): string[] {
	return [
		`Every weighing errs by up to one step of its balance: ${table.balanceStep(...dishes)} g for dishes and crucibles, ${table.balanceStep(...bulk)} g for samples in bulk (seen from the masses in the table; common practice, no source).`,
		`A pH errs by up to ${pHError}, a density of a liquid by up to ${hydrometerError} g/mL (common practice, no source).`,
		"Volumes are taken as measured with a cylinder of class B, aliquots with a pipette of class B where there is one of that size; sieves as within ISO 3310-1 (from memory).",
		`One determination is taken to scatter by at least ${100 * leastScatter} % of its value, since replicates can lie close together by luck (a choice of this library, no source).`,
		"Replicates of one property are taken to scatter alike on all chars of the table: their standard deviation is pooled.",
	];
}

type Row = FurtherRow<PropertyKey>;

/** A number of a row with its unit and the place where it stands. */
function cell<K extends Kind>(
	row: Row,
	key: PropertyKey,
	kind: K,
	number = 1,
): { value: number; unit: UnitOf<K>; source: Source } {
	const read = row.number(key, number);
	if (!read.recorded)
		throw new Error(`The checks let row ${row.row} pass without ${key}.`);
	// A bare number, such as a pH, carries the name of its kind.
	const unit = read.value.unit === "" ? kind : read.value.unit;
	return {
		value: read.value.value,
		unit: unit as UnitOf<K>,
		source: read.value.source,
	};
}

/** What a reading is called, and the most that it errs by, in base units. */
interface About {
	readonly symbol: string;
	readonly meaning: string;
	readonly error: number;
}

function reading<K extends Kind>(
	row: Row,
	key: PropertyKey,
	kind: K,
	{ symbol, meaning, error }: About,
	number = 1,
): Quantity<K> {
	const { value, unit, source } = cell(row, key, kind, number);
	const inUnit = error / (toBase(kind, 1, unit) - toBase(kind, 0, unit));
	return input(kind, value, unit, rectangular(inUnit), {
		scope: "reading",
		symbol,
		meaning,
		source,
	});
}

type Measure = "measuring cylinder" | "volumetric pipette";

/** The size in mL that a volume was most likely measured with; undefined for a volume that no pipette has. */
function sizeFor(piece: Measure, mL: number): number | undefined {
	const sizes = tolerancesOf(piece).map((t) => t.size);
	return piece === "volumetric pipette"
		? sizes.find((s) => Math.abs(s - mL) < 1e-9 * mL)
		: (sizes.find((s) => s >= mL * (1 - 1e-9)) ?? Math.max(...sizes));
}

function volume(
	row: Row,
	piece: Measure,
	key: PropertyKey,
	meaning: string,
): Quantity<"volume"> {
	const { value, unit, source } = cell(row, key, "volume");
	const mL = toBase("volume", value, unit) * 1000;
	const size = sizeFor(piece, mL);
	return size === undefined
		? volume(row, "measuring cylinder", key, meaning)
		: measuredVolume(
				piece,
				size,
				mL,
				{},
				{ source, symbol: `V_{${key.split(" ")[0]}}`, meaning },
			);
}

export function readingsOf(
	table: FurtherTable<PropertyKey>,
	row: Row,
): RowReadings {
	const step = (key: PropertyKey): number =>
		table.balanceStep(...(dishes.includes(key) ? dishes : bulk));
	return {
		mass: (key, meaning, number) =>
			reading(
				row,
				key,
				"mass",
				{
					symbol: symbols[key] ?? `m_{${number ?? 1}}`,
					meaning,
					error: step(key),
				},
				number,
			),
		cylinder: (key, meaning) => volume(row, "measuring cylinder", key, meaning),
		pipette: (key, meaning) => volume(row, "volumetric pipette", key, meaning),
		pH: () =>
			reading(row, "ph", "pH", {
				symbol: "pH",
				meaning: "pH of the extract",
				error: pHError,
			}),
		density: () =>
			reading(row, "liquid density", "density", {
				symbol: "\\rho_{liquid}",
				meaning: "density of the liquid",
				error: hydrometerError * 1000,
			}),
		opening: (number) => {
			const { value, unit } = cell(row, "sieve # opening", "length", number);
			const mm = toBase("length", value, unit) * 1000;
			return sieveOpening(Number(mm.toPrecision(9)));
		},
	};
}
