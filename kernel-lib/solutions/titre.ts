import { endPointOf, type TitrationReading } from "../bench";
import {
	input,
	minus,
	named,
	type ProblemPlace,
	plus,
	type Quantity,
	sheetHash,
	total,
} from "../quantity";

/** The error of the end point: another one for every titration. */
function endPoint(
	read: Quantity<"volume">,
	place: ProblemPlace,
	millilitres: number,
): Quantity<"volume"> {
	const { evidence, meaning, source } = endPointOf(millilitres);
	return input("volume", 0, "mL", evidence, {
		symbol: "δ_{end}",
		meaning,
		source,
		scope: "reading",
		// By content: two runs that were typed into one notebook have rows and columns of the same names.
		component: `${sheetHash(read)}|${place.sheet}|${place.row}|${place.column}`,
	});
}

/**
 * What ran out of the burette, with the calibration error it carries and without the error of the end point. A refilled burette counts from each refill to the next.
 */
export function deliveredVolume(reading: TitrationReading): Quantity<"volume"> {
	if (reading.is === "titre") return plus(reading.titre, reading.calibration);
	const { start, end, refills } = reading;
	const from = [start, ...refills.map((r) => r.to)];
	const to = [...refills.map((r) => r.from), end];
	return plus(
		total(to.map((level, i) => minus(level, from[i]))),
		reading.calibration,
	);
}

/**
 * The titre of one titration: what ran out of the burette, with the reading and calibration errors it carries and the error of the end point. The reagent blank is not yet taken off.
 *
 * @param endPointError mL
 */
export function titreVolume(
	reading: TitrationReading,
	endPointError: number,
): Quantity<"volume"> {
	return named(
		plus(
			deliveredVolume(reading),
			endPoint(
				reading.is === "titre" ? reading.titre : reading.end,
				reading.place,
				endPointError,
			),
		),
		"V_{titre}",
		"titre as read",
	);
}

/** A blank titre that was written down as one number, with the error of its own end point. */
export function blankVolume(
	titre: Quantity<"volume">,
	place: ProblemPlace,
	endPointError: number,
): Quantity<"volume"> {
	const blank = { ...place, column: `${place.column} blank` };
	return named(
		plus(titre, endPoint(titre, blank, endPointError)),
		"V_{blank}",
		"blank titre",
	);
}
