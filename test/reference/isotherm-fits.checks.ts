import {
	type Fit,
	fit as fitModel,
	profileIntervals,
} from "../../kernel-lib/fit";
import {
	betLiquid,
	dualSiteLangmuir,
	dubininRadushkevich,
	freundlich,
	henry,
	type Isotherm,
	langmuir,
	redlichPeterson,
	sips,
	temkin,
	toth,
} from "../../kernel-lib/isotherms/index";
import { type Check, referenceData } from "./check";

interface SyntheticSet {
	readonly id: string;
	readonly paramNames: readonly string[];
	readonly x: readonly number[];
	readonly y: readonly number[];
	readonly fit: {
		readonly params: readonly number[];
		readonly se: readonly number[];
		readonly ssr: number;
		readonly aicc_K_is_p_plus_1: number;
	};
	readonly profileCI95?: {
		readonly tBased: { readonly ci: readonly (readonly [number, number])[] };
	};
}

const data = referenceData<{ sets: readonly SyntheticSet[] }>(
	"synthetic-fits.json",
);
const temperature = 298.15;

/** The sets of the reference file that the catalogue has an isotherm for; parameters stand in the same order. */
const isotherms: Readonly<Record<string, Isotherm>> = {
	"henry-1": henry,
	"langmuir-1": langmuir,
	"freundlich-1": freundlich,
	"sips-1": sips,
	"toth-1": toth,
	"redlich-peterson-1": redlichPeterson,
	"temkin-1": temkin,
	"dr-one-over-c-1": dubininRadushkevich(temperature, {
		form: "one over C",
		molarMass: 0.001,
	}),
	"dr-polanyi-1": dubininRadushkevich(temperature, {
		form: "solubility",
		solubility: 1300,
	}),
	"dual-site-langmuir-1": dualSiteLangmuir,
	"bet-liquid-1": betLiquid(250),
};

const fits = new Map<string, Fit>();
/** Fitted without start values: the catalogue makes its own. */
function fitted(set: SyntheticSet): Fit {
	const known = fits.get(set.id);
	if (known !== undefined) return known;
	const made = fitModel(isotherms[set.id].model, { x: set.x, y: set.y });
	fits.set(set.id, made);
	return made;
}

export const isothermFitChecks: Check[] = data.sets
	.filter((set) => Object.hasOwn(isotherms, set.id))
	.flatMap((set): Check[] => {
		const common = {
			source:
				"synthetic set fitted with SciPy; data/reference/synthetic-fits.json",
			provenance: "computed with a general library" as const,
			unit: "",
		};
		const profile = set.profileCI95?.tBased.ci ?? [];
		return [
			...set.fit.params.map((expected, j) => ({
				...common,
				what: `${set.id}: ${set.paramNames[j]}`,
				expected,
				got: () => fitted(set).theta[j],
				tolerance: 1e-6,
			})),
			...set.fit.se.map((expected, j) => ({
				...common,
				what: `${set.id}: standard error of ${set.paramNames[j]}`,
				expected,
				got: () => {
					const e = fitted(set).parameters[j].standardError;
					return e.is === "value" ? e.value : Number.NaN;
				},
				tolerance: 1e-5,
			})),
			{
				...common,
				what: `${set.id}: residual sum of squares`,
				expected: set.fit.ssr,
				got: () => fitted(set).residualSumOfSquares,
				tolerance: 1e-8,
			},
			...profile.flatMap((ends, j) =>
				(["low", "high"] as const).map((end, k) => ({
					...common,
					what: `${set.id}: profile interval of ${set.paramNames[j]}, ${end} end`,
					expected: ends[k],
					got: () => {
						const { interval } = profileIntervals(fitted(set), {
							rule: "F",
						})[j];
						const limit =
							interval.is === "value" ? interval.value[end] : undefined;
						return limit?.kind === "closed" ? limit.value : Number.NaN;
					},
					tolerance: 1e-5,
				})),
			),
		];
	});
