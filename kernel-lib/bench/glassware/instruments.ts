import {
	type Evidence,
	input,
	plus,
	type Quantity,
	type Source,
	toBase,
	type UnitOf,
} from "../../quantity";
import type { Instrument } from "../trial";
import type { MassUse, Piece, VolumeUse } from "./piece";
import { piecesInUse } from "./pieces-in-use";
import {
	balanceError,
	calibrationError,
	calibrationFactor,
	differenceError,
	readingError,
	timesFactor,
	volumeError,
	weighingError,
} from "./rules";

/** A reading before it becomes a quantity. */
export interface Reading {
	readonly value: number;
	readonly unit: string;
	readonly source: Source;
	readonly symbol: string;
	readonly meaning: string;
}

/**
 * Turns readings into quantities: value and reading error (independent) plus the calibration error of the piece (one input a piece, shared by everything that it measured).
 * Keeps count of the pieces that were used.
 */
export interface Instruments {
	/** A volume measured with a piece; a volume above its size was measured in equal portions. */
	volume(use: VolumeUse, reading: Reading): Quantity<"volume">;
	/** One reading of the burette: reading error only. */
	buretteReading(use: VolumeUse, reading: Reading): Quantity<"volume">;
	/** A titre written as the difference: the reading errors of start and end, without calibration. */
	titre(use: VolumeUse, reading: Reading): Quantity<"volume">;
	/** Calibration error of what a burette delivered (mL), value 0; more than a burette holds took more than one filling. */
	titreCalibration(
		use: VolumeUse,
		delivered: number,
		refills: number,
	): Quantity<"volume">;
	mass(use: MassUse, reading: Reading): Quantity<"mass">;
	used(): Instrument[];
	assumptions(): string[];
}

/** One calibration error a piece, however often the piece is used. */
function keptBy<K extends "volume" | "mass">(
	make: (piece: Piece) => Quantity<K>,
): (piece: Piece) => Quantity<K> {
	const made = new Map<Piece, Quantity<K>>();
	return (piece) => {
		const known = made.get(piece) ?? make(piece);
		made.set(piece, known);
		return known;
	};
}

/** Evidence in the unit that a reading was written in. */
function inUnit(evidence: Evidence, factor: number): Evidence {
	return factor === 1
		? evidence
		: {
				...evidence,
				standardUncertainty: evidence.standardUncertainty * factor,
			};
}

/** A reading with its own error, which is given in the base of the rules: mL or g. */
function leaf<K extends "volume" | "mass">(
	kind: K,
	inRules: UnitOf<K>,
	reading: Reading,
	evidence: Evidence,
): Quantity<K> {
	return input(
		kind,
		reading.value,
		reading.unit as UnitOf<K>,
		inUnit(evidence, toBase(kind, 1, inRules) / toBase(kind, 1, reading.unit)),
		{
			symbol: reading.symbol,
			meaning: reading.meaning,
			source: reading.source,
			scope: "reading",
			component: "reading",
		},
	);
}

export function instrumentsOf(
	pieces: readonly Piece[],
	readability: number,
	file: string,
	hash: string,
): Instruments {
	const inUse = piecesInUse(pieces, readability, file, hash);
	const volumeCalibration = keptBy(calibrationError);
	const massCalibration = keptBy(balanceError);
	return {
		volume(use, reading) {
			const volume = toBase("volume", reading.value, reading.unit) * 1000;
			const piece = inUse.forVolume(use, volume);
			return plus(
				leaf("volume", "mL", reading, volumeError(piece, volume)),
				timesFactor(volumeCalibration(piece), calibrationFactor(piece, volume)),
			);
		},
		buretteReading: (use, reading) =>
			leaf("volume", "mL", reading, readingError(inUse.forVolume(use, 0))),
		titre: (use, reading) =>
			leaf("volume", "mL", reading, differenceError(inUse.forVolume(use, 0))),
		titreCalibration(use, delivered, refills) {
			const piece = inUse.forVolume(use, 0);
			return timesFactor(
				volumeCalibration(piece),
				calibrationFactor(piece, delivered, refills + 1),
			);
		},
		mass(use, reading) {
			const piece = inUse.forMass(use);
			return plus(
				leaf("mass", "g", reading, weighingError(piece)),
				massCalibration(piece),
			);
		},
		used: inUse.used,
		assumptions: inUse.assumptions,
	};
}
