// The demo isotherms (invented) through the whole chain, once for all tests of the figures made from them.
import { readTrial } from "../../kernel-lib/bench/index";
import {
	fitIsotherm,
	freundlich,
	isothermPoints,
	langmuir,
} from "../../kernel-lib/isotherms/index";
import { reagentBlanks, residues } from "../../kernel-lib/residue/index";
import { concentrations } from "../../kernel-lib/solutions/index";
import {
	iodineNumbers,
	recoveries,
	uptakes,
} from "../../kernel-lib/uptake/index";

function residuesOf(sheet: string) {
	const trial = readTrial(`data/demo-isotherm/${sheet}.csv`);
	const titrants = concentrations(trial);
	return {
		titrants,
		found: residues(trial, titrants, reagentBlanks(trial)),
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
