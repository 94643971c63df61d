import {
	columns,
	type FurtherRow,
	furtherTable,
	type TableForm,
} from "../bench";
import { type IsothermPoints, plainPoints } from "../isotherms";
import {
	fromBase,
	type Kind,
	type Problem,
	problem,
	quoted,
	throwProblems,
	toBase,
} from "../quantity";

const { aboveZero, column, notNegative, text } = columns;

type SoluteColumn = "solute" | "molar mass" | "residue" | "uptake" | "notes";

const soluteForm: TableForm<SoluteColumn> = {
	name: "solute",
	key: "residue",
	columns: {
		solute: column(text, "name of what was measured, in one row or more"),
		"molar mass": column(
			{
				is: "number",
				kinds: ["molarMass"],
				units: ["g/mol"],
				range: aboveZero,
			},
			"its molar mass, in one row or more",
			{ counts: true },
		),
		residue: column(
			{
				is: "number",
				kinds: ["massConcentration"],
				units: ["mg/L", "g/L", "µg/L"],
				range: notNegative,
			},
			"concentration left in solution at equilibrium",
			{ required: "every row", counts: true },
		),
		uptake: column(
			{ is: "number", kinds: ["uptake"], units: ["mg/g"], range: notNegative },
			"what the char then held",
			{ required: "every row", counts: true },
		),
		notes: column(text, "anything else"),
	},
};

/** A solute measured alone, from a small table. */
export interface SoluteTable {
	readonly name: string;
	/** g/mol. */
	readonly molarMass: number;
	readonly points: IsothermPoints;
	/** The file as it was read. */
	readonly sources: readonly {
		readonly file: string;
		readonly hash: string;
		readonly content: Uint8Array;
	}[];
}

/**
 * Reads residues and uptakes of one solute from a .csv file with the columns "solute", "molar mass (g/mol)", "residue (mg/L)" and "uptake (mg/g)". Such points have no balance lines and no errors of their own.
 *
 * @throws ProblemError that lists everything that is wrong, each with file, row and column
 * @example
 * mixtures.readSolute("data/demo-dose/leaf-brown.csv").molarMass // => 500
 */
export function readSolute(path: string): SoluteTable {
	const { file, rows, problems, sources } = furtherTable(path, soluteForm);
	const { words, numbers } = valuesOf(rows);
	const names = words("solute");
	const masses = numbers("molar mass", "molarMass", "g/mol");
	throwProblems([
		...problems,
		...(problems.length > 0
			? []
			: [
					...oneOf(file, "solute", names),
					...oneOf(file, "molar mass", masses.map(String)),
					...emptyCells(rows),
				]),
	]);
	return {
		name: names[0],
		molarMass: masses[0],
		points: plainPoints(
			names[0],
			numbers("residue", "massConcentration", "mg/L"),
			numbers("uptake", "uptake", "mg/g"),
			{ probe: names[0] },
		),
		sources,
	};
}

function valuesOf(rows: readonly FurtherRow<SoluteColumn>[]) {
	return {
		words: (key: SoluteColumn): string[] => [
			...new Set(rows.map((r) => r.text(key)).filter((t) => t !== "")),
		],
		numbers: (key: SoluteColumn, kind: Kind, unit: string): number[] =>
			rows.flatMap((r) => {
				const cell = r.number(key);
				if (!cell.recorded) return [];
				const { value, unit: written } = cell.value;
				return [fromBase(kind, toBase(kind, value, written), unit)];
			}),
	};
}

/** Every row that says it says the same. */
function oneOf(
	file: string,
	column: SoluteColumn,
	said: readonly string[],
): Problem[] {
	const different = [...new Set(said)];
	return different.length === 1
		? []
		: [
				problem(
					"solute-not-told",
					{ file, column },
					different.length === 0
						? `no ${column}`
						: different.map(quoted).join(" and "),
					`one ${column} for the whole table`,
					"Write it in one row, the same in all that have it; another solute has a table of its own.",
				),
			];
}

function emptyCells(rows: readonly FurtherRow<SoluteColumn>[]): Problem[] {
	return rows.flatMap((row) =>
		(["residue", "uptake"] as const).flatMap((key) =>
			row.isEmpty(key)
				? [
						problem(
							"cell-empty",
							row.place(key),
							"an empty cell",
							`the ${key} of every row`,
							"Fill it in, or leave the row out.",
						),
					]
				: [],
		),
	);
}
