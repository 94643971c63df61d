import {
	columns,
	type FurtherTable,
	furtherTable,
	furtherTableOfRows,
	type Mark,
	type TableForm,
	type TypedRow,
} from "../bench";
import { didYouMean, type Problem, problem } from "../quantity";
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

/** Reads the deviations of a table of properties against its rows. */
export function propertyMarks(
	table: FurtherTable<DeviationKey>,
	rows: readonly Pick<CompleteRow, "name" | "property" | "row">[],
	known: readonly string[],
): { readonly marks: PropertyMarks; readonly problems: readonly Problem[] } {
	const problems: Problem[] = table.problems.filter(
		(p) => p.code !== "table-empty",
	);
	const touched = table.rows.flatMap((row): Touched[] => {
		for (const key of ["determination", "what happened"] as const)
			if (row.isEmpty(key))
				problems.push(
					problem(
						"cell-missing",
						row.place(key),
						"an empty cell",
						key === "determination"
							? "the determination, or determinations, that it touched"
							: "what went wrong, in words",
						"Fill it in, or take the row out.",
					),
				);
		const part = /^(?:sieve ?(\d{1,3}))?$/i.exec(row.text("part"));
		if (part === null)
			problems.push(
				problem(
					"part-unknown",
					row.place("part"),
					`"${row.text("part")}"`,
					'a sieve by its number in the heads, such as "sieve 2", or an empty cell for the whole determination',
					"Write it so; a weighing that was wrong spoils its whole determination.",
				),
			);
		const sieve = Number(part?.[1] ?? 0);
		const mark: Mark = {
			whatHappened: row.text("what happened"),
			handling: row.text("handling") === "keep" ? "keep" : "leave out",
		};
		return namesIn(row.text("determination"), known).map((determination) => {
			const own = rows.find((r) => r.name === determination);
			if (!known.includes(determination))
				problems.push(
					problem(
						"determination-not-found",
						row.place("determination"),
						`"${determination}"`,
						"a determination of the table of properties",
						/[,/]/.test(determination)
							? 'Separate several determinations by ";".'
							: didYouMean(determination, known),
					),
				);
			else if (
				sieve > 0 &&
				own !== undefined &&
				(own.property !== "particle size" ||
					own.row.isEmpty("sieve # opening", sieve))
			)
				problems.push(
					problem(
						"part-not-found",
						row.place("part"),
						`sieve ${sieve} of "${determination}"`,
						own.property === "particle size"
							? "a sieve of this sieving"
							: `no sieve, for "${determination}" is a determination of ${own.property}`,
						"Look up the number in the heads of the table.",
					),
				);
			return { determination, sieve, mark };
		});
	});
	const of = (name: string, number: number): readonly Mark[] =>
		touched
			.filter((t) => t.determination === name && t.sieve === number)
			.map((t) => t.mark);
	return {
		marks: {
			ofDetermination: (name) => of(name, 0),
			ofSieve: of,
		},
		problems,
	};
}
