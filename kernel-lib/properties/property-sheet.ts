import { existsSync } from "node:fs";
import {
	furtherTable,
	furtherTableOfRows,
	isLeftOut,
	type Mark,
	requirePath,
	spellingProblems,
	type TypedRow,
} from "../bench";
import {
	type Checked,
	type Kind,
	notKnown,
	type OptionRule,
	type Problem,
	type Quantity,
	quantityOption,
	quoted,
	requireOptions,
	type Table,
	valueOrThrow,
	withTable,
} from "../quantity";
import { assumptionsOf } from "./cell-readings";
import { propertyForm } from "./columns";
import {
	type CompleteRow,
	completeRows,
	type PropertyTable,
} from "./complete-rows";
import type { Determination } from "./determination";
import { determinationTable } from "./determination-table";
import {
	deviationsOfFile,
	deviationsOfRows,
	deviationsPath,
	type PropertyMarks,
	propertyMarks,
} from "./deviations";
import type { FloatSinkSplit } from "./float-sink";
import type { ParticleSizes } from "./particle-size";
import {
	meanOfSet,
	type RepeatabilityLimits,
	scatterOf,
	setsOf,
} from "./replicate-sets";
import {
	placed,
	type RowContext,
	type RowFigures,
	rowFigures,
} from "./row-figures";
import { type PropertyName, propertyNames } from "./standards";

/** One sieving of a char, with its whole distribution. */
export interface SievingOfSample {
	readonly name: string;
	readonly sample: string;
	readonly sizes: ParticleSizes;
}

/** One float-sink split of a char. */
export interface SplitOfSample {
	readonly name: string;
	readonly sample: string;
	readonly split: FloatSinkSplit;
}

/** A table of property readings, checked and calculated row by row: read once and never changed. What follows from it are functions of the sheet alone. */
export interface PropertySheet {
	readonly file: string;
	readonly hash: string;
	/** The files as they were read, the table first; empty for rows typed into a cell. */
	readonly sources: PropertyTable["sources"];
	/** In the order of the file. */
	readonly samples: readonly string[];
	/** All of them, those that a deviation leaves out too. */
	readonly determinations: readonly Determination[];
	/** Those that no deviation leaves out, as the next. */
	readonly sievings: readonly SievingOfSample[];
	readonly splits: readonly SplitOfSample[];
	/** What a deviation touched and how it is handled, a sentence each. */
	readonly deviations: readonly string[];
	/** Repeatability limits that replicates are held against. */
	readonly limits: RepeatabilityLimits;
	readonly assumptions: readonly string[];
	/** What should be known before the figures are used. */
	readonly cautions: readonly string[];
	/** The figure of every row, in the order in which it was calculated; moistures come first. */
	readonly table: Table;
}

/** Kind of quantity of each property. */
const kinds: Readonly<Record<PropertyName, Kind>> = {
	moisture: "ratio",
	"total ash": "ratio",
	"volatile matter": "ratio",
	"fixed carbon": "ratio",
	"apparent density": "density",
	"water-soluble content": "ratio",
	"ball-pan hardness": "ratio",
	pH: "pH",
	"effective size": "length",
	"uniformity coefficient": "ratio",
	"mean particle diameter": "length",
	"floated share": "ratio",
};

const limitRules = Object.fromEntries(
	propertyNames.map((name) => [name, quantityOption(kinds[name])]),
) as Readonly<Record<PropertyName, OptionRule>>;

/** A row with its figures. */
interface Calculated {
	readonly row: CompleteRow;
	readonly marks: readonly Mark[];
	readonly result: RowFigures;
}

/** The figures of a row that is left out although its readings cannot be: the reason stands in their place. */
function withoutFigures(
	{ property }: CompleteRow,
	problems: readonly Problem[],
): RowFigures {
	const name: PropertyName =
		property === "particle size"
			? "effective size"
			: property === "float-sink"
				? "floated share"
				: property;
	return {
		at: "",
		figures: [[name, notKnown(problems.map((p) => p.found).join("; "))]],
		sizes: [],
		splits: [],
	};
}

function determinationsOf({ row, marks, result }: Calculated): Determination[] {
	return result.figures.map(([property, outcome]) => ({
		name: row.name,
		sample: row.sample,
		property,
		at: result.at,
		outcome,
		marks,
		notes: row.row.text("notes"),
		place: row.row.place("determination"),
	}));
}

/** Mean moisture of each char, over the determinations in use. */
function moisturesOf(
	determinations: readonly Determination[],
	limits: RepeatabilityLimits,
): ReadonlyMap<string, Quantity<"ratio">> {
	const sets = setsOf(determinations, "moisture");
	return new Map(
		sets
			.filter((set) => set.values.length > 0)
			.map((set) => [
				set.sample,
				meanOfSet(set, scatterOf(set, sets, limits)) as Quantity<"ratio">,
			]),
	);
}

/** Rows calculated one by one, moistures first: the others need their means. */
function calculated(
	table: PropertyTable,
	rows: readonly CompleteRow[],
	marks: PropertyMarks,
	limits: RepeatabilityLimits,
): { readonly rows: Calculated[]; readonly problems: Problem[] } {
	const problems: Problem[] = [];
	const calculate = (
		some: readonly CompleteRow[],
		moistures: RowContext["moistures"],
	): Calculated[] =>
		some.flatMap((row): Calculated[] => {
			const own = marks.ofDetermination(row.name);
			const checked = rowFigures(
				{
					table,
					moistures,
					moistureLeftOut: (sample) =>
						rows.some(
							(r) =>
								r.sample === sample &&
								r.property === "moisture" &&
								isLeftOut({ marks: marks.ofDetermination(r.name) }),
						),
					sievesLeftOut: (number) =>
						isLeftOut({ marks: marks.ofSieve(row.name, number) }),
				},
				row,
			);
			if (checked.ok) return [{ row, marks: own, result: checked.value }];
			if (isLeftOut({ marks: own }))
				return [
					{ row, marks: own, result: withoutFigures(row, checked.problems) },
				];
			problems.push(...placed(row, checked.problems));
			return [];
		});
	const wet = calculate(
		rows.filter((r) => r.property === "moisture"),
		new Map(),
	);
	const moistures = moisturesOf(wet.flatMap(determinationsOf), limits);
	const others = calculate(
		rows.filter((r) => r.property !== "moisture"),
		moistures,
	);
	return { rows: [...wet, ...others], problems };
}

function deviationSentences(
	rows: readonly CompleteRow[],
	marks: PropertyMarks,
	table: PropertyTable,
): string[] {
	const sentence = (of: string, { handling, whatHappened }: Mark): string =>
		`${handling === "keep" ? "Kept in spite of a deviation" : "Left out"}: ${of} (${whatHappened}).`;
	return rows.flatMap(({ name, sample }) => [
		...marks
			.ofDetermination(name)
			.map((m) => sentence(`determination ${name} of ${quoted(sample)}`, m)),
		...table
			.numbersOf("sieve # opening")
			.flatMap((n) =>
				marks
					.ofSieve(name, n)
					.map((m) =>
						sentence(
							`sieve ${n} of determination ${name} of ${quoted(sample)}`,
							m,
						),
					),
			),
	]);
}

/** Sievings and splits that no deviation leaves out, with what should be known of them. */
function partsInUse(
	rows: readonly Calculated[],
): Pick<PropertySheet, "sievings" | "splits" | "cautions"> {
	const inUse = rows.filter((r) => !isLeftOut(r));
	const sievings = inUse.flatMap(({ row: { name, sample }, result }) =>
		result.sizes.map((sizes) => ({ name, sample, sizes })),
	);
	return {
		sievings,
		splits: inUse.flatMap(({ row: { name, sample }, result }) =>
			result.splits.map((split) => ({ name, sample, split })),
		),
		cautions: sievings.flatMap(({ name, sample, sizes }) =>
			sizes.cautions.map(
				(c) => `${quoted(sample)}, determination ${name}: ${c}`,
			),
		),
	};
}

function sheetOf(
	table: PropertyTable,
	deviations: ReturnType<typeof deviationsOfRows> | null,
	limits: RepeatabilityLimits,
): Checked<PropertySheet> {
	if (table.problems.some((p) => p.code === "another-table"))
		return { ok: false, problems: table.problems };
	const complete = completeRows(table);
	const known = table.rows.map((r) => r.text("determination"));
	const { marks, problems: markProblems } =
		deviations === null
			? { marks: noMarks, problems: [] }
			: propertyMarks(deviations, complete.rows, known);
	const { rows, problems: faults } = calculated(
		table,
		complete.rows,
		marks,
		limits,
	);
	const problems = [
		...table.problems,
		...spellingProblems(
			table.rows.map((row) => ({
				text: row.text("sample"),
				row: row.row,
				place: row.place("sample"),
			})),
			"sample",
		),
		...complete.problems,
		...faults,
	].sort((a, b) => a.where.row - b.where.row);
	if (problems.length + markProblems.length > 0)
		return { ok: false, problems: [...problems, ...markProblems] };
	return {
		ok: true,
		value: withTable(
			{
				file: table.file,
				hash: table.hash,
				sources: [...table.sources, ...(deviations?.sources ?? [])],
				samples: [...new Set(complete.rows.map((r) => r.sample))],
				determinations: rows.flatMap(determinationsOf),
				...partsInUse(rows),
				deviations: deviationSentences(complete.rows, marks, table),
				limits,
				assumptions: [
					...table.remarks,
					...(deviations?.remarks ?? []),
					...assumptionsOf(table),
				],
			},
			determinationTable,
		),
	};
}

const noMarks: PropertyMarks = {
	ofDetermination: () => [],
	ofSieve: () => [],
};

/** Reads and checks a table of property readings: every row calculated, or everything that is wrong, each with file, row and column. */
export function checkProperties(
	path: string,
	limits: RepeatabilityLimits = {},
): Checked<PropertySheet> {
	const companion = deviationsPath(path);
	return sheetOf(
		furtherTable(path, propertyForm),
		existsSync(companion) ? deviationsOfFile(companion) : null,
		limits,
	);
}

/** The same for rows typed into a cell. */
export function checkPropertyRows(
	rows: readonly TypedRow[],
	limits: RepeatabilityLimits = {},
	deviations: readonly TypedRow[] = [],
): Checked<PropertySheet> {
	return sheetOf(
		furtherTableOfRows(rows, propertyForm),
		deviations.length === 0 ? null : deviationsOfRows(deviations),
		limits,
	);
}

/**
 * Reads a table of property readings (.csv), one row for each determination; NAME.deviations.csv beside it says what went wrong. Shown as a table, the figure of every row.
 *
 * @param limits repeatability limits from one's own copies of the standards, by the name of the property
 * @throws ProblemError that lists everything that is wrong, each with file, row and column
 * @example
 * properties.readProperties("data/demo-properties/chars.csv").samples // => ["water", "potash"]
 */
export function readProperties(
	path: string,
	limits: RepeatabilityLimits = {},
): PropertySheet {
	requirePath(path);
	requireOptions(limits, limitRules, "readProperties");
	return valueOrThrow(checkProperties(path, limits));
}

/**
 * Property readings of rows typed into a cell; the same columns and the same checks as a sheet.
 *
 * @param limits as in readProperties
 * @param deviations what went wrong, a row each: `determination`, `part` ("sieve 2"), `what happened`, `handling`
 * @throws ProblemError that lists everything that is wrong, each with row and column
 * @example
 * const weighed = { sample: "my char", property: "moisture", "dish (g)": 20, "dish and sample (g)": 30, "dish after (g)": 29.2 };
 * const mine = properties.propertiesFromRows([{ determination: "M1", ...weighed }]);
 * properties.charProperties(mine)[0].property // => "moisture"
 */
export function propertiesFromRows(
	rows: readonly TypedRow[],
	limits: RepeatabilityLimits = {},
	deviations: readonly TypedRow[] = [],
): PropertySheet {
	requireOptions(limits, limitRules, "propertiesFromRows");
	return valueOrThrow(checkPropertyRows(rows, limits, deviations));
}
