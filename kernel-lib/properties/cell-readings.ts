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

export function readingsOf(
	table: FurtherTable<PropertyKey>,
	row: FurtherRow<PropertyKey>,
): RowReadings {
	const step = (key: PropertyKey): number =>
		table.balanceStep(...(dishes.includes(key) ? dishes : bulk));
	function cell<K extends Kind>(
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
	const reading = <K extends Kind>(
		kind: K,
		key: PropertyKey,
		symbol: string,
		meaning: string,
		error: (value: number, unit: UnitOf<K>) => number,
		number = 1,
	): Quantity<K> => {
		const { value, unit, source } = cell(key, kind, number);
		return input(kind, value, unit, rectangular(error(value, unit)), {
			scope: "reading",
			symbol,
			meaning,
			source,
		});
	};
	/** An error in base units, in the unit of the cell. */
	const inUnit =
		<K extends Kind>(kind: K, error: number) =>
		(_value: number, unit: UnitOf<K>): number =>
			error / (toBase(kind, 1, unit) - toBase(kind, 0, unit));
	const volume = (
		piece: "measuring cylinder" | "volumetric pipette",
		key: PropertyKey,
		meaning: string,
	): Quantity<"volume"> => {
		const { value, unit, source } = cell(key, "volume");
		const mL = toBase("volume", value, unit) * 1000;
		const sizes = tolerancesOf(piece).map((t) => t.size);
		const size =
			piece === "volumetric pipette"
				? sizes.find((s) => Math.abs(s - mL) < 1e-9 * mL)
				: (sizes.find((s) => s >= mL * (1 - 1e-9)) ?? Math.max(...sizes));
		return size === undefined
			? volume("measuring cylinder", key, meaning)
			: measuredVolume(
					piece,
					size,
					mL,
					{},
					{ source, symbol: `V_{${key.split(" ")[0]}}`, meaning },
				);
	};
	return {
		mass: (key, meaning, number) =>
			reading(
				"mass",
				key,
				symbols[key] ?? `m_{${number ?? 1}}`,
				meaning,
				inUnit("mass", step(key)),
				number,
			),
		cylinder: (key, meaning) => volume("measuring cylinder", key, meaning),
		pipette: (key, meaning) => volume("volumetric pipette", key, meaning),
		pH: () => reading("pH", "ph", "pH", "pH of the extract", () => pHError),
		density: () =>
			reading(
				"density",
				"liquid density",
				"\\rho_{liquid}",
				"density of the liquid",
				inUnit("density", hydrometerError * 1000),
			),
		opening: (number) => {
			const { value, unit } = cell("sieve # opening", "length", number);
			const mm = toBase("length", value, unit) * 1000;
			return sieveOpening(Number(mm.toPrecision(9)));
		},
	};
}
