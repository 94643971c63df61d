import type { Absorptivity } from "../../bench";
import { exactRatio, ProblemError, problem } from "../../quantity";
import { sharedCoefficients } from "./calibrate";
import type { LimitOptions } from "./limits";
import type { CalibrationLine } from "./line";
import { withLineTables } from "./tables";

function requirePossible({
	name,
	molarAbsorptivity,
	standardUncertainty,
	pathLength,
	highestAbsorbance,
	readingDeviation,
}: Required<Omit<Absorptivity, "source">>): void {
	if (
		molarAbsorptivity > 0 &&
		pathLength > 0 &&
		highestAbsorbance > 0 &&
		standardUncertainty >= 0 &&
		readingDeviation >= 0
	)
		return;
	throw new ProblemError([
		problem(
			"absorptivity-wrong",
			{ column: name },
			`${molarAbsorptivity} L/(mol cm) with u ${standardUncertainty} L/(mol cm), a light path of ${pathLength} cm, a highest absorbance of ${highestAbsorbance}, a reading good to ${readingDeviation}`,
			"a molar absorptivity, a light path and a highest absorbance above 0, and uncertainties that are not negative",
			"Mend the values of the molar absorptivity.",
		),
	]);
}

/**
 * A line from a molar absorptivity in place of standards: A = ε l c. It has no scatter of its own: the error of a reading is stated, and the whole error of ε is shared by all flasks.
 *
 * @throws ProblemError for an absorptivity or a path that is not above zero
 */
export function lineFromAbsorptivity(
	about: Absorptivity,
	limits: LimitOptions = {},
): CalibrationLine {
	const {
		name = "molar absorptivity",
		pathLength = 1,
		readingDeviation = 0.005,
		highestAbsorbance = 1,
	} = about;
	requirePossible({
		...about,
		name,
		pathLength,
		readingDeviation,
		highestAbsorbance,
	});
	const perMicromole = pathLength * 1e-6;
	const slope = about.molarAbsorptivity * perMicromole;
	const variance = (about.standardUncertainty * perMicromole) ** 2;
	const coefficients = [0, slope, 0] as const;
	const covariance = [
		[0, 0, 0],
		[0, variance, 0],
		[0, 0, 0],
	];
	const source = `molar absorptivity ${about.molarAbsorptivity} L/(mol cm) over ${pathLength} cm: ${about.source}`;
	return withLineTables(
		{
			name,
			model: "through zero",
			readingError: "alike",
			signalKind: "absorbance",
			signalUnit: "absorbance",
			concentrationKind: "concentration",
			concentrationUnit: "µmol/L",
			coefficients,
			covariance,
			residualDeviation: readingDeviation,
			degreesOfFreedom: Number.POSITIVE_INFINITY,
			points: [],
			low: 0,
			high: highestAbsorbance / slope,
			shared: sharedCoefficients(
				coefficients,
				covariance,
				"through zero",
				"absorbance",
				"absorbance",
				"µmol/L",
				source,
				Number.POSITIVE_INFINITY,
			),
			strength: exactRatio(1, "1", ""),
			assumptions: [
				`No standards: the absorbance is taken as ε l c up to ${highestAbsorbance}, and a reading as good to ${readingDeviation} (standard deviation).`,
			],
			source,
		},
		limits,
	);
}
