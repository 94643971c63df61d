import { listed } from "../../quantity";
import type { Instrument } from "../trial";
import { assumedBalance, assumedPiece } from "./assumed";
import {
	type MassUse,
	type Piece,
	type Use,
	type VolumeUse,
	volumeUses,
} from "./piece";

/** Which piece measured what: the one that the sheet names, else the one that is assumed. Keeps count of those that were used. */
export interface PiecesInUse {
	/** @param volume mL */
	forVolume(use: VolumeUse, volume: number): Piece;
	forMass(use: MassUse): Piece;
	used(): Instrument[];
	/** What was assumed, and how errors were taken, in sentences. */
	assumptions(): string[];
}

/** The pieces that the sheet names for each use, the smallest first. */
function piecesByUse(
	pieces: readonly Piece[],
): ReadonlyMap<VolumeUse, readonly Piece[]> {
	return new Map(
		volumeUses.map((use) => [
			use,
			pieces
				.filter((p) => p.uses.includes(use))
				.sort((a, b) => a.size - b.size),
		]),
	);
}

/** The piece taken for a volume of which the sheet names none; looked up once for each volume, kept once for each piece. */
function assumedPieces(
	file: string,
	hash: string,
): (use: VolumeUse, volume: number) => Piece {
	const assumed = new Map<string, Piece>();
	return (use, volume) => {
		const key = `${use}|${volume}`;
		const known = assumed.get(key);
		if (known) return known;
		const made = assumedPiece(use, volume, file, hash);
		const piece = assumed.get(made.name) ?? made;
		assumed.set(made.name, piece);
		assumed.set(key, piece);
		return piece;
	};
}

/** A piece of the sheet has its place there; one that was assumed is only stated. */
const isAssumed = (piece: Piece): boolean => piece.source.is === "stated";

export function piecesInUse(
	pieces: readonly Piece[],
	readability: number,
	file: string,
	hash: string,
): PiecesInUse {
	const usedFor = new Map<Piece, Set<Use>>();
	const byUse = piecesByUse(pieces);
	const assume = assumedPieces(file, hash);
	const balance = assumedBalance(readability, file, hash);
	const note = (piece: Piece, use: Use): Piece => {
		const uses = usedFor.get(piece) ?? new Set();
		usedFor.set(piece, uses.add(use));
		return piece;
	};
	return {
		forVolume(use, volume) {
			const own = byUse.get(use) ?? [];
			return note(
				own.find((p) => p.size >= volume * 0.999999) ??
					own.at(-1) ??
					assume(use, volume),
				use,
			);
		},
		forMass: (use) =>
			note(pieces.find((p) => p.uses.includes(use)) ?? balance, use),
		used: () =>
			[...usedFor].map(([piece, uses]) => ({
				name: piece.name,
				usedFor: [...uses].join("; "),
				description: piece.description,
				toleranceSource: piece.toleranceSource,
				named: !isAssumed(piece),
				place: piece.place,
			})),
		assumptions: () => [
			...[...usedFor]
				.filter(([piece]) => isAssumed(piece))
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
