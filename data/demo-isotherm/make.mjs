// @ts-check
/** Makes the sheets and their truth from scenario.json: `node data/demo-isotherm/make.mjs`. The same files come out byte for byte. */
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { csvOf } from "../demo-run/csv.mjs";
import { titreOf } from "../simulation/forward-model.mjs";
import { generator } from "../simulation/generator.mjs";
import { runIsothermTrial, uptakeOf } from "../simulation/isotherm-trial.mjs";
import { solutionRows } from "../simulation/simulate.mjs";

/** @typedef {import("../simulation/plan.mjs").Row} Row */

const scenario = JSON.parse(
	readFileSync(new URL("scenario.json", import.meta.url), "utf8"),
);

/** @param {number | null | undefined} value @param {number} digits */
const fixed = (value, digits) =>
	value === null || value === undefined ? "" : value.toFixed(digits);

/** @param {any} bench @param {any} standards @param {string} date */
const solutionsCsv = (bench, standards, date) =>
	csvOf(
		solutionRows(bench, standards).map((row) => {
			const nominal =
				row.solution === "iodine"
					? bench.iodine
					: row.solution === "thiosulfate"
						? bench.thiosulfate
						: "";
			return {
				solution: row.solution,
				substance: row.substance,
				"concentration (mol/L)": nominal,
				counts: row.solution === "iodine" ? "I2" : "",
				"standardised against": row["standardised against"] ?? "",
				"weighed (g)": row["weighed (g)"] ?? "",
				"purity (%)": row["purity (%)"] ?? "",
				"made up to (mL)": row["made up to (mL)"] ?? "",
				"aliquot (mL)": row["aliquot (mL)"] ?? "",
				"titre 1 (mL)": row["titre 1 (mL)"] ?? "",
				"titre 2 (mL)": row["titre 2 (mL)"] ?? "",
				"titre 3 (mL)": row["titre 3 (mL)"] ?? "",
				"blank titre (mL)": row["blank titre (mL)"] ?? "",
				"standardised on": nominal === "" ? "" : date,
				notes: "invented",
			};
		}),
	);

/** @param {Row[]} pieces */
const glasswareCsv = (pieces) =>
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

/**
 * One sheet with its sister files and what is true behind it.
 * @param {string} name @param {any} plan
 */
function sheet(name, plan) {
	const { bench } = plan;
	const { records, treatmentOf, standards, truth } = runIsothermTrial(
		plan,
		generator(plan.seed),
	);
	const controls = new Map(
		plan.chars.map((/** @type {any} */ c) => [c.name, c.control]),
	);
	const withAcid = plan.chars.some((/** @type {any} */ c) =>
		c.flasks.some((/** @type {any} */ f) => f.acid !== undefined),
	);
	const rows = records.map((r, i) => {
		const char = r.contents === "char";
		const treatment = treatmentOf.get(r.flask) ?? "";
		const dosed = r.dose !== null;
		return {
			flask: r.flask,
			contents: r.contents,
			sample: char ? "hazelnut shell" : "",
			"char batch": char ? "kiln 3" : "",
			treatment,
			control: controls.get(treatment) ?? "",
			day: plan.date,
			"char mass (g)": fixed(r.charMass, 3),
			"mass basis": char ? "dry" : "",
			...(withAcid ? { "liquid added (mL)": r.planned?.acid ?? "" } : {}),
			"dose (mL)": r.dose ?? "",
			...(withAcid
				? {}
				: {
						"made up to (mL)": dosed ? bench.madeUp : "",
						"char in when made up": char ? "yes" : "",
					}),
			"aliquot (mL)": dosed ? bench.aliquot : "",
			"titre 1 (mL)": fixed(titreOf(r.readings[0]), 2),
			...(bench.titrations > 1
				? {
						"titre 2 (mL)":
							r.readings[1] === undefined
								? ""
								: fixed(titreOf(r.readings[1]), 2),
					}
				: {}),
			acidified: "yes",
			"first runnings discarded": char ? "yes" : "",
			...(plan.record === undefined
				? {}
				: Object.fromEntries(
						Object.entries(plan.record).map(([k, v]) => [k, char ? v : ""]),
					)),
			lid: dosed ? "yes" : "",
			notes: i === 0 ? "invented, like every row of this sheet" : "",
		};
	});
	return {
		files: {
			[`${name}.csv`]: csvOf(rows),
			[`${name}.solutions.csv`]: solutionsCsv(bench, standards, plan.date),
			[`${name}.glassware.csv`]: glasswareCsv(plan.glassware),
		},
		truth: {
			...truth,
			chars: plan.chars.map((/** @type {any} */ c) => ({
				name: c.name,
				isotherm: c.isotherm,
				...(plan.residue === undefined
					? {}
					: {
							uptakeAt: {
								residue: plan.residue,
								uptake: uptakeOf(c.isotherm)(plan.residue),
							},
						}),
			})),
		},
	};
}

/** Every file that this script makes, by name. @returns {Record<string, string>} */
export function files() {
	const isotherm = sheet("isotherm", scenario.isotherm);
	const number = sheet("iodine-number", scenario.iodineNumber);
	const bench = sheet("bench-scale", scenario.benchScale);
	const truth = {
		invented: scenario.invented,
		madeFrom: "scenario.json",
		isotherm: isotherm.truth,
		iodineNumber: number.truth,
		benchScale: bench.truth,
	};
	return {
		...isotherm.files,
		...number.files,
		...bench.files,
		"truth.json": `${JSON.stringify(
			truth,
			(_, v) => (typeof v === "number" ? Number(v.toPrecision(6)) : v),
			"\t",
		)}\n`,
	};
}

if (import.meta.url === pathToFileURL(process.argv[1]).href)
	for (const [name, text] of Object.entries(files()))
		writeFileSync(new URL(name, import.meta.url), text);
