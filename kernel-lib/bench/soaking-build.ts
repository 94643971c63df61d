import {
	exact,
	input,
	type Kind,
	type Quantity,
	type UnitOf,
} from "../quantity";
import { sourceOf } from "./cell-source";
import type { FlaskKey } from "./columns";
import type { FlaskTable } from "./flask-table";
import { numberOf, numbersOf, type ParsedRow } from "./parsed-table";
import type { Recorded } from "./recorded";
import type { Soaking } from "./soaking";

/** Reads a number of a row as it is written: its kind, its column, what it is called. */
type Read = <K extends Kind>(
	kind: K,
	key: FlaskKey,
	symbol: string,
	meaning: string,
	n?: number,
) => Recorded<Quantity<K>>;

const reader =
	(table: FlaskTable, row: ParsedRow): Read =>
	(kind, key, symbol, meaning, n = 1) => {
		const cell = numberOf(table, row, key, n);
		if (cell === null || (cell.unit !== "" && cell.kind !== kind))
			return { recorded: false };
		const unit = (cell.unit === "" ? kind : cell.unit) as UnitOf<typeof kind>;
		return {
			recorded: true,
			value: input(kind, cell.value, unit, exact, {
				symbol,
				meaning,
				source: sourceOf(table, row, cell.header),
				scope: "reading",
			}),
		};
	};

/** In whichever way it is counted. */
function strengthOf(read: Read): Soaking["strength"] {
	const strengthIn = <K extends Kind>(kind: K): Recorded<Quantity<K>> =>
		read(kind, "soak strength", "c_{\\text{soak}}", "strength of the soak");
	const strengths: Soaking["strength"][] = [
		strengthIn("massConcentration"),
		strengthIn("concentration"),
		strengthIn("ratio"),
	];
	return strengths.find((found) => found.recorded) ?? { recorded: false };
}

function lastRinseOf(read: Read): Soaking["lastRinse"] {
	return {
		pH: read(
			"pH",
			"last rinse ph",
			"\\text{pH}_{\\text{rinse}}",
			"pH of the last rinse",
		),
		conductivity: read(
			"conductivity",
			"last rinse conductivity",
			"\\kappa_{\\text{rinse}}",
			"conductivity of the last rinse",
		),
		demand: read(
			"concentration",
			"last rinse demand",
			"c_{\\text{demand}}",
			"iodine (I2) consumed by a litre of the last rinse",
		),
	};
}

/** What a row says of its soak, each number taken as written. */
export function soakingOf(table: FlaskTable, row: ParsedRow): Soaking {
	const read = reader(table, row);
	return {
		strength: strengthOf(read),
		rinses: numbersOf(table, "rinse #").flatMap((n) => {
			const rinse = read(
				"volume",
				"rinse #",
				`V_{\\text{rinse ${n}}}`,
				`rinse ${n}`,
				n,
			);
			return rinse.recorded ? [rinse.value] : [];
		}),
		charRinsed: read(
			"mass",
			"char rinsed",
			"m_{\\text{rinsed}}",
			"dry mass of the char that was rinsed",
		),
		lastRinse: lastRinseOf(read),
		firedAfter: read(
			"temperature",
			"fired after soak",
			"T_{\\text{after}}",
			"highest temperature after the soak",
		),
	};
}
