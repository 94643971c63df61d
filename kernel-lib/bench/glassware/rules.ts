import {
	type Evidence,
	halfDivision,
	input,
	normal,
	type Quantity,
	rectangular,
	scaled,
	triangular,
} from "../../quantity";
import { type Piece, statedTolerance } from "./piece";

/*
 * The one rule for each instrument, for what a sheet says and for what is typed into a cell. What is measured carries two errors: one of reading, independent from one measurement to
 * the next, and one of calibration, shared by all that the piece measures.
 */

/** Error of one reading of a scale, or of one filling to a single mark; mL. */
export function readingError(piece: Piece): Evidence {
	return piece.division > 0
		? halfDivision(piece.division)
		: normal(piece.repeatability);
}

/** Error of the difference of two readings of a burette: each is rectangular over half a division either way, so their difference is triangular over a whole one; mL. */
export function differenceError(piece: Piece): Evidence {
	return piece.division > 0
		? triangular(piece.division)
		: normal(Math.SQRT2 * piece.repeatability);
}

/** How often a piece is filled to measure a volume (mL): more than it holds takes more than one filling. */
function fillings(piece: Piece, volume: number): number {
	return Math.max(1, Math.ceil((volume / piece.size) * 0.999999));
}

/** Reading error of a volume (mL), once for each filling: a burette is read before and after, everything else once. */
export function volumeError(piece: Piece, volume: number): Evidence {
	const one =
		piece.kind === "burette" ? differenceError(piece) : readingError(piece);
	const n = fillings(piece, volume);
	return n === 1 ? one : normal(one.standardUncertainty * Math.sqrt(n));
}

/** How many times the tolerance of a piece applies to a volume (mL): once for each filling, and less where little is delivered. */
export function calibrationFactor(
	piece: Piece,
	volume: number,
	atLeastFillings = 1,
): number {
	const n = Math.max(atLeastFillings, fillings(piece, volume));
	return n * toleranceShare(piece, volume / n);
}

/** Part of a burette from which on its tolerance is taken whole; a decision of ours. */
const wholeFrom = 0.1;

/** The share of a piece's tolerance that applies when it delivers a volume (mL) at once. */
function toleranceShare(piece: Piece, volume: number): number {
	// ISO 7886-1, from memory: from half the nominal volume upwards a percentage of what is expelled, below it 1.5 % of the nominal volume and 1 % (2 % for syringes under 5 mL) of what is expelled.
	if (piece.kind === "syringe" && piece.toleranceSource !== statedTolerance) {
		const small = piece.size < 5;
		return volume >= piece.size / 2
			? volume / piece.size
			: (0.015 + ((small ? 0.02 : 0.01) * volume) / piece.size) /
					(small ? 0.05 : 0.04);
	}
	// The tolerance of a burette holds for whatever it delivers (ISO 385). Between two readings that lie close together the bore's error has no room to grow: below a tenth of the burette it is taken
	// in proportion, so that nothing delivered carries no error, and taking off a blank of a drop does not take off the calibration error of the titre with it.
	if (piece.kind === "burette")
		return Math.min(1, volume / (piece.size * wholeFrom));
	return 1;
}

/** Error of a mass by difference: tare and load are two readings, each rounded by half a step either way; g. */
export function weighingError(balance: Piece): Evidence {
	return triangular(balance.division);
}

/** The calibration error of a piece, value 0: one input, shared by everything that it measured. Its shape is rectangular, the more cautious of the two usual choices, unless told otherwise. */
export function calibrationError(
	piece: Piece,
	shape: (tolerance: number) => Evidence = rectangular,
): Quantity<"volume"> {
	return input("volume", 0, "mL", shape(piece.tolerance), described(piece));
}

/** The same of a balance. */
export function balanceError(balance: Piece): Quantity<"mass"> {
	return input(
		"mass",
		0,
		"g",
		rectangular(balance.tolerance),
		described(balance),
	);
}

function described(piece: Piece): Parameters<typeof input>[4] {
	return {
		symbol: `\\delta_{\\text{${piece.name}}}`,
		meaning: `calibration error of ${piece.name}`,
		source: piece.source,
		scope: "shared",
		component: piece.component,
	};
}

/** A quantity times an exact factor; the same quantity where the factor is 1. */
export function timesFactor<K extends "volume" | "mass">(
	q: Quantity<K>,
	factor: number,
): Quantity<K> {
	return factor === 1 ? q : scaled(q, factor);
}
