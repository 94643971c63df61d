import type { IsothermFit } from "../isotherms";
import { derivativesAt, type Isotherm, inDigits, uptakeAt } from "../isotherms";
import { problem, type Table, table, throwProblems } from "../quantity";
import { bracketedRoot } from "../stats";
import { gasConstant, temperatureProblems } from "./constant";
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
	  }
	| {
			readonly is: "none";
			readonly uptake: number;
			readonly because: string;
			readonly wouldTell: string;
	  };

/**
 * Isosteric heat (Clausius and Clapeyron at constant uptake): ln C = const + dH/(R T) for the residues C that one uptake stands in equilibrium with. It needs no dimensionless constant, works for every isotherm, and shows whether the
 * heat changes with the uptake. Errors as for van 't Hoff.
 *
 * @param uptakes mg/g
 * @throws ProblemError for temperatures that are not in kelvin or fewer than two
 */
export function isostericHeats(
	series: readonly { readonly kelvin: number; readonly fit: IsothermFit }[],
	uptakes: readonly number[],
	confidence = 0.95,
): IsostericHeat[] {
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
	return uptakes.map((uptake) => heatAt(series, uptake, confidence));
}

function heatAt(
	series: readonly { readonly kelvin: number; readonly fit: IsothermFit }[],
	uptake: number,
	confidence: number,
): IsostericHeat {
	const outside = series.filter(({ fit }) => {
		const q = (c: number): number => uptakeAt(fit.isotherm, fit.theta, c);
		return !(uptake >= q(fit.range.low) && uptake <= q(fit.range.high));
	});
	if (outside.length > 0)
		return {
			is: "none",
			uptake,
			because: `an uptake of ${inDigits(uptake, 3)} mg/g was not reached at ${outside.map((s) => `${Number(s.kelvin.toFixed(1))} K`).join(", ")}: the flasks there lie between ${outside
				.map(({ fit }) =>
					[fit.range.low, fit.range.high]
						.map((c) => inDigits(uptakeAt(fit.isotherm, fit.theta, c), 3))
						.join(" and "),
				)
				.join("; ")} mg/g`,
			wouldTell:
				"Flasks at those temperatures with more or less char, so that their uptakes come to lie on both sides of it, would.",
		};
	const at = series.map(({ kelvin, fit }) => {
		const c = residueAt(fit.isotherm, fit.theta, uptake, fit.range);
		// d ln C = -(dq/dtheta) d theta / (C q'(C)) at constant q.
		const steep = c * fit.isotherm.slope(fit.theta, c);
		const g = derivativesAt(fit.isotherm, fit.theta, c).map((d) => -d / steep);
		const m =
			fit.scatterCovariance.is === "value"
				? fit.scatterCovariance.value
				: new Float64Array(g.length ** 2);
		let variance = 0;
		for (let i = 0; i < g.length; i++)
			for (let j = 0; j < g.length; j++)
				variance += g[i] * m[i * g.length + j] * g[j];
		return {
			kelvin,
			c,
			own: Math.sqrt(Math.max(0, variance)),
			shared: fit.sharedShifts.map((s) => ({
				key: s.key,
				what: s.what,
				effect: g.reduce((sum, d, j) => sum + d * s.effect[j], 0),
			})),
		};
	});
	const keys = [...new Set(at.flatMap((a) => a.shared.map((s) => s.key)))];
	const inverse = at.map((a) => 1 / a.kelvin);
	const centre = inverse.reduce((a, b) => a + b, 0) / inverse.length;
	const line = linkedLine(
		inverse.map((t) => t - centre),
		at.map((a) => Math.log(a.c)),
		at.map((a) => a.own),
		keys.map((key) => ({
			key,
			what: key,
			effect: Float64Array.from(
				at,
				(a) => a.shared.find((s) => s.key === key)?.effect ?? 0,
			),
		})),
		series.map(({ fit }) => fit.degreesOfFreedom),
	);
	return {
		is: "heat",
		uptake,
		residues: at.map((a) => a.c),
		enthalpy: onLine(line, 0, gasConstant / 1000, confidence),
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
export function isostericTable(heats: readonly IsostericHeat[]): Table {
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
