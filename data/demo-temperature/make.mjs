// @ts-check
/** Makes the sheet and its truth from scenario.json: `node data/demo-temperature/make.mjs`. The same files come out byte for byte. */
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { csvOf } from "../demo-run/csv.mjs";
import { generator } from "../simulation/generator.mjs";
import { jsonOf } from "../simulation/json.mjs";
import {
	flaskRows,
	runWaterTrial,
	waterGlassware,
	waterSolutions,
} from "../simulation/water-trial.mjs";

const scenario = JSON.parse(
	readFileSync(new URL("scenario.json", import.meta.url), "utf8"),
);
const { bench } = scenario;
/** J/(mol K), exact since 2019. */
const gasConstant = 8.314462618;
/** The temperature that the others are compared with. */
const control = "25 °C";

/** Affinity in L/mg: exp(dS/R - dH/(R T)) is K in L/mol times 1 mol/L. @param {number} celsius */
function affinity(celsius) {
	const t = celsius + 273.15;
	const k = Math.exp(
		scenario.entropy_J_mol_K / gasConstant -
			(1000 * scenario.enthalpy_kJ_mol) / (gasConstant * t),
	);
	return k / (1000 * scenario.molarMass);
}

/** Every file that this script makes, by name. @returns {Record<string, string>} */
export function files() {
	const chars = scenario.celsius.map((/** @type {number} */ celsius) => ({
		name: `${celsius} °C`,
		prefix: `T${celsius}-`,
		isotherm: {
			form: /** @type {const} */ ("Langmuir"),
			parameters: [scenario.plateau_mg_g, affinity(celsius)],
		},
		masses: scenario.masses,
	}));
	const trial = runWaterTrial(bench, chars, generator(scenario.seed));
	const rows = flaskRows(bench, trial.records).map((r, i) => {
		const char = r.contents === "char";
		return {
			...r,
			control: char && r.treatment !== control ? control : "",
			sample: char ? "hazelnut shell, fired twice" : "",
			"char batch": char ? "kiln 3" : "",
			day: scenario.date,
			"first runnings discarded": char ? "yes" : "",
			lid: char ? "yes" : "",
			notes: i === 0 ? "invented, like every row of this sheet" : "",
		};
	});
	return {
		"four-temperatures.csv": csvOf(rows),
		"four-temperatures.solutions.csv": csvOf(
			waterSolutions(bench, trial, 100 * bench.thiosulfateSpread).map((r) => ({
				...r,
				notes: "invented",
			})),
		),
		"four-temperatures.glassware.csv": csvOf(waterGlassware(bench)),
		"truth.json": jsonOf({
			invented: scenario.invented,
			madeFrom: "scenario.json",
			enthalpy_kJ_mol: scenario.enthalpy_kJ_mol,
			entropy_J_mol_K: scenario.entropy_J_mol_K,
			isotherms: chars.map((/** @type {any} */ c) => ({
				name: c.name,
				isotherm: c.isotherm,
			})),
			jars: trial.truth,
		}),
	};
}

if (import.meta.url === pathToFileURL(process.argv[1]).href)
	for (const [name, text] of Object.entries(files()))
		writeFileSync(new URL(name, import.meta.url), text);
