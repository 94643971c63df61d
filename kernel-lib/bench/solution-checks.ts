import { type Problem, type ProblemPlace, problem, toBase } from "../quantity";
import {
	isPreparation,
	isThiosulfateOfEitherSalt,
	roleOf,
	titrimetricName,
} from "../substances";
import type { SolutionKey } from "./columns";
import { missingCells } from "./missing-cells";
import {
	isEmpty,
	type NumberCell,
	numberOf,
	numbersOf,
	type ParsedRow,
	placeOf,
	textOf,
} from "./parsed-table";
import type { SolutionNames, SolutionTable } from "./solution-table";

/** All problems of the solutions table beyond single cells. */
export function checkSolutions(
	table: SolutionTable,
	names: SolutionNames,
	problems: Problem[],
): void {
	const seen = new Map<string, number>();
	const missing = missingCells(table, problems);
	for (const row of table.rows) {
		const name = textOf(table, row, "solution");
		missing.require(row, "solution", "a name for the solution");
		missing.require(row, "substance", "what is dissolved");
		const before = seen.get(name);
		if (name !== "" && before !== undefined)
			problems.push(
				problem(
					"solution-twice",
					placeOf(table, row, "solution"),
					`the solution "${name}" in rows ${before} and ${row.row}`,
					"each name once",
					"Rename one of them, or take one row away.",
				),
			);
		seen.set(name, row.row);
		checkBasis(table, row, names, problems, missing.require);
	}
	missing.report();
	checkCircles(table, problems);
}

type Require = (row: ParsedRow, key: SolutionKey, expected: string) => void;

function isTitred(table: SolutionTable, row: ParsedRow): boolean {
	return numbersOf(table, "titre #").some(
		(n) => !isEmpty(table, row, "titre #", n),
	);
}

/** A row that was standardised against another: what it needs, and whether the two react as they should. */
function checkStandardised(
	table: SolutionTable,
	row: ParsedRow,
	names: SolutionNames,
	problems: Problem[],
	require: Require,
): void {
	const written = textOf(table, row, "substance");
	const role = roleOf(titrimetricName(written));
	const against = textOf(table, row, "standardised against");
	const at = placeOf(table, row, "standardised against");
	require(row, "aliquot", "the volume that was titrated in the standardisation");
	if (!isTitred(table, row))
		require(row, "titre #", "at least one titre of the standardisation");
	const other = names.roles.get(against);
	if (against !== "" && other === undefined)
		problems.push(
			problem(
				"solution-not-found",
				at,
				`"${against}"`,
				`a solution of this table: ${[...names.roles.keys()].map((n) => `"${n}"`).join(", ")}`,
				"Write the name as in the column `solution`, or add a row for it.",
			),
		);
	else if (
		against !== "" &&
		(role === "other" ||
			(role === "iodine" && other !== "thiosulfate") ||
			(role === "thiosulfate" &&
				other === "thiosulfate" &&
				against !== textOf(table, row, "solution")))
	)
		problems.push(
			problem(
				"standardisation-pair",
				at,
				`${written} against "${against}"`,
				"thiosulfate against iodate, dichromate or iodine, or iodine against thiosulfate",
				"Mend the substances, or give the concentration itself with its uncertainty.",
			),
		);
}

/** A row that was weighed out, or whose concentration is stated. */
function checkNotStandardised(
	table: SolutionTable,
	row: ParsedRow,
	problems: Problem[],
	require: Require,
): void {
	const filled = (key: SolutionKey): boolean => !isEmpty(table, row, key);
	for (const key of ["aliquot", "blank titre"] as const)
		if (filled(key)) notStandardised(placeOf(table, row, key), problems);
	if (isTitred(table, row))
		notStandardised(placeOf(table, row, "titre #"), problems);
	if (filled("weighed")) {
		const written = textOf(table, row, "substance");
		require(row, "made up to", "the volume that the weighed substance was made up to");
		if (isThiosulfateOfEitherSalt(written))
			problems.push(
				whichSalt(
					placeOf(table, row, "substance"),
					`"${written}", weighed out`,
				),
			);
	} else if (!filled("concentration"))
		require(row, "concentration", "a concentration, or `weighed`, or `standardised against`");
}

function checkBasis(
	table: SolutionTable,
	row: ParsedRow,
	names: SolutionNames,
	problems: Problem[],
	require: Require,
): void {
	const at = (key: SolutionKey): ProblemPlace => placeOf(table, row, key);
	const filled = (key: SolutionKey): boolean => !isEmpty(table, row, key);
	const written = textOf(table, row, "substance");
	if (filled("standardised against"))
		checkStandardised(table, row, names, problems, require);
	else checkNotStandardised(table, row, problems, require);
	if (filled("concentration"))
		problems.push(...concentrationProblems(table, row));
	else if (isPreparation(written) && !filled("standardised against"))
		problems.push(tincture(at("substance"), written));
	if (filled("uncertainty") && !filled("concentration"))
		problems.push(
			problem(
				"uncertainty-alone",
				at("uncertainty"),
				"an uncertainty without a concentration",
				"a concentration that it belongs to",
				"Fill the concentration, or empty this cell: the uncertainty of a weighed or standardised solution is worked out from its readings.",
			),
		);
}

function notStandardised(at: ProblemPlace, problems: Problem[]): void {
	problems.push(
		problem(
			"standardisation-incomplete",
			at,
			"a reading of a standardisation",
			"the name of the solution that it was titrated against",
			"Fill `standardised against`, or empty this cell.",
		),
	);
}

function whichSalt(at: ProblemPlace, found: string): Problem {
	return problem(
		"which-salt",
		at,
		found,
		'"sodium thiosulfate pentahydrate" or "sodium thiosulfate anhydrous"',
		"Say which salt the grams are of: a mole of the pentahydrate weighs 1.57 times as much as one of the anhydrous salt.",
	);
}

function tincture(at: ProblemPlace, written: string): Problem {
	return problem(
		"tincture",
		at,
		`"${written}" in percent`,
		"its concentration of iodine as found by titration",
		"The percentage of a tincture or of povidone iodine is not iodine in potassium iodide. Titrate it against thiosulfate and fill `standardised against`, `aliquot (mL)` and `titre 1 (mL)`, or give the concentration found.",
	);
}

/** What is wrong with a concentration as it is stated. */
function concentrationProblems(
	table: SolutionTable,
	row: ParsedRow,
): Problem[] {
	const cell = numberOf(table, row, "concentration");
	if (cell === null) return [];
	const at = { ...placeOf(table, row, "concentration"), column: cell.header };
	return [
		...shareProblems(table, row, cell, at),
		...countingProblems(table, row, cell, at),
		...uncertaintyProblems(table, row, cell, at),
	];
}

/** Concentrations by mass: which salt, which density, and no share above the whole. */
function shareProblems(
	table: SolutionTable,
	row: ParsedRow,
	cell: NumberCell,
	at: ProblemPlace,
): Problem[] {
	const written = textOf(table, row, "substance");
	const share = cell.kind === "ratio";
	const saltMatters =
		(share || cell.kind === "massConcentration") &&
		isThiosulfateOfEitherSalt(written) &&
		isEmpty(table, row, "weighed") &&
		isEmpty(table, row, "standardised against");
	return [
		...(isPreparation(written) && share
			? [tincture(at, written)]
			: share && isEmpty(table, row, "density")
				? [
						problem(
							"density-missing",
							placeOf(table, row, "density"),
							`${cell.value} ${cell.unit} without a density`,
							"the density of the solution",
							'Fill "density (g/mL)": a percentage by weight needs it to become a concentration.',
						),
					]
				: []),
		...(saltMatters
			? [
					whichSalt(
						placeOf(table, row, "substance"),
						`"${written}" at ${cell.value} ${cell.unit}`,
					),
				]
			: []),
		...(share && toBase("ratio", cell.value, cell.unit) > 1
			? [
					problem(
						"out-of-range",
						at,
						`${cell.value} ${cell.unit}`,
						"at most 100 %",
						"Look the concentration up again.",
					),
				]
			: []),
	];
}

/** Whether a concentration of iodine counts molecules or equivalents. */
function countingProblems(
	table: SolutionTable,
	row: ParsedRow,
	cell: NumberCell,
	at: ProblemPlace,
): Problem[] {
	const role = roleOf(titrimetricName(textOf(table, row, "substance")));
	if (role !== "iodine") return [];
	if (cell.kind === "concentration" && isEmpty(table, row, "counts"))
		return [
			problem(
				"counts-missing",
				at,
				`${cell.value} ${cell.unit} of iodine, which may count I2 or equivalents`,
				'"I2" or "equivalents" in the column "counts"',
				`Which is it? The two differ by a factor of two: ${cell.value} ${cell.unit} of I2 is ${2 * cell.value} of equivalents.`,
			),
		];
	return cell.kind === "normality" && textOf(table, row, "counts") === "I2"
		? [
				problem(
					"counts-contradiction",
					placeOf(table, row, "counts"),
					'"I2" for a concentration in N',
					'"equivalents", or an empty cell',
					"A normality counts equivalents. If molecules are meant, give it in mol/L.",
				),
			]
		: [];
}

function uncertaintyProblems(
	table: SolutionTable,
	row: ParsedRow,
	cell: NumberCell,
	at: ProblemPlace,
): Problem[] {
	const u = numberOf(table, row, "uncertainty");
	return u !== null && u.kind !== "ratio" && u.kind !== cell.kind
		? [
				problem(
					"uncertainty-unit",
					{ ...at, column: u.header },
					`an uncertainty in ${u.unit} for a concentration in ${cell.unit}`,
					`% or ${cell.unit}`,
					"Give the uncertainty in % or in the unit of the concentration.",
				),
			]
		: [];
}

/** A standardisation may not lead back to itself. Each circle is told once. */
function checkCircles(table: SolutionTable, problems: Problem[]): void {
	const next = new Map<string, { to: string; row: ParsedRow }>();
	for (const row of table.rows)
		next.set(textOf(table, row, "solution"), {
			to: textOf(table, row, "standardised against"),
			row,
		});
	const told = new Set<string>();
	for (const start of next.keys()) {
		const path: string[] = [];
		for (
			let name = start;
			name !== "" && next.has(name) && !told.has(name);
			name = next.get(name)?.to ?? ""
		) {
			const from = path.indexOf(name);
			if (from >= 0) {
				const circle = path.slice(from);
				const { row } = next.get(circle[0]) as { row: ParsedRow };
				problems.push(
					problem(
						"standardisation-circle",
						placeOf(table, row, "standardised against"),
						`a circle: ${[...circle, circle[0]].map((n) => `"${n}"`).join(" against ")}`,
						"a chain that ends in a weighed or a stated solution",
						"State the concentration of one of them, or how much of it was weighed.",
					),
				);
				break;
			}
			path.push(name);
		}
		for (const name of path) told.add(name);
	}
}
