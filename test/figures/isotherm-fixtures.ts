// The demo isotherms (invented) through the whole chain, once for all tests of the figures made from them.
import { readTrial, type Trial } from "../../kernel-lib/bench/index";
import {
	fitIsotherm,
	freundlich,
	isothermPoints,
	langmuir,
} from "../../kernel-lib/isotherms/index";
import { iodineNumbers } from "../../kernel-lib/uptake/index";

const demo = (sheet: string): Trial =>
	readTrial(`data/demo-isotherm/${sheet}.csv`);

export const treatments = isothermPoints(demo("isotherm"));
export const langmuirFits = treatments.map((t) => fitIsotherm(langmuir, t));
export const freundlichFits = treatments.map((t) => fitIsotherm(freundlich, t));

export const numbers = iodineNumbers(demo("iodine-number"));
export const benchScale = iodineNumbers(demo("bench-scale"));
