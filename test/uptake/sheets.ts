import * as bench from "../../kernel-lib/bench";
import * as residue from "../../kernel-lib/residue";
import * as solutions from "../../kernel-lib/solutions";
import * as uptake from "../../kernel-lib/uptake";

export type Row = Record<string, string | number>;

/** Solutions of plain known strength, for tests of the arithmetic: iodine 0.05 mol/L I2, thiosulfate 0.1 mol/L. */
export const plainSolutions: Row[] = [
	{
		solution: "iodine",
		substance: "iodine",
		"concentration (mol/L)": 0.05,
		counts: "I2",
	},
	{
		solution: "thiosulfate",
		substance: "sodium thiosulfate",
		"concentration (mol/L)": 0.1,
	},
];

export interface Steps {
	readonly trial: ReturnType<typeof bench.trialFromRows>;
	readonly found: readonly residue.TitratedResidue[];
	readonly uptakes: uptake.Uptakes;
	readonly recoveries: ReturnType<typeof uptake.recoveries>;
	readonly titrants: ReturnType<typeof solutions.concentrations>;
}

/** The calls of the notebook, one after the other. */
export function steps(
	flasks: Row[],
	solutionRows: Row[] = plainSolutions,
	more: {
		deviations?: Row[];
		glassware?: Row[];
		activation?: Row[];
	} = {},
): Steps {
	const trial = bench.trialFromRows({
		flasks,
		solutions: solutionRows,
		...more,
	});
	return {
		trial,
		found: residue.residues(trial).filter((r) => r.is === "titrated"),
		recoveries: uptake.recoveries(trial),
		titrants: solutions.concentrations(trial),
		uptakes: uptake.uptakes(trial),
	};
}

/** A char flask with sensible numbers; override what the test is about. */
export function charRow(name: string, change: Row = {}): Row {
	return {
		flask: name,
		treatment: "control",
		"char mass (g)": 1,
		"dose (mL)": 40,
		"made up to (mL)": 100,
		"char in when made up": "no",
		"aliquot (mL)": 25,
		"titre (mL)": 5,
		...change,
	};
}
