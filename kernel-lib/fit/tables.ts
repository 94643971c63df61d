import type { MaybeKnown } from "../quantity";
import { checkFit } from "./checks";
import type { Flag } from "./flag";
import type { Fit, Limit } from "./result";

/** A cell of a table. What is not known is the text "not available", never an empty or undefined number. */
export type Cell = number | string | boolean;

export const notAvailable = "not available";

/** Rows of one kind have the same columns for every fit, so the tables of many fits can be put under each other. */
export type Row = Readonly<Record<string, Cell>>;

/**
 * One row per parameter of each fit. `low` and `high` are the ends of the t interval at `confidence`; `note` says why something is missing.
 * @example
 * const line = fit.defineModel({ name: "line", parameters: ["a", "b"], curve: (x, a, b) => a + b * x });
 * const found = fit.fit(line, { x: [0, 1, 2, 3], y: [1, 3, 3, 5] });
 * fit.parameterTable(found).map((row) => row.value) // => [1.2, 1.2]
 */
export function parameterTable(...fits: readonly Fit[]): Row[] {
	return fits.flatMap((fit) =>
		fit.parameters.map((p) => ({
			set: fit.task.name,
			model: fit.task.model.name,
			parameter: p.name,
			unit: p.unit,
			value: finite(p.value),
			standardError: cell(p.standardError),
			low:
				p.interval.is === "value"
					? limitCell(p.interval.value.low)
					: notAvailable,
			high:
				p.interval.is === "value"
					? limitCell(p.interval.value.high)
					: notAvailable,
			confidence: fit.task.confidence,
			role: p.role,
			limit: p.limit,
			note: p.standardError.is === "not known" ? p.standardError.because : "",
		})),
	);
}

/** One row per point. `x` is the first predictor. */
export function pointTable(...fits: readonly Fit[]): Row[] {
	return fits.flatMap((fit) =>
		Array.from(fit.task.y, (y, i) => ({
			set: fit.task.setOfPoint[i],
			model: fit.task.model.name,
			point: i + 1,
			x: fit.task.x[i],
			y,
			fitted: finite(fit.fitted[i]),
			residual: finite(fit.residuals[i]),
			standardisedResidual: element(fit.standardisedResiduals, i),
			leverage: element(fit.leverage, i),
			lossWeight: fit.lossWeights[i],
		})),
	);
}

/**
 * One row per fit: how many points and parameters, residual standard deviation, criteria, checks, flags, cautions.
 * @example
 * const line = fit.defineModel({ name: "line", parameters: ["a", "b"], curve: (x, a, b) => a + b * x });
 * const found = fit.fit(line, { x: [0, 1, 2, 3], y: [1, 3, 3, 5] });
 * fit.fitTable(found)[0].degreesOfFreedom // => 2
 */
export function fitTable(...fits: readonly Fit[]): Row[] {
	return fits.map((fit) => {
		const checks = checkFit(fit);
		const p = (test: MaybeKnown<{ readonly p: number }>): Cell =>
			test.is === "value" ? test.value.p : notAvailable;
		return {
			set: fit.task.name,
			model: fit.task.model.name,
			points: fit.points,
			freeParameters: fit.freeParameters,
			degreesOfFreedom: fit.degreesOfFreedom,
			residualSumOfSquares: finite(fit.residualSumOfSquares),
			residualSD: cell(fit.residualSD),
			aicc: cell(fit.criteria.aicc),
			bic: cell(fit.criteria.bic),
			rSquared: cell(fit.rSquared),
			condition: cell(fit.condition),
			lackOfFitP: p(checks.lackOfFit),
			runsP: p(checks.runs),
			normalityP: p(checks.normality),
			...flagCells(fit),
			loss: fit.task.loss,
			errorsOfY: errorsInWords(fit),
			cautions: fit.cautions.join(" "),
		};
	});
}

/** How the errors of y entered, in words. */
export function errorsInWords(fit: Fit): string {
	const { whitening, sigmaIsAbsolute } = fit.task;
	if (whitening.kind === "none") return "equal, estimated from the scatter";
	const what = whitening.kind === "sigma" ? "sigmas" : "covariance";
	return sigmaIsAbsolute
		? `given ${what}, taken as absolute`
		: `given ${what} up to a common factor estimated from the scatter`;
}

function flagCells(fit: Fit): Record<string, Cell> {
	const flags: [string, Flag][] = [
		["converged", fit.converged],
		["errorsAvailable", fit.errorsAvailable],
		["determined", fit.determined],
		["atLimit", fit.atLimit],
	];
	return Object.fromEntries(
		flags.flatMap(([name, flag]) => [
			[name, flag.holds],
			[`${name}Reason`, flag.reason],
		]),
	);
}

/** A curve that is not finite at the values reached has no fitted points; the flags say so. */
function finite(value: number): Cell {
	return Number.isFinite(value) ? value : notAvailable;
}

function cell(value: MaybeKnown<number>): Cell {
	return value.is === "value" ? finite(value.value) : notAvailable;
}

function element(values: MaybeKnown<Float64Array>, i: number): Cell {
	return values.is === "value" ? finite(values.value[i]) : notAvailable;
}

function limitCell(limit: Limit): Cell {
	return limit.kind === "open" ? "open" : limit.value;
}
