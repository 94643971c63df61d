import {
	type Evidence,
	input,
	listed,
	plus,
	type Quantity,
	type Source,
	toBase,
	type UnitOf,
} from "../../quantity";
import type { Instrument } from "../trial";
import { assumedBalance, assumedPiece } from "./assumed";
import { type MassUse, type Piece, type VolumeUse, volumeUses } from "./piece";
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

export function instrumentsOf(
	pieces: readonly Piece[],
	readability: number,
	file: string,
	hash: string,
): Instruments {
	const usedFor = new Map<Piece, Set<string>>();
	const assumed = new Map<string, Piece>();
	const balance = assumedBalance(readability, file, hash);
	/** The pieces that the sheet names for a use, the smallest first. */
	const byUse = new Map(
		volumeUses.map((use): [VolumeUse, Piece[]] => [
			use,
			pieces
				.filter((p) => p.uses.includes(use))
				.sort((a, b) => a.size - b.size),
		]),
	);
	const evidences = new Map<string, Evidence>();

	function remember(key: string, make: () => Evidence): Evidence {
		const known = evidences.get(key) ?? make();
		evidences.set(key, known);
		return known;
	}
	function note(piece: Piece, use: string): Piece {
		const uses = usedFor.get(piece);
		if (uses) uses.add(use);
		else usedFor.set(piece, new Set([use]));
		return piece;
	}
	/** The piece taken for a volume of which the sheet names none; looked up once for each volume, kept once for each piece. */
	function assume(use: VolumeUse, volume: number): Piece {
		const key = `${use}|${volume}`;
		const known = assumed.get(key);
		if (known) return known;
		const made = assumedPiece(use, volume, file, hash);
		const piece = assumed.get(made.name) ?? made;
		assumed.set(made.name, piece);
		assumed.set(key, piece);
		return piece;
	}
	function pieceFor(use: VolumeUse, volume: number): Piece {
		const own = byUse.get(use) ?? [];
		return note(
			own.find((p) => p.size >= volume * 0.999999) ??
				own.at(-1) ??
				assume(use, volume),
			use,
		);
	}
	const volumeCalibrations = keptBy(calibrationError);
	const massCalibrations = keptBy(balanceError);
	const millilitres = (r: Reading): number =>
		toBase("volume", r.value, r.unit) * 1000;
	/** Evidence is in mL; inputs want it in the unit of the reading. */
	function leaf(reading: Reading, evidence: Evidence): Quantity<"volume"> {
		const factor = 0.001 / toBase("volume", 1, reading.unit);
		return input(
			"volume",
			reading.value,
			reading.unit as UnitOf<"volume">,
			inUnit(evidence, factor),
			{
				symbol: reading.symbol,
				meaning: reading.meaning,
				source: reading.source,
				scope: "reading",
				component: "reading",
			},
		);
	}

	return {
		volume(use, reading) {
			const v = millilitres(reading);
			const piece = pieceFor(use, v);
			return plus(
				leaf(
					reading,
					remember(`${piece.name}|${v}`, () => volumeError(piece, v)),
				),
				timesFactor(volumeCalibrations(piece), calibrationFactor(piece, v)),
			);
		},
		buretteReading(use, reading) {
			const piece = pieceFor(use, 0);
			return leaf(
				reading,
				remember(`${piece.name}|reading`, () => readingError(piece)),
			);
		},
		titre(use, reading) {
			const piece = pieceFor(use, 0);
			return leaf(
				reading,
				remember(`${piece.name}|titre`, () => differenceError(piece)),
			);
		},
		titreCalibration(use, delivered, refills) {
			const piece = pieceFor(use, 0);
			return timesFactor(
				volumeCalibrations(piece),
				calibrationFactor(piece, delivered, refills + 1),
			);
		},
		mass(use, reading) {
			const piece = note(
				pieces.find((p) => p.uses.includes(use)) ?? balance,
				use,
			);
			const read = input(
				"mass",
				reading.value,
				reading.unit as UnitOf<"mass">,
				remember(`${piece.name}|${reading.unit}`, () =>
					inUnit(weighingError(piece), 1 / toBase("mass", 1, reading.unit)),
				),
				{
					symbol: reading.symbol,
					meaning: reading.meaning,
					source: reading.source,
					scope: "reading",
					component: "reading",
				},
			);
			return plus(read, massCalibrations(piece));
		},
		used: () =>
			[...usedFor].map(([piece, uses]) => ({
				name: piece.name,
				usedFor: [...uses].join("; "),
				description: piece.description,
				toleranceSource: piece.toleranceSource,
				place: piece.place,
			})),
		assumptions: () => [
			...[...usedFor]
				.filter(([piece]) => piece.source.is === "stated")
				.map(
					([piece, uses]) =>
						`No piece is named for ${listed([...uses])}; assumed: ${piece.description} (${piece.toleranceSource}).`,
				),
			"Tolerances are taken as rectangular limits (every error within them equally likely), the more cautious of the two usual choices; one error a piece, shared by all that it measured.",
			"A burette's tolerance is taken whole for each filling from a tenth of its size upwards and in proportion below; a single reading is good to half a division, a single mark repeats to a fifth of its class A tolerance.",
			"Glassware and liquids are taken to be at one temperature: expansion is not in the uncertainty (about 0.1 % for 4 °C).",
		],
	};
}
