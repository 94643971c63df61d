import {
	exact,
	exactRatio,
	input,
	type Quantity,
	scaled,
} from "../../kernel-lib/quantity";
import { solutionDensity } from "../../kernel-lib/solutions/densities";
import {
	concentrationFromMassFraction,
	dilute,
	waterDensity,
} from "../../kernel-lib/solutions/public";
import { normalityOf } from "../../kernel-lib/solutions/redox";
import {
	aliquotConcentration,
	titrantConcentration,
} from "../../kernel-lib/solutions/standardisation";
import { type Check, referenceData } from "../reference/check";

type ByTemperature = Readonly<Record<string, number>>;

const data = referenceData<{
	concentrations: readonly {
		solute: string;
		percent: number;
		density_g_mL: number;
		mol_per_L: number;
	}[];
	dilution: {
		stock_mol_per_L: number;
		wanted_mol_per_L: number;
		volume_mL: number;
		stock_mL: number;
	};
	aliquotStandardisation: { thiosulfate_N: number; iodine_N: number };
}>("solutions.json");

const { waterDensity: waterData } = referenceData<{
	waterDensity: Record<"tanaka2001" | "kell1975", ByTemperature> & {
		remembered: Record<"tanaka" | "kell", ByTemperature>;
	};
}>("uncertainty.json");

const volume = (x: number): Quantity<"volume"> =>
	input("volume", x, "mL", exact, {});
const molar = (x: number): Quantity<"concentration"> =>
	input("concentration", x, "mol/L", exact, {});
const percent = (x: number): Quantity<"ratio"> =>
	input("ratio", x, "%", exact, {});

const papers = {
	Tanaka: "Tanaka et al., Metrologia 38 (2001) 301",
	Kell: "Kell, J. Chem. Eng. Data 20 (1975) 97",
} as const;

function density(by: "Tanaka" | "Kell", t: string): number {
	return waterDensity(input("temperature", Number(t), "°C", exact, {}), by).in(
		"kg/m3",
	);
}

const water: Check[] = (["Tanaka", "Kell"] as const).flatMap((by) => [
	...Object.entries(
		waterData.remembered[by === "Kell" ? "kell" : "tanaka"],
	).map(
		([t, expected]): Check => ({
			what: `density of water at ${t} °C, ${by}, printed digits`,
			source: papers[by],
			provenance: "from memory",
			expected,
			got: () => density(by, t),
			// Half a unit in the fourth decimal.
			tolerance: 5e-5 / expected,
			unit: "kg/m3",
		}),
	),
	...Object.entries(waterData[by === "Kell" ? "kell1975" : "tanaka2001"]).map(
		([t, expected]): Check => ({
			what: `density of water at ${t} °C, ${by}, all digits`,
			source: `${papers[by]}; computed with numpy from coefficients that are from memory`,
			provenance: "computed with a general library",
			expected,
			got: () => density(by, t),
			tolerance: 1e-12,
			unit: "kg/m3",
		}),
	),
]);

const concentrations: Check[] = data.concentrations.map((c) => ({
	what: `${c.percent} % ${c.solute}, density ${c.density_g_mL} g/mL: concentration`,
	source: "c = w ρ / M; density from memory of the CRC Handbook",
	provenance: "from memory",
	expected: c.mol_per_L,
	got: () =>
		concentrationFromMassFraction(
			c.solute,
			percent(c.percent),
			input("density", c.density_g_mL, "g/mL", exact, {}),
		).in("mol/L"),
	tolerance: 1e-9,
	unit: "mol/L",
}));

const densities: Check[] = data.concentrations
	.filter((c) => c.solute !== "HCl")
	.map((c) => ({
		what: `density of ${c.percent} % ${c.solute} from the table`,
		source:
			"density from memory of the CRC Handbook, at 20 to 25 °C, within 0.003 g/mL",
		provenance: "from memory",
		expected: c.density_g_mL,
		got: () => solutionDensity(c.solute, percent(c.percent)).in("g/mL"),
		tolerance: 0.003 / c.density_g_mL,
		unit: "g/mL",
	}));

function standardised(): { thiosulfate: number; iodine: number } {
	// 25.0 mL of 0.1000 N iodate, titre 25.05 mL; then 25.0 mL of iodine, titre 25.15 mL.
	const thiosulfate = titrantConcentration(
		"sodium thiosulfate",
		"potassium iodate",
		scaled(molar(0.1), 1 / 6),
		volume(25),
		volume(25.05),
	);
	const iodine = aliquotConcentration(
		"iodine",
		"sodium thiosulfate",
		thiosulfate,
		volume(25),
		volume(25.15),
	);
	return {
		thiosulfate: normalityOf(thiosulfate, "sodium thiosulfate").in("N"),
		iodine: normalityOf(iodine, "iodine").in("N"),
	};
}

const standardisation = {
	source:
		"ASTM D4607, standardisation N1 = P R / S, N2 = S N1 / I; from memory, arithmetic by hand",
	provenance: "from memory" as const,
	tolerance: 1e-9,
	unit: "N",
};

export const solutionChecks: Check[] = [
	...water,
	...concentrations,
	...densities,
	{
		...standardisation,
		what: "thiosulfate against an aliquot of iodate",
		expected: data.aliquotStandardisation.thiosulfate_N,
		got: () => standardised().thiosulfate,
	},
	{
		...standardisation,
		what: "iodine against that thiosulfate",
		expected: data.aliquotStandardisation.iodine_N,
		got: () => standardised().iodine,
	},
	{
		what: "dilution, V1 = c2 V2 / c1",
		source: "exact arithmetic",
		provenance: "common practice, no source",
		expected: data.dilution.stock_mL,
		got: () => {
			const e = data.dilution;
			const { portions } = dilute(
				"K2CO3",
				molar(e.stock_mol_per_L),
				molar(e.wanted_mol_per_L),
				volume(e.volume_mL),
			);
			return (portions[0].amount as Quantity<"volume">).in("mL");
		},
		tolerance: 1e-9,
		unit: "mL",
	},
	{
		what: "ratio of the masses of CaCl2·2H2O and CaCl2",
		source: "abridged standard atomic weights 2021 (IUPAC), 147.008/110.978",
		provenance: "from memory",
		expected: 147.008 / 110.978,
		got: () =>
			exactRatio(1).value *
			(concentrationFromMassFraction(
				"CaCl2",
				percent(10),
				input("density", 1, "g/mL", exact, {}),
			).value /
				concentrationFromMassFraction(
					"CaCl2·2H2O",
					percent(10),
					input("density", 1, "g/mL", exact, {}),
				).value),
		tolerance: 1e-6,
		unit: "",
	},
];
