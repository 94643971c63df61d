import {
	type MaybeKnown,
	quoted,
	type Table,
	type TableCell,
	table,
	withTable,
} from "../quantity";
import { checkFit } from "./checks";
import type { Flag } from "./flag";
import type { Fit, Limit } from "./result";

/** A cell of a table. What is not known is the text "not available", never an empty or undefined number. */
export type Cell = number | string | boolean;

export const notAvailable = "not available";

/** Rows of one kind have the same columns for every fit, so the tables of many fits can be put under each other. */
export type Row = Readonly<Record<string, Cell>>;

/** One row per parameter of each fit. `low` and `high` are the ends of the t interval at `confidence`; `note` says why something is missing. */
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

/** One row per fit: how many points and parameters, residual standard deviation, criteria, checks, flags, cautions. */
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

/** A fit with what a notebook shows of it. */
export type ToldFit = Fit & {
	/** A row for each parameter: value, standard error, the ends of the t interval; the note says why something is missing. */
	readonly table: Table;
	/** How many points and parameters, scatter, criteria, checks, flags, cautions: a line each. */
	readonly quality: Table;
};

/** The fit itself with its tables. */
export function told(fit: Fit): ToldFit {
	const withParameters = withTable(fit, () =>
		forPeople(titleOf("Parameters", fit), parameterTable(fit)),
	);
	return withTable(
		withParameters,
		() => {
			const [row] = fitTable(fit);
			return table(
				titleOf("Fit", fit),
				["what", "value"],
				Object.entries(row).map(([what, value]) => [
					inWords(what),
					forReader(value),
				]),
			);
		},
		"quality",
	);
}

function titleOf(what: string, { task: { name, model } }: Fit): string {
	return `${what}, ${name === "" ? "" : `${quoted(name)}, `}${model.name}`;
}

function forPeople(title: string, rows: readonly Row[]): Table {
	return table(
		title,
		Object.keys(rows[0]).map(inWords),
		rows.map((row) => Object.values(row).map(forReader)),
	);
}

/** "residualSD" as "residual SD", "freeParameters" as "free parameters". */
function inWords(name: string): string {
	return name
		.replace(/([a-z])([A-Z])/g, "$1 $2")
		.replace(
			/ ([A-Z])(?=[a-z])/g,
			(_, first: string) => ` ${first.toLowerCase()}`,
		);
}

function forReader(cell: Cell): TableCell {
	return typeof cell === "boolean" ? (cell ? "yes" : "no") : cell;
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
