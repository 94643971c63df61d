import { type Problem, type ProblemPlace, problem, toBase } from "../quantity";
import { checkPortions } from "./char-portion";
import type { FlaskKey } from "./columns";
import { checkSolutionsOf } from "./flask-solutions";
import {
	beyond,
	contentsOf,
	type FlaskSurroundings,
	type FlaskTable,
	isRead,
	millilitres,
	shown,
} from "./flask-table";
import { checkLiquid } from "./liquid-checks";
import { type MissingCells, missingCells } from "./missing-cells";
import { moistureCells } from "./moisture";
import type { Moment } from "./moments";
import {
	cellOf,
	isEmpty,
	momentOf,
	numberOf,
	numbersOf,
	type ParsedRow,
	placeOf,
	textOf,
	unreadable,
} from "./parsed-table";
import { filledReadings } from "./reading-cells";
import { caseless, spellingProblems } from "./spelling";
import { checkTitrations } from "./titration-checks";
import type { FlaskContents } from "./trial";

function repeatedNames(table: FlaskTable): Problem[] {
	const first = new Map<string, number>();
	return table.rows.flatMap((row) => {
		const name = textOf(table, row, "flask");
		const before = first.get(name);
		if (before === undefined) first.set(name, row.row);
		return name === "" || before === undefined
			? []
			: [
					problem(
						"flask-twice",
						placeOf(table, row, "flask"),
						`the flask name "${name}" in rows ${before} and ${row.row}`,
						"each name once",
						"If it is a second titration of the same flask, put it into `titre 2`; else give the flask a name of its own.",
					),
				];
	});
}

/** All problems of the flasks table beyond single cells and beyond the choice of controls. */
export function checkFlasks(
	around: FlaskSurroundings,
	problems: Problem[],
): void {
	const { table } = around;
	const missing = missingCells(table, problems);
	let chars = 0;
	problems.push(...repeatedNames(table));
	for (const row of table.rows) {
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
	problems.push(...checkPortions(table));
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
	const filled = moistureCells(table, row);
	if (filled.length > 1)
		problems.push(
			problem(
				"moisture-twice",
				{ ...at("moisture"), column: filled[1].cells[0].header },
				`moisture in ${filled.length} columns: ${filled.map(({ cells }) => `"${cells[0].header}"`).join(", ")}`,
				"one moisture",
				"Leave the others empty.",
			),
		);
	const uncertainty = numberOf(table, row, "moisture uncertainty");
	if (uncertainty !== null && filled.length === 0)
		problems.push(
			problem(
				"half-filled",
				{ ...at("moisture"), column: uncertainty.header },
				`an uncertainty of the moisture, ${uncertainty.value}, and no moisture`,
				"the moisture that it belongs to",
				"Write the moisture, or leave its uncertainty empty.",
			),
		);
}

/** Cells that mean nothing without their partner. */
const partners: readonly (readonly [FlaskKey, FlaskKey])[] = [
	["dose # of", "dose #"],
	["withdrawn # titre", "withdrawn #"],
	["withdrawn # reading", "withdrawn #"],
	["withdrawn # aliquot", "withdrawn #"],
	["withdrawn # at", "withdrawn #"],
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

/** By the clock where both have a time of day, else by the day; never where one is not recorded. */
function isBefore(one: Moment | null, other: Moment | null): boolean {
	if (one === null || other === null) return false;
	const dayOf = (d: Date): number => Math.floor(d.getTime() / 86_400_000);
	return one.hasTime && other.hasTime
		? one.date < other.date
		: dayOf(one.date) < dayOf(other.date);
}

function checkTimes(
	table: FlaskTable,
	row: ParsedRow,
	problems: Problem[],
): void {
	const dosed = momentOf(table, row, "dosed at");
	const titrated = momentOf(table, row, "titrated at");
	let before = dosed;
	for (const n of numbersOf(table, "withdrawn # at")) {
		const at = momentOf(table, row, "withdrawn # at", n);
		if (isBefore(at, before) || isBefore(titrated, at))
			problems.push(
				problem(
					"withdrawn-out-of-time",
					placeOf(table, row, "withdrawn # at", n),
					isBefore(titrated, at)
						? "withdrawn after the flask was titrated"
						: "withdrawn before it was dosed, or before an earlier withdrawal",
					"a time between `dosed at` and `titrated at`, each withdrawal after the one before it",
					"Look the times up again; the order is year-month-day.",
				),
			);
		before = at ?? before;
	}
	if (isBefore(titrated, dosed))
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
