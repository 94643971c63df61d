import { type Checked, type Problem, problem, toBase } from "../quantity";
import {
	type DeviationKey,
	type FlaskKey,
	type GlasswareKey,
	type SheetName,
	type SolutionKey,
	sheetNames,
} from "./columns";
import { findControls } from "./controls";
import { buildDeviations, checkDeviations } from "./deviation-table";
import { buildFlask } from "./flask-build";
import { checkFlasks, type FlaskTable } from "./flask-checks";
import { instrumentsOf } from "./instruments";
import { whatIsNotRecorded } from "./not-recorded";
import { numberOf, type ParsedTable, parseTable, textOf } from "./parsed-table";
import { type Piece, readPieces } from "./pieces";
import type { RawTable } from "./raw-table";
import { readFile } from "./read-file";
import { readRows, type TypedRows, typedIn } from "./read-rows";
import type { Run } from "./run";
import {
	buildSolutions,
	checkSolutions,
	solutionNames,
} from "./solution-table";

/** Reads and checks a bench sheet (.csv with its companions, or .xlsx): the run, or everything that is wrong, each with its place. */
export function checkRun(path: string): Checked<Run> {
	const { tables, problems } = readFile(path);
	return tables.length === 0
		? { ok: false, problems }
		: runOf(tables, problems);
}

/** The same for rows typed into a cell. */
export function checkRows(rows: TypedRows): Checked<Run> {
	const { tables, problems } = readRows(rows);
	return runOf(tables, problems);
}

function noTable(sheet: SheetName, tables: readonly RawTable[]): Problem {
	const file = tables[0]?.file ?? typedIn;
	const csv = file !== typedIn && !/\.xlsx$/i.test(file);
	const place = csv
		? `a file beside it named like "${file.replace(/(\.[^.]*)?$/, `.${sheet}$1`)}"`
		: file === typedIn
			? `a list "${sheet}"`
			: `a sheet named "${sheet}"`;
	return problem(
		"table-missing",
		{ file, sheet },
		`no table of ${sheet}`,
		place,
		sheet === "solutions"
			? 'Write a line for each solution, under the heads "solution", "substance", "concentration (N)": e.g. iodine, iodine, 0.1 and thiosulfate, sodium thiosulfate, 0.1.'
			: 'Write a line for each flask, at least under the heads "flask", "treatment", "char mass (g)", "dose (mL)", "aliquot (mL)", "titre (mL)".',
	);
}

/**
 * The last digit that a balance not named in the sheet seems to have shown: the finest decimal place in grams among the char masses (1 g is written 1.00 by one and 1 by
 * another, so the place is taken from what the numbers are). With fewer than three different masses nothing can be seen: 0.001 g.
 */
function readabilityOf(table: FlaskTable): number {
	const masses = new Set<number>();
	for (const row of table.rows) {
		const cell = numberOf(table, row, "char mass");
		if (cell !== null && cell.value > 0)
			masses.add(Number(toBase("mass", cell.value, cell.unit).toPrecision(9)));
	}
	if (masses.size < 3) return 0.001;
	const shows = (step: number): boolean =>
		[...masses].every(
			(m) => Math.abs(m / step - Math.round(m / step)) < 1e-6 * (m / step),
		);
	return [0.1, 0.01, 0.001].find(shows) ?? 0.0001;
}

function checkNames(
	solutions: ReturnType<typeof solutionNames>,
	table: RawTable,
	problems: Problem[],
): void {
	for (const [role, what] of [
		["iodine", "a solution of iodine to dose"],
		["thiosulfate", "a solution of sodium thiosulfate to titrate with"],
	] as const)
		if (solutions.of(role).length === 0)
			problems.push(
				problem(
					`no-${role}`,
					{ file: table.file, sheet: table.sheet, column: "substance" },
					`no solution whose substance is ${role === "iodine" ? "iodine" : "sodium thiosulfate"}`,
					what,
					`Add a row for it, with "${role === "iodine" ? "iodine" : "sodium thiosulfate"}" as its substance.`,
				),
			);
}

function runOf(tables: readonly RawTable[], found: Problem[]): Checked<Run> {
	const problems = [...found];
	const raw = (sheet: SheetName): RawTable | null =>
		tables.find((t) => t.sheet === sheet) ?? null;
	for (const sheet of ["flasks", "solutions"] as const)
		if (raw(sheet) === null) problems.push(noTable(sheet, tables));
	function parsed<Key extends string>(sheet: SheetName): ParsedTable<Key> {
		const table = raw(sheet);
		return table === null
			? noSuchTable(sheet)
			: parseTable<Key>(table, sheet, problems);
	}
	const flasks = parsed<FlaskKey>("flasks");
	const solutions = parsed<SolutionKey>("solutions");
	const deviations = parsed<DeviationKey>("deviations");
	const glassware = parsed<GlasswareKey>("glassware");

	const pieces = readPieces(glassware, problems);
	const names = solutionNames(solutions);
	if (solutions.rows.length > 0) {
		checkSolutions(solutions, names, problems);
		checkNames(names, solutions.raw, problems);
	} else if (raw("solutions") !== null)
		problems.push(noTable("solutions", tables));
	const sizes = (use: Piece["uses"][number]): number[] =>
		pieces.filter((p) => p.uses.includes(use)).map((p) => p.size);
	const around = {
		table: flasks,
		solutions: names,
		buretteSize: sizes("titre")[0] ?? 50,
		largestVessel: Math.max(
			...sizes("made up"),
			sizes("made up").length === 0 ? Number.POSITIVE_INFINITY : 0,
		),
	};
	if (raw("flasks") !== null) checkFlasks(around, problems);
	const controls = findControls(flasks, problems);
	const flaskNames = new Set(
		flasks.rows.map((row) => textOf(flasks, row, "flask")),
	);
	checkDeviations(deviations, flaskNames, problems);
	if (problems.length > 0) return { ok: false, problems: inOrder(problems) };

	const { file, hash } = flasks.raw;
	const readability = readabilityOf(flasks);
	const instruments = instrumentsOf(pieces, readability, file, hash);
	const assumptions = new Set<string>(controls.assumptions);
	const built = flasks.rows.map((row, i) =>
		buildFlask(
			{ ...around, instruments, controls: controls.of, assumptions },
			row,
			i,
		),
	);
	const builtSolutions = buildSolutions(solutions, instruments, assumptions);
	const all = [flasks, solutions, deviations, glassware];
	for (const remark of remarks(all)) assumptions.add(remark);
	const run = {
		file,
		hash,
		files: filesOf(all),
		flasks: built,
		solutions: builtSolutions,
		deviations: buildDeviations(deviations, flaskNames, assumptions),
		instruments: instruments.used(),
		assumptions: [...assumptions, ...instruments.assumptions()],
		columns: columnsOf(all),
	};
	return { ok: true, value: { ...run, notRecorded: whatIsNotRecorded(run) } };
}

function noSuchTable<Key extends string>(sheet: SheetName): ParsedTable<Key> {
	return {
		raw: {
			file: "",
			hash: "",
			sheet,
			headers: [],
			rows: [],
			emptyRows: 0,
			width: 0,
			headerRow: 0,
			headsByRow: false,
			commaLikely: false,
			remarks: [],
		},
		headers: { matches: [], unknown: [], problems: [] },
		columns: new Map(),
		rows: [],
	};
}

function inOrder(problems: readonly Problem[]): Problem[] {
	const place = (p: Problem): number =>
		sheetNames.indexOf(p.where.sheet as SheetName) * 1e7 + p.where.row;
	return [...problems].sort((a, b) => place(a) - place(b));
}

function filesOf(
	tables: readonly ParsedTable<string>[],
): { file: string; hash: string }[] {
	const seen = new Map<string, string>();
	for (const { raw } of tables)
		if (raw.hash !== "" && !seen.has(raw.hash)) seen.set(raw.hash, raw.file);
	return [...seen].map(([hash, file]) => ({ file, hash }));
}

/** What readers and header recognition have to say beside problems. */
function remarks(tables: readonly ParsedTable<string>[]): string[] {
	return tables.flatMap(({ raw, headers }) => [
		...raw.remarks,
		...(raw.emptyRows > 0
			? [
					`${raw.sheet}: ${raw.emptyRows} empty row${raw.emptyRows === 1 ? "" : "s"} between the others skipped.`,
				]
			: []),
		...headers.unknown
			.filter((u) => u.perhaps !== "")
			.map(
				(u) =>
					`${raw.sheet}: the column "${u.header}" is not known and is carried along; did you mean "${u.perhaps}"?`,
			),
	]);
}

function columnsOf(tables: readonly ParsedTable<string>[]): Run["columns"] {
	return tables.flatMap(({ raw, headers }) =>
		[
			...headers.matches.map((m) => ({
				index: m.index,
				sheet: raw.sheet,
				header: m.header,
				takenFor: `${m.key.replace("#", String(m.number))}${m.unit === "" ? "" : `, in ${m.unit === "1" ? "parts of one" : m.unit}`}`,
			})),
			...headers.unknown.map((u) => ({
				index: u.index,
				sheet: raw.sheet,
				header: u.header,
				takenFor:
					u.perhaps === ""
						? "carried along"
						: `carried along; did you mean "${u.perhaps}"?`,
			})),
		]
			.sort((a, b) => a.index - b.index)
			.map(({ sheet, header, takenFor }) => ({ sheet, header, takenFor })),
	);
}
