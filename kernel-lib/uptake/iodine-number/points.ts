import type { Flask, Trial } from "../../bench";
import {
	exact,
	input,
	massPerMass,
	minus,
	named,
	per,
	type Quantity,
	stated,
	type Table,
	table,
	times,
} from "../../quantity";
import { charMassOf, residues, type TitratedResidue } from "../../residue";
import { d4607 } from "./standard";

/** One dosage of char: what a gram took up, and the normality that it stands at. */
export interface DosagePoint {
	readonly flask: Flask;
	readonly char: Quantity<"mass">;
	/** X/M of the standard, mg of iodine per gram. */
	readonly uptake: Quantity<"uptake">;
	/** Residual normality C. */
	readonly normality: Quantity<"normality">;
	/** False for a flask with no measurable residue: it has no place on a logarithmic line. */
	readonly measurable: boolean;
}

const equivalentsPerMole: Quantity<"equivalentsPerAmount"> = input(
	"equivalentsPerAmount",
	2,
	"eq/mol",
	exact,
	{
		symbol: "2",
		meaning: "equivalents in a mole of I2",
		source: stated("I2 + 2 S2O3(2-) -> 2 I(-) + S4O6(2-)"),
	},
);

/** 126.93 g/eq times 2 eq/mol, so that the standard's own figure is used and not the molar mass of today. */
const massPerMole: Quantity<"molarMass"> = input(
	"molarMass",
	2 * d4607.milligramsPerMilliequivalent,
	"g/mol",
	exact,
	{
		symbol: "2 × 126.93",
		meaning: "iodine in a mole of I2, as ASTM D4607 counts it",
		source: stated("ASTM D4607, 126.93 mg per milliequivalent; from memory"),
	},
);

/** The titrated flasks with char of a trial that are not left out. */
export function titratedChars(trial: Trial): TitratedResidue[] {
	return residues(trial).filter(
		(r): r is TitratedResidue =>
			r.is === "titrated" && r.flask.contents === "char",
	);
}

/** The dosage of one flask. */
export function dosagePoint(r: TitratedResidue): DosagePoint {
	const char = charMassOf(r.flask).mass;
	const taken = minus(minus(r.account.added, r.account.withdrawn), r.left);
	return {
		flask: r.flask,
		char,
		uptake: named(
			massPerMass(times(taken, massPerMole), char),
			"X/M",
			`iodine taken up per gram of char, flask ${r.flask.name}`,
		),
		normality: named(
			times(r.concentration, equivalentsPerMole),
			"C",
			`residual normality, flask ${r.flask.name}`,
		),
		measurable: r.measurable,
	};
}

/**
 * X/M = (A - DF B S)/M of the standard for every titrated flask with char, with A, B and DF from the volumes that were used: A is the iodine dosed, DF B S the iodine left in the whole liquid, and
 * DF = (iodine + acid)/aliquot = (100 + 10)/50 = 2.2 in the standard's own volumes. In mg/g at a residual normality in N.
 *
 * @throws ProblemError as `residues` does
 */
export function dosagePoints(trial: Trial): DosagePoint[] {
	return titratedChars(trial).map(dosagePoint);
}

/**
 * The dosages as a table: char in g, residue in N, uptake in mg/g.
 * @throws ProblemError as `residue.residues` does
 * @example
 * uptake.dosageTable(iodineNumberTrial).rows.length // => 3
 */
export function dosageTable(trial: Trial): Table {
	return table(
		"Dosages",
		["flask", "char (g)", "residue C (N)", "uptake X/M (mg/g)"],
		dosagePoints(trial).map((p) => [
			p.flask.name,
			p.char.to("g"),
			p.normality.to("N"),
			p.uptake.to("mg/g"),
		]),
	);
}

/** A quantity divided by one of its unit, so that a logarithm can be taken. */
export function inUnits<K extends "uptake" | "normality">(
	q: Quantity<K>,
): Quantity<"ratio"> {
	const one = input<K>(q.kind, 1, q.unit as never, exact, {
		symbol: `1 ${q.unit}`,
		source: stated("unit"),
	});
	return per(q as Quantity, one as Quantity) as Quantity<"ratio">;
}
