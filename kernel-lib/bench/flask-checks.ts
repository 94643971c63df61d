import { type Problem, type ProblemPlace, problem, toBase } from "../quantity";
import type { Role } from "../substances";
import type { FlaskKey } from "./columns";
import { flaskEvents } from "./flask-events";
import { type MissingCells, missingCells } from "./missing-cells";
import {
	cellOf,
	isEmpty,
	momentOf,
	type NumberCell,
	numberOf,
	numbersOf,
	type ParsedRow,
	type ParsedTable,
	placeOf,
	textOf,
	unreadable,
} from "./parsed-table";
import { checkReadings, filledReadings } from "./reading-cells";
import { byThemselves, readingKeys } from "./reading-columns";
import type { SolutionNames } from "./solution-table";
import { caseless, spellingProblems } from "./spelling";
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

const millilitres = (cell: NumberCell): number =>
	toBase("volume", cell.value, cell.unit) * 1000;
/** A volume for a message. */
const shown = (ml: number): string => `${Number(ml.toPrecision(6))} mL`;
/** Room for the rounding of units and sums. */
const beyond = (a: number, b: number): boolean => a > b + 1e-6 * Math.abs(b);

/** All problems of the flasks table beyond single cells and beyond the choice of controls. */
export function checkFlasks(
	around: FlaskSurroundings,
	problems: Problem[],
): void {
	const { table } = around;
	const names = new Map<string, number>();
	const missing = missingCells(table, problems);
	let chars = 0;
	for (const row of table.rows) {
		const name = textOf(table, row, "flask");
		const before = names.get(name);
		if (name !== "" && before !== undefined)
			problems.push(
				problem(
					"flask-twice",
					placeOf(table, row, "flask"),
					`the flask name "${name}" in rows ${before} and ${row.row}`,
					"each name once",
					"If it is a second titration of the same flask, put it into `titre 2`; else give the flask a name of its own.",
				),
			);
		if (before === undefined) names.set(name, row.row);
		missing.require(row, "flask", "a name for the flask");
		if (cellOf(table, row, "contents") === unreadable) {
			chars += 1;
			continue;
		}
		const contents = contentsOf(table, row);
		if (contents === "char") chars += 1;
		checkContents(around, row, contents, missing, problems);
		checkMoisture(table, row, problems);
		checkPairs(table, row, problems);
		checkTitrations(around, row, missing, problems);
		checkSolutionsOf(around, row, contents, problems);
		checkLiquid(around, row, contents, problems);
		checkTimes(table, row, problems);
	}
	missing.report();
	problems.push(
		...spellingProblems(
			table.rows.map((row) => ({
				text: textOf(table, row, "flask"),
				row: row.row,
				place: placeOf(table, row, "flask"),
			})),
			"flask",
			caseless,
		),
	);
	if (chars === 0)
		problems.push(
			problem(
				"no-char",
				{ file: table.raw.file, sheet: table.raw.sheet },
				table.rows.length === 0 ? "no rows" : "blanks and leachates only",
				"at least one flask with char",
				"Add a row for each flask with char.",
			),
		);
}

function checkCharMass(
	table: FlaskTable,
	row: ParsedRow,
	contents: FlaskContents,
	missing: MissingCells<FlaskKey>,
	problems: Problem[],
): void {
	const mass = numberOf(table, row, "char mass");
	if (contents === "char" || contents === "leachate") {
		missing.require(row, "treatment", "the treatment of the char");
		missing.require(row, "char mass", "the mass of the char");
		if (mass !== null && mass.value === 0)
			problems.push(
				problem(
					"char-mass-zero",
					{ ...placeOf(table, row, "char mass"), column: mass.header },
					"0",
					"a mass above 0",
					'Write the mass; a flask without char is an "iodine blank" in the column `contents`.',
				),
			);
	} else if (mass !== null && mass.value > 0)
		problems.push(
			problem(
				"blank-with-char",
				{ ...placeOf(table, row, "char mass"), column: mass.header },
				`${mass.value} ${mass.unit} of char in a flask whose contents are "${contents}"`,
				"no char mass in a blank",
				'Empty the cell, or write "char" as its contents.',
			),
		);
}

function checkLeachate(
	table: FlaskTable,
	row: ParsedRow,
	missing: MissingCells<FlaskKey>,
	problems: Problem[],
): void {
	missing.require(row, "leachate", "the whole volume of the leachate");
	missing.require(
		row,
		"leachate taken",
		"the part of the leachate that was dosed",
	);
	const [whole, part] = [
		numberOf(table, row, "leachate"),
		numberOf(table, row, "leachate taken"),
	];
	if (whole && part && beyond(millilitres(part), millilitres(whole)))
		problems.push(
			problem(
				"leachate-too-small",
				{ ...placeOf(table, row, "leachate taken"), column: part.header },
				`${shown(millilitres(part))} taken of ${shown(millilitres(whole))}`,
				"at most the whole leachate",
				"Look both volumes up again, and the units at the heads of the columns.",
			),
		);
}

function checkContents(
	{ table }: FlaskSurroundings,
	row: ParsedRow,
	contents: FlaskContents,
	missing: MissingCells<FlaskKey>,
	problems: Problem[],
): void {
	checkCharMass(table, row, contents, missing, problems);
	const doses = numbersOf(table, "dose #").filter(
		(n) => !isEmpty(table, row, "dose #", n),
	);
	if (contents === "reagent blank") {
		if (doses.length > 0)
			problems.push(
				problem(
					"reagent-blank-dosed",
					placeOf(table, row, "dose #", doses[0]),
					"a dose of iodine in a reagent blank",
					"water and indicator only",
					'A flask with the doses and without char is an "iodine blank" in the column `contents`.',
				),
			);
		return;
	}
	if (doses.length === 0)
		missing.require(
			row,
			"dose #",
			"the volume of iodine solution dosed",
			numbersOf(table, "dose #")[0] ?? 1,
		);
	if (!isRead(table, row))
		missing.require(row, "aliquot", "the volume taken for the titration");
	else if (filledReadings(table, row).includes("dry residue #"))
		missing.require(row, "aliquot", "the volume that was dried");
	if (contents === "leachate") checkLeachate(table, row, missing, problems);
}

function checkMoisture(
	table: FlaskTable,
	row: ParsedRow,
	problems: Problem[],
): void {
	const bare = numberOf(table, row, "moisture");
	const at = (key: FlaskKey): ProblemPlace => placeOf(table, row, key);
	if (bare !== null && isEmpty(table, row, "moisture basis"))
		problems.push(
			problem(
				"moisture-without-basis",
				{ ...at("moisture"), column: bare.header },
				`${bare.value} ${bare.unit === "1" ? "" : bare.unit} without a basis`.replace(
					"  ",
					" ",
				),
				'the basis: "wet" (water per moist char) or "dry" (water per dry char)',
				'Name the column "moisture, wet basis (%)" or "moisture, dry basis (%)", or add a column "moisture basis".',
			),
		);
	if (
		bare !== null &&
		textOf(table, row, "moisture basis") === "wet" &&
		toBase("ratio", bare.value, bare.unit) > 0.99
	)
		problems.push(
			problem(
				"out-of-range",
				{ ...at("moisture"), column: bare.header },
				`${bare.value} on the wet basis`,
				"at most 99 % (0.99 as a fraction)",
				"Look the value up again, and whether it is a percentage or a fraction, on the wet or on the dry basis.",
			),
		);
	const filled = (
		["moisture, wet basis", "moisture, dry basis", "moisture"] as const
	).filter((key) => !isEmpty(table, row, key));
	if (filled.length > 1)
		problems.push(
			problem(
				"moisture-twice",
				at(filled[1]),
				`moisture in ${filled.length} columns: ${filled.map((k) => `"${at(k).column}"`).join(", ")}`,
				"one moisture",
				"Leave the others empty.",
			),
		);
}

/** Cells that mean nothing without their partner. */
const partners: readonly (readonly [FlaskKey, FlaskKey])[] = [
	["dose # of", "dose #"],
	["withdrawn # titre", "withdrawn #"],
	["withdrawn # reading", "withdrawn #"],
	["withdrawn # aliquot", "withdrawn #"],
	["burette end #", "burette start #"],
	["burette start #", "burette end #"],
	["refilled at #", "refilled to #"],
	["refilled to #", "refilled at #"],
	["refilled at #", "burette end #"],
];

function checkPairs(
	table: FlaskTable,
	row: ParsedRow,
	problems: Problem[],
): void {
	const measure = isRead(table, row)
		? "withdrawn # reading"
		: "withdrawn # titre";
	const pairs = [...partners, ["withdrawn #", measure] as const];
	for (const [key, partner] of pairs)
		for (const n of numbersOf(table, key))
			if (!isEmpty(table, row, key, n) && isEmpty(table, row, partner, n))
				problems.push(
					problem(
						key === "withdrawn #" ? "withdrawal-without-titre" : "half-filled",
						placeOf(table, row, partner, n),
						`an empty cell (or no such column), while "${placeOf(table, row, key, n).column}" is filled`,
						"both or neither",
						key === "withdrawn #"
							? `Write the ${measure === "withdrawn # titre" ? "titre of what was withdrawn, 0 if it was colourless" : "reading of what was withdrawn"}: without it, it is not known how much ${measure === "withdrawn # titre" ? "iodine" : "of the substance"} went out with it.`
							: "Fill the one or empty the other.",
					),
				);
	for (const n of numbersOf(table, "withdrawn # aliquot")) {
		const part = numberOf(table, row, "withdrawn # aliquot", n);
		const whole = numberOf(table, row, "withdrawn #", n);
		if (part && whole && beyond(millilitres(part), millilitres(whole)))
			problems.push(
				problem(
					"aliquot-too-large",
					{
						...placeOf(table, row, "withdrawn # aliquot", n),
						column: part.header,
					},
					`${shown(millilitres(part))} titrated of ${shown(millilitres(whole))} withdrawn`,
					"at most what was withdrawn",
					"Look both volumes up again.",
				),
			);
	}
}

function checkTitrations(
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
	const backwards =
		beyond(start, from ?? end) || (to !== null && beyond(to, end));
	const delivered =
		from === null || to === null ? end - start : from - start + end - to;
	return [
		...tooLong,
		...(backwards
			? [
					problem(
						"burette-backwards",
						at(
							beyond(start, from ?? end) && from !== null
								? "refilled at #"
								: "burette end #",
						),
						from === null || to === null
							? `a burette that runs from ${shown(start)} to ${shown(end)}`
							: `a burette that runs from ${shown(start)} to ${shown(from)} and, refilled, from ${shown(to)} to ${shown(end)}`,
						"readings that rise between refills",
						"If the burette was refilled, write the readings into `refilled at` and `refilled to`; else look whether the two were swapped.",
					),
				]
			: []),
		...(titre !== null && Math.abs(titre - delivered) > 1e-6 * buretteSize
			? [
					problem(
						"titre-disagrees",
						at("titre #"),
						`a titre of ${shown(titre)} beside burette readings that make ${shown(delivered)}`,
						"one of the two, or two that agree",
						"Empty the one that is wrong.",
					),
				]
			: []),
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

function checkSolutionsOf(
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

/** Follows the liquid in the flask from column to column. */
function checkLiquid(
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

function checkTimes(
	table: FlaskTable,
	row: ParsedRow,
	problems: Problem[],
): void {
	const dosed = momentOf(table, row, "dosed at");
	const titrated = momentOf(table, row, "titrated at");
	if (dosed === null || titrated === null) return;
	const dayOf = (d: Date): number => Math.floor(d.getTime() / 86_400_000);
	const both = dosed.hasTime && titrated.hasTime;
	const early = both
		? titrated.date < dosed.date
		: dayOf(titrated.date) < dayOf(dosed.date);
	if (early)
		problems.push(
			problem(
				"titrated-before-dosed",
				placeOf(table, row, "titrated at"),
				"titrated before it was dosed",
				"a time after `dosed at`",
				"Look both times up again; the order is year-month-day.",
			),
		);
}
