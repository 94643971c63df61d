import {
	exact,
	exactRatio,
	input,
	scaled,
	times,
} from "../../kernel-lib/quantity";
import { molarityOf } from "../../kernel-lib/solutions/redox";
import {
	titrantConcentration,
	weighedConcentration,
} from "../../kernel-lib/solutions/standardisation";
import { molarMass } from "../../kernel-lib/substances";
import { lossOf } from "../../kernel-lib/uptake";
import { charRow, steps } from "../uptake/sheets";
import { type Check, referenceData } from "./check";

const data = referenceData<{
	source: string;
	iodateStandardisation: Record<string, number>;
	backTitration: Record<string, number>;
	iodateSolution_g_per_L_0_1N: number;
	thiosulfatePentahydrate_g_per_L_0_1N: number;
	iodine_g_per_L_0_1N: number;
	dropHides: { mass_mg: number };
	lossSharing: Record<string, number>;
}>("iodometry.json");

const common = {
	source: data.source,
	provenance: "from memory" as const,
};

function gramsPerLitre(formula: string, substance: string): number {
	const normality = input("normality", 0.1, "N", exact, {});
	return times(molarityOf(normality, substance), molarMass(formula)).in("g/L");
}

/** The uptake of the blank-titre example through the whole chain: sheet, titration, mass balance. */
export function backTitration(): number {
	const e = data.backTitration;
	const iodine = (e.thiosulfate_mol_per_L * e.blankTitre_mL) / 2 / e.aliquot_mL;
	const { uptakes } = steps(
		[
			{
				flask: "a",
				treatment: "control",
				"char mass (g)": e.char_g,
				"dose (mL)": e.liquid_mL,
				"aliquot (mL)": e.aliquot_mL,
				"titre (mL)": e.titre_mL,
			},
		],
		[
			{
				solution: "iodine",
				substance: "iodine",
				"concentration (mol/L)": iodine,
				counts: "I2",
			},
			{
				solution: "thiosulfate",
				substance: "sodium thiosulfate",
				"concentration (mol/L)": e.thiosulfate_mol_per_L,
			},
		],
	);
	return uptakes[0].computedUptake.in("mg/g");
}

/** What a titre of zero hides in the small trial's own volumes: the dose less the bound, mg. */
function hidden(): number {
	const { uptakes } = steps([charRow("a", { "titre (mL)": 0 })]);
	return (
		uptakes[0].balance.added.in("mg") -
		uptakes[0].uptake.quantity.in("mg/g") * uptakes[0].charMass.in("g")
	);
}

/** Share of the dose taken up by the default rule for losses, as a position between the two extremes: it must lie inside. */
function lossShare(): number {
	const e = data.lossSharing;
	const dosed = input("amount", 1, "mmol", exact, {});
	const left = scaled(dosed, e.leftShare);
	const lost = lossOf(dosed, left, exactRatio(e.recovery)).in("mmol");
	const uptake = 1 - e.leftShare - lost;
	return uptake > e.fromDosed && uptake < e.fromLeft ? 1 : 0;
}

export const iodometryChecks: Check[] = [
	{
		...common,
		what: "thiosulfate against weighed iodate, 6 m/(M V)",
		expected: data.iodateStandardisation.thiosulfate_mol_per_L,
		got: () => {
			// all of the weighed iodate, dissolved in any volume, is titrated
			const volume = input("volume", 25, "mL", exact, {});
			return titrantConcentration(
				"sodium thiosulfate",
				"potassium iodate",
				weighedConcentration(
					"KIO3",
					input("mass", data.iodateStandardisation.iodate_g, "g", exact, {}),
					exactRatio(1),
					volume,
				),
				volume,
				input("volume", data.iodateStandardisation.titre_mL, "mL", exact, {}),
			).in("mol/L");
		},
		tolerance: 1e-9,
		unit: "mol/L",
	},
	{
		...common,
		what: "uptake by difference of two titres, through the whole chain",
		expected: data.backTitration.uptake_mg_per_g,
		got: backTitration,
		tolerance: 1e-9,
		unit: "mg/g",
	},
	{
		...common,
		what: "potassium iodate in a litre of 0.1 N",
		expected: data.iodateSolution_g_per_L_0_1N,
		got: () => gramsPerLitre("KIO3", "potassium iodate"),
		tolerance: 1e-9,
		unit: "g/L",
	},
	{
		...common,
		what: "thiosulfate pentahydrate in a litre of 0.1 N",
		expected: data.thiosulfatePentahydrate_g_per_L_0_1N,
		got: () => gramsPerLitre("Na2S2O3.5H2O", "sodium thiosulfate"),
		tolerance: 1e-9,
		unit: "g/L",
	},
	{
		...common,
		what: "iodine in a litre of 0.1 N",
		expected: data.iodine_g_per_L_0_1N,
		got: () => gramsPerLitre("I2", "iodine"),
		tolerance: 1e-9,
		unit: "g/L",
	},
	{
		source: "a drop of 0.05 mL of 0.1 N thiosulfate on 25 of 100 mL",
		provenance: "common practice, no source",
		what: "iodine that a titre of zero can hide",
		expected: data.dropHides.mass_mg,
		got: hidden,
		tolerance: 1e-9,
		unit: "mg",
	},
	{
		source: "exact arithmetic of the two extremes, 0.9 - 0.1 and 1 - 0.1/0.9",
		provenance: "common practice, no source",
		what: "recovery 0.90, a tenth left: the uptake lies between the extremes 0.800 and 0.889 of the dose (1: yes)",
		expected: 1,
		got: lossShare,
		tolerance: 0,
		unit: "",
	},
];
