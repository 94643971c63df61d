/** A portion of char that cannot be what it says: most likely grams under a head in milligrams, or the reverse. */
import { type Problem, problem, toBase } from "../quantity";
import { flaskEvents } from "./flask-events";
import { type FlaskTable, millilitres, shown } from "./flask-table";
import { numberOf, type ParsedRow, placeOf } from "./parsed-table";

/** Grams of char to a millilitre of liquid that no flask holds: it would be a paste, out of which no aliquot can be taken. Our decision. */
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

export function checkPortion(
	table: FlaskTable,
	row: ParsedRow,
	problems: Problem[],
): void {
	const mass = numberOf(table, row, "char mass");
	if (mass === null || !(mass.value > 0)) return;
	const at = { ...placeOf(table, row, "char mass"), column: mass.header };
	const grams = toBase("mass", mass.value, mass.unit);
	const liquid = mostLiquid(table, row);
	if (mass.unit === "mg" && mass.value < leastMilligrams)
		problems.push(
			problem(
				"char-mass-in-grams",
				at,
				`${mass.value} mg of char`,
				`a mass of at least ${leastMilligrams} mg where the head says mg`,
				"Are the numbers grams? Then write (g) into the head. If they are milligrams indeed, write them in grams.",
			),
		);
	else if (liquid > 0 && grams > mostPerMillilitre * liquid)
		problems.push(
			problem(
				"char-mass-in-milligrams",
				at,
				`${mass.value} ${mass.unit} of char in ${shown(liquid)} of liquid`,
				`at most ${mostPerMillilitre} g of char to a millilitre of liquid`,
				"Are the numbers milligrams? Then write (mg) into the head. Else look the mass and the volumes up again.",
			),
		);
}
