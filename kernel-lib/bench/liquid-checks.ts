import { type Problem, problem } from "../quantity";
import { flaskEvents } from "./flask-events";
import {
	beyond,
	type FlaskSurroundings,
	type FlaskTable,
	millilitres,
	shown,
	titrationsOf,
} from "./flask-table";
import { numberOf, type ParsedRow, placeOf } from "./parsed-table";
import type { FlaskContents } from "./trial";

/** Follows the liquid in the flask from column to column. */
export function checkLiquid(
	{ table, largestVessel }: FlaskSurroundings,
	row: ParsedRow,
	contents: FlaskContents,
	problems: Problem[],
): void {
	if (contents === "reagent blank") return;
	const events = flaskEvents(table, row);
	const taken = numberOf(table, row, "leachate taken");
	let liquid =
		contents === "leachate" && taken !== null ? millilitres(taken) : 0;
	// A volume that could not be read makes the sum unknown; its problem is told already.
	const lost =
		events.some((e) => e.cell === null) ||
		(contents === "leachate" && taken === null);
	for (const { is, cell, number } of events) {
		if (cell === null) continue;
		const v = millilitres(cell);
		const at = { ...placeOf(table, row, "flask"), column: cell.header };
		if (is === "dose" || is === "liquid added") liquid += v;
		else if (is === "made up") {
			if (!lost && beyond(liquid, v))
				problems.push(
					problem(
						"made-up-below-liquid",
						at,
						`made up to ${shown(v)} when ${shown(liquid)} were in it already`,
						`at least ${shown(liquid)}`,
						"Look the volumes up again, the units at the heads of the columns and the order of the columns: things happen from left to right.",
					),
				);
			if (beyond(v, largestVessel))
				problems.push(
					problem(
						"beyond-vessel",
						at,
						`made up to ${shown(v)} in a vessel of ${shown(largestVessel)}`,
						`at most ${shown(largestVessel)}`,
						"Name the vessel with its size in the glassware table, used for made up.",
					),
				);
			liquid = v;
		} else {
			if (!lost && beyond(v, liquid))
				problems.push(
					problem(
						"withdrawn-too-large",
						at,
						`${shown(v)} withdrawn (number ${number}) from ${shown(liquid)}`,
						`at most ${shown(liquid)}`,
						"Look the volumes up again, and the order of the columns: things happen from left to right.",
					),
				);
			liquid -= v;
		}
	}
	if (events.length > 0 && !lost)
		problems.push(...aliquotProblems(table, row, liquid));
}

/** What is wrong with the aliquots that were taken of so much liquid, mL. */
function aliquotProblems(
	table: FlaskTable,
	row: ParsedRow,
	liquid: number,
): Problem[] {
	const aliquot = numberOf(table, row, "aliquot");
	if (aliquot === null) return [];
	const v = millilitres(aliquot);
	const at = { ...placeOf(table, row, "aliquot"), column: aliquot.header };
	const count = titrationsOf(table, row).length;
	if (beyond(v, liquid))
		return [
			problem(
				"aliquot-too-large",
				at,
				`an aliquot of ${shown(v)} from ${shown(liquid)} of liquid`,
				`at most ${shown(liquid)}`,
				"Look the volumes up again, and the units at the heads of the columns. If the flask was made up, fill `made up to`.",
			),
		];
	return count > 1 && beyond(count * v, liquid)
		? [
				problem(
					"aliquots-too-large",
					at,
					`${count} aliquots of ${shown(v)}, together ${shown(count * v)}, from ${shown(liquid)} of liquid`,
					`at most ${shown(liquid)} together`,
					"Look the volumes up again; each titration takes an aliquot of its own.",
				),
			]
		: [];
}
