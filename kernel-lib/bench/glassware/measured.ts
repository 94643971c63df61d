import {
	described,
	type Evidence,
	input,
	named,
	normal,
	nowhere,
	numberFromOption,
	numberOption,
	plus,
	problem,
	type Quantity,
	rectangular,
	requireArgument,
	requireOptions,
	stated,
	type TypedDescription,
	textOption,
	throwProblems,
	triangular,
	typedInput,
	typedRules,
	type UnitOf,
	valueOrThrow,
	wordOption,
	yesNoOption,
} from "../../quantity";
import { endPointOf, halfDrop } from "./end-point";
import { balancePiece, completedPiece, type Piece, sizeText } from "./piece";
import {
	balanceError,
	calibrationError,
	calibrationFactor,
	timesFactor,
	volumeError,
	weighingError,
} from "./rules";
import { withTemperatureSpread } from "./temperature-spread";
import {
	glasswareTolerance,
	type PieceOfGlassware,
	requirePiece,
} from "./tolerances";

/** What is known of a piece of glassware beyond its kind and size. */
export interface GlasswareOptions {
	/** "A" or "B"; B, the more cautious, unless told otherwise. */
	readonly accuracyClass: "A" | "B";
	/** Smallest division, mL; 0 takes the coarsest on record for the size. */
	readonly division: number;
	/** Largest error, plus or minus, mL; 0 takes the standard's. */
	readonly tolerance: number;
	/** How errors lie within the tolerance. Rectangular unless told otherwise; triangular where values near the nominal one are likelier. */
	readonly shape: "rectangular" | "triangular";
	/** Standard deviation of filling and draining, mL; 0 takes the rule of the piece. */
	readonly fillingSpread: number;
	/** The volume is a titre: half a drop for its end point comes to the errors of the burette. */
	readonly endPoint: boolean;
	/** The room was within so many °C of the 20 °C for which glassware is calibrated; 0 leaves expansion out. All volumes share the temperature of the room. */
	readonly temperatureWithin: number;
	/** Tells two pieces of one kind and size apart; "" where there is one only. */
	readonly name: string;
}

const glasswareRules = {
	endPoint: yesNoOption,
	temperatureWithin: numberFromOption(0),
	accuracyClass: wordOption("A", "B"),
	division: numberFromOption(0),
	tolerance: numberFromOption(0),
	shape: wordOption("rectangular", "triangular"),
	fillingSpread: numberFromOption(0),
	name: textOption,
};

function pieceOf(
	kind: PieceOfGlassware,
	size: number,
	options: Partial<GlasswareOptions>,
): Piece {
	const {
		accuracyClass = "B",
		division = 0,
		tolerance = 0,
		name = "",
	} = options;
	const piece = completedPiece(
		{
			name: name === "" ? `${kind} ${sizeText(size)}` : name,
			kind,
			uses: [],
			size,
			grade: accuracyClass,
			division,
			tolerance,
		},
		{ source: stated(""), component: "calibration", place: nowhere },
	);
	// Neither a tolerance nor a size that the standard lists: its problem says so.
	if (piece === null) {
		valueOrThrow(glasswareTolerance(kind, size, accuracyClass, division));
		throw new Error(`No tolerance for a ${kind} of ${size} mL.`);
	}
	return {
		...piece,
		source: stated(`${piece.description}, ${piece.toleranceSource}`),
	};
}

function volumeBy(
	piece: Piece,
	value: number,
	{
		fillingSpread = 0,
		shape = "rectangular",
		temperatureWithin = 0,
		endPoint = false,
	}: Partial<GlasswareOptions>,
	description: Partial<TypedDescription>,
): Quantity<"volume"> {
	const reading: Evidence =
		fillingSpread > 0 ? normal(fillingSpread) : volumeError(piece, value);
	const read = typedInput("volume", value, "mL", reading, {
		symbol: "V_{read}",
		meaning: `volume by the ${piece.name}`,
		...description,
		scope: "reading",
	});
	const calibration = timesFactor(
		calibrationError(piece, shape === "triangular" ? triangular : rectangular),
		calibrationFactor(piece, value),
	);
	const volume = endPoint
		? plus(
				read,
				calibration,
				ownError(
					"volume",
					"mL",
					endPointOf(halfDrop).evidence,
					"end point",
					"end point, half a drop",
					description,
				),
			)
		: plus(read, calibration);
	return temperatureWithin > 0
		? withTemperatureSpread(volume, temperatureWithin)
		: volume;
}

/**
 * A volume measured with a piece of glassware, in mL, with the errors that the same piece has in a bench sheet: of reading (a burette is read before and after, a mark is filled to) and
 * of calibration (by the standard of the piece, from memory), which all volumes by one piece share.
 *
 * @param piece "burette", "volumetric pipette", "graduated pipette", "volumetric flask", "measuring cylinder", "syringe" or "piston pipette"
 * @param size nominal size, mL
 * @param value mL
 * @throws ProblemError for a size that the standard does not list and whose tolerance is not stated, and for a volume below zero
 * @example
 * bench.measuredVolume("volumetric pipette", 25, 25) // => "25.000 mL (u 0.035 mL)"
 * bench.measuredVolume("burette", 50, 40) // => "40.000 mL (u 0.071 mL)"
 * bench.measuredVolume("burette", 50, 24.1, { endPoint: true }) // => "24.100 mL (u 0.075 mL)"
 */
export function measuredVolume(
	piece: PieceOfGlassware,
	size: number,
	value: number,
	options: Partial<GlasswareOptions> = {},
	description: Partial<TypedDescription> = {},
): Quantity<"volume"> {
	requireOptions(options, glasswareRules, "measuredVolume");
	requireOptions(description, typedRules, "measuredVolume");
	requirePiece(piece);
	requireArgument(
		size,
		numberOption(0, Number.POSITIVE_INFINITY),
		"measuredVolume",
	);
	requireNotNegative(value, "volume", "mL");
	return named(
		volumeBy(pieceOf(piece, size, options), value, options, description),
		description.symbol ?? "V",
		description.meaning ?? `volume by the ${size} mL ${piece}`,
	);
}

/** What is known of a balance, in g. */
export interface Balance {
	/** Smallest step of the display. */
	readonly readability: number;
	/** Largest error, plus or minus; 0 takes one step of the display (common practice, no source). */
	readonly tolerance: number;
	/** Standard deviation of repeated weighings; 0 where not known. */
	readonly repeatability: number;
	/** Greatest deviation from linearity, plus or minus, from a certificate. It takes the place of the tolerance; 0 where not known. */
	readonly linearity: number;
	/** Tells two balances apart; "balance" unless told otherwise. */
	readonly name: string;
}

const balanceRules = {
	readability: numberFromOption(0),
	tolerance: numberFromOption(0),
	repeatability: numberFromOption(0),
	linearity: numberFromOption(0),
	name: textOption,
};

/**
 * A mass by difference (tare and load), in g, with the errors that the same balance has in a bench sheet: two readings to the nearest step, and the error of the balance, which all that
 * it weighs shares. With a certificate's linearity, that is counted twice instead, tare and load being independent places on the scale (as in EURACHEM/CITAC QUAM, example A2; from memory).
 *
 * @param value g
 * @throws ProblemError where neither the readability nor the linearity of the balance is given
 * @example
 * bench.weighedMass(0.5, { readability: 0.001 }) // => "0.50000 g (u 0.00071 g)"
 */
export function weighedMass(
	value: number,
	balance: Partial<Balance>,
	description: Partial<TypedDescription> = {},
): Quantity<"mass"> {
	requireOptions(balance, balanceRules, "weighedMass");
	requireOptions(description, typedRules, "weighedMass");
	const { repeatability = 0, linearity = 0 } = balance;
	const piece = balanceOf(balance);
	const meaning = description.meaning ?? "mass";
	const own = (evidence: Evidence, what: string): Quantity<"mass"> =>
		ownError(
			"mass",
			"g",
			evidence,
			what,
			`${what} of the balance, ${meaning}`,
			description,
		);
	const read = typedInput("mass", value, "g", weighingError(piece), {
		symbol: "m_{read}",
		meaning,
		...description,
		scope: "reading",
	});
	const errors = [
		...(repeatability > 0 ? [own(normal(repeatability), "repeatability")] : []),
		...(linearity > 0
			? [
					own(rectangular(linearity), "linearity at the tare"),
					own(rectangular(linearity), "linearity at the load"),
				]
			: [balanceError(piece)]),
	];
	return named(plus(read, ...errors), description.symbol ?? "m", meaning);
}

function balanceOf({
	readability = 0,
	tolerance = 0,
	linearity = 0,
	name = "balance",
}: Partial<Balance>): Piece {
	if (readability === 0 && linearity === 0)
		throwProblems([
			problem(
				"balance-unknown",
				{ column: "weighedMass" },
				"a balance of which nothing is said",
				"its readability in g, such as { readability: 0.001 }",
				"Give the last digit that the balance shows.",
			),
		]);
	const piece = balancePiece(name, [], readability, tolerance, {
		source: stated(""),
		component: "calibration",
		place: nowhere,
	});
	return {
		...piece,
		source: stated(`${piece.description}; ${piece.toleranceSource}`),
	};
}

/** An error that one measurement has for itself, value 0: known by its cell, or by itself alone where it stands in none. */
function ownError<K extends "volume" | "mass">(
	kind: K,
	unit: UnitOf<K>,
	evidence: Evidence,
	what: string,
	meaning: string,
	description: Partial<TypedDescription>,
): Quantity<K> {
	const { source } = described(description);
	return input(
		kind,
		0,
		unit,
		evidence,
		{
			...(source === undefined ? {} : { source }),
			component: what,
			scope: "reading",
			symbol: `δ_{${what}}`,
			meaning,
		},
		true,
	);
}

function requireNotNegative(value: number, what: string, unit: string): void {
	if (value < 0)
		throwProblems([
			problem(
				`${what}-below-zero`,
				{},
				`a ${what} of ${value} ${unit}`,
				`a ${what} of at least 0 ${unit}`,
				"Change this number.",
			),
		]);
}
