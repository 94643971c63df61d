import {
	countOption,
	numberOption,
	requireOptions,
	wordOption,
} from "../../quantity";
import { bracketedRoot, noncentralTCdf, studentTQuantile } from "../../stats";
import { concentrationAt } from "./inverse";
import {
	type CalibrationLine,
	lineVariance,
	readingVariance,
	signalAt,
	slopeAt,
} from "./line";

/** The standard whose definition a limit follows. */
export type LimitDefinition = "DIN 32645" | "ISO 11843";

export interface LimitOptions {
	/** DIN 32645 unless told otherwise. The two differ in the detection limit. */
	readonly definition?: LimitDefinition;
	/** Chance of calling a blank a find, and of missing what stands at the detection limit: 0.05 unless told otherwise. DIN 32645 itself works with 0.01 (from memory). */
	readonly errorProbability?: number;
	/** Readings averaged for one flask. */
	readonly readings?: number;
	/** At the limit of quantification the half-width of the 95 % interval is 1/k of the value: k = 3 unless told otherwise. */
	readonly quantificationFactor?: number;
}

const limitRules = {
	definition: wordOption("DIN 32645", "ISO 11843"),
	errorProbability: numberOption(0, 0.5),
	readings: countOption(1),
	quantificationFactor: numberOption(1, Number.POSITIVE_INFINITY),
};

/** Throws ProblemError for options that the limits do not have or cannot take. */
export function requireLimitOptions(options: LimitOptions): void {
	requireOptions(options, limitRules, "the detection limits");
}

/** From what concentration on something is seen, is not missed, and can be given as a number; in the concentration unit of the line. */
export interface DetectionLimits {
	readonly definition: LimitDefinition;
	/** Above this a reading is not a blank's: x_NG of DIN 32645, critical value of ISO 11843. */
	readonly decision: number;
	/** What stands here is missed with the error probability only: x_EG of DIN 32645, minimum detectable value of ISO 11843. */
	readonly detection: number;
	/** x_BG of DIN 32645. */
	readonly quantification:
		| { readonly is: "value"; readonly value: number }
		| { readonly is: "not available"; readonly because: string };
	/** How they were worked out, in words. */
	readonly method: string;
}

/** The shift of the noncentral t at which a critical value for α is missed with probability α: δ(ν; α; β) of ISO 11843-2 with β = α. */
function missedShift(alpha: number, degreesOfFreedom: number): number {
	const t = studentTQuantile(1 - alpha, degreesOfFreedom);
	return bracketedRoot(
		(shift) => noncentralTCdf(t, degreesOfFreedom, shift) - alpha,
		0,
		4 * t + 4,
		1e-10,
	);
}

/**
 * Limits of a calibration line by the calibration method; all formulas from memory of the standards.
 *
 * DIN 32645: decision x_NG = (s/b) t(1 - α; ν) sqrt(1/m + 1/n + x̄²/Sxx), detection x_EG = 2 x_NG (β = α), quantification x_BG = k (s/b) t(0.975; ν) sqrt(1/m + 1/n + (x_BG - x̄)²/Sxx).
 * ISO 11843-2: the same decision value; the minimum detectable value has δ(ν; α; β) of the noncentral t in place of 2 t, a little less. ISO 11843 defines no limit of quantification: that of DIN 32645 is
 * given beside it.
 *
 * The square roots are taken from the covariance of the line itself, so that weighted, bent and through-zero lines have limits too.
 *
 * @throws ProblemError for options that it does not have or cannot take
 */
export function detectionLimits(
	line: CalibrationLine,
	options: LimitOptions = {},
): DetectionLimits {
	const {
		definition = "DIN 32645",
		errorProbability = 0.05,
		readings = 1,
		quantificationFactor = 3,
	} = options;
	requireLimitOptions(options);
	const nu = line.degreesOfFreedom;
	const [a, b] = line.coefficients;
	const blank = Math.sqrt(
		readingVariance(line, a, readings) + lineVariance(line, 0),
	);
	const above = (factor: number): number =>
		concentrationAt(line, a + Math.sign(b) * factor * blank);
	const decision = above(studentTQuantile(1 - errorProbability, nu));
	return {
		definition,
		decision,
		detection:
			definition === "DIN 32645"
				? 2 * decision
				: above(missedShift(errorProbability, nu)),
		quantification: quantification(line, quantificationFactor, readings),
		method: `${definition}, from the calibration: error probability ${errorProbability} either way, mean of ${readings} reading${readings === 1 ? "" : "s"}; quantification where the 95 % interval reaches 1/${quantificationFactor} of the value either way${definition === "ISO 11843" ? " (DIN 32645; ISO 11843 defines none)" : ""}.`,
	};
}

/** The x with x = k t(0.975; ν) u(x), within the standards. */
function quantification(
	line: CalibrationLine,
	k: number,
	readings: number,
): DetectionLimits["quantification"] {
	const t = studentTQuantile(0.975, line.degreesOfFreedom);
	const over = (x: number): number =>
		x -
		(k *
			t *
			Math.sqrt(
				readingVariance(line, signalAt(line, x), readings) +
					lineVariance(line, x),
			)) /
			Math.abs(slopeAt(line, x));
	return over(line.high) < 0
		? {
				is: "not available",
				because: `even at the highest standard the interval is wider than 1/${k} of the value`,
			}
		: {
				is: "value",
				value: bracketedRoot(over, 0, line.high, 1e-13 * line.high),
			};
}
