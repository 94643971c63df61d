import {
	type GlasswareTolerance,
	glasswareTolerance,
	nowhere,
	type PieceOfGlassware,
	type Problem,
	type ProblemPlace,
	problem,
	type Source,
	stated,
	toBase,
	tolerancesOf,
} from "../quantity";
import type { GlasswareKey } from "./columns";
import {
	isEmpty,
	type NumberCell,
	numberOf,
	type ParsedRow,
	type ParsedTable,
	placeOf,
	textOf,
} from "./parsed-table";

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

const statedTolerance = "stated in the sheet";

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

function kindOf(name: string): PieceKind {
	return kindOfName.find(([test]) => test.test(name))?.[1] ?? "other";
}

function sizeText(size: number): string {
	return size < 1
		? `${Number((size * 1000).toPrecision(6))} µL`
		: `${Number(size.toPrecision(6))} mL`;
}

interface Wanted {
	readonly name: string;
	readonly kind: PieceKind;
	readonly uses: readonly Use[];
	readonly size: number;
	readonly grade: "A" | "B";
	readonly division: number;
	readonly tolerance: NumberCell | null;
}

/** What a standard says about a piece; null where none lists that piece in that size. */
function listed(
	kind: PieceKind,
	size: number,
	grade: "A" | "B",
	division: number,
): GlasswareTolerance | null {
	if (kind === "balance" || kind === "other") return null;
	const found = glasswareTolerance(kind, size, grade, division);
	return found.ok ? found.value : null;
}

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

/** Fills in from the standard what is not said; null where neither says the tolerance. */
function completed(
	w: Wanted,
	origin: Pick<Piece, "source" | "component" | "place">,
): Piece | null {
	const line = listed(w.kind, w.size, w.grade, w.division);
	if (w.tolerance === null && line === null) return null;
	const tolerance =
		w.tolerance === null
			? (line as GlasswareTolerance).tolerance
			: toBase("volume", w.tolerance.value, w.tolerance.unit) * 1000;
	const division = w.division > 0 ? w.division : (line?.division ?? 0);
	const classA = listed(w.kind, w.size, "A", w.division);
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
		description: `${w.name}${w.name.includes(sizeText(w.size)) ? "" : `, ${sizeText(w.size)}`}${w.tolerance === null ? grade : ""}: ± ${Number(tolerance.toPrecision(3))} mL${division > 0 ? `, division ${division} mL` : ""}`,
		toleranceSource:
			w.tolerance === null
				? (line as GlasswareTolerance).source
				: statedTolerance,
	};
}

function balance(
	name: string,
	uses: readonly Use[],
	readability: number,
	tolerance: number,
	toleranceSource: string,
	origin: Pick<Piece, "source" | "component" | "place">,
): Piece {
	return {
		...origin,
		name,
		kind: "balance",
		uses,
		size: 0,
		tolerance,
		division: readability,
		repeatability: 0,
		description: `${name}: reads to ${readability} g, ± ${tolerance} g`,
		toleranceSource,
	};
}

/** What the glassware table says; problems for what it leaves open. */
export function readPieces(
	table: ParsedTable<GlasswareKey>,
	problems: Problem[],
): Piece[] {
	const first = new Map<string, number>();
	return table.rows.flatMap((row) => {
		const piece = readPiece(table, row, problems);
		if (piece === null) return [];
		for (const use of piece.uses) {
			if (!singleUses.includes(use)) continue;
			const before = first.get(use);
			if (before !== undefined)
				problems.push(
					problem(
						"use-twice",
						placeOf(table, row, "used for"),
						`"${use}" in rows ${before} and ${row.row}`,
						"one burette and one balance for each use",
						"Readings do not say which of two it was: name the one that was used, or run the two parts of the trial as two sheets.",
					),
				);
			first.set(use, row.row);
		}
		return [piece];
	});
}

/** Uses for which the size of a reading does not tell which piece it was. */
const singleUses: readonly Use[] = ["titre", "standard titre", ...massUses];

function readPiece(
	table: ParsedTable<GlasswareKey>,
	row: ParsedRow,
	problems: Problem[],
): Piece | null {
	const at = (key: GlasswareKey): ProblemPlace => placeOf(table, row, key);
	const before = problems.length;
	const name = textOf(table, row, "piece");
	for (const key of ["piece", "used for"] as const)
		if (isEmpty(table, row, key))
			problems.push(
				problem(
					"cell-missing",
					at(key),
					"an empty cell",
					key === "piece" ? "what the piece is" : "what it was used for",
					"Every row of the glassware table needs both.",
				),
			);
	const known: readonly string[] = [...volumeUses, ...massUses];
	const uses = textOf(table, row, "used for")
		.split(/[;,]/)
		.map((u) => u.trim().toLowerCase())
		.filter((u) => u !== "");
	for (const u of uses)
		if (!known.includes(u))
			problems.push(
				problem(
					"use-unknown",
					at("used for"),
					`"${u}"`,
					known.map((k) => `"${k}"`).join(", "),
					'Write one of these, or several separated by ";".',
				),
			);
	const kind = kindOf(name);
	const tolerance = numberOf(table, row, "tolerance");
	const weighs = kind === "balance";
	for (const u of uses)
		if (
			known.includes(u) &&
			(massUses as readonly string[]).includes(u) !== weighs &&
			kind !== "other"
		)
			problems.push(
				problem(
					"use-unknown",
					at("used for"),
					`"${u}" for a ${kind}`,
					weighs
						? `what a balance weighs: ${massUses.join(", ")}`
						: "a volume that it measured",
					"Mend the piece or its use.",
				),
			);
	if (tolerance !== null && (tolerance.kind === "mass") !== weighs)
		problems.push(
			problem(
				"tolerance-kind",
				{ ...at("tolerance"), column: tolerance.header },
				`a tolerance in ${tolerance.unit} for ${weighs ? "a balance" : name}`,
				weighs ? "a tolerance in g or mg" : "a tolerance in mL or µL",
				"Put it into the column with the right unit.",
			),
		);
	const origin = {
		source: {
			is: "cell",
			file: table.raw.file,
			hash: table.raw.hash,
			sheet: table.raw.sheet,
			row: row.row,
			column: tolerance?.header ?? at("piece").column,
		},
		component: "calibration",
		place: at("piece"),
	} as const;
	if (weighs) {
		const readability = numberOf(table, row, "readability");
		if (readability === null && isEmpty(table, row, "readability"))
			problems.push(
				problem(
					"cell-missing",
					at("readability"),
					"an empty cell",
					"the last digit that the balance shows",
					'Fill "readability (g)", e.g. 0.001.',
				),
			);
		if (problems.length > before || readability === null) return null;
		const r = toBase("mass", readability.value, readability.unit);
		return balance(
			name,
			uses as Use[],
			r,
			tolerance === null ? r : toBase("mass", tolerance.value, tolerance.unit),
			tolerance === null
				? "taken as one step of its display (common practice, no source)"
				: statedTolerance,
			origin,
		);
	}
	const size = numberOf(table, row, "size");
	if (isEmpty(table, row, "size"))
		problems.push(
			problem(
				"cell-missing",
				at("size"),
				"an empty cell",
				"the nominal volume of the piece",
				'Fill "size (mL)".',
			),
		);
	if (problems.length > before || size === null) return null;
	const division = numberOf(table, row, "division");
	const piece = completed(
		{
			name,
			kind,
			uses: uses as Use[],
			size: toBase("volume", size.value, size.unit) * 1000,
			grade: textOf(table, row, "class") === "A" ? "A" : "B",
			division:
				division === null
					? 0
					: toBase("volume", division.value, division.unit) * 1000,
			tolerance,
		},
		origin,
	);
	if (piece === null)
		problems.push(
			problem(
				"tolerance-missing",
				at("tolerance"),
				`no tolerance for "${name}" of ${size.value} ${size.unit}`,
				"a tolerance, or a piece and size that a standard names",
				'Fill "tolerance (mL)" with the largest error of the piece, or name it as one of: burette, volumetric pipette, graduated pipette, volumetric flask, measuring cylinder, syringe, piston pipette.',
			),
		);
	return piece;
}

/** Pipettes are taken for these where the sheet names nothing. */
const pipetted: readonly VolumeUse[] = [
	"dose",
	"aliquot",
	"withdrawn",
	"standard aliquot",
];

/** Most portions of one pipette that somebody would rather count than take a measuring cylinder. */
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
	const piece = completed(
		{
			name,
			kind,
			uses: titrates ? ["titre", "standard titre"] : [use],
			size,
			grade: "B",
			division: 0,
			tolerance: null,
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
	return balance(
		"balance",
		massUses,
		readability,
		readability,
		"taken as one step of its display (common practice, no source)",
		{
			source: stated(
				`balance that reads to ${readability} g, ± ${readability} g; assumed, since ${file} names none`,
			),
			component: `calibration, ${file} ${hash}`,
			place: nowhere,
		},
	);
}

/** The share of a piece's tolerance that applies when it delivers a volume (mL). */
export function toleranceShare(piece: Piece, volume: number): number {
	// ISO 7886-1, from memory: from half the nominal volume upwards a percentage of what is expelled, below it 1.5 % of the nominal volume and 1 % (2 % for syringes under 5 mL) of what is expelled.
	if (piece.kind === "syringe" && piece.toleranceSource !== statedTolerance) {
		const small = piece.size < 5;
		return volume >= piece.size / 2
			? volume / piece.size
			: (0.015 + ((small ? 0.02 : 0.01) * volume) / piece.size) /
					(small ? 0.05 : 0.04);
	}
	// Between two readings that lie close together the bore's error has no room to grow: below a tenth of the burette it is taken in proportion, so that nothing
	// delivered carries no error, and taking off a blank of a drop does not take off the calibration error of the titre with it.
	if (piece.kind === "burette") return Math.min(1, volume / (piece.size / 10));
	return 1;
}
