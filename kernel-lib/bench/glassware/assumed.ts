import { nowhere, stated } from "../../quantity";
import {
	balancePiece,
	completedPiece,
	massUses,
	type Piece,
	sizeText,
	type VolumeUse,
} from "./piece";
import { type PieceOfGlassware, tolerancesOf } from "./tolerances";

/** The smallest size on record for a piece that holds a volume, and the largest of all. */
function sizesFor(
	kind: PieceOfGlassware,
	volume: number,
): { holding: number | null; largest: number } {
	const sizes = tolerancesOf(kind).map((t) => t.size);
	return {
		holding: sizes.find((s) => s >= volume * (1 - 1e-9)) ?? null,
		largest: Math.max(...sizes),
	};
}

/** Pipettes are taken for these where the sheet names nothing. */
const pipetted: readonly VolumeUse[] = [
	"dose",
	"aliquot",
	"withdrawn",
	"standard aliquot",
];

/** Most portions of one pipette that somebody would rather count than take a measuring cylinder; a decision of ours. */
const mostPortions = 5;

/** The largest single-mark pipette that makes up the volume in a few whole portions; 0 for none. */
function pipetteFor(volume: number): number {
	const sizes = tolerancesOf("volumetric pipette").map((t) => t.size);
	return sizes.reduce((best, size) => {
		const portions = volume / size;
		const whole = Math.abs(portions - Math.round(portions)) <= 1e-9 * portions;
		return whole && portions > 0.5 && portions < mostPortions + 0.5
			? Math.max(best, size)
			: best;
	}, 0);
}

/** Kind and size (mL) of the piece that is taken for a volume of which the sheet does not say how it was measured. */
function usualPiece(
	use: VolumeUse,
	volume: number,
): { kind: PieceOfGlassware; size: number } {
	if (use === "titre" || use === "standard titre")
		return { kind: "burette", size: 50 };
	if (pipetted.includes(use)) {
		const size = pipetteFor(volume);
		if (size > 0) return { kind: "volumetric pipette", size };
		const { holding } = sizesFor("graduated pipette", volume);
		if (holding !== null) return { kind: "graduated pipette", size: holding };
	}
	if (use === "made up") {
		const { holding } = sizesFor("volumetric flask", volume);
		if (holding !== null && Math.abs(holding - volume) <= 1e-9 * volume)
			return { kind: "volumetric flask", size: holding };
	}
	const { holding, largest } = sizesFor("measuring cylinder", volume);
	return { kind: "measuring cylinder", size: holding ?? largest };
}

/**
 * The piece taken for a use of which the glassware table says nothing, class B: one burette of 50 mL for all titrations; for what is pipetted the single-mark pipette that
 * makes the volume in a few whole portions, else a graduated one; for making up the volumetric flask of just that size; for everything else a measuring cylinder.
 */
export function assumedPiece(
	use: VolumeUse,
	volume: number,
	file: string,
	hash: string,
): Piece {
	const { kind, size } = usualPiece(use, volume);
	const titrates = kind === "burette";
	const name = titrates
		? "burette 50 mL"
		: `${kind} ${sizeText(size)} for ${use}`;
	const piece = completedPiece(
		{
			name,
			kind,
			uses: titrates ? ["titre", "standard titre"] : [use],
			size,
			grade: "B",
			division: 0,
			tolerance: 0,
		},
		{
			source: stated(""),
			component: `calibration, ${file} ${hash}`,
			place: nowhere,
		},
	) as Piece;
	return {
		...piece,
		source: stated(
			`${piece.description}, ${piece.toleranceSource}; assumed, since ${file} names no piece for this`,
		),
	};
}

export function assumedBalance(
	readability: number,
	file: string,
	hash: string,
): Piece {
	return balancePiece("balance", massUses, readability, 0, {
		source: stated(
			`balance that reads to ${readability} g, tolerance ${readability} g; assumed, since ${file} names none`,
		),
		component: `calibration, ${file} ${hash}`,
		place: nowhere,
	});
}
