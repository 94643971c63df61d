import { exactRatio } from "../../quantity";
import { sharedCoefficients } from "./calibrate";
import type { CalibrationLine } from "./line";

export interface Absorptivity {
	readonly name?: string;
	/** Molar absorptivity (decadic), L/(mol cm), at the wavelength that was read. */
	readonly molarAbsorptivity: number;
	/** Its standard uncertainty, same unit. A figure from a table rarely holds to better than 5 % on another instrument. */
	readonly standardUncertainty: number;
	/** Light path, cm. */
	readonly pathLength?: number;
	/** Standard deviation of one reading of the absorbance; 0.005 unless told otherwise (our assumption). */
	readonly readingDeviation?: number;
	/** Up to what absorbance the law of Beer and Lambert is taken to hold; 1 unless told otherwise (common practice, no source). */
	readonly highestAbsorbance?: number;
	/** Where the figure comes from. */
	readonly source: string;
}

/**
 * A line from a molar absorptivity in place of standards: A = ε l c. It has no scatter of its own: the error of a reading is stated, and the whole error of ε is shared by all flasks.
 *
 * @throws RangeError for an absorptivity or a path that is not above zero
 */
export function lineFromAbsorptivity(about: Absorptivity): CalibrationLine {
	const {
		name = "molar absorptivity",
		pathLength = 1,
		readingDeviation = 0.005,
		highestAbsorbance = 1,
	} = about;
	if (
		!(about.molarAbsorptivity > 0 && pathLength > 0 && highestAbsorbance > 0) ||
		!(about.standardUncertainty >= 0 && readingDeviation >= 0)
	)
		throw new RangeError(
			`A molar absorptivity, a light path and a highest absorbance lie above 0 and their uncertainties are not negative; found ${about.molarAbsorptivity} ± ${about.standardUncertainty} L/(mol cm), ${pathLength} cm, absorbance ${highestAbsorbance}, ${readingDeviation}.`,
		);
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
	return {
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
	};
}
