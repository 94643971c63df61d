// @ts-check
/** Trials of several chars with many doses each, whose isotherms are known: what a comparison at a stated residue says of them can be held against the truth. */
import { titreOf } from "./forward-model.mjs";
import { generator } from "./generator.mjs";
import { runIsothermTrial, uptakeOf } from "./isotherm-trial.mjs";
import { solutionRows } from "./simulate.mjs";

/**
 * @typedef {import("./isotherm-trial.mjs").TrueIsotherm} TrueIsotherm
 * @typedef {import("./isotherm-trial.mjs").PlannedFlask} PlannedFlask
 * @typedef {import("./plan.mjs").Row} Row
 * @typedef {{ name: string, prefix: string, control: string, isotherm: TrueIsotherm, flasks: PlannedFlask[] }} PlannedChar
 * @typedef {{ words: string[], share: number }} Asked
 * @typedef {{ name: string, about: string, residue: number, margin: number, bench: any, glassware: Row[], chars: PlannedChar[], asked: Record<string, Asked> }} ResidueDesign
 */

/** The designs of residue-designs.json, each with the common bench and its own changes to it. @param {any} file @returns {ResidueDesign[]} */
export const residueDesignsOf = (file) =>
	file.designs.map((/** @type {any} */ design) => ({
		asked: {},
		...design,
		bench: { ...file.bench, ...design.bench },
		glassware: file.glassware,
	}));

/** @param {number} value @param {number} digits */
const rounded = (value, digits) => Number(value.toFixed(digits));

/**
 * One run of a design: rows of a bench sheet as somebody would type them, and the true differences at the stated residue. The same design and seed give the same rows.
 * @param {ResidueDesign} design @param {number} seed
 * @returns {{ flasks: Row[], solutions: Row[], deviations: Row[], glassware: Row[], truth: { treatment: string, difference: number }[] }}
 */
export function simulateAtResidue(design, seed) {
	const { bench, chars, residue } = design;
	const { records, treatmentOf, standards } = runIsothermTrial(
		design,
		generator(`${design.name} at a stated residue, run ${seed}`),
	);
	const controlOf = new Map(chars.map((c) => [c.name, c.control]));
	const uptakes = new Map(
		chars.map((c) => [c.name, uptakeOf(c.isotherm)(residue)]),
	);
	return {
		flasks: records.map((r) => {
			const treatment = treatmentOf.get(r.flask) ?? "";
			const dosed = r.dose !== null;
			return {
				flask: r.flask,
				contents: r.contents,
				treatment,
				control: controlOf.get(treatment) ?? "",
				"char mass (g)": r.charMass === null ? "" : rounded(r.charMass, 3),
				"dose (mL)": r.dose ?? "",
				"made up to (mL)": dosed ? bench.madeUp : "",
				"aliquot (mL)": dosed ? bench.aliquot : "",
				"titre (mL)": rounded(titreOf(r.readings[0]), 2),
				acidified: "yes",
				lid: dosed ? "yes" : "",
			};
		}),
		solutions: solutionRows(bench, standards),
		deviations: [],
		glassware: design.glassware,
		truth: chars
			.filter((c) => c.control !== "")
			.map((c) => ({
				treatment: c.name,
				difference: (uptakes.get(c.name) ?? 0) - (uptakes.get(c.control) ?? 0),
			})),
	};
}
