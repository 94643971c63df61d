import type { FurtherRow, FurtherTable } from "../bench";
import { type Problem, problem } from "../quantity";
import { type RowReadings, readingsOf } from "./cell-readings";
import {
	needed,
	type PropertyKey,
	propertyColumns,
	type RowProperty,
} from "./columns";

export type PropertyTable = FurtherTable<PropertyKey>;
export type PropertyRow = FurtherRow<PropertyKey>;

/** A row that is complete enough for its property to be calculated. */
export interface CompleteRow {
	readonly row: PropertyRow;
	readonly name: string;
	readonly sample: string;
	readonly property: RowProperty;
	readonly read: RowReadings;
}

function missing(
	row: PropertyRow,
	key: PropertyKey,
	property: string,
): Problem {
	return problem(
		"cell-missing",
		row.place(key),
		"an empty cell",
		`a reading, for ${property}`,
		"Fill it in, or take the row out.",
	);
}

/** The numbers of a row's sieves: those with an opening and a mass. */
export function sievesOf(table: PropertyTable, row: PropertyRow): number[] {
	return sieveNumbers(table).filter(
		(n) =>
			!row.isEmpty("sieve # opening", n) && !row.isEmpty("sieve # mass", n),
	);
}

function sieveNumbers(table: PropertyTable): readonly number[] {
	return table.numbersOf("sieve # opening", "sieve # mass");
}

/** Sieves with an opening and no mass, or a mass and no opening. */
function halfFilledSieves(table: PropertyTable, row: PropertyRow): Problem[] {
	return sieveNumbers(table).flatMap((n) => {
		const opening = !row.isEmpty("sieve # opening", n);
		const mass = !row.isEmpty("sieve # mass", n);
		if (opening === mass) return [];
		return [
			problem(
				"cell-missing",
				row.place(opening ? "sieve # mass" : "sieve # opening", n),
				"an empty cell",
				opening
					? "the mass on that sieve, 0 where nothing stayed"
					: "the opening of that sieve",
				"Fill it in.",
			),
		];
	});
}

/** Whether a cell of the row holds something that could not be read; its problem is in the list already. */
function hasUnreadableCell(table: PropertyTable, row: PropertyRow): boolean {
	const keys = Object.keys(propertyColumns) as PropertyKey[];
	return keys.some((key) => {
		if (propertyColumns[key].holds.is !== "number") return false;
		const numbers = key.includes("#") ? table.numbersOf(key) : [1];
		return numbers.some(
			(n) => !row.isEmpty(key, n) && !row.number(key, n).recorded,
		);
	});
}

/** What a row lacks for its property. */
function gapsOf(
	table: PropertyTable,
	row: PropertyRow,
	property: RowProperty,
): Problem[] {
	const problems = needed[property].flatMap((key): Problem[] => {
		if (row.isEmpty(key)) return [missing(row, key, property)];
		return key === "dried" && row.text(key) === "not recorded"
			? [
					problem(
						"dried-not-recorded",
						row.place(key),
						'"not recorded"',
						"yes or no",
						"Whether the sample was dried before it was weighed changes the result: find out, or determine it again.",
					),
				]
			: [];
	});
	if (property === "particle size")
		problems.push(...halfFilledSieves(table, row));
	if (
		property === "apparent density" &&
		row.isEmpty("sample mass") &&
		(row.isEmpty("dish") || row.isEmpty("dish and sample"))
	)
		problems.push(missing(row, "sample mass", property));
	return problems;
}

/** Determinations under a name that a row further up has. */
function namesTwice(table: PropertyTable): Problem[] {
	const first = new Map<string, number>();
	return table.rows.flatMap((row) => {
		const name = row.text("determination");
		const before = first.get(name);
		if (before === undefined) first.set(name, row.row);
		return name === "" || before === undefined
			? []
			: [
					problem(
						"determination-twice",
						row.place("determination"),
						`"${name}", which row ${before} has too`,
						"a name of its own for every determination",
						"Number them: a replicate is a row of its own.",
					),
				];
	});
}

/** The rows of a table that are complete, and what the others lack. */
export function completeRows(table: PropertyTable): {
	readonly rows: readonly CompleteRow[];
	readonly problems: readonly Problem[];
} {
	const problems = namesTwice(table);
	const faulty = new Set(
		[...table.problems, ...problems].map((p) => p.where.row),
	);
	const rows = table.rows.flatMap((row): CompleteRow[] => {
		const property = row.text("property") as RowProperty | "";
		const gaps = (["determination", "sample", "property"] as const)
			.filter((key) => row.isEmpty(key))
			.map((key) => missing(row, key, "every row"));
		if (property !== "") gaps.push(...gapsOf(table, row, property));
		problems.push(...gaps);
		return property === "" ||
			gaps.length > 0 ||
			faulty.has(row.row) ||
			hasUnreadableCell(table, row)
			? []
			: [
					{
						row,
						name: row.text("determination"),
						sample: row.text("sample"),
						property,
						read: readingsOf(table, row),
					},
				];
	});
	return { rows, problems };
}
