import type { IsothermFit } from "../isotherms";
import { inDigits, molarMassOf, molarMassProblems } from "../isotherms";
import {
	type MaybeKnown,
	numberFromOption,
	type OptionRule,
	type Problem,
	problem,
	quoted,
	requireOptions,
	requireResults,
	textOption,
	throwProblems,
	wordOption,
} from "../quantity";
import {
	type Convention,
	type DimensionlessConstant,
	dimensionless,
	temperatureProblems,
} from "./constant";
import { seriesKind } from "./doors";
import type { FitAtTemperature } from "./fit-at-temperature";

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

export interface AffinityOptions {
	/** Name of the parameter that is the constant; "K_L" if not given. */
	readonly parameter?: string;
	readonly convention?: Convention;
	/** g/mol of the solute; if not given, or 0, that of the probe, where it is a substance that the library knows. */
	readonly molarMass?: number;
	readonly kelvinError?: number;
}

const stepRules: Readonly<Record<string, OptionRule>> = {
	parameter: textOption,
	convention: wordOption("affinity", "distribution"),
	molarMass: numberFromOption(0),
	kelvinError: numberFromOption(0),
};

/**
 * The steps of a temperature series from one fit for each temperature: the constant with its own error from the scatter, and the inputs that the fits share by their keys.
 *
 * @throws ProblemError as `dimensionless` and `vanTHoff`, and for a parameter that a fit does not have or does not determine
 * @example
 * const points = ["15 °C", "35 °C"].map((name) => isotherms.plainPoints(name, [10, 30, 90, 190], [50, 75, 90, 95]));
 * const fits = points.map((p) => isotherms.fitIsotherm(isotherms.langmuir, p));
 * // 0.1 L/mg at both temperatures
 * temperature.temperatureSteps(temperature.temperatureSeries(fits), { molarMass: 100 })[0].constant.value // => 10000
 */
export function temperatureSteps(
	series: readonly FitAtTemperature[],
	options: AffinityOptions = {},
): TemperatureStep[] {
	requireResults(series, seriesKind, "temperatureSteps");
	requireOptions(options, stepRules, "temperatureSteps");
	const { parameter = "K_L", convention = "affinity" } = options;
	throwProblems([
		...temperatureProblems(series.map((s) => s.kelvin)),
		...series.flatMap(({ fit }) => constantProblems(fit, parameter)),
		...series
			.slice(0, 1)
			.flatMap(({ fit }) => molarMassProblems(fit.points, options.molarMass)),
	]);
	return series.map(({ kelvin, fit }) => {
		const molarMass = molarMassOf(fit.points, options.molarMass);
		const j = fit.parameters.findIndex((e) => e.name === parameter);
		const p = fit.parameters[j];
		return {
			kelvin,
			kelvinError: options.kelvinError ?? 0,
			constant: dimensionless({
				value: p.value,
				unit: p.unit,
				convention,
				...(molarMass > 0 ? { molarMass } : {}),
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

/** What keeps a parameter of a fit from being the constant. */
function constantProblems(fit: IsothermFit, parameter: string): Problem[] {
	const p = fit.parameters.find((e) => e.name === parameter);
	if (p === undefined)
		return [
			problem(
				"no-such-parameter",
				{},
				`${fit.isotherm.name}${ofTreatment(fit)} without a parameter "${parameter}"`,
				`one of ${fit.parameters.map((e) => e.name).join(", ")}`,
				"Fit the isotherm whose constant is meant, the same at all temperatures.",
			),
		];
	return p.scatter.is === "not known" || !(p.value > 0)
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
}

function numberOf(k: MaybeKnown<number>): number {
	return k.is === "value" ? k.value : 0;
}

function ofTreatment(fit: IsothermFit): string {
	return fit.points.name === "" ? "" : ` of ${quoted(fit.points.name)}`;
}
