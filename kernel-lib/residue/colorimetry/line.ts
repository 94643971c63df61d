import type { SignalKind } from "../../bench";
import type { Quantity, Table } from "../../quantity";
import type { Powers } from "./polynomial";

/** The shape of a calibration line: S = a + b c, S = b c, or S = a + b c + k c². */
export type LineModel = "straight" | "through zero" | "quadratic";

/**
 * How far a reading may be trusted, by its size: every reading alike; its variance in proportion to the signal; its standard deviation in proportion to the signal; or a standard deviation stated for
 * each standard.
 */
export type ReadingError =
	| "alike"
	| "variance with signal"
	| "deviation with signal"
	| "stated";

export type { SignalKind };

/** What the concentration of a standard is counted in. */
export type ConcentrationKind = "massConcentration" | "concentration";

/** One reading of one standard, in the units of its line. */
export interface CalibrationPoint {
	readonly standard: string;
	readonly concentration: number;
	readonly signal: number;
	/** 1 where all readings are alike. */
	readonly weight: number;
	readonly fitted: number;
	readonly residual: number;
}

/**
 * A calibration line: what an instrument shows for a known concentration, with all that is needed to read it backwards. Concentrations are in `concentrationUnit`, signals in `signalUnit`.
 */
export interface CalibrationLine {
	readonly name: string;
	readonly model: LineModel;
	readonly readingError: ReadingError;
	readonly signalKind: SignalKind;
	readonly signalUnit: string;
	readonly concentrationKind: ConcentrationKind;
	readonly concentrationUnit: string;
	/** a, b, k; 0 for a term that the model does not have. */
	readonly coefficients: readonly [number, number, number];
	/** Covariance of a, b, k; zero rows for terms that are not there. */
	readonly covariance: readonly (readonly number[])[];
	/** Standard deviation of one reading of weight 1: the scatter about the line, or as stated for a line without standards. */
	readonly residualDeviation: number;
	/** Of that deviation: readings less coefficients; Infinity for a stated one. */
	readonly degreesOfFreedom: number;
	/** Empty for a line from a molar absorptivity. */
	readonly points: readonly CalibrationPoint[];
	/** Range of the line: concentrations of the lowest and the highest standard. */
	readonly low: number;
	readonly high: number;
	/** a, b (signal for 1 concentration unit) and k (for 1 unit squared) as quantities with their correlations: one set of inputs, shared by all flasks read on this line. */
	readonly shared: {
		readonly intercept: Quantity<SignalKind>;
		readonly slope: Quantity<SignalKind>;
		readonly curvature: Quantity<SignalKind>;
	};
	/** True strength of the standards over their nominal one: known as well as the solution that they were made from, and shared with all that was dosed from it; 1, exact, where none is named. */
	readonly strength: Quantity<"ratio">;
	/** What was taken for granted, in words. */
	readonly assumptions: readonly string[];
	/** Where the line comes from, in words. */
	readonly source: string;
	/** The line in numbers: its coefficients with standard errors, its scatter and what was taken for granted. The line is shown as this. */
	readonly table: Table;
	/** Every standard with its distance from the line, in units of the scatter. */
	readonly standards: Table;
	/** What speaks for and against the line: lack of fit, bend, even scatter, limits of decision, detection and quantification and the working range, each with the definition it follows (DIN 32645, ISO 11843, ISO 8466-1; formulas from memory). */
	readonly checks: Table;
}

export const formulas: Readonly<Record<LineModel, string>> = {
	straight: "S = a + b c",
	"through zero": "S = b c",
	quadratic: "S = a + b c + k c²",
};

export const powersOf: Readonly<Record<LineModel, Powers>> = {
	straight: [0, 1],
	"through zero": [1],
	quadratic: [0, 1, 2],
};

export function signalAt(line: CalibrationLine, c: number): number {
	const [a, b, k] = line.coefficients;
	return a + (b + k * c) * c;
}

export function slopeAt(line: CalibrationLine, c: number): number {
	const [, b, k] = line.coefficients;
	return b + 2 * k * c;
}

/** Variance of the line itself at a concentration: g' V g with g = (1, c, c²). */
export function lineVariance(line: CalibrationLine, c: number): number {
	const g = [1, c, c * c];
	const variance = g.reduce(
		(s, gi, i) =>
			s + gi * g.reduce((r, gj, j) => r + line.covariance[i][j] * gj, 0),
		0,
	);
	return Math.max(0, variance);
}

/** Weight of a reading of this size; `smallest` is where growing weights end, for no instrument reads without noise. A stated deviation belongs to its own standard, so an unknown has weight 1. */
export function weightOf(
	error: ReadingError,
	signal: number,
	smallest: number,
): number {
	const size = Math.max(Math.abs(signal), smallest);
	if (error === "variance with signal") return 1 / size;
	return error === "deviation with signal" ? 1 / size ** 2 : 1;
}

/** The smallest signal that is not zero; 1 where there is none. */
export function smallestSignal(signals: readonly number[]): number {
	const sizes = signals.map(Math.abs).filter((s) => s > 0);
	return sizes.length === 0 ? 1 : Math.min(...sizes);
}

/** Variance of the mean of `readings` readings of a signal. */
export function readingVariance(
	line: CalibrationLine,
	signal: number,
	readings: number,
): number {
	const smallest = smallestSignal(line.points.map((p) => p.signal));
	const weight = weightOf(line.readingError, signal, smallest);
	return line.residualDeviation ** 2 / (weight * readings);
}
