// @ts-check
/** Makes the demo sheets and their truths from scenario.json and small-trials.json: `node data/demo-run/make.mjs`. The same files come out byte for byte. */
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { titreOf } from "../simulation/forward-model.mjs";
import { generator } from "../simulation/generator.mjs";
import { solutionRows } from "../simulation/simulate.mjs";
import { runTrial } from "../simulation/trial.mjs";
import { csvOf } from "./csv.mjs";
import { naiveAnswer } from "./naive.mjs";
import { fixed, glasswareCsv, jsonOf, solutionsCsv } from "./sheet.mjs";

/**
 * @typedef {import("../simulation/plan.mjs").Row} Row
 * @typedef {import("../simulation/trial.mjs").JarRecord} JarRecord
 */

/** @param {string} name */
const readJson = (name) =>
	JSON.parse(readFileSync(new URL(name, import.meta.url), "utf8"));

/** @param {number} minutes after midnight */
const clock = (minutes) =>
	[Math.floor(minutes / 60), minutes % 60]
		.map((n) => String(n).padStart(2, "0"))
		.join(":");

/** @param {string} date @param {number} days */
const later = (date, days) =>
	new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000)
		.toISOString()
		.slice(0, 10);

const lids = ["blue", "red", "white", "green"];

/**
 * A jar as the workshop wrote it down. `turn` counts the jars of its day: they were dosed four minutes apart and titrated eight minutes apart on the next day.
 * @param {JarRecord} jar @param {any} scenario @param {number} turn
 * @returns {Row}
 */
function hazelnutRow(jar, scenario, turn) {
	const { bench, dates, notes } = scenario;
	const date = dates[jar.day];
	const char = jar.contents === "char";
	const leachate = jar.contents === "leachate";
	const dosed = jar.doses.length > 0;
	const checked = jar.doses.length > 1;
	const yes = (/** @type {boolean} */ told) => (told ? "yes" : "");
	return {
		flask: jar.name,
		contents: jar.contents,
		sample: char || leachate ? "hazelnut shell" : "",
		"char batch": char || leachate ? "kiln 3" : "",
		treatment: jar.planned?.treatment ?? "",
		control: char ? (jar.planned?.control ?? "") : "",
		soak: jar.soak,
		"soaked in": jar.planned?.soakedIn ?? "",
		"soak consumes iodine": jar.planned?.consumesIodine ?? "",
		replicate: jar.replicate,
		day: jar.day,
		"char mass (g)": fixed(jar.charMass, 3),
		"moisture, wet basis (%)": fixed(jar.moisture, 1),
		"liquor retained (mL)": fixed(jar.liquorRetained, 2),
		"leachate (mL)": leachate ? bench.leachate.volume : "",
		"leachate taken (mL)": leachate ? bench.leachate.taken : "",
		"dose 1 (mL)": jar.doses[0] ?? "",
		"withdrawn 1 (mL)": checked ? bench.drawnToCheck : "",
		"withdrawn 1 titre (mL)": checked ? "0.00" : "",
		"dose 2 (mL)": jar.doses[1] ?? "",
		"made up to (mL)": jar.madeUp ?? "",
		"char in when made up": yes(char),
		"aliquot (mL)": jar.aliquot ?? "",
		...Object.assign(
			{},
			...[0, 1].map((i) => ({
				[`burette start ${i + 1} (mL)`]: fixed(jar.readings[i]?.start, 2),
				[`burette end ${i + 1} (mL)`]: fixed(jar.readings[i]?.end, 2),
				[`refilled at ${i + 1} (mL)`]: fixed(jar.readings[i]?.refilledAt, 2),
				[`refilled to ${i + 1} (mL)`]: fixed(jar.readings[i]?.refilledTo, 2),
			})),
		),
		acidified: "yes",
		"final pH": fixed(jar.planned?.finalPH, 1),
		"first runnings discarded": yes(dosed),
		"blue returned": char ? "no" : "",
		lid: yes(dosed),
		"jar lid colour": dosed ? lids[turn % lids.length] : "",
		"dosed at": dosed ? `${date} ${clock(9 * 60 + 4 * turn)}` : "",
		"titrated at": `${later(date, 1)} ${clock(9 * 60 + 8 * turn)}`,
		"particle size": char ? "0.5-1 mm" : "",
		notes: notes[jar.name] ?? "",
	};
}

/** The whole demo run. */
function hazelnut() {
	const scenario = readJson("scenario.json");
	const { records, standards, truth } = runTrial(
		scenario,
		generator(scenario.seed),
	);
	const turnsOf = new Map();
	const flasks = records.map((jar) => {
		const turn = turnsOf.get(jar.day) ?? 0;
		turnsOf.set(jar.day, turn + 1);
		return hazelnutRow(jar, scenario, turn);
	});
	/** @type {any[]} */
	const planned = scenario.treatments;
	return {
		"hazelnut.csv": csvOf(flasks),
		"hazelnut.solutions.csv": solutionsCsv(scenario.bench, standards, {
			date: "2026-03-09",
			notes: {
				iodine: "invented; 2 g of potassium iodide to each gram of iodine",
			},
		}),
		"hazelnut.deviations.csv": csvOf(scenario.deviations),
		"hazelnut.glassware.csv": glasswareCsv(scenario.glassware),
		"truth.json": jsonOf({
			invented: scenario.invented,
			madeFrom: "scenario.json",
			margin: scenario.margin,
			treatments: truth.treatments.map((t, i) => ({
				...t,
				demand: planned[i].demand * 253.80894,
				right: planned[i].right,
				because: planned[i].because,
			})),
			naive: naiveAnswer(flasks),
			solutions: { iodine: truth.iodine, thiosulfate: truth.thiosulfate },
			soaks: truth.lots,
			flasks: truth.flasks,
		}),
	};
}

/** The smallest trials that people make: one jar a treatment and two of the control, no blank. */
function smallTrials() {
	const file = readJson("small-trials.json");
	/** @type {Record<string, string>} */
	const made = {};
	/** @type {Record<string, unknown>} */
	const truths = { invented: file.invented, madeFrom: "small-trials.json" };
	for (const trial of file.trials) {
		const plan = {
			bench: file.bench,
			treatments: trial.treatments.map((/** @type {any} */ t) => ({
				...file.common,
				...t,
			})),
		};
		const { records, standards, truth } = runTrial(plan, generator(trial.seed));
		made[`${trial.name}.csv`] = csvOf(
			records.map((jar, i) => ({
				flask: i + 1,
				treatment: jar.planned?.treatment ?? "",
				"char mass (g)": fixed(jar.charMass, 3),
				"dose 1 (mL)": jar.doses[0],
				"made up to (mL)": jar.madeUp ?? "",
				"aliquot (mL)": jar.aliquot ?? "",
				"titre (mL)": fixed(titreOf(jar.readings[0]), 2),
				notes: i === 0 ? "invented, like every row" : "",
			})),
		);
		made[`${trial.name}.solutions.csv`] = csvOf(
			solutionRows(plan.bench, standards).map((row) => ({
				solution: row.solution,
				substance: row.substance,
				"concentration (mol/L)": row["concentration (mol/L)"],
				counts: row.counts ?? "",
				"uncertainty (%)": row["uncertainty (%)"],
				notes: "invented",
			})),
		);
		truths[trial.name] = {
			margin: file.margin,
			treatments: truth.treatments.map((t, i) => ({
				treatment: t.treatment,
				control: t.control,
				differenceAtSameResidue: t.differenceAtSameResidue,
				right: plan.treatments[i].right,
				because: plan.treatments[i].because,
			})),
			solutions: { iodine: truth.iodine, thiosulfate: truth.thiosulfate },
			flasks: truth.flasks.map((f, i) => ({ ...f, flask: String(i + 1) })),
		};
	}
	return { ...made, "small-trials.truth.json": jsonOf(truths) };
}

/** Every file that this script makes, by name. @returns {Record<string, string>} */
export const files = () => ({ ...hazelnut(), ...smallTrials() });

if (import.meta.url === pathToFileURL(process.argv[1]).href)
	for (const [name, text] of Object.entries(files()))
		writeFileSync(new URL(name, import.meta.url), text);
