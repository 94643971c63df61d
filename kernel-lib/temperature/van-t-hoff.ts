import { confidenceOption, usualConfidence } from "../isotherms";
import {
	listed,
	type Problem,
	problem,
	requireOptions,
	requireResults,
	type Table,
	textOption,
	throwProblems,
} from "../quantity";
import { gasConstant, temperatureProblems } from "./constant";
import { stepKind } from "./doors";
import type { EnthalpyAndEntropy } from "./enthalpy-and-entropy";
import {
	type LineEffect,
	type LinkedLine,
	linkedLine,
	onLine,
} from "./linked-line";
import type { TemperatureStep } from "./temperature-steps";
import {
	constantTable,
	vanTHoffSentences,
	vanTHoffTable,
} from "./van-t-hoff-words";

/** Enthalpy and entropy with their tables and sentences. */
export interface VanTHoff extends EnthalpyAndEntropy {
	/** Enthalpy, entropy and Gibbs energies with their intervals. */
	readonly table: Table;
	/** The constants behind the line. */
	readonly constants: Table;
	/** Enthalpy and entropy in a sentence each, and what the sign means. */
	readonly sentences: readonly string[];
}

/** Temperatures that span less than this many kelvin tell little. Our decision. */
const leastSpan = 10;

/** Scatter about the line that would come by chance less often than this is named. Our decision. */
const byChance = 0.05;

export interface VanTHoffOptions {
	readonly name?: string;
	/** What all intervals hold; 0.95 if not given. */
	readonly confidence?: number;
}

const vanTHoffRules = { name: textOption, confidence: confidenceOption };

/**
 * van 't Hoff: ln K = dS/R - dH/(R T), a straight line in 1/T as long as enthalpy and entropy do not change over the range. Errors of the constants that are their own give the weights; errors that they share
 * (one titrant for all temperatures) move all points together: nearly all of that goes into the entropy.
 *
 * @throws ProblemError for temperatures that are not in kelvin, fewer than two different ones, constants made by different conventions
 * @example
 * // -R ln(500/1000)/(1/310 - 1/300), in kJ/mol
 * const at = (kelvin: number, value: number) => ({ kelvin, constant: temperature.dimensionless({ value, unit: "L/mol", convention: "affinity" }), ownError: 0.02, shared: [] });
 * temperature.vanTHoff([at(300, 1000), at(310, 500)]).enthalpy.value // => -53.5973
 */
export function vanTHoff(
	steps: readonly TemperatureStep[],
	options: VanTHoffOptions = {},
): VanTHoff {
	requireResults(steps, stepKind, "vanTHoff");
	requireOptions(options, vanTHoffRules, "vanTHoff");
	const { name = "", confidence = usualConfidence } = options;
	throwProblems(stepProblems(steps));
	const inverse = steps.map((s) => 1 / s.kelvin);
	const centre = inverse.reduce((a, b) => a + b, 0) / inverse.length;
	const x = inverse.map((t) => t - centre);
	const fitAt = (slope: number): LinkedLine => lineThrough(steps, x, slope);
	// The error of a temperature moves ln K by the slope, which the first line gives well enough.
	const line = fitAt(fitAt(0).slope);
	const perKilojoule = gasConstant / 1000;
	const result = {
		kind: "van 't Hoff" as const,
		name,
		convention: steps[0].constant.convention,
		made: steps[0].constant.made,
		steps,
		line,
		centre,
		confidence,
		enthalpy: onLine(line, 0, -perKilojoule, confidence),
		entropy: onLine(line, gasConstant, -gasConstant * centre, confidence),
		gibbs: steps.map((s, i) =>
			onLine(
				line,
				-perKilojoule * s.kelvin,
				-perKilojoule * s.kelvin * x[i],
				confidence,
			),
		),
		cautions: cautionsOn(steps, line),
	};
	return {
		...result,
		table: vanTHoffTable(result),
		constants: constantTable(result),
		sentences: vanTHoffSentences(result),
	};
}

/** The line through ln K, each with its own error and that of its temperature, which moves ln K by the slope. */
function lineThrough(
	steps: readonly TemperatureStep[],
	x: readonly number[],
	slope: number,
): LinkedLine {
	return linkedLine(
		x,
		steps.map((s) => Math.log(s.constant.value)),
		steps.map((s) =>
			Math.hypot(s.ownError, (slope * (s.kelvinError ?? 0)) / s.kelvin ** 2),
		),
		effectsOf(steps),
		steps.map((s) => s.ownDegreesOfFreedom ?? Number.POSITIVE_INFINITY),
	);
}

function stepProblems(steps: readonly TemperatureStep[]): Problem[] {
	const conventions = [...new Set(steps.map((s) => s.constant.convention))];
	const temperatures = new Set(steps.map((s) => s.kelvin)).size;
	return [
		...temperatureProblems(steps.map((s) => s.kelvin)),
		...(temperatures >= 2
			? []
			: [
					problem(
						"one-temperature-only",
						{},
						`${temperatures} temperature`,
						"three or more different temperatures (two give a line without an interval)",
						"Repeat the series of flasks at two more temperatures, ten kelvin apart or more.",
					),
				]),
		...(conventions.length <= 1
			? []
			: [
					problem(
						"mixed-conventions",
						{},
						`constants made dimensionless as ${listed(conventions)}`,
						"one convention for all temperatures",
						"Make all of them in the same way.",
					),
				]),
	];
}

function effectsOf(steps: readonly TemperatureStep[]): LineEffect[] {
	const effects = new Map<string, { what: string; effect: Float64Array }>();
	steps.forEach((s, i) => {
		for (const e of s.shared) {
			const column = effects.get(e.key) ?? {
				what: e.what,
				effect: new Float64Array(steps.length),
			};
			column.effect[i] += e.effect;
			effects.set(e.key, column);
		}
	});
	return [...effects].map(([key, e]) => ({ key, ...e }));
}

function cautionsOn(
	steps: readonly TemperatureStep[],
	line: LinkedLine,
): string[] {
	const kelvins = steps.map((s) => s.kelvin);
	const span = Math.max(...kelvins) - Math.min(...kelvins);
	return [
		...(line.own.is === "not known"
			? [
					"Two temperatures only: a line, but no interval. A third temperature would give one.",
				]
			: []),
		...(span < leastSpan
			? [
					`The temperatures span ${Number(span.toFixed(1))} K only: a small error of K becomes a large one of the enthalpy.`,
				]
			: []),
		...(line.probability < byChance
			? [
					`The constants scatter about the line more than their own errors explain (chance ${line.probability < 0.001 ? "below 0.001" : line.probability.toFixed(3)}): the intervals are from the scatter; another cause (equilibrium not reached, temperature not held, an enthalpy that changes) is at work.`,
				]
			: []),
		"The entropy and the Gibbs energy belong to the convention by which K was made dimensionless; compare them only with values made in the same way.",
		"An enthalpy from an isotherm's constant is as good as the isotherm: if its form is wrong, so is its constant. It describes equilibria between these temperatures; it does not say how the solute is held.",
	];
}
