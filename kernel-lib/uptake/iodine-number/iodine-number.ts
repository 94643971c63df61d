import { isUsable, step, type Trial, whyLeftOut } from "../../bench";
import {
	fixed,
	meanOf,
	type Quantity,
	quoted,
	type Table,
	table,
	withTable,
} from "../../quantity";
import type { TitratedResidue } from "../../residue";
import { type AmmoniaNamed, dangersNamedIn, whyNot } from "../../substances";
import { ammoniaFirst, ammoniaOf, jointAmmonia } from "../ammonia";
import { everyUptake } from "../every-uptake";
import { atOneX } from "../log-log-line";
import { soakTexts } from "../soak";
import { nextTrial } from "./advice";
import {
	type Condition,
	conditionsOf,
	placesNotInSheet,
	standardVolumes,
} from "./conditions";
import { doseTooSmall, nextDosages, wantedResidues } from "./dosage";
import { type LogLine, logLine } from "./log-line";
import type { NumberOfDosages } from "./number-of-dosages";
import {
	type DosagePoint,
	dosagePoint,
	dosageTable,
	titratedChars,
} from "./points";
import { d4607 } from "./standard";
import { roughSurfaceAreas } from "./surface-area";

/** The result of one char's dosages. */
export type IodineNumber = NumberOfDosages & {
	/** What would make the next trial a better one, in full sentences: masses to weigh, dosages to repeat, what to write down. */
	readonly nextTrial: readonly string[];
	/** Every condition of ASTM D4607 (from memory) that the sheet can speak to, whether it was met, and what was found. */
	readonly conditionTable: Table;
};

/** The iodine numbers of a trial, shown as a table. */
export interface IodineNumbers extends ReadonlyArray<IodineNumber> {
	/** A row a treatment: uptake at 0.02 N (mg/g) with its 95 % interval, and what its uncertainty is made of. */
	readonly table: Table;
	/** A row a flask: char (g), residue (N), uptake (mg/g). */
	readonly dosages: Table;
	/** What area (m²/g) the iodine would cover if it lay in one layer: a rule of thumb and no measurement of surface, with the caveats that belong to it. */
	readonly roughSurfaceAreas: Table;
}

function nameOf(
	found: readonly TitratedResidue[],
	conditions: readonly Condition[],
): string {
	if (!standardVolumes(found))
		return `iodine uptake at ${d4607.reportedAt_N} N on bench scale`;
	const unmet = conditions.filter((c) => c.state !== "met");
	return unmet.length === 0
		? "iodine number (ASTM D4607)"
		: `iodine uptake at ${d4607.reportedAt_N} N by the steps of ASTM D4607, with conditions not met or not recorded`;
}

function remarksOf(
	line: LogLine,
	found: readonly TitratedResidue[],
	conditions: readonly Condition[],
): string[] {
	const remarks: string[] = [];
	if (!standardVolumes(found))
		remarks.push(
			"The volumes are not those of ASTM D4607: compare this figure only with others made with the same volumes, iodine strength and contact time. It is not an iodine number.",
		);
	for (const c of conditions)
		if (c.state !== "met")
			remarks.push(
				`${c.state === "not met" ? "Not met" : "Not recorded"}: ${c.condition} (found: ${c.found}).`,
			);
	if (line.range[0] > d4607.reportedAt_N || line.range[1] < d4607.reportedAt_N)
		remarks.push(
			`The line is read at ${d4607.reportedAt_N} N, outside the points (${fixed(line.range[0], 4)} to ${fixed(line.range[1], 4)} N): this is an extrapolation.`,
		);
	if (line.intervalFrom === "reading errors and shared errors")
		remarks.push(
			`The points lie closer to the line than their own reading errors explain, which is luck with so few (${line.degreesOfFreedom} degree${line.degreesOfFreedom === 1 ? "" : "s"} of freedom): the interval is the one that the stated reading errors and the shared errors give.`,
		);
	else if (line.degreesOfFreedom <= 2)
		remarks.push(
			`The scatter rests on ${line.degreesOfFreedom} degree${line.degreesOfFreedom === 1 ? "" : "s"} of freedom: its share of the interval is wide by nature. Another dosage would narrow it.`,
		);
	return remarks;
}

function nextDosageTable(
	uptake: Quantity<"uptake">,
	{ own: found, forbidden }: Dosages,
): Table {
	const columns = ["for a residue near (N)", "char (g)"];
	if (forbidden !== "")
		return table("Char to weigh next time", columns, [], [forbidden]);
	// Where the doses differ, the largest one leaves the most room.
	const first = found.reduce((most, r) =>
		r.account.added.in("mmol") > most.account.added.in("mmol") ? r : most,
	);
	// What was dosed and in how much liquid is all that counts: as if all of the liquid were iodine of its strength.
	const liquid = first.account.liquid.in("mL");
	const next = nextDosages(uptake.in("mg/g"), {
		iodine: liquid,
		acid: 0,
		iodineNormality: (2 * first.account.added.in("mmol")) / liquid,
	});
	return table(
		"Char to weigh next time",
		columns,
		next.map((d) => [fixed(d.residualNormality, 2), fixed(d.char_g, 3)]),
		next.length < wantedResidues.length ? [doseTooSmall] : [],
	);
}

/** The masses that should leave other residues, from an uptake that was found at one. */
function weighInstead(uptake: Quantity<"uptake">, dosages: Dosages): string {
	if (dosages.forbidden !== "") return "";
	const { rows } = nextDosageTable(uptake, dosages);
	if (rows.length === 0) return doseTooSmall;
	return rows
		.map(
			([residue, mass], i) =>
				`${i === 0 ? `From the mean of ${fixed(uptake.in("mg/g"), 0)} mg/g, weigh` : ""} ${mass} g for a residue near ${residue} N`,
		)
		.join(",")
		.concat(".");
}

/**
 * Iodine uptake (mg/g) at a residual normality of 0.02 N for each treatment, from three or more dosages of char, with each condition of the standard listed (ASTM D4607, from memory).
 * Flasks that ran dry, or whose numbers cannot all be right, have no place on the line; they are named in the remarks, as are those that a deviation leaves out. Shown as a table; `dosages` and `roughSurfaceAreas` are further ones, and each number has its
 * `conditionTable` and what to do next.
 *
 * @throws ProblemError as `residue.residues` does
 * @example
 * const numbers = uptake.iodineNumbers(iodineNumberTrial);
 * numbers[0].is // => "value"
 * numbers.table // => "Iodine uptake at 0.02 N"
 * numbers[0].conditionTable.columns // => ["condition", "state", "found"]
 * numbers[0].nextTrial[0].includes(": weigh about ") // => true
 */
export const iodineNumbers: (trial: Trial) => IodineNumbers = step((trial) => {
	const numbers = numbersOf(trial).map(
		(number): IodineNumber =>
			withTable(
				{ ...number, nextTrial: nextTrial(number) },
				() => conditionTable(number),
				"conditionTable",
			),
	);
	return withTable(
		withTable(
			withTable(numbers, iodineNumberTable),
			() => dosageTable(trial),
			"dosages",
		),
		roughSurfaceAreas,
		"roughSurfaceAreas",
	);
});

/** Flasks that a deviation leaves out, and why. */
function leftOutOf(trial: Trial, treatment: string): string[] {
	return trial.flasks
		.filter(
			(f) => f.contents === "char" && f.treatment === treatment && !isUsable(f),
		)
		.map((f) => `Flask ${f.name} is left out: ${whyLeftOut(f)}.`);
}

/** Why a dosage has no point on the line; "" where it has one. */
function whyOff(
	{ flask, measurable, uptake }: DosagePoint,
	contradictions: ReadonlyMap<string, string>,
): string {
	if (!measurable) return "no residue was left to measure";
	if (!(uptake.value > 0)) return "no uptake was measured";
	const contradiction = contradictions.get(flask.name) ?? "";
	return contradiction === ""
		? ""
		: `its numbers cannot all be right (${contradiction})`;
}

/** The dosages of one treatment, those on the line and what is said of the others. */
interface Dosages {
	readonly treatment: string;
	readonly file: string;
	readonly own: readonly TitratedResidue[];
	readonly ammonia: AmmoniaNamed;
	readonly notAsAsked: string;
	/** Why nothing may advise to weigh more of its char; "" where nothing forbids it. */
	readonly forbidden: string;
	readonly all: readonly DosagePoint[];
	readonly points: readonly DosagePoint[];
	readonly notes: readonly string[];
}

/** The method asks for char that was dried in an oven and boiled in acid: what the soak left may forbid either. */
function whyNotAsAsked(soaks: readonly string[]): string {
	const there = soaks.flatMap(dangersNamedIn).map((n) => n.dangers);
	return [
		[
			"Do not boil it in acid, as the method asks",
			whyNot("strong acid", there),
		],
		[
			"Do not dry it in an oven, as the method asks",
			whyNot("drying oven", there),
		],
	]
		.flatMap(([step, because]) =>
			because === "" ? [] : [`${step}. Must not be done: ${because}`],
		)
		.join(" ");
}

function dosagesOf(
	trial: Trial,
	treatment: string,
	chars: readonly TitratedResidue[],
	contradictions: ReadonlyMap<string, string>,
): Dosages {
	const own = chars.filter((r) => r.flask.treatment === treatment);
	const all = own.map(dosagePoint);
	const off = (p: DosagePoint): string => whyOff(p, contradictions);
	const ammonia = jointAmmonia(own.map((r) => ammoniaOf(trial, r.flask)));
	const notAsAsked = whyNotAsAsked(
		own.flatMap(({ flask }) => soakTexts(trial, flask)),
	);
	return {
		treatment,
		file: trial.file,
		own,
		ammonia,
		notAsAsked,
		forbidden:
			ammonia === "named"
				? `The char may hold ammonia: ${ammoniaFirst}.`
				: notAsAsked,
		all,
		points: all.filter((p) => off(p) === ""),
		notes: [
			...all
				.filter((p) => off(p) !== "")
				.map((p) => `Flask ${p.flask.name} is not on the line: ${off(p)}.`),
			...leftOutOf(trial, treatment),
		],
	};
}

function notAvailable(
	{ treatment, file, ammonia, notAsAsked, notes }: Dosages,
	because: string,
	instead: string,
): NumberOfDosages {
	return {
		is: "not available",
		file,
		treatment,
		ammonia,
		notAsAsked,
		sentence: `${quoted(treatment)}: no value at ${d4607.reportedAt_N} N, because ${because}.`,
		because,
		remarks: notes,
		weighInstead: instead,
	};
}

function numberOf(dosages: Dosages): NumberOfDosages {
	const { treatment, file, own, ammonia, notAsAsked, all, points, notes } =
		dosages;
	if (points.length < 3)
		return notAvailable(
			dosages,
			`${points.length} of ${all.length} dosages gave a point; a line with an error needs three at different residues`,
			"",
		);
	if (atOneX(points.map((p) => ({ x: p.normality }))))
		return notAvailable(
			dosages,
			`all ${points.length} dosages ended at one residue, ${fixed(points[0].normality.in("N"), 4)} N, and points at one residue have no slope`,
			weighInstead(meanOf(points.map((p) => p.uptake)), dosages),
		);
	const line = logLine(points, d4607.reportedAt_N);
	const conditions = conditionsOf(own, points, line.correlation);
	const name = nameOf(own, conditions);
	return {
		is: "value",
		file,
		name,
		treatment,
		ammonia,
		notAsAsked,
		sentence: `${quoted(treatment)}: the ${name} is ${fixed(line.value.in("mg/g"), 0)} mg/g (95 % interval ${fixed(line.low, 0)} to ${fixed(line.high, 0)} mg/g), from ${points.length} dosages of char.`,
		line,
		points,
		offTheLine: notes,
		conditions,
		remarks: [...remarksOf(line, own, conditions), ...notes],
		nextDosages: nextDosageTable(line.value, dosages),
	};
}

function numbersOf(trial: Trial): NumberOfDosages[] {
	const chars = titratedChars(trial);
	const contradictions = new Map(
		everyUptake(trial).map((u) => [u.flask.name, u.contradiction]),
	);
	const treatments = new Set(
		trial.flasks
			.filter((f) => f.contents === "char" && !f.readings.recorded)
			.map((f) => f.treatment),
	);
	return [...treatments].map((treatment) =>
		numberOf(dosagesOf(trial, treatment, chars, contradictions)),
	);
}

/** Results of several chars side by side. */
function iodineNumberTable(numbers: readonly IodineNumber[]): Table {
	return table(
		"Iodine uptake at 0.02 N",
		[
			"treatment",
			"called",
			"at 0.02 N (mg/g)",
			"95 % interval (mg/g)",
			"u from scatter (mg/g)",
			"u from reading errors (mg/g)",
			"u shared by all flasks (mg/g)",
			"slope 1/n",
			"correlation r",
		],
		numbers.map((n) =>
			n.is === "value"
				? [
						n.treatment,
						n.name,
						fixed(n.line.value.in("mg/g"), 0),
						`${fixed(n.line.low, 0)} to ${fixed(n.line.high, 0)}`,
						fixed(n.line.scatter, 1),
						fixed(n.line.readings, 1),
						fixed(n.line.shared, 1),
						fixed(n.line.slope, 3),
						fixed(n.line.correlation, 4),
					]
				: [n.treatment, "not available", n.because, "", "", "", "", "", ""],
		),
		numbers.flatMap((n) =>
			n.remarks.map((r) => `${quoted(n.treatment)}: ${r}`),
		),
	);
}

const fromMemory =
	"These conditions and their figures are from memory of ASTM D4607: check them against your copy of the standard, the fineness of the grind first.";

function conditionTable(number: NumberOfDosages): Table {
	return table(
		`Conditions of ASTM D4607, ${quoted(number.treatment)}`,
		["condition", "state", "found"],
		number.is === "value"
			? number.conditions.map((c) => [c.condition, c.state, c.found])
			: [],
		number.is === "value" ? [fromMemory, placesNotInSheet] : [number.because],
	);
}
