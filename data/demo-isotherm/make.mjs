// @ts-check
/** Makes the sheets and their truth from scenario.json: `node data/demo-isotherm/make.mjs`. The same files come out byte for byte. */
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { csvOf } from "../demo-run/csv.mjs";
import {
	fixed,
	glasswareCsv,
	jsonOf,
	solutionsCsv,
} from "../demo-run/sheet.mjs";
import { titreOf } from "../simulation/forward-model.mjs";
import { generator } from "../simulation/generator.mjs";
import { runIsothermTrial, uptakeOf } from "../simulation/isotherm-trial.mjs";

const scenario = JSON.parse(
	readFileSync(new URL("scenario.json", import.meta.url), "utf8"),
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
			[`${name}.solutions.csv`]: solutionsCsv(bench, standards, plan),
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
		"truth.json": jsonOf(truth),
	};
}

if (import.meta.url === pathToFileURL(process.argv[1]).href)
	for (const [name, text] of Object.entries(files()))
		writeFileSync(new URL(name, import.meta.url), text);
