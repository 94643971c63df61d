import {
	type Fit,
	type FitData,
	type FitOptions,
	fit as fitCurve,
	fitShared,
} from "../fit";
import { normalCdf, studentTQuantile } from "../stats";
import {
	boundResidualSlope,
	type Lines,
	meet,
	residueModel,
} from "./balance-line";
import { derivativesAt, type Isotherm } from "./catalogue/index";
import { deviationsAt, guess, slopeAt } from "./deviations";
import {
	mostEvaluationsAgain,
	movedPoint,
	oneStandardError,
	type Refit,
} from "./moved-points";
import type { IsothermPoint, IsothermPoints, SharedEffect } from "./points";
import { type Scatter, scatterBesideShared } from "./scatter";
import { effectsOn, movedBy, type Row, shiftsOf } from "./shared-errors";

/** Rounds in which weights and curve are brought into line, and the change of a weight that ends them. */
const mostRounds = 12;
const settledWeight = 1e-5;
/** The same for the scatter about the curve and the weight that it gives the bounds. */
const mostScaleRounds = 50;
const settledScale = 1e-6;

/** What a fit of either kind hands on. */
export interface RawFit {
	/** One fit for each set of points, with errors from all sets together. */
	readonly fits: readonly Fit[];
	/** All sets together; the fit itself where there is one set. */
	readonly combined: Fit;
	/** index[set][j]: place of the isotherm's parameter j among the combined ones. */
	readonly index: readonly (readonly number[])[];
	/** All points that entered, set after set; likewise the lists below. */
	readonly used: readonly IsothermPoint[];
	/** What the curve gives each point, in the unit of what was fitted: residue (mg/L) or uptake (mg/g). */
	readonly expected: Float64Array;
	/** Standard deviation of each point about the curve, in the same unit. */
	readonly deviations: Float64Array;
	/** The same before it is scaled by the scatter. */
	readonly weights: Float64Array;
	/** Of the combined parameters. */
	readonly rows: readonly Row[];
	/** Shared errors over the points that entered, each once. */
	readonly effects: readonly SharedEffect[];
	/** What (J'J)^-1 of the rows is multiplied by to give the engine's covariance. */
	readonly variance: number;
	/** The scale over the one that the engine's errors rest on: it knows nothing of shared errors, and takes what they do to the residuals for scatter. */
	readonly besideEngine: number;
	/** Of the scatter; Infinity where the errors were given. */
	readonly degreesOfFreedom: number;
	/** Scatter about the curve beside the shared errors, as a multiple of what the reading errors explain; 1 where it was not estimated. */
	readonly scale: number;
	readonly scaleFrom: "scatter" | "reading errors";
	readonly refit: Refit;
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
	/** Parameters that all sets have in common; only for several sets. */
	readonly shared: readonly string[];
}

/** The points of one fit in the form that the engine takes. */
interface Setting {
	readonly isotherm: Isotherm;
	readonly sets: readonly IsothermPoints[];
	readonly points: readonly IsothermPoint[];
	/** Set that each point belongs to. */
	readonly setOf: readonly number[];
	readonly lines: Lines;
	readonly read: readonly boolean[];
	readonly index: readonly (readonly number[])[];
	readonly effects: readonly SharedEffect[];
	readonly options: ResidueFitOptions;
}

interface Scaled extends Scatter {
	readonly fits: readonly Fit[];
	readonly combined: Fit;
	readonly scaleFrom: RawFit["scaleFrom"];
	/** Whether the engine was given the errors at their full size. */
	readonly absolute: boolean;
}

/** Errors as they were given: nothing is estimated from the scatter. */
const asGiven: Scatter = {
	scale: 1,
	withShared: 1,
	degreesOfFreedom: Number.POSITIVE_INFINITY,
};

/**
 * Fits the residues themselves: each flask should show the residue at which the isotherm meets its balance line, and its titre scatters about that. A flask that ran dry adds the probability that
 * its titre stays below the detection limit. Every point needs its balance line. Several sets of points are fitted at once, with some parameters in common.
 *
 * The weights depend a little on the curve, so that curve and weights are found in turn: from one start to the next without a search, and at the end once more with it.
 */
export function fitResidues(
	isotherm: Isotherm,
	sets: readonly IsothermPoints[],
	options: ResidueFitOptions,
): RawFit {
	const points = sets.flatMap((s) => s.points);
	const setting: Setting = {
		isotherm,
		sets,
		points,
		setOf: sets.flatMap((s, k) => s.points.map(() => k)),
		lines: linesOf(points),
		read: points.map((p) => p.is === "reading"),
		index: indexOf(isotherm, sets, options.shared),
		effects: effectsOn(points, sets),
		options,
	};
	const { weights, engine } = options;
	if (weights.is === "given")
		return summary(
			setting,
			weights.deviations,
			scaledFit(setting, weights.deviations, engine),
		);
	const quick: FitOptions = { ...engine, search: "never" };
	let deviations = deviationsOfSets(
		setting,
		sets.map((s) => guess(isotherm, s.points)),
		setting.lines.near,
	);
	let found = scaledFit(setting, deviations, quick);
	const align = (settings: FitOptions): boolean => {
		const { theta } = found.combined;
		const next = deviationsOfSets(
			setting,
			thetas(setting, theta),
			residuesAt(setting, theta),
		);
		if (!next.every(Number.isFinite)) return true;
		const settled = next.every(
			(d, i) => Math.abs(d / deviations[i] - 1) <= settledWeight,
		);
		if (settled) return true;
		deviations = next;
		found = scaledFit(setting, deviations, settings);
		return false;
	};
	for (let round = 0; round < mostRounds; round++)
		if (align(startingFrom(quick, found.combined))) break;
	found = scaledFit(setting, deviations, engine);
	// The search may have found another minimum, with other weights.
	for (let round = 0; round < 3; round++) if (align(engine)) break;
	return summary(setting, deviations, found);
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

/** The engine's order of combined parameters: parameter by parameter, one for each set unless it is shared. */
function indexOf(
	isotherm: Isotherm,
	sets: readonly IsothermPoints[],
	shared: readonly string[],
): number[][] {
	const index: number[][] = sets.map(() => []);
	let next = 0;
	for (const { name } of isotherm.model.parameters) {
		const common = shared.includes(name);
		sets.forEach((_, k) => {
			index[k].push(common ? next : next + k);
		});
		next += common ? 1 : sets.length;
	}
	return index;
}

/** Each set's own parameters out of the combined ones. */
function thetas({ index }: Setting, combined: Float64Array): Float64Array[] {
	return index.map((places) => Float64Array.from(places, (c) => combined[c]));
}

/** Cuts a list over all points into the sets. */
function cut<T extends Float64Array | readonly unknown[]>(
	{ sets }: Setting,
	all: T,
): T[] {
	let first = 0;
	return sets.map((s) => {
		const part = all.slice(first, first + s.points.length) as T;
		first += s.points.length;
		return part;
	});
}

function joined(parts: readonly Float64Array[]): Float64Array {
	return Float64Array.from(parts.flatMap((p) => Array.from(p)));
}

function residuesAt(setting: Setting, combined: Float64Array): Float64Array {
	const { isotherm, lines, sets } = setting;
	const own = thetas(setting, combined);
	const column = (all: ArrayLike<number>): Float64Array[] =>
		cut(setting, Float64Array.from(all));
	const intercept = column(lines.intercept);
	const slope = column(lines.slope);
	const near = column(lines.near);
	return joined(
		sets.map((s, k) => {
			const out = new Float64Array(s.points.length);
			meet(
				isotherm,
				own[k],
				{ intercept: intercept[k], slope: slope[k], near: near[k] },
				out,
			);
			return out;
		}),
	);
}

function deviationsOfSets(
	setting: Setting,
	own: readonly Float64Array[],
	at: ArrayLike<number>,
): Float64Array {
	const parts = cut(setting, Float64Array.from(at));
	return joined(
		setting.sets.map((s, k) =>
			deviationsAt(setting.isotherm, own[k], s.points, parts[k]),
		),
	);
}

/** Start values for the next fit of the same points. */
export function startingFrom(engine: FitOptions, from: Fit): FitOptions {
	return from.theta.every(Number.isFinite)
		? {
				...engine,
				start: Object.fromEntries(
					from.parameters
						.filter((p) => p.role === "free")
						.map((p) => [p.name, p.value]),
				),
			}
		: engine;
}

/** One call of the engine, with errors of `scale` times `deviations`; all squares are divided by that of `reach`. */
function fitOnce(
	setting: Setting,
	deviations: Float64Array,
	scale: number,
	absolute: boolean,
	engine: FitOptions,
	reach = 1,
): Pick<Scaled, "fits" | "combined"> {
	const { isotherm, sets, options } = setting;
	const model = residueModel(isotherm);
	const sigmas = cut(
		setting,
		deviations.map((d) => d * scale),
	);
	const data = sets.map(({ name, points }, k): FitData => {
		const lines = linesOf(points);
		const read = points.map((p) => p.is === "reading");
		return {
			x: [
				lines.intercept,
				lines.slope,
				lines.near,
				points.map((p, i) => (read[i] ? -1 : p.concentration)),
				sigmas[k],
			],
			y: points.map((p, i) => (read[i] ? p.concentration : 0)),
			sigmaY: sigmas[k].map((s, i) => reach * (read[i] ? s : 1)),
			sigmaIsAbsolute: absolute,
			unitX: "mg/L",
			unitY: "mg/L",
			name,
		};
	});
	if (sets.length === 1) {
		const found = fitCurve(model, data[0], engine);
		return { fits: [found], combined: found };
	}
	const found = fitShared(model, data, { ...engine, shared: options.shared });
	return { fits: found.sets, combined: found.combined };
}

/**
 * The fit with errors of the right size. Without bounds the engine takes it from the scatter. A bound's probability needs the size itself: then curve and scatter of the readings are found in turn, and the
 * engine is told the size, with Student's quantile in place of the normal one.
 */
function scaledFit(
	setting: Setting,
	deviations: Float64Array,
	engine: FitOptions,
): Scaled {
	const { read, options } = setting;
	const { confidence } = options;
	const at = (
		scale: number,
		absolute: boolean,
		level: number,
		settings: FitOptions,
	): Pick<Scaled, "fits" | "combined"> =>
		fitOnce(setting, deviations, scale, absolute, {
			...settings,
			confidence: level,
		});
	if (options.sigmaIsAbsolute)
		return {
			...at(1, true, confidence, engine),
			...asGiven,
			scaleFrom: "reading errors",
			absolute: true,
		};
	if (!read.includes(false)) {
		const found = at(1, false, confidence, engine);
		return {
			...found,
			...scatterAbout(setting, deviations, found.combined),
			scaleFrom: "scatter",
			absolute: false,
		};
	}
	const quick: FitOptions = { ...engine, search: "never" };
	let { combined } = at(1, true, confidence, quick);
	if (read.filter(Boolean).length <= combined.freeParameters)
		return {
			...at(1, true, confidence, engine),
			...asGiven,
			scaleFrom: "reading errors",
			absolute: true,
		};
	let scatter = asGiven;
	for (let round = 0; round < mostScaleRounds; round++) {
		const found = scatterAbout(setting, deviations, combined);
		// Points exactly on the curve leave a bound as sharp as a reading error of a millionth.
		const next = Math.max(found.scale, 1e-6);
		const settled = Math.abs(next / scatter.scale - 1) <= settledScale;
		scatter = { ...found, scale: next };
		if (settled) break;
		combined = at(
			next,
			true,
			confidence,
			startingFrom(quick, combined),
		).combined;
	}
	// With one degree of freedom the quantile is 12.7, which as a normal level is 1 to the last digit.
	const asT = Math.min(
		2 *
			normalCdf(
				studentTQuantile(0.5 + confidence / 2, scatter.degreesOfFreedom),
			) -
			1,
		1 - Number.EPSILON,
	);
	return {
		...at(
			scatter.scale,
			true,
			asT,
			engine.search === "never" ? startingFrom(quick, combined) : engine,
		),
		...scatter,
		scaleFrom: "scatter",
		absolute: true,
	};
}

/** Scatter of the points that were read, beside the shared errors, for a curve. */
function scatterAbout(
	setting: Setting,
	deviations: Float64Array,
	{ theta, parameters, residuals }: Fit,
): Scatter {
	const { read } = setting;
	const rows = rowsAt(setting, theta, deviations);
	const readings = rows.flatMap((_, i) => (read[i] ? [i] : []));
	const free = parameters.flatMap((p, j) => (p.role === "free" ? [j] : []));
	return scatterBesideShared(
		readings.map((i) => Float64Array.from(free, (j) => rows[i].gradient[j])),
		Float64Array.from(readings, (i) => residuals[i] / deviations[i]),
		setting.effects.map((effect) =>
			Float64Array.from(readings, (i) => movedBy(effect, rows[i], i)),
		),
	);
}

function rowsAt(
	setting: Setting,
	theta: Float64Array,
	deviations: Float64Array,
): Row[] {
	const { isotherm, points, setOf, index } = setting;
	const expected = residuesAt(setting, theta);
	const own = thetas(setting, theta);
	return points.map((p, i) =>
		placed(
			rowOf(isotherm, own[setOf[i]], p, expected[i], deviations[i]),
			index[setOf[i]],
			theta.length,
		),
	);
}

function summary(
	setting: Setting,
	deviations: Float64Array,
	{ fits, combined, absolute, ...scatter }: Scaled,
): RawFit {
	const { points, index, effects } = setting;
	const { scale, withShared, degreesOfFreedom, scaleFrom } = scatter;
	const { residualSD } = combined;
	const engineScale = absolute
		? scale
		: residualSD.is === "value"
			? residualSD.value
			: 1;
	return {
		fits,
		combined,
		index,
		used: points,
		expected: residuesAt(setting, combined.theta),
		deviations: deviations.map((d) => d * withShared),
		weights: deviations,
		rows: rowsAt(
			setting,
			combined.theta,
			deviations.map((d) => (absolute ? d * scale : d)),
		),
		effects,
		variance: absolute ? 1 : engineScale ** 2,
		besideEngine: engineScale > 0 ? scale / engineScale : 1,
		degreesOfFreedom,
		scale,
		scaleFrom,
		refit: (amounts, reach) => {
			const there = moved(setting, amounts);
			const size = scale > 0 ? scale : 1e-6;
			const { combined: fit } = fitOnce(
				there,
				deviations,
				size,
				true,
				{
					...startingFrom(setting.options.engine, combined),
					search: "never",
					confidence: oneStandardError,
					maxEvaluations: mostEvaluationsAgain,
				},
				reach,
			);
			return {
				fit,
				shifts: () =>
					shiftsOf(
						fit,
						effects,
						rowsAt(
							there,
							fit.theta,
							deviations.map((d) => d * size),
						),
						reach ** 2,
					),
			};
		},
	};
}

/** The same points after shared errors have moved them. */
function moved(setting: Setting, amounts: readonly number[]): Setting {
	let first = 0;
	const sets = setting.sets.map((set) => {
		const begin = first;
		first += set.points.length;
		return {
			...set,
			points: set.points.map((p, i) =>
				movedPoint(p, setting.effects, amounts, begin + i),
			),
		};
	});
	return { ...setting, sets, points: sets.flatMap((s) => s.points) };
}

/** A row of one set among the combined parameters. */
function placed(row: Row, index: readonly number[], size: number): Row {
	const gradient = new Float64Array(size);
	index.forEach((c, j) => {
		gradient[c] += row.gradient[j];
	});
	return { ...row, gradient };
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
