// The demo isotherms (invented) through the whole chain, once for all tests of the figures made from them.
import { readRun } from "../../kernel-lib/bench/index";
import {
	fitIsotherm,
	freundlich,
	isothermPoints,
	langmuir,
} from "../../kernel-lib/curves/index";
import { reagentBlanks, residues } from "../../kernel-lib/residue/index";
import { concentrations } from "../../kernel-lib/solutions/index";
import {
	iodineNumbers,
	recoveries,
	uptakes,
} from "../../kernel-lib/uptake/index";

function residuesOf(sheet: string) {
	const run = readRun(`data/demo-isotherm/${sheet}.csv`);
	const titrants = concentrations(run);
	return {
		titrants,
		found: residues(run, titrants, reagentBlanks(run)),
	};
}

const isotherm = residuesOf("isotherm");
export const treatments = isothermPoints(
	uptakes(isotherm.found, isotherm.titrants, recoveries(isotherm.found)),
);
export const langmuirFits = treatments.map((t) => fitIsotherm(langmuir, t));
export const freundlichFits = treatments.map((t) => fitIsotherm(freundlich, t));

export const numbers = iodineNumbers(residuesOf("iodine-number").found);
export const benchScale = iodineNumbers(residuesOf("bench-scale").found);
