/** A portion of char that cannot be what it says: most likely grams under a head in milligrams, or the reverse. */
import { type Problem, problem, toBase } from "../quantity";
import { flaskEvents } from "./flask-events";
import { type FlaskTable, millilitres, shown } from "./flask-table";
import { numberOf, type ParsedRow, placeOf } from "./parsed-table";

/** Grams of char to a millilitre of liquid that no flask holds: a gram of char holds about two millilitres itself, so that nothing runs through the filter. Our decision. */
export const mostPerMillilitre = 0.5;
/** Milligrams under a head in mg that a laboratory balance weighs too poorly to be meant. Our decision. */
export const leastMilligrams = 5;

/** The most liquid that a row's flask ever held, mL; Infinity where a volume is missing. */
function mostLiquid(table: FlaskTable, row: ParsedRow): number {
	let now = 0;
	let most = 0;
	for (const { is, cell } of flaskEvents(table, row)) {
		if (cell === null) return Number.POSITIVE_INFINITY;
		if (is === "dose" || is === "liquid added") now += millilitres(cell);
		else if (is === "made up") now = millilitres(cell);
		most = Math.max(most, now);
	}
	return most;
}

interface Slip {
	readonly row: ParsedRow;
	readonly header: string;
	readonly found: string;
}

/** One problem for a whole column: the first row as the example, the others counted. */
function ofColumn(
	table: FlaskTable,
	slips: readonly Slip[],
	code: string,
	expected: string,
	mend: string,
): Problem[] {
	if (slips.length === 0) return [];
	const { row, header, found } = slips[0];
	const more = slips.length - 1;
	return [
		problem(
			code,
			{ ...placeOf(table, row, "char mass"), column: header },
			more === 0
				? found
				: `${found}, and the like in ${more} more ${more === 1 ? "row" : "rows"}`,
			expected,
			mend,
		),
	];
}

/** Portions of char that cannot be what they say, each kind of slip once for the column. */
export function checkPortions(table: FlaskTable): Problem[] {
	const grams: Slip[] = [];
	const milligrams: Slip[] = [];
	for (const row of table.rows) {
		const mass = numberOf(table, row, "char mass");
		if (mass === null || !(mass.value > 0)) continue;
		const written = `${mass.value} ${mass.unit} of char`;
		const liquid = mostLiquid(table, row);
		if (mass.unit === "mg" && mass.value < leastMilligrams)
			grams.push({ row, header: mass.header, found: written });
		else if (
			liquid > 0 &&
			toBase("mass", mass.value, mass.unit) > mostPerMillilitre * liquid
		)
			milligrams.push({
				row,
				header: mass.header,
				found: `${written} in ${shown(liquid)} of liquid`,
			});
	}
	return [
		...ofColumn(
			table,
			grams,
			"char-mass-in-grams",
			`a mass of at least ${leastMilligrams} mg where the head says mg`,
			"Are the numbers grams? Then write (g) into the head. If they are milligrams indeed, write them in grams.",
		),
		...ofColumn(
			table,
			milligrams,
			"char-mass-in-milligrams",
			`at most ${mostPerMillilitre} g of char to a millilitre of liquid`,
			"Are the numbers milligrams? Then write (mg) into the head. Else look the mass and the volumes up again.",
		),
	];
}
