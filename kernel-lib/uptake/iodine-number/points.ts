import type { Flask, Trial } from "../../bench";
import {
	exact,
	input,
	type Measured,
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
	/** X/M of the standard, mg of iodine per gram; the least of it where no residue could be measured. */
	readonly uptake: Quantity<"uptake">;
	/** Residual normality C; the most of it where none could be measured. */
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

/** The dosage of one flask. A titre that could not be told from none may have hidden iodine. */
export function dosagePoint(r: TitratedResidue): DosagePoint {
	const char = charMassOf(r.flask).mass;
	const left = r.measurable ? r.left : r.hidden;
	const taken = minus(minus(r.account.added, r.account.withdrawn), left);
	return {
		flask: r.flask,
		char,
		uptake: named(
			massPerMass(times(taken, massPerMole), char),
			"X/M",
			`iodine taken up per gram of char, flask ${r.flask.name}`,
		),
		normality: named(
			times(per(left, r.account.liquid), equivalentsPerMole),
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

/** Residue and uptake of a dosage, as the bounds that they are where it ran dry. */
export function measuredAt({ normality, uptake, measurable }: DosagePoint): {
	readonly normality: Measured<"normality">;
	readonly uptake: Measured<"uptake">;
} {
	const [n, q] = [normality.to("N"), uptake.to("mg/g")];
	if (measurable)
		return {
			normality: { is: "value", quantity: n },
			uptake: { is: "value", quantity: q },
		};
	const because = "no residue was left to measure; weigh less char";
	return {
		normality: { is: "at most", quantity: n, because },
		uptake: { is: "at least", quantity: q, because },
	};
}

/** The dosages as a table: char in g, residue in N, uptake in mg/g. */
export function dosageTable(trial: Trial): Table {
	return table(
		"Dosages",
		["flask", "char (g)", "residue C (N)", "uptake X/M (mg/g)"],
		dosagePoints(trial).map((p) => {
			const { normality, uptake } = measuredAt(p);
			return [p.flask.name, p.char.to("g"), normality, uptake];
		}),
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
