import {
	type Checked,
	didYouMean,
	foundName,
	problem,
	throwProblems,
} from "../../quantity";

/** Vessels and dispensers for which the standards give a tolerance by nominal size. */
export type PieceOfGlassware =
	| "burette"
	| "volumetric pipette"
	| "graduated pipette"
	| "volumetric flask"
	| "measuring cylinder"
	| "syringe"
	| "piston pipette";

export type GlasswareStandard =
	| "ISO 385"
	| "ISO 648"
	| "ISO 835"
	| "ISO 1042"
	| "ISO 4788"
	| "ISO 7886-1"
	| "ISO 8655-2";

/** What a standard allows a piece of one size to be off by, at 20 °C. All volumes in mL. */
export interface GlasswareTolerance {
	readonly piece: PieceOfGlassware;
	readonly standard: GlasswareStandard;
	readonly size: number;
	/** Smallest division; 0 where the piece has none. */
	readonly division: number;
	/** "A", "B", or "none" where the standard has no classes. */
	readonly accuracyClass: "A" | "B" | "none";
	/** Greatest permitted error, plus or minus; the same for every reading of the piece. */
	readonly tolerance: number;
	/** Standard deviation that the standard permits from one delivery to the next; 0 where it names none. */
	readonly repeatability: number;
	/** Where the numbers come from, in words. */
	readonly source: string;
}

interface Standard {
	readonly standard: GlasswareStandard;
	/** size, division, class A, class B (mL); for pieces without classes tolerance and repeatability. */
	readonly rows: readonly (readonly [number, number, number, number])[];
	readonly classes: boolean;
}

/** All from memory of the standards named; the documents were not at hand. */
const standards: Readonly<Record<PieceOfGlassware, Standard>> = {
	burette: {
		standard: "ISO 385",
		classes: true,
		rows: [
			[10, 0.02, 0.02, 0.05],
			[10, 0.05, 0.03, 0.05],
			[25, 0.05, 0.03, 0.05],
			[25, 0.1, 0.05, 0.1],
			[50, 0.1, 0.05, 0.1],
			[100, 0.2, 0.1, 0.2],
		],
	},
	"volumetric pipette": {
		standard: "ISO 648",
		classes: true,
		rows: [
			[0.5, 0, 0.005, 0.01],
			[1, 0, 0.008, 0.015],
			[2, 0, 0.01, 0.02],
			[5, 0, 0.015, 0.03],
			[10, 0, 0.02, 0.04],
			[15, 0, 0.025, 0.05],
			[20, 0, 0.03, 0.06],
			[25, 0, 0.03, 0.06],
			[50, 0, 0.05, 0.1],
			[100, 0, 0.08, 0.15],
		],
	},
	"graduated pipette": {
		standard: "ISO 835",
		classes: true,
		rows: [
			[1, 0.01, 0.007, 0.01],
			[2, 0.02, 0.01, 0.02],
			[5, 0.05, 0.03, 0.05],
			[10, 0.1, 0.05, 0.1],
			[25, 0.1, 0.1, 0.2],
		],
	},
	"volumetric flask": {
		standard: "ISO 1042",
		classes: true,
		rows: [
			[5, 0, 0.025, 0.05],
			[10, 0, 0.025, 0.05],
			[20, 0, 0.04, 0.08],
			[25, 0, 0.04, 0.08],
			[50, 0, 0.06, 0.12],
			[100, 0, 0.1, 0.2],
			[200, 0, 0.15, 0.3],
			[250, 0, 0.15, 0.3],
			[500, 0, 0.25, 0.5],
			[1000, 0, 0.4, 0.8],
			[2000, 0, 0.6, 1.2],
			[5000, 0, 1.2, 2.4],
		],
	},
	"measuring cylinder": {
		standard: "ISO 4788",
		classes: true,
		rows: [
			[5, 0.1, 0.05, 0.1],
			[10, 0.2, 0.1, 0.2],
			[25, 0.5, 0.25, 0.5],
			[50, 1, 0.5, 1],
			[100, 1, 0.5, 1],
			[250, 2, 1, 2],
			[500, 5, 2.5, 5],
			[1000, 10, 5, 10],
			[2000, 20, 10, 20],
		],
	},
	syringe: {
		standard: "ISO 7886-1",
		classes: false,
		// The tolerance at full volume: 5 % below 5 mL, 4 % from there on.
		rows: [
			[1, 0.01, 0.05, 0],
			[2, 0.1, 0.1, 0],
			[2.5, 0.1, 0.125, 0],
			[3, 0.1, 0.15, 0],
			[5, 0.2, 0.2, 0],
			[10, 0.5, 0.4, 0],
			[20, 1, 0.8, 0],
			[30, 1, 1.2, 0],
			[50, 1, 2, 0],
			[60, 1, 2.4, 0],
			[100, 2, 4, 0],
		],
	},
	"piston pipette": {
		standard: "ISO 8655-2",
		classes: false,
		rows: [
			[0.01, 0, 0.00012, 0.00008],
			[0.02, 0, 0.0002, 0.0001],
			[0.05, 0, 0.0005, 0.0002],
			[0.1, 0, 0.0008, 0.0003],
			[0.2, 0, 0.0016, 0.0006],
			[0.5, 0, 0.004, 0.0015],
			[1, 0, 0.008, 0.003],
			[2, 0, 0.016, 0.006],
			[5, 0, 0.04, 0.015],
			[10, 0, 0.06, 0.03],
		],
	},
};

export const piecesOfGlassware: readonly PieceOfGlassware[] = Object.keys(
	standards,
) as PieceOfGlassware[];

/** @throws ProblemError for a piece that no standard here lists */
export function requirePiece(piece: PieceOfGlassware): void {
	if (!piecesOfGlassware.includes(piece))
		throwProblems([
			problem(
				"glassware-unknown",
				{},
				foundName("the piece", piece),
				piecesOfGlassware.map((p) => `"${p}"`).join(", "),
				didYouMean(piece, piecesOfGlassware),
			),
		]);
}

/** Every size and class that is on record for a piece, in the order of size. */
export function tolerancesOf(
	piece: PieceOfGlassware,
): readonly GlasswareTolerance[] {
	const { standard, rows, classes } = standards[piece];
	return rows.flatMap(
		([size, division, first, second]): GlasswareTolerance[] => {
			const common = { piece, standard, size, division };
			return classes
				? (["A", "B"] as const).map((accuracyClass, i) => ({
						...common,
						accuracyClass,
						tolerance: i === 0 ? first : second,
						repeatability: 0,
						source: `from memory: ${standard}, class ${accuracyClass}`,
					}))
				: [
						{
							...common,
							accuracyClass: "none" as const,
							tolerance: first,
							repeatability: second,
							source: `from memory: ${standard}`,
						},
					];
		},
	);
}

/**
 * The tolerance of a piece by its nominal size in mL.
 *
 * @param accuracyClass "A" (also for AS) or "B"; ignored for pieces without classes
 * @param division smallest division in mL where a size exists with several; 0 takes the coarsest, which has the widest tolerance
 * @returns the tolerance, or a problem that lists the sizes on record: sizes between are not guessed
 */
export function glasswareTolerance(
	piece: PieceOfGlassware,
	size: number,
	accuracyClass: "A" | "B",
	division = 0,
): Checked<GlasswareTolerance> {
	const ofClass = tolerancesOf(piece).filter(
		(t) => t.accuracyClass === "none" || t.accuracyClass === accuracyClass,
	);
	const same = (a: number, b: number): boolean =>
		Math.abs(a - b) <= 1e-9 * Math.abs(b);
	const ofSize = ofClass
		.filter((t) => same(t.size, size))
		.sort((a, b) => b.division - a.division);
	const exact = ofSize.find((t) => same(t.division, division));
	const found = exact ?? ofSize[0];
	if (found !== undefined) return { ok: true, value: found };
	const sizes = [...new Set(ofClass.map((t) => t.size))].join(", ");
	return {
		ok: false,
		problems: [
			problem(
				"glassware-size-unknown",
				{},
				`a ${piece} of ${size} mL`,
				`one of the sizes that ${standards[piece].standard} lists: ${sizes} mL`,
				"State its tolerance instead.",
			),
		],
	};
}
