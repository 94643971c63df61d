import { type Problem, problem } from "../quantity";
import type { Role } from "../substances";
import { type FlaskSurroundings, isRead } from "./flask-table";
import {
	cellOf,
	isEmpty,
	numbersOf,
	type ParsedRow,
	placeOf,
	textOf,
	unreadable,
} from "./parsed-table";
import type { FlaskContents } from "./trial";

/** The solution that a cell names, or the only one of its role. "" after a problem was told. */
export function solutionFor(
	around: FlaskSurroundings,
	row: ParsedRow,
	key: "dose # of" | "titrated with",
	number: number,
	role: Exclude<Role, "other">,
): string {
	const { table, solutions } = around;
	const name = textOf(table, row, key, number);
	if (name !== "") return name;
	const all = isRead(table, row) ? solutions.probes : solutions.of(role);
	return all.length === 1 ? all[0] : "";
}

/** Everything that is wrong with the names of the solutions that a flask was dosed and titrated with. */
export function checkSolutionsOf(
	around: FlaskSurroundings,
	row: ParsedRow,
	contents: FlaskContents,
	problems: Problem[],
): void {
	const { table } = around;
	if (contents !== "reagent blank")
		for (const n of numbersOf(table, "dose #"))
			if (!isEmpty(table, row, "dose #", n))
				checkSolution(around, row, "dose # of", n, "iodine", problems);
	if (!isRead(table, row))
		checkSolution(around, row, "titrated with", 1, "thiosulfate", problems);
}

function checkSolution(
	around: FlaskSurroundings,
	row: ParsedRow,
	key: "dose # of" | "titrated with",
	n: number,
	role: Exclude<Role, "other">,
	problems: Problem[],
): void {
	const { table, solutions } = around;
	if (cellOf(table, row, key, n) === unreadable) return;
	const at = placeOf(table, row, key, n);
	const read = isRead(table, row);
	const all = read ? solutions.probes : solutions.of(role);
	const list = (names: readonly string[]): string =>
		names.length === 0 ? "none yet" : names.map((s) => `"${s}"`).join(", ");
	const name = solutionFor(around, row, key, n, role);
	if (name === "") {
		// None at all is told once, for the solutions table.
		if (all.length > 1 || (read && all.length === 0))
			problems.push(
				problem(
					"solution-not-said",
					at,
					`an empty cell, with ${all.length} ${read ? "" : `${role} `}solutions ${read ? "that may be dosed " : ""}in the table`,
					`one of ${list(all)}`,
					`Say which one it was: fill "${at.column}".`,
				),
			);
		return;
	}
	const found = solutions.roles.get(name);
	if (found === undefined)
		problems.push(
			problem(
				"solution-not-found",
				at,
				`"${name}"`,
				`a solution of the solutions table: ${list([...solutions.roles.keys()])}`,
				"Write the name as it stands there, or add a row for it.",
			),
		);
	else if (read ? found === "thiosulfate" : found !== role)
		problems.push(
			problem(
				"solution-of-wrong-kind",
				at,
				`"${name}", which is ${found === "other" ? "neither iodine nor thiosulfate" : `a solution of ${found}`}`,
				role === "iodine"
					? `a solution ${read ? "" : "of iodine "}to dose: ${list(all)}`
					: `a solution of thiosulfate to titrate with: ${list(all)}`,
				"Name the right solution, or mend its substance in the solutions table.",
			),
		);
}
