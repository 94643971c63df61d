import {
	type FurtherRow,
	type FurtherTable,
	furtherTable,
	furtherTableOfRows,
	spellingProblems,
	type TypedRow,
} from "../bench";
import {
	type Checked,
	named,
	type Problem,
	type ProblemPlace,
	problem,
	type Quantity,
	valueOrThrow,
} from "../quantity";
import type { SampleState } from "./basis";
import { checkApparentDensity, filling } from "./bed-density";
import { assumptionsOf, type RowReadings, readingsOf } from "./cell-readings";
import {
	needed,
	type PropertyKey,
	propertyColumns,
	propertyForm,
	type RowProperty,
} from "./columns";
import {
	checkMoisture,
	checkTotalAsh,
	checkVolatileMatter,
	checkWaterSoluble,
} from "./contents";
import { checkFloatedShare, type FloatSinkSplit } from "./float-sink";
import { checkBallPanHardness } from "./hardness";
import type { Outcome } from "./outcome";
import {
	checkParticleSizes,
	type ParticleSizes,
	type Sieving,
} from "./particle-size";
import {
	agreementOf,
	meanOfDeterminations,
	pooledScatter,
	type Scatter,
} from "./replicates";
import { type PropertyName, propertyNames } from "./standards";
import type { Weighings } from "./weighings";

/** One figure from one row. */
export interface Determination {
	readonly name: string;
	readonly sample: string;
	readonly property: PropertyName;
	/** Under which condition, such as the density of a float liquid; "" where there is none. Replicates have the same. */
	readonly at: string;
	readonly outcome: Outcome;
	readonly place: ProblemPlace;
}

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

/** A table of property readings, checked and worked out row by row. */
export interface PropertySheet {
	readonly file: string;
	readonly hash: string;
	/** In the order of the file. */
	readonly samples: readonly string[];
	readonly determinations: readonly Determination[];
	readonly sievings: readonly SievingOfSample[];
	readonly splits: readonly SplitOfSample[];
	/** Repeatability limits that replicates are held against. */
	readonly limits: RepeatabilityLimits;
	readonly assumptions: readonly string[];
	/** What should be known before the figures are used. */
	readonly cautions: readonly string[];
}

/** Repeatability limits r of the standards, from one's own copies: the largest difference of two determinations that 95 of 100 pairs keep within. */
export type RepeatabilityLimits = Partial<Record<PropertyName, Quantity>>;

type Table = FurtherTable<PropertyKey>;
type Row = FurtherRow<PropertyKey>;

interface Entry {
	readonly row: Row;
	readonly name: string;
	readonly sample: string;
	readonly property: RowProperty;
	readonly read: RowReadings;
}

function missing(row: Row, key: PropertyKey, property: string): Problem {
	return problem(
		"cell-missing",
		row.place(key),
		"an empty cell",
		`a reading, for ${property}`,
		"Fill it in, or take the row out.",
	);
}

/** Sieves of a row: numbers that have an opening and a mass; one without the other is a problem. */
function sievesOf(table: Table, row: Row, problems: Problem[]): number[] {
	return table.numbersOf("sieve # opening", "sieve # mass").filter((n) => {
		const [opening, mass] = (["sieve # opening", "sieve # mass"] as const).map(
			(key) => !row.isEmpty(key, n),
		);
		if (opening !== mass)
			problems.push(
				problem(
					"cell-missing",
					row.place(opening ? "sieve # mass" : "sieve # opening", n),
					"an empty cell",
					opening
						? "the mass on that sieve, 0 where nothing stayed"
						: "the opening of that sieve",
					"Fill it in.",
				),
			);
		return opening && mass;
	});
}

/** Whether something stands in a row that could not be read; that has been told of. */
function unreadable(table: Table, row: Row): boolean {
	const keys = Object.keys(propertyColumns) as PropertyKey[];
	return keys.some((key) => {
		if (propertyColumns[key].holds.is !== "number") return false;
		const numbers = key.includes("#") ? table.numbersOf(key) : [1];
		return numbers.some(
			(n) => !row.isEmpty(key, n) && !row.number(key, n).recorded,
		);
	});
}

/** The rows that are complete enough to be worked out; problems for the others. */
function entriesOf(table: Table, problems: Problem[]): Entry[] {
	const first = new Map<string, number>();
	const faulty = new Set(table.problems.map((p) => p.where.row));
	return table.rows.flatMap((row): Entry[] => {
		const before = problems.length;
		for (const key of ["determination", "sample", "property"] as const)
			if (row.isEmpty(key)) problems.push(missing(row, key, "every row"));
		const name = row.text("determination");
		const twin = first.get(name);
		if (name !== "" && twin !== undefined)
			problems.push(
				problem(
					"determination-twice",
					row.place("determination"),
					`"${name}", which row ${twin} has too`,
					"a name of its own for every determination",
					"Number them: a replicate is a row of its own.",
				),
			);
		else first.set(name, row.row);
		const property = row.text("property") as RowProperty | "";
		if (property === "") return [];
		for (const key of needed[property]) {
			if (row.isEmpty(key)) problems.push(missing(row, key, property));
			else if (key === "dried" && row.text(key) === "not recorded")
				problems.push(
					problem(
						"dried-not-recorded",
						row.place(key),
						'"not recorded"',
						"yes or no",
						"Whether the sample was dried before it was weighed changes the result: find out, or determine it again.",
					),
				);
		}
		if (property === "particle size") sievesOf(table, row, problems);
		if (
			property === "apparent density" &&
			row.isEmpty("sample mass") &&
			(row.isEmpty("dish") || row.isEmpty("dish and sample"))
		)
			problems.push(missing(row, "sample mass", property));
		return problems.length > before ||
			faulty.has(row.row) ||
			unreadable(table, row)
			? []
			: [
					{
						row,
						name,
						sample: row.text("sample"),
						property,
						read: readingsOf(table, row),
					},
				];
	});
}

const weighings = ({ read, property }: Entry): Weighings => ({
	dish: read.mass("dish", `dish, empty (${property})`),
	dishAndSample: read.mass("dish and sample", `dish with sample (${property})`),
	dishAfter: read.mass("dish after", `dish afterwards (${property})`),
});

function sievingOf(table: Table, { row, read }: Entry): Sieving {
	return {
		sieves: sievesOf(table, row, []).map((n) => ({
			opening: read.opening(n),
			retained: read.mass("sieve # mass", `on sieve ${n}`, n),
		})),
		pan: read.mass("pan", "in the pan"),
		...(row.isEmpty("sample mass")
			? {}
			: { sample: read.mass("sample mass", "put on the sieves") }),
	};
}

/** Symbol of a mean: "W" -> "W_{mean}", "d_{10}" -> "d_{10, mean}". */
function meanSymbol(symbol: string): string {
	return symbol.endsWith("}")
		? `${symbol.slice(0, -1)}, mean}`
		: `${symbol}_{mean}`;
}

/** Mean of replicates; one and the same quantity wherever it is used, so that its error is one. */
export function meanOfSet(set: ReplicateSet, scatter: Scatter): Quantity {
	const { values } = set;
	const { symbol } = values[0].name;
	const of = `${labelOf(set)} of ${set.sample}`;
	const mean = meanOfDeterminations(values, of, scatter);
	return values.length === 1
		? named(mean, symbol, of)
		: named(mean, meanSymbol(symbol), `${of}, mean of ${values.length}`);
}

/** A property with its condition, in words. */
export function labelOf(p: {
	readonly property: PropertyName;
	readonly at: string;
}): string {
	return p.at === "" ? p.property : `${p.property} at ${p.at}`;
}

type Worked =
	| { readonly ok: false; readonly problems: readonly Problem[] }
	| {
			readonly ok: true;
			readonly at: string;
			readonly figures: readonly (readonly [PropertyName, Outcome])[];
			readonly sizes: readonly ParticleSizes[];
			readonly splits: readonly FloatSinkSplit[];
	  };

function figure(
	property: PropertyName,
	checked: Checked<Quantity>,
	at = "",
): Worked {
	return checked.ok
		? {
				ok: true,
				at,
				figures: [[property, { is: "value", quantity: checked.value }]],
				sizes: [],
				splits: [],
			}
		: checked;
}

function worked(
	table: Table,
	entry: Entry,
	moistures: ReadonlyMap<string, Quantity<"ratio">>,
): Worked {
	const { row, read, property, sample } = entry;
	const state = (): Checked<SampleState> => {
		if (row.text("dried") === "yes")
			return { ok: true, value: { is: "dried" } };
		const moisture = moistures.get(sample);
		if (moisture !== undefined)
			return { ok: true, value: { is: "moist", moisture } };
		// Where its moisture is there and wrong, that has been said.
		const told = table.rows.some(
			(r) => r.text("sample") === sample && r.text("property") === "moisture",
		);
		return told
			? { ok: false, problems: [] }
			: {
					ok: false,
					problems: [
						problem(
							"moisture-missing",
							{ column: "dried" },
							`"no" for ${sample}, whose moisture is nowhere in this table`,
							"a determination of its moisture",
							'Add a row "moisture" for the same sample, or dry before weighing.',
						),
					],
				};
	};
	const withState = (f: (sample: SampleState) => Checked<Quantity>): Worked => {
		const s = state();
		return s.ok ? figure(property as PropertyName, f(s.value)) : s;
	};
	switch (property) {
		case "moisture":
			return figure(property, checkMoisture(weighings(entry)));
		case "total ash":
			return withState((s) => checkTotalAsh(weighings(entry), s));
		case "volatile matter":
			return withState((s) => checkVolatileMatter(weighings(entry), s));
		case "apparent density":
			return withState((s) =>
				checkApparentDensity(
					{
						mass: row.isEmpty("sample mass")
							? filling(
									read.mass("dish", "cylinder, empty"),
									read.mass("dish and sample", "cylinder, filled"),
								)
							: read.mass("sample mass", "char in the cylinder"),
						volume: read.cylinder("volume", "volume of the bed"),
					},
					s,
				),
			);
		case "water-soluble content":
			return withState((s) =>
				checkWaterSoluble(
					{
						sample: read.mass("sample mass", "char extracted"),
						extract: read.cylinder("extract volume", "all of the extract"),
						aliquot: read.pipette("aliquot volume", "part that was evaporated"),
						dish: read.mass("dish", "dish, empty (water-soluble content)"),
						dishAfter: read.mass("dish after", "dish with the residue"),
					},
					s,
				),
			);
		case "ball-pan hardness":
			return figure(
				property,
				checkBallPanHardness({
					loaded: read.mass("sample mass", "put into the pan"),
					retained: read.mass("retained", "on the hardness test sieve"),
				}),
			);
		case "pH":
			return figure(property, { ok: true, value: read.pH() });
		case "float-sink": {
			const split: FloatSinkSplit = {
				liquid:
					row.text("liquid") || `liquid of ${read.density().in("g/mL")} g/mL`,
				liquidDensity: read.density(),
				floated: read.mass("floated", "dry mass that floated"),
				sunk: read.mass("sunk", "dry mass that sank"),
			};
			const share = figure(
				"floated share",
				checkFloatedShare(split),
				`${split.liquidDensity.in("g/mL")} g/mL`,
			);
			return share.ok ? { ...share, splits: [split] } : share;
		}
		case "particle size": {
			const sizes = checkParticleSizes(sievingOf(table, entry));
			return sizes.ok
				? {
						ok: true,
						at: "",
						figures: [
							["effective size", sizes.value.effectiveSize],
							["uniformity coefficient", sizes.value.uniformityCoefficient],
							["mean particle diameter", sizes.value.meanDiameter],
						],
						sizes: [sizes.value],
						splits: [],
					}
				: sizes;
		}
	}
}

/** Problems of a calculation know their column; the row tells where that is. */
function placed(entry: Entry, problems: readonly Problem[]): Problem[] {
	return problems.map((p) => ({
		...p,
		where: entry.row.place(
			Object.hasOwn(propertyForm.columns, p.where.column)
				? (p.where.column as PropertyKey)
				: "property",
		),
	}));
}

const shown = (outcome: Outcome): Quantity[] =>
	outcome.is === "value" ? [outcome.quantity] : [];

/** The values of one property of one char under one condition. */
export interface ReplicateSet {
	readonly sample: string;
	readonly property: PropertyName;
	readonly at: string;
	readonly values: readonly Quantity[];
}

/** Determinations of one property gathered into replicates. */
export function setsOf(
	determinations: readonly Determination[],
	property: PropertyName,
): ReplicateSet[] {
	const sets = new Map<string, ReplicateSet>();
	for (const d of determinations) {
		if (d.property !== property) continue;
		const key = JSON.stringify([d.sample, d.at]);
		const before = sets.get(key)?.values ?? [];
		sets.set(key, { ...d, values: [...before, ...shown(d.outcome)] });
	}
	return [...sets.values()];
}

const numbers = (set: ReplicateSet): number[] => set.values.map((v) => v.value);

/**
 * Scatter of one determination: pooled over the chars of the table, without sets that disagree by more than their limit (a slip on one char says nothing about another); such a set
 * stands alone with its own.
 */
export function scatterOf(
	set: ReplicateSet,
	all: readonly ReplicateSet[],
	limits: RepeatabilityLimits,
): Scatter {
	const sound = (s: ReplicateSet): boolean =>
		agreementOf(s.values, limitFor(s.property, limits)).is !==
		"beyond the limit";
	return sound(set)
		? pooledScatter(
				all.filter(sound).map(numbers),
				`standard deviation of replicates of ${set.property}, pooled over the table`,
			)
		: pooledScatter(
				[numbers(set)],
				`standard deviation of the replicates of ${set.property} of ${set.sample} alone`,
			);
}

export function limitFor(
	property: PropertyName,
	limits: RepeatabilityLimits,
): Parameters<typeof agreementOf>[1] {
	const r = limits[property];
	return r === undefined ? { is: "not known" } : { is: "limit", r };
}

function checkLimits(limits: RepeatabilityLimits): void {
	for (const name of Object.keys(limits))
		if (!propertyNames.includes(name as PropertyName))
			throw new RangeError(
				`There is no property "${name}"; the properties are ${propertyNames.join(", ")}.`,
			);
}

function sheetOf(
	table: Table,
	limits: RepeatabilityLimits,
): Checked<PropertySheet> {
	checkLimits(limits);
	const problems: Problem[] = [
		...table.problems,
		...spellingProblems(
			table.rows.map((row) => ({
				text: row.text("sample"),
				row: row.row,
				place: row.place("sample"),
			})),
			"sample",
		),
	];
	const entries = entriesOf(table, problems);
	const results = new Map<Entry, Worked>();
	const work = (
		some: readonly Entry[],
		moistures: ReadonlyMap<string, Quantity<"ratio">>,
	): Determination[] =>
		some.flatMap((entry) => {
			const result = worked(table, entry, moistures);
			results.set(entry, result);
			if (!result.ok) {
				problems.push(...placed(entry, result.problems));
				return [];
			}
			return result.figures.map(
				([property, outcome]): Determination => ({
					name: entry.name,
					sample: entry.sample,
					property,
					at: result.at,
					outcome,
					place: entry.row.place("determination"),
				}),
			);
		});
	const wet = work(
		entries.filter((e) => e.property === "moisture"),
		new Map(),
	);
	const wetSets = setsOf(wet, "moisture");
	const moistures = new Map(
		wetSets.map((set) => [
			set.sample,
			meanOfSet(set, scatterOf(set, wetSets, limits)) as Quantity<"ratio">,
		]),
	);
	const others = work(
		entries.filter((e) => e.property !== "moisture"),
		moistures,
	);
	if (problems.length > 0)
		return {
			ok: false,
			problems: [...problems].sort((a, b) => a.where.row - b.where.row),
		};
	const sievings: SievingOfSample[] = [];
	const splits: SplitOfSample[] = [];
	for (const [{ name, sample }, result] of results) {
		if (!result.ok) continue;
		for (const sizes of result.sizes) sievings.push({ name, sample, sizes });
		for (const split of result.splits) splits.push({ name, sample, split });
	}
	return {
		ok: true,
		value: {
			file: table.file,
			hash: table.hash,
			samples: [...new Set(entries.map((e) => e.sample))],
			determinations: [...wet, ...others],
			sievings,
			splits,
			limits,
			assumptions: [...table.remarks, ...assumptionsOf(table)],
			cautions: sievings.flatMap(({ name, sample, sizes }) =>
				sizes.cautions.map((c) => `${sample}, ${name}: ${c}`),
			),
		},
	};
}

/**
 * Reads and checks a table of property readings (.csv): every row worked out, or everything that is wrong, each with file, row and column.
 *
 * @param limits repeatability limits from one's own copies of the standards, in the kind of each property
 */
export function checkProperties(
	path: string,
	limits: RepeatabilityLimits = {},
): Checked<PropertySheet> {
	return sheetOf(furtherTable(path, propertyForm), limits);
}

/** The same for rows typed into a cell. */
export function checkPropertyRows(
	rows: readonly TypedRow[],
	limits: RepeatabilityLimits = {},
): Checked<PropertySheet> {
	return sheetOf(furtherTableOfRows(rows, propertyForm), limits);
}

/**
 * Reads a table of property readings (.csv), one row for each determination.
 *
 * @param limits repeatability limits from one's own copies of the standards, in the kind of each property
 * @throws ProblemError that lists everything that is wrong, each with file, row and column; RangeError for a limit of another kind than its property
 */
export function readProperties(
	path: string,
	limits: RepeatabilityLimits = {},
): PropertySheet {
	return valueOrThrow(checkProperties(path, limits));
}

/**
 * Property readings of rows typed into a cell; the same columns and the same checks.
 * @throws as readProperties
 */
export function propertiesFromRows(
	rows: readonly TypedRow[],
	limits: RepeatabilityLimits = {},
): PropertySheet {
	return valueOrThrow(checkPropertyRows(rows, limits));
}
