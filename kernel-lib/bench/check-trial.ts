import { dirname } from "node:path";
import { type Checked, type Problem, problem, quoted } from "../quantity";
import { anotherTable } from "./another-table";
import type { CalibrationKey } from "./calibration-columns";
import {
	buildCalibration,
	checkCalibration,
	lineNames,
} from "./calibration-table";
import {
	type DeviationKey,
	type FiringKey,
	type FlaskKey,
	type GlasswareKey,
	type SheetName,
	type SolutionKey,
	sheetNames,
	sheets,
} from "./columns";
import { findControls } from "./controls";
import {
	buildDeviations,
	checkDeviations,
	type KnownNames,
	missingParts,
} from "./deviation-table";
import { checkFirings, type FiringTable } from "./firing-checks";
import { firingKey } from "./firing-names";
import { buildFirings } from "./firing-table";
import { buildFlask } from "./flask-build";
import { checkFlasks } from "./flask-checks";
import { anyTitrated, type FlaskSurroundings } from "./flask-table";
import { instrumentsOf } from "./glassware/instruments";
import type { Piece } from "./glassware/piece";
import { readPieces } from "./glassware/read-pieces";
import { type ParsedTable, parseTable, textOf } from "./parsed-table";
import { oneProbe } from "./probe";
import type { RawTable } from "./raw-table";
import { readFile } from "./read-file";
import { readRows, type TypedRows, typedIn } from "./read-rows";
import { readabilityOf } from "./readability";
import { settledTrial } from "./settled-trial";
import { checkSolutions } from "./solution-checks";
import {
	buildSolutions,
	type SolutionNames,
	solutionNames,
} from "./solution-table";
import { keyHeads } from "./table-form";
import type { Source, Trial } from "./trial";
import {
	settingProblems,
	settingsOf,
	type TrialOptions,
	type TrialSettings,
} from "./trial-settings";

/** Where the tables came from, and how they are to be read. */
interface Origin {
	readonly folder: string;
	readonly sources: readonly Source[];
	readonly settings: TrialSettings;
}

/** Reads and checks a bench sheet (.csv with its companions, or .xlsx): the trial, or everything that is wrong, each with its place. */
export function checkTrial(
	path: string,
	options: TrialOptions = {},
): Checked<Trial> {
	const { tables, sources, problems } = readFile(path);
	problems.push(...settingProblems(options, "readTrial"));
	return tables.length === 0
		? { ok: false, problems }
		: trialOf(tables, problems, {
				folder: dirname(path),
				sources,
				settings: settingsOf(options),
			});
}

/** The same for rows typed into a cell. */
export function checkRows(
	rows: TypedRows,
	options: TrialOptions = {},
): Checked<Trial> {
	const { tables, problems } = readRows(rows);
	problems.push(...settingProblems(options, "trialFromRows"));
	return trialOf(tables, problems, {
		folder: "",
		sources: [],
		settings: settingsOf(options),
	});
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
		sheet === "activation"
			? 'Write a line for each firing, at least under the heads "firing" and "precursor mass (g)".'
			: sheet === "solutions"
				? 'Write a line for each solution, under the heads "solution", "substance", "concentration (N)": e.g. iodine, iodine, 0.1 and thiosulfate, sodium thiosulfate, 0.1.'
				: 'Write a line for each flask, at least under the heads "flask", "treatment", "char mass (g)", "dose (mL)", "aliquot (mL)", "titre (mL)".',
	);
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

/** The tables of a sheet, each with its columns known; one that is not there has no rows. */
interface ParsedTables {
	readonly flasks: ParsedTable<FlaskKey>;
	readonly solutions: ParsedTable<SolutionKey>;
	readonly deviations: ParsedTable<DeviationKey>;
	readonly glassware: ParsedTable<GlasswareKey>;
	readonly activation: ParsedTable<FiringKey>;
	readonly calibration: ParsedTable<CalibrationKey>;
	/** Names of the tables that are there. */
	readonly given: ReadonlySet<string>;
	/** A sheet of firings and nothing else needs no flasks and no solutions. */
	readonly onlyFirings: boolean;
}

function parsedTables(
	tables: readonly RawTable[],
	problems: Problem[],
): ParsedTables {
	const given = new Set(tables.map((t) => t.sheet));
	const onlyFirings = !given.has("flasks") && given.has("activation");
	if (!onlyFirings)
		for (const sheet of ["flasks", "solutions"] as const)
			if (!given.has(sheet)) problems.push(noTable(sheet, tables));
	function parsed<Key extends string>(sheet: SheetName): ParsedTable<Key> {
		const table = tables.find((t) => t.sheet === sheet);
		return table === undefined
			? noSuchTable(sheet)
			: parseTable<Key>(table, sheet, problems);
	}
	return {
		flasks: parsed("flasks"),
		solutions: parsed("solutions"),
		deviations: parsed("deviations"),
		glassware: parsed("glassware"),
		activation: parsed("activation"),
		calibration: parsed("calibration"),
		given,
		onlyFirings,
	};
}

/** What the checks found out on the way and the build needs. */
interface Looked {
	readonly pieces: readonly Piece[];
	readonly around: FlaskSurroundings;
	readonly controls: ReturnType<typeof findControls>;
	readonly known: KnownNames;
}

function surroundingsOf(
	{ flasks, calibration }: ParsedTables,
	solutions: SolutionNames,
	pieces: readonly Piece[],
): FlaskSurroundings {
	const sizes = (use: Piece["uses"][number]): number[] =>
		pieces.filter((p) => p.uses.includes(use)).map((p) => p.size);
	return {
		table: flasks,
		solutions,
		lines: lineNames(calibration),
		buretteSize: sizes("titre")[0] ?? 50,
		largestVessel: Math.max(
			...sizes("made up"),
			sizes("made up").length === 0 ? Number.POSITIVE_INFINITY : 0,
		),
	};
}

function checkTables(
	parsed: ParsedTables,
	raw: readonly RawTable[],
	problems: Problem[],
): Looked {
	const { flasks, solutions, deviations, activation, calibration } = parsed;
	const pieces = readPieces(parsed.glassware, problems);
	const names = solutionNames(solutions);
	if (solutions.rows.length > 0) {
		checkSolutions(solutions, names, problems);
		if (anyTitrated(flasks)) checkNames(names, solutions.raw, problems);
	} else if (parsed.given.has("solutions"))
		problems.push(noTable("solutions", raw));
	const around = surroundingsOf(parsed, names, pieces);
	if (parsed.given.has("flasks")) checkFlasks(around, problems);
	const controls = findControls(flasks, problems);
	const known: KnownNames = {
		flask: namesIn(flasks, "flask"),
		solution: new Set(names.roles.keys()),
		standard: namesIn(calibration, "standard"),
		firing: namesIn(activation, "firing"),
	};
	checkDeviations(deviations, known, problems);
	checkFirings(activation, problems);
	checkCalibration(calibration, known.flask, known.solution, problems);
	return { pieces, around, controls, known };
}

/** What was written of firings that no flask names. */
function unnamedFirings(
	{ flasks, onlyFirings }: ParsedTables,
	firings: Trial["firings"],
): string[] {
	if (onlyFirings) return [];
	const named = new Set(
		flasks.rows.flatMap((row) => [
			firingKey(textOf(flasks, row, "soak")),
			firingKey(textOf(flasks, row, "char batch")),
		]),
	);
	return firings
		.filter(({ name }) => !named.has(firingKey(name)))
		.map(
			({ name }) =>
				`The firing ${quoted(name)} is named by no flask, neither as its soak nor as its char batch.`,
		);
}

/** The trial of tables in which the checks found nothing. */
function built(
	parsed: ParsedTables,
	{ pieces, around, controls, known }: Looked,
	origin: Origin,
): Checked<Trial> {
	const { flasks, solutions, deviations, activation, calibration } = parsed;
	const { file, hash } = (parsed.onlyFirings ? activation : flasks).raw;
	const readability = readabilityOf(flasks, (key) => key === "char mass");
	const instruments = instrumentsOf(pieces, readability, file, hash);
	const assumptions = new Set<string>(controls.assumptions);
	const rows = flasks.rows.map((row, i) =>
		buildFlask(
			{ ...around, instruments, controls: controls.of, assumptions },
			row,
			i,
		),
	);
	const builtSolutions = buildSolutions(solutions, instruments, assumptions);
	const standards = buildCalibration(calibration, instruments, assumptions);
	const fired = firingsOf(activation, pieces);
	const all = [
		flasks,
		solutions,
		deviations,
		parsed.glassware,
		activation,
		calibration,
	];
	for (const text of [
		...unnamedFirings(parsed, fired.firings),
		...remarks(all),
	])
		assumptions.add(text);
	const about = oneProbe(file, rows, builtSolutions, origin.settings.probe);
	if (!about.ok) return about;
	const trial = {
		file,
		hash,
		...origin,
		files: filesOf(all),
		probe: about.value.probe,
		sheetOrder: rows.map((f) => f.name),
		setAside: about.value.remark === "" ? [] : [about.value.remark],
		flasks: about.value.flasks,
		solutions: builtSolutions,
		deviations: buildDeviations(deviations, known, assumptions),
		firings: fired.firings,
		standards,
		instruments: [...instruments.used(), ...fired.instruments],
		controlByName: controls.byName,
		assumptions: [
			...new Set([
				...assumptions,
				...instruments.assumptions(),
				...fired.assumptions,
			]),
		],
		columns: columnsOf(all),
	};
	const absent = missingParts(trial.deviations, { ...trial, flasks: rows });
	return absent.length > 0
		? { ok: false, problems: absent }
		: { ok: true, value: settledTrial(trial) };
}

function trialOf(
	given: readonly RawTable[],
	found: readonly Problem[],
	origin: Origin,
): Checked<Trial> {
	const problems = [...found];
	const tables = given.map(asItsHeadsSay);
	const others = tables
		.filter((t) => t.sheet === "flasks")
		.flatMap((t) => anotherTable(t, "flasks", "a bench sheet of flasks"));
	if (others.length > 0) return { ok: false, problems: others };
	const parsed = parsedTables(tables, problems);
	const looked = checkTables(parsed, tables, problems);
	return problems.length > 0
		? { ok: false, problems: inOrder(problems) }
		: built(parsed, looked, origin);
}

/** The names in one column of a table. */
function namesIn<Key extends string>(
	table: ParsedTable<Key>,
	key: Key,
): ReadonlySet<string> {
	return new Set(table.rows.map((row) => textOf(table, row, key)));
}

/** The firings of a table in which nothing is wrong, with instruments and assumptions of their own. */
function firingsOf(
	table: FiringTable,
	pieces: readonly Piece[],
): Pick<Trial, "firings" | "assumptions" | "instruments"> {
	if (table.rows.length === 0)
		return { firings: [], instruments: [], assumptions: [] };
	const { file, hash } = table.raw;
	const instruments = instrumentsOf(
		pieces,
		readabilityOf(table, () => true),
		file,
		hash,
	);
	const assumptions = new Set<string>();
	const firings = buildFirings(table, instruments, assumptions);
	return {
		firings,
		instruments: instruments.used(),
		assumptions: [...assumptions, ...instruments.assumptions()],
	};
}

/** A file of firings under a name of its own is read as the flasks; its heads tell what it is. */
function asItsHeadsSay(table: RawTable): RawTable {
	const heads = keyHeads(sheets.activation);
	return table.sheet === "flasks" &&
		table.headers.some((h) => heads.includes(h.trim().toLowerCase()))
		? { ...table, sheet: "activation" }
		: table;
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

function columnsOf(tables: readonly ParsedTable<string>[]): Trial["columns"] {
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
