import {
	drying,
	type FittedWashout,
	firingYields,
	rinsesNeeded,
	washout,
} from "../../kernel-lib/activation/index";
import { pHOf } from "../../kernel-lib/activation/washout-model";
import type { Firing, TypedRow } from "../../kernel-lib/bench/index";
import { exact, input, type MaybeKnown } from "../../kernel-lib/quantity/index";
import { firingOf } from "../activation/firings";
import { type Check, referenceData } from "./check";

const data = referenceData<{
	source: string;
	yield: { precursor_g: number; char_g: number; expected_percent: number };
	burnOff: { char_g: number; activated_g: number; expected_percent: number };
	totalYield: { carbonisation: number; activation: number; expected: number };
	impregnation: {
		precursor_moist_g: number;
		moisture_wet_percent: number;
		ratio: number;
		strength_percent: number;
		density_g_per_mL: number;
		expected_dry_g: number;
		expected_agent_g: number;
		solution_g: number;
		solution_mL: number;
	};
	fixedCarbonYield: {
		precursor_g: number;
		char_g: number;
		ash_percent: number;
		volatile_percent: number;
		feedAsh_percent: number;
		expected_percent: number;
	};
	washout: {
		note: string;
		retained_mL: number;
		rinse_mL: number;
		after: readonly number[];
		rinsesTo: readonly { g_per_L: number; rinses: number }[];
	};
	strongAlkali: {
		note: string;
		cases: readonly { excess_mol_per_L: number; pH: number }[];
	};
	fits: {
		source: string;
		washout: {
			volumes_mL: readonly number[];
			conductivity_uS_per_cm: readonly number[];
			water_uS_per_cm: number;
			retained_mL: number;
			low_mL: number;
			high_mL: number;
		};
		drying: {
			hours: readonly number[];
			mass_g: readonly number[];
			final_g: number;
			rate_per_h: number;
			profileLow_g: number;
			profileHigh_g: number;
		};
	};
}>("activation-yields.json");

function firing(row: TypedRow): Firing {
	return firingOf({ firing: "A", ...row }, [
		{
			piece: "balance",
			"used for": "activation",
			"readability (g)": 0.0001,
			"tolerance (g)": 0.0001,
		},
	]);
}

type Figure = Exclude<
	keyof ReturnType<typeof firingYields>,
	"firing" | "dryPrecursor" | "dryProduct" | "agentPerPrecursor"
>;

function ratio(row: TypedRow, figure: Figure, unit: "%" | "1"): number {
	const found = firingYields(firing(row))[figure];
	if (found.is === "not known") throw new Error(found.because);
	return found.quantity.in(unit);
}

const bySolution = data.impregnation;
const soak: TypedRow = {
	"precursor mass (g)": bySolution.precursor_moist_g,
	"precursor moisture, wet basis (%)": bySolution.moisture_wet_percent,
	agent: "H3PO4",
};

const common = {
	source: data.source,
	provenance: "common practice, no source",
	tolerance: 1e-9,
} as const;

const definitions: Check[] = [
	{
		...common,
		what: "char yield of 13.85 g from 46 g",
		expected: data.yield.expected_percent,
		got: () =>
			ratio(
				{
					"precursor mass (g)": data.yield.precursor_g,
					"product mass (g)": data.yield.char_g,
				},
				"charYield",
				"%",
			),
		unit: "%",
	},
	{
		...common,
		what: "burn-off of a char from 20 g to 13.1 g",
		expected: data.burnOff.expected_percent,
		got: () =>
			ratio(
				{
					precursor: "char",
					"precursor mass (g)": data.burnOff.char_g,
					"product mass (g)": data.burnOff.activated_g,
				},
				"burnOff",
				"%",
			),
		unit: "%",
	},
	{
		...common,
		what: "total yield of charring at 0.32 and activating at 0.655",
		expected: data.totalYield.expected,
		got: () =>
			ratio(
				{
					"precursor mass (g)": 100,
					"charred mass (g)": 100 * data.totalYield.carbonisation,
					"product mass (g)":
						100 * data.totalYield.carbonisation * data.totalYield.activation,
				},
				"charYield",
				"1",
			),
		unit: "",
	},
	{
		...common,
		what: "impregnation ratio by mass of solution",
		expected: bySolution.ratio,
		got: () =>
			ratio(
				{
					...soak,
					"agent solution mass (g)": bySolution.solution_g,
					"agent strength (% w/w)": bySolution.strength_percent,
				},
				"impregnationRatio",
				"1",
			),
		unit: "",
	},
	{
		...common,
		what: "impregnation ratio by volume of solution, with its density",
		expected: bySolution.ratio,
		got: () =>
			ratio(
				{
					...soak,
					"agent solution volume (mL)": bySolution.solution_mL,
					"agent strength (g/L)":
						10 * bySolution.strength_percent * bySolution.density_g_per_mL,
				},
				"impregnationRatio",
				"1",
			),
		unit: "",
	},
	{
		...common,
		what: "dry mass behind that ratio",
		expected: bySolution.expected_dry_g,
		got: () => firingYields(firing(soak)).dryPrecursor.in("g"),
		unit: "g",
	},
	{
		source: "Antal and Grønli 2003 (definition; the numbers are arithmetic)",
		provenance: "from memory",
		tolerance: 1e-9,
		what: "fixed-carbon yield",
		expected: data.fixedCarbonYield.expected_percent,
		got: () =>
			ratio(
				{
					"precursor mass (g)": data.fixedCarbonYield.precursor_g,
					"product mass (g)": data.fixedCarbonYield.char_g,
					"precursor ash (%)": data.fixedCarbonYield.feedAsh_percent,
					"product ash (%)": data.fixedCarbonYield.ash_percent,
					"product volatile matter (%)": data.fixedCarbonYield.volatile_percent,
				},
				"fixedCarbonYield",
				"%",
			),
		unit: "%",
	},
];

function fitted(row: TypedRow): FittedWashout {
	const washed = washout(firing({ "precursor mass (g)": 40, ...row }));
	if (washed.is === "not known") throw new Error(washed.because);
	return washed;
}

/** Rinses of known strength as conductivities at 1000 µS/cm per g/L in water that conducts nothing. */
const mixed = data.washout;
const mixedRow: TypedRow = {
	"rinse water conductivity (µS/cm)": 0,
	...Object.fromEntries(
		mixed.after.flatMap((c, i): [string, number][] => [
			[`rinse ${i + 1} (mL)`, mixed.rinse_mL],
			[`rinse ${i + 1} conductivity (µS/cm)`, 1000 * c],
		]),
	),
};

const washing: Check[] = [
	{
		source: mixed.note,
		provenance: "common practice, no source",
		tolerance: 1e-6,
		what: "liquor retained, from four exact rinses",
		expected: mixed.retained_mL,
		got: () => fitted(mixedRow).retained,
		unit: "mL",
	},
	...mixed.rinsesTo.map(
		({ g_per_L, rinses }): Check => ({
			source: mixed.note,
			provenance: "common practice, no source",
			tolerance: 0,
			what: `rinses to ${g_per_L} g/L`,
			expected: rinses,
			got: () => {
				const needed = rinsesNeeded(
					fitted(mixedRow),
					input("conductivity", 1000 * g_per_L, "µS/cm", exact, {}),
				);
				return needed.is === "foretold" ? needed.total : Number.NaN;
			},
			unit: "",
		}),
	),
	...data.strongAlkali.cases.map(
		({ excess_mol_per_L, pH }): Check => ({
			source: data.strongAlkali.note,
			provenance: "common practice, no source",
			tolerance: 1e-12,
			what: `pH at ${excess_mol_per_L} mol/L of hydroxide beyond hydrogen ions`,
			expected: pH,
			got: () => pHOf(excess_mol_per_L),
			unit: "",
		}),
	),
];

const rinsed = data.fits.washout;
const rinsedRow: TypedRow = {
	"rinse water conductivity (µS/cm)": rinsed.water_uS_per_cm,
	...Object.fromEntries(
		rinsed.volumes_mL.flatMap((v, i): [string, number][] => [
			[`rinse ${i + 1} (mL)`, v],
			[`rinse ${i + 1} conductivity (µS/cm)`, rinsed.conductivity_uS_per_cm[i]],
		]),
	),
};
const oven = data.fits.drying;
const ovenRow: TypedRow = {
	"precursor mass (g)": 40,
	...Object.fromEntries(
		oven.hours.flatMap((h, i): [string, number][] => [
			[`drying ${i + 1} time (h)`, h],
			[`drying ${i + 1} mass (g)`, oven.mass_g[i]],
		]),
	),
};
function dryingCurve(): Extract<
	ReturnType<typeof drying>["curve"],
	{ is: "fitted" }
> {
	const { curve } = drying(firing(ovenRow));
	if (curve.is === "not known") throw new Error(curve.because);
	return curve;
}

const numberOf = (end: MaybeKnown<number>): number =>
	end.is === "value" ? end.value : Number.NaN;

const byScipy = {
	source: data.fits.source,
	provenance: "computed with a general library",
	// Both minimisers stop a little short of the minimum.
	tolerance: 1e-8,
} as const;
const fits: Check[] = [
	{
		...byScipy,
		what: "liquor retained, from rinses with scatter",
		expected: rinsed.retained_mL,
		got: () => fitted(rinsedRow).retained,
		unit: "mL",
	},
	{
		...byScipy,
		what: "lower 95 % end of it",
		expected: rinsed.low_mL,
		got: () => fitted(rinsedRow).retainedInterval.low,
		unit: "mL",
	},
	{
		...byScipy,
		what: "upper 95 % end of it",
		expected: rinsed.high_mL,
		got: () => numberOf(fitted(rinsedRow).retainedInterval.high),
		unit: "mL",
	},
	{
		...byScipy,
		what: "final mass of a drying",
		expected: oven.final_g,
		got: () => dryingCurve().finalMass,
		unit: "g",
	},
	{
		...byScipy,
		what: "rate of that drying",
		expected: oven.rate_per_h,
		got: () => dryingCurve().rate,
		unit: "1/h",
	},
	{
		...byScipy,
		what: "lower 95 % end of the final mass (profile)",
		expected: oven.profileLow_g,
		got: () => numberOf(dryingCurve().finalMassInterval.low),
		unit: "g",
	},
	{
		...byScipy,
		what: "upper 95 % end of the final mass (profile)",
		expected: oven.profileHigh_g,
		got: () => numberOf(dryingCurve().finalMassInterval.high),
		unit: "g",
	},
];

/** Yields, burn-off, ratios; washing and drying. */
export const activationChecks: Check[] = [...definitions, ...washing, ...fits];
