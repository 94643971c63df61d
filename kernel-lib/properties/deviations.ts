import {
	columns,
	type FurtherTable,
	furtherTable,
	furtherTableOfRows,
	type Mark,
	type TableForm,
	type TypedRow,
} from "../bench";
import { didYouMean, type Problem, problem, quoted } from "../quantity";
import type { CompleteRow } from "./complete-rows";

const { column, text } = columns;

const deviationColumns = {
	determination: column(
		text,
		'determination that it touched, or several separated by ";"',
		{ required: "every row" },
	),
	part: column(
		text,
		'the sieve that is meant where it is not the whole sieving: "sieve 2"',
	),
	"what happened": column(text, "what went wrong, in words", {
		required: "every row",
	}),
	handling: column(
		{
			is: "choice",
			choices: {
				"leave out": ["left out", "leave it out", "out", "exclude"],
				keep: ["kept", "in"],
			},
		},
		"whether the results leave it out",
		{ otherwise: "leave out" },
	),
} as const;

type DeviationKey = keyof typeof deviationColumns;

export const deviationForm: TableForm<DeviationKey> = {
	name: "deviations",
	key: "what happened",
	columns: deviationColumns,
};

/** What deviations touch in a table of properties. */
export interface PropertyMarks {
	/** Marks of a determination as a whole. */
	ofDetermination(name: string): readonly Mark[];
	/** Marks of one sieve of a sieving, by its number in the heads. */
	ofSieve(name: string, number: number): readonly Mark[];
}

/** A row of the deviations table, as it stands there. */
interface Touched {
	readonly determination: string;
	/** Number of the sieve; 0 for the whole determination. */
	readonly sieve: number;
	readonly mark: Mark;
}

/** NAME.deviations.csv beside NAME.csv. */
export function deviationsPath(path: string): string {
	return path.replace(/(\.[^./\\]*)?$/, ".deviations$1");
}

export function deviationsOfFile(path: string): FurtherTable<DeviationKey> {
	return furtherTable(path, deviationForm);
}

export function deviationsOfRows(
	rows: readonly TypedRow[],
): FurtherTable<DeviationKey> {
	return furtherTableOfRows(rows, deviationForm);
}

/** The determinations that a cell names: the whole text where that is one, else the parts between semicolons. */
function namesIn(cell: string, known: readonly string[]): string[] {
	return known.includes(cell)
		? [cell]
		: cell
				.split(";")
				.map((t) => t.trim())
				.filter((t) => t !== "");
}

type DeviationRow = FurtherTable<DeviationKey>["rows"][number];

/** Cells that every row must fill. */
function missingCells(row: DeviationRow): Problem[] {
	return (
		[
			[
				"determination",
				"the determination, or determinations, that it touched",
			],
			["what happened", "what went wrong, in words"],
		] as const
	)
		.filter(([key]) => row.isEmpty(key))
		.map(([key, expected]) =>
			problem(
				"cell-missing",
				row.place(key),
				"an empty cell",
				expected,
				"Fill it in, or take the row out.",
			),
		);
}

/** The number of the sieve that a row means; 0 for the whole determination, -1 for a part that there is none of. */
function sieveOf(row: DeviationRow): number {
	const part = /^(?:sieve ?(\d{1,3}))?$/i.exec(row.text("part"));
	return part === null ? -1 : Number(part[1] ?? 0);
}

/** What is wrong with a name or a part, held against the table of properties. */
function targetProblems(
	row: DeviationRow,
	determination: string,
	rows: readonly CompleteRow[],
	known: readonly string[],
): Problem[] {
	if (!known.includes(determination))
		return [
			problem(
				"determination-not-found",
				row.place("determination"),
				`${quoted(determination)}`,
				"a determination of the table of properties",
				/[,/]/.test(determination)
					? 'Separate several determinations by ";".'
					: didYouMean(determination, known),
			),
		];
	const sieve = sieveOf(row);
	const own = rows.find((r) => r.name === determination);
	if (sieve <= 0 || own === undefined) return [];
	if (own.property !== "particle size")
		return [
			problem(
				"part-not-found",
				row.place("part"),
				`sieve ${sieve} of ${quoted(determination)}`,
				`no sieve, for ${quoted(determination)} is a determination of ${own.property}`,
				"Look up the name of the sieving.",
			),
		];
	return own.row.isEmpty("sieve # opening", sieve)
		? [
				problem(
					"part-not-found",
					row.place("part"),
					`sieve ${sieve} of ${quoted(determination)}`,
					"a sieve of this sieving",
					"Look up the number in the heads of the table.",
				),
			]
		: [];
}

function rowProblems(
	row: DeviationRow,
	rows: readonly CompleteRow[],
	known: readonly string[],
): Problem[] {
	return [
		...missingCells(row),
		...(sieveOf(row) < 0
			? [
					problem(
						"part-unknown",
						row.place("part"),
						`"${row.text("part")}"`,
						'a sieve by its number in the heads, such as "sieve 2", or an empty cell for the whole determination',
						"Write it so; a weighing that was wrong spoils its whole determination.",
					),
				]
			: []),
		...namesIn(row.text("determination"), known).flatMap((name) =>
			targetProblems(row, name, rows, known),
		),
	];
}

/** Reads the deviations of a table of properties against its rows. */
export function propertyMarks(
	table: FurtherTable<DeviationKey>,
	rows: readonly CompleteRow[],
	known: readonly string[],
): { readonly marks: PropertyMarks; readonly problems: readonly Problem[] } {
	const touched = table.rows.flatMap((row): Touched[] => {
		const mark: Mark = {
			whatHappened: row.text("what happened"),
			handling: row.text("handling") === "keep" ? "keep" : "leave out",
		};
		return namesIn(row.text("determination"), known).map((determination) => ({
			determination,
			sieve: sieveOf(row),
			mark,
		}));
	});
	const of = (name: string, number: number): readonly Mark[] =>
		touched
			.filter((t) => t.determination === name && t.sieve === number)
			.map((t) => t.mark);
	return {
		marks: { ofDetermination: (name) => of(name, 0), ofSieve: of },
		problems: [
			...table.problems.filter((p) => p.code !== "table-empty"),
			...table.rows.flatMap((row) => rowProblems(row, rows, known)),
		],
	};
}
