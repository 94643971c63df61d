import type { Trial, TypedRow, TypedRows } from "../../kernel-lib/bench/index";
import { checkRows, trialFromRows } from "../../kernel-lib/bench/index";
import type { Problem } from "../../kernel-lib/quantity/index";

/** Rows of a small sheet in which nothing is wrong. Rows count from 2 on, as in a sheet: c1, c2, p1, p2, r1, i1, l1. */
export const soundFlasks: readonly TypedRow[] = [
	char("c1", "control", 5.2),
	char("c2", "control", 5.3),
	char("p1", "potash", 4.2),
	char("p2", "potash", 4.4),
	{ flask: "r1", contents: "reagent blank", day: "1", "titre 1 (mL)": 0.1 },
	{
		flask: "i1",
		contents: "iodine blank",
		day: "1",
		"dose 1 (mL)": 40,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre 1 (mL)": 9.5,
	},
	{
		flask: "l1",
		contents: "leachate",
		treatment: "potash",
		day: "1",
		"char mass (g)": 2,
		"leachate (mL)": 50,
		"leachate taken (mL)": 25,
		"dose 1 (mL)": 10,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre 1 (mL)": 2.1,
	},
];

export const soundSolutions: readonly TypedRow[] = [
	{ solution: "iodine", substance: "iodine", "concentration (N)": 0.1 },
	{
		solution: "thio",
		substance: "sodium thiosulfate",
		"concentration (mol/L)": 0.1,
	},
];

/** Good glassware for all that these sheets measure. */
export const soundGlassware: readonly TypedRow[] = [
	{ piece: "burette", "used for": "titre; dose", "size (mL)": 50, class: "A" },
	{ piece: "pipette", "used for": "aliquot", "size (mL)": 25, class: "A" },
	{ piece: "flasks", "used for": "made up", "size (mL)": 100, class: "A" },
];

export function char(
	flask: string,
	treatment: string,
	titre: number,
	change: TypedRow = {},
): TypedRow {
	return {
		flask,
		treatment,
		day: "1",
		"char mass (g)": 1.02,
		"dose 1 (mL)": 40,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre 1 (mL)": titre,
		...change,
	};
}

/** The sound sheet with one flask row changed (by its name); null takes a cell away. */
export function changed(flask: string, change: TypedRow): TypedRows {
	return {
		flasks: soundFlasks.map((row) =>
			row.flask === flask ? { ...row, ...change } : row,
		),
		solutions: soundSolutions,
	};
}

export function withSolutions(
	solutions: readonly TypedRow[],
	flasks: readonly TypedRow[] = soundFlasks,
): TypedRows {
	return { flasks, solutions };
}

export function runOf(rows: TypedRows): Trial {
	return trialFromRows(rows);
}

export function problemsOf(rows: TypedRows): readonly Problem[] {
	const checked = checkRows(rows);
	return checked.ok ? [] : checked.problems;
}

/** "flasks 3 char mass (g): negative" */
export function brief(p: Problem): string {
	return `${p.where.sheet} ${p.where.row} ${p.where.column}: ${p.code}`;
}

/** A table as CSV text. */
export function csv(rows: readonly TypedRow[], mark = ",", end = "\n"): string {
	const heads = [...new Set(rows.flatMap((r) => Object.keys(r)))];
	const cell = (text: string): string =>
		/[",;\t\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
	return [
		heads.map(cell).join(mark),
		...rows.map((r) => heads.map((h) => cell(String(r[h] ?? ""))).join(mark)),
		"",
	].join(end);
}
