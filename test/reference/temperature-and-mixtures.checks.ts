import { freundlich, langmuir, sips } from "../../kernel-lib/isotherms/index";
import { idealAdsorbedSolution } from "../../kernel-lib/mixtures/ideal-adsorbed-solution";
import type { MaybeKnown } from "../../kernel-lib/quantity";
import {
	dimensionless,
	type VanTHoff,
	vanTHoff,
} from "../../kernel-lib/temperature/index";
import { type Check, referenceData } from "./check";

const data = referenceData<{
	vanTHoff: {
		source: string;
		molarMass: number;
		kelvin: readonly number[];
		K_L_L_mg: readonly number[];
		enthalpy: number;
		enthalpyError: number;
		entropy: number;
		entropyError: number;
		enthalpyLow: number;
		enthalpyHigh: number;
	};
	idealAdsorbedSolution: {
		source: string;
		cases: readonly {
			solutes: readonly {
				form: "Langmuir" | "Freundlich" | "Sips";
				parameters: readonly number[];
				molarMass: number;
			}[];
			residues: readonly number[];
			uptakes: readonly number[];
			spreading: number;
		}[];
	};
}>("dose.json");

const forms = { Langmuir: langmuir, Freundlich: freundlich, Sips: sips };
const number = (k: MaybeKnown<number>): number =>
	k.is === "value" ? k.value : Number.NaN;
const provenance = "computed with a general library" as const;

/** Constants without errors of their own: ordinary least squares. */
function series(): VanTHoff {
	const { kelvin, K_L_L_mg, molarMass } = data.vanTHoff;
	return vanTHoff(
		kelvin.map((t, i) => ({
			kelvin: t,
			constant: dimensionless({
				value: K_L_L_mg[i],
				unit: "L/mg",
				convention: "affinity",
				molarMass,
			}),
			ownError: 0,
			shared: [],
		})),
	);
}

export const temperatureChecks: Check[] = (
	[
		["enthalpy", "kJ/mol", (v) => v.enthalpy.value],
		["enthalpyError", "kJ/mol", (v) => number(v.enthalpy.standardError)],
		["enthalpyLow", "kJ/mol", (v) => number(v.enthalpy.low)],
		["enthalpyHigh", "kJ/mol", (v) => number(v.enthalpy.high)],
		["entropy", "J/(mol K)", (v) => v.entropy.value],
		["entropyError", "J/(mol K)", (v) => number(v.entropy.standardError)],
	] as const satisfies readonly (readonly [
		string,
		string,
		(v: VanTHoff) => number,
	])[]
).map(([what, unit, read]) => ({
	what: `van 't Hoff, five temperatures: ${what}`,
	source: data.vanTHoff.source,
	provenance,
	expected: data.vanTHoff[what],
	got: () => read(series()),
	tolerance: 1e-8,
	unit,
}));

export const mixtureChecks: Check[] = data.idealAdsorbedSolution.cases.flatMap(
	(c) => {
		const found = () =>
			idealAdsorbedSolution(
				c.solutes.map((s) => ({
					isotherm: forms[s.form],
					theta: Float64Array.from(s.parameters),
					molarMass: s.molarMass,
				})),
				c.residues,
			);
		const about = {
			source: data.idealAdsorbedSolution.source,
			provenance,
			tolerance: 1e-7,
		};
		const names = c.solutes.map((s) => s.form).join(" beside ");
		return [
			...c.uptakes.map(
				(expected, i): Check => ({
					...about,
					what: `ideal adsorbed solution, ${names}: uptake of solute ${i + 1}`,
					expected,
					got: () => found().uptakes[i],
					unit: "mg/g",
				}),
			),
			{
				...about,
				what: `ideal adsorbed solution, ${names}: spreading pressure over RT`,
				expected: c.spreading,
				got: () => found().spreading,
				unit: "mmol/g",
			},
		];
	},
);
