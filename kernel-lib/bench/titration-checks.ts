import { type Problem, type ProblemPlace, problem } from "../quantity";
import type { FlaskKey } from "./columns";
import {
	beyond,
	type FlaskSurroundings,
	type FlaskTable,
	isRead,
	millilitres,
	shown,
	titrationKeys,
	titrationsOf,
} from "./flask-table";
import type { MissingCells } from "./missing-cells";
import {
	numberOf,
	numbersOf,
	type ParsedRow,
	placeOf,
	textOf,
} from "./parsed-table";
import { checkReadings, filledReadings } from "./reading-cells";
import { byThemselves, readingKeys } from "./reading-columns";

/** Everything that is wrong with what shows a flask's residue: its titrations, or the readings of an instrument. */
export function checkTitrations(
	around: FlaskSurroundings,
	row: ParsedRow,
	missing: MissingCells<FlaskKey>,
	problems: Problem[],
): void {
	const { table, buretteSize } = around;
	const numbers = titrationsOf(table, row);
	if (isRead(table, row)) {
		checkInstrument(around, row, numbers, missing, problems);
		return;
	}
	if (numbers.length === 0) {
		const byBurette =
			!table.columns.has("titre #") && table.columns.has("burette end #");
		const key = byBurette ? "burette end #" : "titre #";
		missing.require(
			row,
			key,
			"a titre, or the burette's start and end",
			numbersOf(table, key)[0] ?? 1,
		);
	}
	for (const n of numbers)
		problems.push(...titrationProblems(table, row, n, buretteSize));
}

/** What is wrong with one titration of a row; volumes in mL. */
function titrationProblems(
	table: FlaskTable,
	row: ParsedRow,
	n: number,
	buretteSize: number,
): Problem[] {
	const at = (key: FlaskKey): ProblemPlace => placeOf(table, row, key, n);
	const read = (key: FlaskKey): number | null => {
		const cell = numberOf(table, row, key, n);
		return cell === null ? null : millilitres(cell);
	};
	const tooLong = titrationKeys.flatMap((key) => {
		const v = read(key);
		return key !== "titre #" && v !== null && beyond(v, buretteSize)
			? [beyondBurette(at(key), v, buretteSize)]
			: [];
	});
	const [start, end, from, to, titre] = [
		read("burette start #"),
		read("burette end #"),
		read("refilled at #"),
		read("refilled to #"),
		read("titre #"),
	];
	if (start === null || end === null) return tooLong;
	return [
		...tooLong,
		...backwards(at, start, end, from, to),
		...disagreement(
			at("titre #"),
			titre,
			from === null || to === null ? end - start : from - start + end - to,
			buretteSize,
		),
	];
}

/** Readings that fall between refills. */
function backwards(
	at: (key: FlaskKey) => ProblemPlace,
	start: number,
	end: number,
	from: number | null,
	to: number | null,
): Problem[] {
	const beforeRefill = beyond(start, from ?? end);
	if (!beforeRefill && (to === null || !beyond(to, end))) return [];
	return [
		problem(
			"burette-backwards",
			at(beforeRefill && from !== null ? "refilled at #" : "burette end #"),
			from === null || to === null
				? `a burette that runs from ${shown(start)} to ${shown(end)}`
				: `a burette that runs from ${shown(start)} to ${shown(from)} and, refilled, from ${shown(to)} to ${shown(end)}`,
			"readings that rise between refills",
			"If the burette was refilled, write the readings into `refilled at` and `refilled to`; else look whether the two were swapped.",
		),
	];
}

/** A titre beside burette readings that make another. */
function disagreement(
	at: ProblemPlace,
	titre: number | null,
	delivered: number,
	buretteSize: number,
): Problem[] {
	return titre === null || Math.abs(titre - delivered) <= 1e-6 * buretteSize
		? []
		: [
				problem(
					"titre-disagrees",
					at,
					`a titre of ${shown(titre)} beside burette readings that make ${shown(delivered)}`,
					"one of the two, or two that agree",
					"Empty the one that is wrong.",
				),
			];
}

function beyondBurette(at: ProblemPlace, v: number, size: number): Problem {
	return problem(
		"beyond-burette",
		at,
		`a reading of ${shown(v)} on a burette of ${shown(size)}`,
		`a reading between 0 and ${shown(size)}`,
		"Look the reading up again. If the burette is another one, name it with its size in the glassware table, used for titre.",
	);
}

/** A row that is read by an instrument. */
function checkInstrument(
	{ table, lines }: FlaskSurroundings,
	row: ParsedRow,
	titrations: readonly number[],
	missing: MissingCells<FlaskKey>,
	problems: Problem[],
): void {
	const [key] = filledReadings(table, row);
	if (key === undefined) {
		const usual =
			readingKeys.find((k) => numbersOf(table, k).length > 0) ?? "absorbance #";
		missing.require(
			row,
			usual,
			"a reading of the instrument",
			numbersOf(table, usual)[0] ?? 1,
		);
		return;
	}
	if (titrations.length > 0)
		problems.push(
			problem(
				"titrated-and-read",
				placeOf(table, row, key),
				"a titration and a reading of an instrument in one row",
				"one of the two",
				"Leave the others empty, or give the second way of measuring a flask name and a row of its own.",
			),
		);
	checkReadings(table, row, problems);
	const line = textOf(table, row, "read on");
	if (byThemselves.includes(key)) return;
	if (line !== "" && lines.length > 0 && !lines.includes(line))
		problems.push(
			problem(
				"line-not-found",
				placeOf(table, row, "read on"),
				`"${line}"`,
				`a line of the calibration table: ${lines.map((l) => `"${l}"`).join(", ")}`,
				"Write the name as in the column `line`.",
			),
		);
	if (line === "" && lines.length > 1)
		problems.push(
			problem(
				"line-not-said",
				placeOf(table, row, "read on"),
				`an empty cell, with ${lines.length} lines in the calibration table`,
				`one of ${lines.map((l) => `"${l}"`).join(", ")}`,
				"Say which line the readings belong to.",
			),
		);
}
