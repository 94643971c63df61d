import { type Fit, type FitOptions, fit as fitCurve, type Model } from "../fit";
import { normalCdf, studentTQuantile } from "../stats";
import {
	boundResidualSlope,
	type Lines,
	meet,
	residueModel,
} from "./balance-line";
import { deviationsAt, guess, slopeAt } from "./deviations";
import type { IsothermPoint } from "./isotherm-points";
import { derivativesAt, type Isotherm } from "./isotherms";
import type { Row } from "./shared-errors";

/** Rounds in which weights and curve are brought into line, and the change of a weight that ends them. */
const mostRounds = 12;
const settledWeight = 1e-5;
/** The same for the scatter about the curve and the weight that it gives the bounds. */
const mostScaleRounds = 50;
const settledScale = 1e-7;

/** What a fit of either kind hands on. */
export interface RawFit {
	readonly fit: Fit;
	readonly used: readonly IsothermPoint[];
	/** What the curve gives each point, in the unit of what was fitted: residue (mg/L) or uptake (mg/g). */
	readonly expected: Float64Array;
	/** Standard deviation of each point in the same unit. */
	readonly deviations: Float64Array;
	/** The same before it is scaled by the scatter. */
	readonly weights: Float64Array;
	readonly rows: readonly Row[];
	/** What (J'J)^-1 of the rows is multiplied by to give the covariance. */
	readonly variance: number;
	/** Of the scatter; Infinity where the errors were given. */
	readonly degreesOfFreedom: number;
	/** Scatter about the curve as a multiple of what the reading errors explain; 1 where it was not estimated. */
	readonly scale: number;
	readonly scaleFrom: "scatter" | "reading errors";
}

/** Weights that come from outside, where several curves are to be judged alike: standard deviations in mg/L, one for each point. */
export type GivenWeights =
	| { readonly is: "none" }
	| { readonly is: "given"; readonly deviations: Float64Array };

export interface ResidueFitOptions {
	readonly engine: FitOptions;
	readonly confidence: number;
	readonly sigmaIsAbsolute: boolean;
	readonly weights: GivenWeights;
}

/** The points of one fit in the form that the engine takes. */
interface Setting {
	readonly isotherm: Isotherm;
	readonly model: Model;
	readonly points: readonly IsothermPoint[];
	readonly lines: Lines;
	readonly read: readonly boolean[];
	readonly options: ResidueFitOptions;
}

interface Scaled {
	readonly fit: Fit;
	readonly scale: number;
	readonly scaleFrom: RawFit["scaleFrom"];
	/** Whether the engine was given the errors at their full size. */
	readonly absolute: boolean;
}

/**
 * Fits the residues themselves: each flask should show the residue at which the isotherm meets its balance line, and its titre scatters about that. A flask that ran dry adds the probability that
 * its titre stays below the detection limit. Every point needs its balance line.
 */
export function fitResidues(
	isotherm: Isotherm,
	points: readonly IsothermPoint[],
	options: ResidueFitOptions,
): RawFit {
	const setting: Setting = {
		isotherm,
		model: residueModel(isotherm),
		points,
		lines: linesOf(points),
		read: points.map((p) => p.is === "reading"),
		options,
	};
	const { weights } = options;
	if (weights.is === "given")
		return summary(
			setting,
			weights.deviations,
			scaledFit(setting, weights.deviations),
		);
	let deviations = deviationsAt(
		isotherm,
		guess(isotherm, points),
		points,
		Float64Array.from(setting.lines.near),
	);
	let scaled = scaledFit(setting, deviations);
	for (let round = 0; round < mostRounds; round++) {
		const { theta } = scaled.fit;
		const next = deviationsAt(
			isotherm,
			theta,
			points,
			residuesAt(setting, theta),
		);
		const settled = next.every(
			(d, i) => Math.abs(d / deviations[i] - 1) <= settledWeight,
		);
		if (settled || !next.every(Number.isFinite)) break;
		deviations = next;
		scaled = scaledFit(setting, deviations);
	}
	return summary(setting, deviations, scaled);
}

function linesOf(points: readonly IsothermPoint[]): Lines {
	const column = (f: (p: IsothermPoint) => number): Float64Array =>
		Float64Array.from(points, f);
	return {
		intercept: column((p) =>
			p.balance.is === "known" ? p.balance.intercept : 0,
		),
		slope: column((p) => (p.balance.is === "known" ? p.balance.slope : 1)),
		near: column((p) => p.concentration),
	};
}

function residuesAt(
	{ isotherm, lines, points }: Setting,
	theta: Float64Array,
): Float64Array {
	const out = new Float64Array(points.length);
	meet(isotherm, theta, lines, out);
	return out;
}

/** One call of the engine, with errors of `scale` times `deviations`. */
function fitOnce(
	{ model, points, lines, read, options }: Setting,
	deviations: Float64Array,
	scale: number,
	absolute: boolean,
	confidence: number,
): Fit {
	const sigma = deviations.map((d) => d * scale);
	return fitCurve(
		model,
		{
			x: [
				lines.intercept,
				lines.slope,
				lines.near,
				points.map((p, i) => (read[i] ? -1 : p.concentration)),
				sigma,
			],
			y: points.map((p, i) => (read[i] ? p.concentration : 0)),
			sigmaY: sigma.map((s, i) => (read[i] ? s : 1)),
			sigmaIsAbsolute: absolute,
			unitX: "mg/L",
			unitY: "mg/L",
		},
		{ ...options.engine, confidence },
	);
}

/**
 * The fit with errors of the right size. Without bounds the engine takes it from the scatter. A bound's probability needs the size itself: then curve and scatter of the readings are found in turn, and the
 * engine is told the size, with Student's quantile in place of the normal one.
 */
function scaledFit(setting: Setting, deviations: Float64Array): Scaled {
	const { read, options } = setting;
	const { confidence } = options;
	const absolute = (scale: number, level: number): Fit =>
		fitOnce(setting, deviations, scale, true, level);
	if (options.sigmaIsAbsolute)
		return {
			fit: absolute(1, confidence),
			scale: 1,
			scaleFrom: "reading errors",
			absolute: true,
		};
	if (!read.includes(false)) {
		const found = fitOnce(setting, deviations, 1, false, confidence);
		return {
			fit: found,
			scale: found.residualSD.kind === "known" ? found.residualSD.value : 1,
			scaleFrom: "scatter",
			absolute: false,
		};
	}
	const readings = read.filter(Boolean).length;
	let found = absolute(1, confidence);
	const spare = readings - found.freeParameters;
	if (spare < 1)
		return {
			fit: found,
			scale: 1,
			scaleFrom: "reading errors",
			absolute: true,
		};
	const asT = 2 * normalCdf(studentTQuantile(0.5 + confidence / 2, spare)) - 1;
	let scale = 1;
	for (let round = 0; round < mostScaleRounds; round++) {
		const squares = found.residuals.reduce(
			(sum, r, i) => (read[i] ? sum + (r / deviations[i]) ** 2 : sum),
			0,
		);
		// Points exactly on the curve leave a bound as sharp as a reading error of a millionth.
		const next = Math.max(Math.sqrt(squares / spare), 1e-6);
		const settled = Math.abs(next / scale - 1) <= settledScale;
		scale = next;
		found = absolute(scale, asT);
		if (settled) break;
	}
	return { fit: found, scale, scaleFrom: "scatter", absolute: true };
}

function summary(
	setting: Setting,
	deviations: Float64Array,
	{ fit: found, scale, scaleFrom, absolute }: Scaled,
): RawFit {
	const { points, read } = setting;
	const expected = residuesAt(setting, found.theta);
	const size = absolute ? scale : 1;
	const readings = read.filter(Boolean).length;
	return {
		fit: found,
		used: points,
		expected,
		deviations: deviations.map((d) => d * scale),
		weights: deviations,
		rows: points.map((p, i) =>
			rowOf(
				setting.isotherm,
				found.theta,
				p,
				expected[i],
				deviations[i] * size,
			),
		),
		variance: absolute ? 1 : scale ** 2,
		degreesOfFreedom:
			scaleFrom === "scatter"
				? readings - found.freeParameters
				: Number.POSITIVE_INFINITY,
		scale: scaleFrom === "scatter" ? scale : 1,
		scaleFrom,
	};
}

function rowOf(
	isotherm: Isotherm,
	theta: Float64Array,
	point: IsothermPoint,
	expected: number,
	deviation: number,
): Row {
	const slope = slopeAt(isotherm, theta, expected);
	const line = point.balance.is === "known" ? point.balance.slope : 1;
	const factor =
		(point.is === "reading"
			? 1
			: -boundResidualSlope((point.concentration - expected) / deviation)) /
		deviation;
	const steepness = line + slope;
	return {
		gradient: derivativesAt(isotherm, theta, expected).map((d) =>
			expected > 0 ? (-d / steepness) * factor : 0,
		),
		perConcentration: (slope / steepness) * factor,
		perUptake: (-1 / steepness) * factor,
	};
}
