import type { IsothermFit } from "../isotherms";
import {
	confidenceOption,
	derivativesAt,
	type Isotherm,
	inDigits,
	uptakeAt,
	usualConfidence,
} from "../isotherms";
import { quadraticForm } from "../linear";
import {
	anyNumberOption,
	listed,
	listOption,
	problem,
	requireArgument,
	requireOptions,
	requireResults,
	type Table,
	table,
	throwProblems,
	type WithTable,
	withTable,
} from "../quantity";
import { bracketedRoot } from "../stats";
import { gasConstant, temperatureProblems } from "./constant";
import { seriesKind } from "./doors";
import type { FitAtTemperature } from "./fit-at-temperature";
import { type LineValue, linkedLine, onLine } from "./linked-line";
import { valueTextsOf } from "./words";

/** Heat of adsorption at one uptake, or why it cannot be given there. */
export type IsostericHeat =
	| {
			readonly is: "heat";
			/** mg/g. */
			readonly uptake: number;
			/** Residue (mg/L) that this uptake stands in equilibrium with at each temperature. */
			readonly residues: readonly number[];
			/** kJ/mol: the enthalpy of adsorption at this uptake; its negative is called the isosteric heat. */
			readonly enthalpy: LineValue;
			readonly confidence: number;
	  }
	| {
			readonly is: "none";
			readonly uptake: number;
			readonly because: string;
			readonly wouldTell: string;
	  };

export interface IsostericOptions {
	/** What all intervals hold; 0.95 if not given. */
	readonly confidence?: number;
}

/**
 * Isosteric heat (Clausius and Clapeyron at constant uptake): ln C = const + dH/(R T) for the residues C that one uptake stands in equilibrium with. It needs no dimensionless constant, works for every isotherm, and shows whether the
 * heat changes with the uptake. Errors as for van 't Hoff. Shown as a table, a row for each uptake.
 *
 * @param uptakes mg/g
 * @throws ProblemError for temperatures that are not in kelvin or fewer than two
 * @example
 * const points = ["15 °C", "35 °C"].map((name) => isotherms.plainPoints(name, [10, 30, 90, 190], [50, 75, 90, 95]));
 * const fits = points.map((p) => isotherms.fitIsotherm(isotherms.langmuir, p));
 * // 80 mg/g at 40 mg/L, at both temperatures
 * const [heat] = temperature.isostericHeats(temperature.temperatureSeries(fits), [80]);
 * heat.is === "heat" && heat.residues // => [40, 40]
 */
export function isostericHeats(
	series: readonly FitAtTemperature[],
	uptakes: readonly number[],
	options: IsostericOptions = {},
): WithTable<readonly IsostericHeat[]> {
	requireResults(series, seriesKind, "isostericHeats");
	requireOptions(options, { confidence: confidenceOption }, "isostericHeats");
	requireArgument(
		uptakes,
		listOption(anyNumberOption("an uptake in mg/g")),
		"isostericHeats",
	);
	const { confidence = usualConfidence } = options;
	throwProblems([
		...temperatureProblems(series.map((s) => s.kelvin)),
		...(new Set(series.map((s) => s.kelvin)).size >= 2
			? []
			: [
					problem(
						"one-temperature-only",
						{},
						"one temperature",
						"three or more different temperatures",
						"Repeat the series of flasks at two more temperatures.",
					),
				]),
	]);
	return withTable(
		uptakes.map((uptake) => heatAt(series, uptake, confidence)),
		isostericTable,
	);
}

function heatAt(
	series: readonly FitAtTemperature[],
	uptake: number,
	confidence: number,
): IsostericHeat {
	const outside = series.filter(({ fit }) => !reached(fit, uptake));
	if (outside.length > 0) return notReached(outside, uptake);
	const at = series.map(({ fit }) => residueWithErrors(fit, uptake));
	const keys = [...new Set(at.flatMap((a) => [...a.shared.keys()]))];
	const inverse = series.map((s) => 1 / s.kelvin);
	const centre = inverse.reduce((a, b) => a + b, 0) / inverse.length;
	const line = linkedLine(
		inverse.map((t) => t - centre),
		at.map((a) => Math.log(a.residue)),
		at.map((a) => a.own),
		keys.map((key) => ({
			key,
			what: key,
			effect: Float64Array.from(at, (a) => a.shared.get(key) ?? 0),
		})),
		series.map(({ fit }) => fit.degreesOfFreedom),
	);
	return {
		is: "heat",
		uptake,
		residues: at.map((a) => a.residue),
		enthalpy: onLine(line, 0, gasConstant / 1000, confidence),
		confidence,
	};
}

function reached({ isotherm, theta, range }: IsothermFit, uptake: number) {
	return (
		uptake >= uptakeAt(isotherm, theta, range.low) &&
		uptake <= uptakeAt(isotherm, theta, range.high)
	);
}

function notReached(
	outside: readonly FitAtTemperature[],
	uptake: number,
): IsostericHeat {
	const kelvins = outside.map((s) => `${Number(s.kelvin.toFixed(1))} K`);
	const between = outside.map(({ fit: { isotherm, theta, range } }) =>
		listed(
			[range.low, range.high].map((c) =>
				inDigits(uptakeAt(isotherm, theta, c), 3),
			),
		),
	);
	return {
		is: "none",
		uptake,
		because: `an uptake of ${inDigits(uptake, 3)} mg/g was not reached at ${kelvins.join(", ")}: the flasks there lie between ${between.join("; ")} mg/g`,
		wouldTell:
			"Flasks at those temperatures with more or less char, so that their uptakes come to lie on both sides of it, would.",
	};
}

/** The residue of an uptake and the errors of its logarithm: its own, and by the key of each shared input. */
function residueWithErrors(
	fit: IsothermFit,
	uptake: number,
): {
	readonly residue: number;
	readonly own: number;
	readonly shared: ReadonlyMap<string, number>;
} {
	const { isotherm, theta, scatterCovariance, sharedShifts } = fit;
	const residue = residueAt(isotherm, theta, uptake, fit.range);
	// d ln C = -(dq/dtheta) d theta / (C q'(C)) at constant q.
	const steep = residue * isotherm.slope(theta, residue);
	const g = derivativesAt(isotherm, theta, residue).map((d) => -d / steep);
	return {
		residue,
		own:
			scatterCovariance.is === "value"
				? Math.sqrt(quadraticForm(scatterCovariance.value, g))
				: 0,
		shared: new Map(
			sharedShifts.map((s) => [
				s.key,
				g.reduce((sum, d, j) => sum + d * s.effect[j], 0),
			]),
		),
	};
}

/** The residue of an uptake, inside the measured range, where the isotherm rises. */
function residueAt(
	isotherm: Isotherm,
	theta: Float64Array,
	uptake: number,
	range: { readonly low: number; readonly high: number },
): number {
	return Math.exp(
		bracketedRoot(
			(u) => uptakeAt(isotherm, theta, Math.exp(u)) - uptake,
			Math.log(range.low),
			Math.log(range.high),
			1e-13,
		),
	);
}

/** One row for each uptake. */
function isostericTable(heats: readonly IsostericHeat[]): Table {
	return table(
		"Enthalpy of adsorption at constant uptake",
		[
			"uptake (mg/g)",
			"enthalpy (kJ/mol)",
			"standard error",
			"from",
			"to",
			"remark",
		],
		heats.map((h) =>
			h.is === "heat"
				? [inDigits(h.uptake, 4), ...valueTextsOf(h.enthalpy), ""]
				: [
						inDigits(h.uptake, 4),
						"none",
						"",
						"",
						"",
						`${h.because}. ${h.wouldTell}`,
					],
		),
		[
			"The isosteric heat is the enthalpy with the other sign. Rows share their flasks: their errors are not independent of one another.",
		],
	);
}
