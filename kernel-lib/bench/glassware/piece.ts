import type { ProblemPlace, Source } from "../../quantity";
import {
	type GlasswareTolerance,
	glasswareTolerance,
	type PieceOfGlassware,
} from "./tolerances";

export const volumeUses = [
	"dose",
	"aliquot",
	"made up",
	"titre",
	"liquid added",
	"withdrawn",
	"standard aliquot",
	"standard titre",
	"leachate",
	"rinse",
] as const;
export const massUses = ["char mass", "weighed", "activation"] as const;

export type VolumeUse = (typeof volumeUses)[number];
export type MassUse = (typeof massUses)[number];
export type Use = VolumeUse | MassUse;

export type PieceKind = PieceOfGlassware | "balance" | "other";

/** A piece of glassware, a syringe or a balance, as the arithmetic needs it. Volumes in mL, masses in g. */
export interface Piece {
	readonly name: string;
	readonly kind: PieceKind;
	readonly uses: readonly Use[];
	/** mL; 0 for a balance. */
	readonly size: number;
	/** Largest error at the nominal size, plus or minus (mL or g). */
	readonly tolerance: number;
	/** Division of the scale, or readability of a balance; 0 for a single mark. */
	readonly division: number;
	/** Standard deviation of one filling of a piece with a single mark. */
	readonly repeatability: number;
	readonly description: string;
	readonly toleranceSource: string;
	/** Where its calibration error comes from, and what tells it from another piece's. */
	readonly source: Source;
	readonly component: string;
	readonly place: ProblemPlace;
}

export const statedTolerance = "stated in the sheet";

/** Setting a meniscus to a single mark repeats to about a fifth of the class A error (0.02 mL on a 100 mL flask of plus or minus 0.1 mL in EURACHEM/CITAC QUAM, example A1). */
const fillingShare = 0.2;

const kindOfName: readonly (readonly [RegExp, PieceKind])[] = [
	[/balance|scales?\b/i, "balance"],
	[/buret/i, "burette"],
	[/piston|micro-?pipet|auto-?pipet/i, "piston pipette"],
	[/(graduated|measuring|serological) pipet/i, "graduated pipette"],
	[/pipet/i, "volumetric pipette"],
	[/flask/i, "volumetric flask"],
	[/cylinder/i, "measuring cylinder"],
	[/syringe/i, "syringe"],
];

/** What kind of piece a name says it is. */
export function kindOf(name: string): PieceKind {
	return kindOfName.find(([test]) => test.test(name))?.[1] ?? "other";
}

export function sizeText(size: number): string {
	return size < 1
		? `${Number((size * 1000).toPrecision(6))} µL`
		: `${Number(size.toPrecision(6))} mL`;
}

/** What is known of a piece before its standard is looked up. */
export interface KnownOfPiece {
	readonly name: string;
	readonly kind: PieceKind;
	readonly uses: readonly Use[];
	readonly size: number;
	readonly grade: "A" | "B";
	readonly division: number;
	/** mL; 0 where it is not stated and the standard's is taken. */
	readonly tolerance: number;
}

/** What a standard says about a piece; null where none lists that piece in that size. */
function standardOf(
	kind: PieceKind,
	size: number,
	grade: "A" | "B",
	division: number,
): GlasswareTolerance | null {
	if (kind === "balance" || kind === "other") return null;
	const found = glasswareTolerance(kind, size, grade, division);
	return found.ok ? found.value : null;
}

/** Fills in from the standard what is not said; null where neither says the tolerance. */
export function completedPiece(
	w: KnownOfPiece,
	origin: Pick<Piece, "source" | "component" | "place">,
): Piece | null {
	const line = standardOf(w.kind, w.size, w.grade, w.division);
	const tolerance = w.tolerance > 0 ? w.tolerance : (line?.tolerance ?? 0);
	if (tolerance === 0) return null;
	const division = w.division > 0 ? w.division : (line?.division ?? 0);
	const classA = standardOf(w.kind, w.size, "A", w.division);
	const grade =
		line === null || line.accuracyClass === "none"
			? ""
			: `, class ${line.accuracyClass}`;
	return {
		...origin,
		name: w.name,
		kind: w.kind,
		uses: w.uses,
		size: w.size,
		tolerance,
		division,
		repeatability:
			line !== null && line.repeatability > 0
				? line.repeatability
				: fillingShare * (classA?.tolerance ?? tolerance),
		description: `${w.name}${w.name.includes(sizeText(w.size)) ? "" : `, ${sizeText(w.size)}`}${w.tolerance > 0 ? "" : grade}: tolerance ${Number(tolerance.toPrecision(3))} mL${division > 0 ? `, division ${division} mL` : ""}`,
		toleranceSource: w.tolerance > 0 ? statedTolerance : (line?.source ?? ""),
	};
}

/** A balance that reads to `readability` g; 0 for a tolerance that is not stated takes one step of its display. */
export function balancePiece(
	name: string,
	uses: readonly Use[],
	readability: number,
	statedAs: number,
	origin: Pick<Piece, "source" | "component" | "place">,
): Piece {
	const tolerance = statedAs > 0 ? statedAs : readability;
	return {
		...origin,
		name,
		kind: "balance",
		uses,
		size: 0,
		tolerance,
		division: readability,
		repeatability: 0,
		description: `${name}: reads to ${readability} g, tolerance ${tolerance} g`,
		toleranceSource:
			statedAs > 0
				? statedTolerance
				: "taken as one step of its display (common practice, no source)",
	};
}
