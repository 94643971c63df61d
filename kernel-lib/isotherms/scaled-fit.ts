import {
	type Fit,
	type FitData,
	type FitOptions,
	fit as fitCurve,
	fitShared,
} from "../fit";
import { normalCdf, studentTQuantile } from "../stats";
import { type RawFit, startingFrom } from "./raw-fit";
import { residueModel } from "./residue-model";
import { rowsAt } from "./residue-rows";
import { cut, linesOf, type Setting } from "./residue-setting";
import { type Scatter, scatterBesideShared } from "./scatter";
import { movedBy } from "./shared-errors";

/** Rounds in which curve and scatter are brought into line where bounds need its size, and the change of the scale that ends them. */
const mostScaleRounds = 50;
const settledScale = 1e-6;

export interface Scaled extends Scatter {
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

/** One call of the engine, with errors of `scale` times `deviations`; all squares are divided by that of `reach`. */
export function fitOnce(
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
export function scaledFit(
	setting: Setting,
	deviations: Float64Array,
	engine: FitOptions,
): Scaled {
	const { read, options } = setting;
	if (options.sigmaIsAbsolute) return asRead(setting, deviations, engine);
	return read.includes(false)
		? withBounds(setting, deviations, engine)
		: fromScatter(setting, deviations, engine);
}

/** The reading errors as they are. */
function asRead(
	setting: Setting,
	deviations: Float64Array,
	engine: FitOptions,
): Scaled {
	const { confidence } = setting.options;
	return {
		...fitOnce(setting, deviations, 1, true, { ...engine, confidence }),
		...asGiven,
		scaleFrom: "reading errors",
		absolute: true,
	};
}

function fromScatter(
	setting: Setting,
	deviations: Float64Array,
	engine: FitOptions,
): Scaled {
	const { confidence } = setting.options;
	const found = fitOnce(setting, deviations, 1, false, {
		...engine,
		confidence,
	});
	return {
		...found,
		...scatterAbout(setting, deviations, found.combined),
		scaleFrom: "scatter",
		absolute: false,
	};
}

function withBounds(
	setting: Setting,
	deviations: Float64Array,
	engine: FitOptions,
): Scaled {
	const { confidence } = setting.options;
	const quick: FitOptions = { ...engine, search: "never", confidence };
	let { combined } = fitOnce(setting, deviations, 1, true, quick);
	if (setting.read.filter(Boolean).length <= combined.freeParameters)
		return asRead(setting, deviations, engine);
	let scatter = asGiven;
	for (let round = 0; round < mostScaleRounds; round++) {
		const found = scatterAbout(setting, deviations, combined);
		// Points exactly on the curve leave a bound as sharp as a reading error of a millionth.
		const next = Math.max(found.scale, 1e-6);
		const settled = Math.abs(next / scatter.scale - 1) <= settledScale;
		scatter = { ...found, scale: next };
		if (settled) break;
		({ combined } = fitOnce(
			setting,
			deviations,
			next,
			true,
			startingFrom(quick, combined),
		));
	}
	return {
		...fitOnce(setting, deviations, scatter.scale, true, {
			...(engine.search === "never" ? startingFrom(quick, combined) : engine),
			confidence: asNormal(confidence, scatter.degreesOfFreedom),
		}),
		...scatter,
		scaleFrom: "scatter",
		absolute: true,
	};
}

/** The confidence whose normal quantile is Student's. With one degree of freedom that is 12.7, which for the normal is 1 to the last digit. */
function asNormal(confidence: number, degreesOfFreedom: number): number {
	const t = studentTQuantile(0.5 + confidence / 2, degreesOfFreedom);
	return Math.min(2 * normalCdf(t) - 1, 1 - Number.EPSILON);
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
