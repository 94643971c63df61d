import { molarMass } from "../../kernel-lib/substances";
import { type Check, referenceData } from "./check";

interface MolarMasses {
	readonly source: string;
	readonly tolerance_g_per_mol: number;
	readonly formulas: readonly {
		readonly formula: string;
		readonly molarMass_g_per_mol: number;
	}[];
}

const data = referenceData<MolarMasses>("molar-masses.json");

export const molarMassChecks: Check[] = data.formulas.map((f) => ({
	what: `molar mass of ${f.formula}`,
	source: data.source,
	provenance: "from memory",
	expected: f.molarMass_g_per_mol,
	got: () => molarMass(f.formula).in("g/mol"),
	tolerance: data.tolerance_g_per_mol / f.molarMass_g_per_mol,
	unit: "g/mol",
}));
