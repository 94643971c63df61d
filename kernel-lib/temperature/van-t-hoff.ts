import type { IsothermFit } from "../isotherms";
import { inDigits } from "../isotherms";
import {
	type MaybeKnown,
	problem,
	type Table,
	table,
	throwProblems,
} from "../quantity";
import {
	type Convention,
	type DimensionlessConstant,
	dimensionless,
	gasConstant,
	temperatureProblems,
} from "./constant";
import {
	type LineEffect,
	type LineValue,
	type LinkedLine,
	linkedLine,
	onLine,
} from "./linked-line";
import { valueTextsOf } from "./words";

/** The constant at one temperature. */
export interface TemperatureStep {
	readonly kelvin: number;
	/** Standard uncertainty of the temperature, K; 0 if not given. */
	readonly kelvinError?: number;
	readonly constant: DimensionlessConstant;
	/** Relative standard error of the constant that is its own (scatter of its flasks); 0 where it is not known. */
	readonly ownError: number;
	/** Of that error; Infinity if not given. */
	readonly ownDegreesOfFreedom?: number;
	/** Relative effect of one standard uncertainty of each input that other temperatures may lean on too. */
	readonly shared: readonly {
		readonly key: string;
		readonly what: string;
		readonly effect: number;
	}[];
}

/** Enthalpy and entropy from the temperature series of one constant. */
export interface VanTHoff {
	readonly kind: "van 't Hoff";
	readonly name: string;
	readonly convention: Convention;
	/** How the constant was made dimensionless, in words. */
	readonly made: string;
	readonly steps: readonly TemperatureStep[];
	readonly line: LinkedLine;
	/** The middle of 1/T, where the line was anchored. */
	readonly centre: number;
	readonly confidence: number;
	/** kJ/mol; negative where heat is given off. */
	readonly enthalpy: LineValue;
	/** J/(mol K); belongs to the convention. */
	readonly entropy: LineValue;
	/** kJ/mol at each temperature, from the line; belongs to the convention. */
	readonly gibbs: readonly LineValue[];
	readonly cautions: readonly string[];
}

/** Temperatures that span less than this many kelvin tell little. Our decision. */
const leastSpan = 10;

/**
 * van 't Hoff: ln K = dS/R - dH/(R T), a straight line in 1/T as long as enthalpy and entropy do not change over the range. Errors of the constants that are their own give the weights; errors that they share
 * (one titrant for all temperatures) move all points together: nearly all of that goes into the entropy.
 *
 * @throws ProblemError for temperatures that are not in kelvin, fewer than two different ones, constants made by different conventions
 */
export function vanTHoff(
	steps: readonly TemperatureStep[],
	options: { readonly name?: string; readonly confidence?: number } = {},
): VanTHoff {
	const { name = "", confidence = 0.95 } = options;
	const conventions = [...new Set(steps.map((s) => s.constant.convention))];
	throwProblems([
		...temperatureProblems(steps.map((s) => s.kelvin)),
		...(new Set(steps.map((s) => s.kelvin)).size >= 2
			? []
			: [
					problem(
						"one-temperature-only",
						{},
						`${new Set(steps.map((s) => s.kelvin)).size} temperature`,
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
						`constants made dimensionless as ${conventions.join(" and ")}`,
						"one convention for all temperatures",
						"Make all of them in the same way.",
					),
				]),
	]);
	const inverse = steps.map((s) => 1 / s.kelvin);
	const centre = inverse.reduce((a, b) => a + b, 0) / inverse.length;
	const x = inverse.map((t) => t - centre);
	const y = steps.map((s) => Math.log(s.constant.value));
	const fitAt = (slope: number): LinkedLine =>
		linkedLine(
			x,
			y,
			steps.map((s) =>
				Math.hypot(s.ownError, (slope * (s.kelvinError ?? 0)) / s.kelvin ** 2),
			),
			effectsOf(steps),
			steps.map((s) => s.ownDegreesOfFreedom ?? Number.POSITIVE_INFINITY),
		);
	// The error of a temperature moves ln K by the slope, which the first line gives well enough.
	const line = fitAt(fitAt(0).slope);
	const perKilojoule = gasConstant / 1000;
	return {
		kind: "van 't Hoff",
		name,
		convention: conventions[0],
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
		...(line.probability < 0.05
			? [
					`The constants scatter about the line more than their own errors explain (chance ${line.probability < 0.001 ? "below 0.001" : line.probability.toFixed(3)}): the intervals are from the scatter; another cause (equilibrium not reached, temperature not held, an enthalpy that changes) is at work.`,
				]
			: []),
		"The entropy and the Gibbs energy belong to the convention by which K was made dimensionless; compare them only with values made in the same way.",
		"An enthalpy from an isotherm's constant is as good as the isotherm: if its form is wrong, so is its constant. It describes equilibria between these temperatures; it does not say how the solute is held.",
	];
}

export interface AffinityOptions {
	/** Name of the parameter that is the constant; "K_L" if not given. */
	readonly parameter?: string;
	readonly convention?: Convention;
	/** g/mol of the solute. */
	readonly molarMass?: number;
	readonly kelvinError?: number;
}

/**
 * The steps of a temperature series from one fit for each temperature: the constant with its own error from the scatter, and the inputs that the fits share by their keys.
 *
 * @throws ProblemError as `dimensionless` and `vanTHoff`, and for a parameter that a fit does not have or does not determine
 */
export function temperatureSteps(
	series: readonly { readonly kelvin: number; readonly fit: IsothermFit }[],
	options: AffinityOptions = {},
): TemperatureStep[] {
	const { parameter = "K_L", convention = "affinity", molarMass } = options;
	throwProblems([
		...temperatureProblems(series.map((s) => s.kelvin)),
		...series.flatMap(({ fit }) => {
			const p = fit.parameters.find((e) => e.name === parameter);
			return p === undefined
				? [
						problem(
							"no-such-parameter",
							{},
							`${fit.isotherm.name}${ofTreatment(fit)} without a parameter "${parameter}"`,
							`one of ${fit.parameters.map((e) => e.name).join(", ")}`,
							"Fit the isotherm whose constant is meant, the same at all temperatures.",
						),
					]
				: p.scatter.is === "not known" || !(p.value > 0)
					? [
							problem(
								"constant-not-determined",
								{},
								`${parameter} = ${inDigits(p.value, 3)}${ofTreatment(fit)} ${p.scatter.is === "not known" ? `(${p.scatter.because})` : ""}`,
								"a constant above 0 with an error of its own",
								"Add flasks whose residues show the rise of the isotherm.",
							),
						]
					: [];
		}),
	]);
	return series.map(({ kelvin, fit }) => {
		const j = fit.parameters.findIndex((e) => e.name === parameter);
		const p = fit.parameters[j];
		return {
			kelvin,
			kelvinError: options.kelvinError ?? 0,
			constant: dimensionless({
				value: p.value,
				unit: p.unit,
				convention,
				...(molarMass === undefined ? {} : { molarMass }),
			}),
			ownError: numberOf(p.scatter) / p.value,
			ownDegreesOfFreedom: fit.degreesOfFreedom,
			shared: fit.sharedShifts.map((s) => ({
				key: s.key,
				what: s.what,
				effect: s.effect[j] / p.value,
			})),
		};
	});
}

function numberOf(k: MaybeKnown<number>): number {
	return k.is === "value" ? k.value : 0;
}

/** Enthalpy, entropy and Gibbs energies with their intervals. */
export function vanTHoffTable(v: VanTHoff): Table {
	const row = (what: string, unit: string, q: LineValue): string[] => [
		what,
		unit,
		...valueTextsOf(q),
	];
	return table(
		`van 't Hoff${v.name === "" ? "" : `, ${v.name}`}`,
		["what", "unit", "value", "standard error", "from", "to"],
		[
			row("enthalpy", "kJ/mol", v.enthalpy),
			row("entropy (of this convention)", "J/(mol K)", v.entropy),
			...v.gibbs.map((g, i) =>
				row(
					`Gibbs energy at ${Number(v.steps[i].kelvin.toFixed(2))} K (of this convention)`,
					"kJ/mol",
					g,
				),
			),
		],
		[
			`${v.made}.`,
			`Intervals: ${Number((100 * v.confidence).toFixed(2))} %, errors from ${v.line.errorsFrom}, and what all temperatures share.`,
			...v.cautions,
		],
	);
}

/** Enthalpy and entropy in a sentence each, for the head of a page. */
export function vanTHoffSentences(v: VanTHoff): string[] {
	const text = (what: string, unit: string, q: LineValue): string => {
		const [value, , low, high] = valueTextsOf(q);
		return q.standardError.is === "not known"
			? `${what}: ${value} ${unit}, without an interval: ${q.standardError.because}.`
			: `${what}: ${value} ${unit} (${Number((100 * v.confidence).toFixed(2))} % interval ${low} to ${high}).`;
	};
	const lowest = Math.min(...v.steps.map((s) => s.kelvin));
	const highest = Math.max(...v.steps.map((s) => s.kelvin));
	const { low, high } = v.enthalpy;
	const sure = low.is === "value" && high.is === "value";
	return [
		text(
			`Enthalpy of adsorption between ${Number(lowest.toFixed(1))} and ${Number(highest.toFixed(1))} K`,
			"kJ/mol",
			v.enthalpy,
		),
		sure && high.value < 0
			? "It is negative: heat is given off, and the char holds less where it is warmer."
			: sure && low.value > 0
				? "It is positive: heat is taken up, and the char holds more where it is warmer."
				: "Its sign is not settled by these data: whether the char holds more or less where it is warmer cannot be told.",
		text(
			`Entropy, for the constant made dimensionless as ${v.made}`,
			"J/(mol K)",
			v.entropy,
		),
	];
}

/** The constants behind the line. */
export function constantTable(v: VanTHoff): Table {
	return table(
		"Constants at each temperature",
		[
			"temperature (K)",
			"K, dimensionless",
			"own standard error (%)",
			"shared with the other temperatures (%)",
			"ln K",
			"ln K on the line",
		],
		v.steps.map((s, i) => {
			const y = Math.log(s.constant.value);
			return [
				String(Number(s.kelvin.toFixed(2))),
				String(Number(s.constant.value.toPrecision(4))),
				(100 * s.ownError).toFixed(1),
				(
					100 * Math.sqrt(s.shared.reduce((sum, e) => sum + e.effect ** 2, 0))
				).toFixed(1),
				y.toFixed(3),
				(y - v.line.residuals[i]).toFixed(3),
			];
		}),
		[`${v.made}.`],
	);
}

function ofTreatment(fit: IsothermFit): string {
	return fit.points.name === "" ? "" : ` of "${fit.points.name}"`;
}
