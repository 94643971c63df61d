import type { Interval, Limit } from "../fit";
import {
	decimalsFor,
	fixed,
	type MaybeKnown,
	quoted,
	type Table,
	table,
} from "../quantity";
import type { IsothermFit } from "./fit-result";
import { confidenceText } from "./intervals";
import { inDigits } from "./words";

const notAvailable = "not available";

/** One row for each parameter of each fit; tables of any fits have the same columns. */
export function parameterTable(...fits: readonly IsothermFit[]): Table {
	return table(
		"Parameters",
		[
			"treatment",
			"isotherm",
			"parameter",
			"unit",
			"value",
			"standard error",
			"of it scatter",
			"of it shared by all flasks",
			"interval",
			"profile interval",
			"remark",
		],
		fits.flatMap((f) =>
			f.parameters.map((p) => [
				f.points.name,
				f.isotherm.name,
				p.name,
				p.unit,
				p.standardError.is === "value" && p.standardError.value > 0
					? toError(p.value, p.standardError.value)
					: inDigits(p.value, 5),
				errorText(p.standardError),
				errorText(p.scatter),
				errorText(p.shared),
				intervalText(p.interval),
				intervalText(p.profile),
				p.role === "fixed"
					? "held at this value"
					: p.standardError.is === "not known"
						? p.standardError.because
						: p.limit === "none"
							? ""
							: p.limit,
			]),
		),
		[
			...new Set(
				fits.map(
					(f) =>
						`Intervals: ${confidenceText(f.confidence)}. The profile interval follows the curve and is the one to quote; the other is symmetric by construction.`,
				),
			),
		],
	);
}

/** One row for each point of each fit. */
export function residualTable(...fits: readonly IsothermFit[]): Table {
	return table(
		"Points and what the curve gives them",
		[
			"treatment",
			"isotherm",
			"flask",
			"fitted",
			"unit",
			"found",
			"expected",
			"residual",
			"in standard deviations",
		],
		fits.flatMap((f) =>
			f.used.map((p, i) => {
				const residues = f.method === "balance lines";
				const found = residues ? p.concentration : p.uptake;
				const bound = p.is === "below detection";
				const residual = found - f.expected[i];
				const deviation = f.deviations[i];
				// What a point is found and expected at shows the digits that its own deviation leaves sure.
				const text = (value: number): string =>
					deviation > 0
						? fixed(value, decimalsFor(deviation))
						: inDigits(value, 5);
				return [
					f.points.name,
					f.isotherm.name,
					p.flask,
					residues ? "residue" : "uptake",
					residues ? "mg/L" : "mg/g",
					bound ? `at most ${inDigits(found, 5)}` : text(found),
					text(f.expected[i]),
					bound ? "" : text(residual),
					bound || !(deviation > 0) ? "" : fixed(residual / deviation, 2),
				];
			}),
		),
	);
}

/** One row for each fit. */
export function fitTable(...fits: readonly IsothermFit[]): Table {
	return table(
		"Fits",
		[
			"treatment",
			"isotherm",
			"what was fitted",
			"points",
			"bounds",
			"free parameters",
			"scatter",
			"AICc",
			"converged",
			"errors available",
			"determined",
			"at a limit",
			"measured from (mg/L)",
			"measured to (mg/L)",
		],
		fits.map((f) => [
			f.points.name,
			f.isotherm.name,
			f.method === "balance lines" ? "residues" : "uptake on concentration",
			f.used.filter((p) => p.is === "reading").length,
			f.used.filter((p) => p.is === "below detection").length,
			f.fit.freeParameters,
			scatterText(f),
			f.aicc.is === "value" ? inDigits(f.aicc.value, 4) : notAvailable,
			flagText(f.fit.converged),
			flagText(f.fit.errorsAvailable),
			flagText(f.fit.determined),
			f.fit.atLimit.holds ? f.fit.atLimit.reason : "no",
			inDigits(f.range.low, 4),
			inDigits(f.range.high, 4),
		]),
		fits.flatMap((f) =>
			f.opinion.map(
				(o) => `${quoted(f.points.name)}, ${f.isotherm.name}: ${o}`,
			),
		),
	);
}

function scatterText(f: IsothermFit): string {
	if (f.scaleFrom === "reading errors") return "taken from the readings";
	return f.method === "balance lines"
		? `${inDigits(f.scale, 3)} times the reading errors`
		: `${inDigits(f.scale, 3)} mg/g`;
}

function flagText(flag: {
	readonly holds: boolean;
	readonly reason: string;
}): string {
	return flag.holds ? "yes" : `no: ${flag.reason}`;
}

function toError(value: number, error: number): string {
	return fixed(value, Math.max(0, decimalsFor(error)));
}

function errorText(error: MaybeKnown<number>): string {
	return error.is === "value" ? inDigits(error.value, 2) : notAvailable;
}

/** "271 to 312", "at least 271, no upper end" and the like. */
export function intervalText(interval: MaybeKnown<Interval>): string {
	if (interval.is === "not known") return notAvailable;
	const { low, high } = interval.value;
	const width =
		low.kind !== "open" && high.kind !== "open" ? high.value - low.value : 0;
	const text = (limit: Exclude<Limit, { kind: "open" }>): string =>
		width > 0
			? fixed(limit.value, Math.max(0, decimalsFor(width / 2)))
			: inDigits(limit.value, 3);
	if (low.kind === "open" && high.kind === "open") return "open at both ends";
	if (low.kind === "open") return `open below, up to ${text(high as never)}`;
	if (high.kind === "open") return `from ${text(low)}, open above`;
	return `${text(low)} to ${text(high)}`;
}
