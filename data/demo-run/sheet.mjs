// @ts-check
/** What the scripts that make demo sheets have in common: how cells, solutions, glassware and truths are written down. */
import { solutionRows } from "../simulation/simulate.mjs";
import { csvOf } from "./csv.mjs";

/** @typedef {import("../simulation/plan.mjs").Row} Row */

/** @param {number | null | undefined} value @param {number} digits @returns {string} "" where there is nothing to write */
export const fixed = (value, digits) =>
	value === null || value === undefined ? "" : value.toFixed(digits);

/** Six digits are enough for a truth. Lists of words or numbers stay on one line, as the formatter of the repository has them. @param {unknown} truth */
export const jsonOf = (truth) =>
	`${JSON.stringify(
		truth,
		(_, value) =>
			typeof value === "number" ? Number(value.toPrecision(6)) : value,
		"\t",
	).replace(
		/\[\s+([^[\]{}]*?)\s+\]/g,
		(_, members) => `[${members.replace(/,\s+/g, ", ")}]`,
	)}\n`;

/**
 * The solutions as somebody wrote them down: nominal strength, and what was found.
 * @param {any} bench @param {any} standards
 * @param {{ date: string, notes?: Record<string, string> }} written date of the standardisation; notes by solution, "invented" where there is none
 */
export const solutionsCsv = (bench, standards, { date, notes = {} }) => {
	const nominal = new Map([
		["thiosulfate", bench.thiosulfate],
		["iodine", bench.iodine],
	]);
	return csvOf(
		solutionRows(bench, standards).map((row) => {
			const name = String(row.solution);
			return {
				solution: name,
				substance: row.substance,
				"concentration (mol/L)": nominal.get(name) ?? "",
				counts: name === "iodine" ? "I2" : "",
				"standardised against": row["standardised against"] ?? "",
				"weighed (g)": row["weighed (g)"] ?? "",
				"purity (%)": row["purity (%)"] ?? "",
				"made up to (mL)": row["made up to (mL)"] ?? "",
				"aliquot (mL)": row["aliquot (mL)"] ?? "",
				"titre 1 (mL)": row["titre 1 (mL)"] ?? "",
				"titre 2 (mL)": row["titre 2 (mL)"] ?? "",
				"titre 3 (mL)": row["titre 3 (mL)"] ?? "",
				"blank titre (mL)": row["blank titre (mL)"] ?? "",
				"standardised on": nominal.has(name) ? date : "",
				notes: notes[name] ?? "invented",
			};
		}),
	);
};

/** @param {Row[]} pieces */
export const glasswareCsv = (pieces) =>
	csvOf(
		pieces.map((g) => ({
			piece: g.piece,
			"used for": g["used for"],
			"size (mL)": g["size (mL)"] ?? "",
			class: g.class ?? "",
			"tolerance (mL)": g["tolerance (mL)"] ?? "",
			"division (mL)": g["division (mL)"] ?? "",
			"tolerance (g)": g["tolerance (g)"] ?? "",
			"readability (g)": g["readability (g)"] ?? "",
		})),
	);
