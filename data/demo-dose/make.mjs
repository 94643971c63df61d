// @ts-check
/** Makes the sheets and their truth from scenario.json: `node data/demo-dose/make.mjs`. The same files come out byte for byte. */
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { csvOf } from "../demo-run/csv.mjs";
import { generator } from "../simulation/generator.mjs";
import { jsonOf } from "../simulation/json.mjs";
import {
	flaskRows,
	runWaterTrial,
	trueDose,
	trueUptake,
	waterGlassware,
	waterSolutions,
} from "../simulation/water-trial.mjs";

const scenario = JSON.parse(
	readFileSync(new URL("scenario.json", import.meta.url), "utf8"),
);
const { bench, char, question } = scenario;

/**
 * One sheet with its sister files.
 * @param {string} name @param {{ seed: string, date: string, masses: number[] }} plan @param {number} notAdsorbable
 */
function sheet(name, plan, notAdsorbable) {
	const own = { ...bench, notAdsorbable };
	const trial = runWaterTrial(
		own,
		[
			{
				name: char.name,
				prefix: "W",
				isotherm: char.isotherm,
				masses: plan.masses,
			},
		],
		generator(plan.seed),
	);
	const rows = flaskRows(own, trial.records).map((r, i) => ({
		...r,
		sample: r.contents === "char" ? "hazelnut shell" : "",
		"char batch": r.contents === "char" ? "kiln 3" : "",
		day: plan.date,
		"first runnings discarded": r.contents === "char" ? "yes" : "",
		lid: r.contents === "char" ? "yes" : "",
		notes: i === 0 ? "invented, like every row of this sheet" : "",
	}));
	return {
		files: {
			[`${name}.csv`]: csvOf(rows),
			[`${name}.solutions.csv`]: csvOf(
				waterSolutions(own, trial, 100 * bench.thiosulfateSpread).map((r) => ({
					...r,
					notes: "invented",
				})),
			),
			[`${name}.glassware.csv`]: csvOf(waterGlassware(own)),
		},
		truth: trial.truth,
	};
}

/** The second solute alone, as a small table of residues and uptakes. */
function leafBrown() {
	const { seed, isotherm, residues, relativeSpread, molarMass } =
		scenario.leafBrown;
	const random = generator(seed);
	const q = trueUptake(isotherm);
	return residues.map((/** @type {number} */ c, /** @type {number} */ i) => ({
		solute: i === 0 ? "leaf brown" : "",
		"molar mass (g/mol)": i === 0 ? molarMass : "",
		"residue (mg/L)": c,
		"uptake (mg/g)": Number(
			(q(c) * (1 + random.normal(relativeSpread))).toFixed(1),
		),
		notes: i === 0 ? "invented, like every row of this table" : "",
	}));
}

/** Every file that this script makes, by name. @returns {Record<string, string>} */
export function files() {
	const rain = sheet("rain-barrel", scenario.rainBarrel, bench.notAdsorbable);
	const clean = sheet("distilled", scenario.distilled, 0);
	return {
		...rain.files,
		...clean.files,
		"leaf-brown.csv": csvOf(leafBrown()),
		"truth.json": jsonOf({
			invented: scenario.invented,
			madeFrom: "scenario.json",
			char,
			notAdsorbable_mg_L: bench.notAdsorbable * bench.start,
			question: {
				...question,
				dose_g_L: trueDose(
					char.isotherm,
					question.start,
					bench.notAdsorbable,
					question.target,
				),
			},
			rainBarrel: rain.truth,
			distilled: clean.truth,
		}),
	};
}

if (import.meta.url === pathToFileURL(process.argv[1]).href)
	for (const [name, text] of Object.entries(files()))
		writeFileSync(new URL(name, import.meta.url), text);
