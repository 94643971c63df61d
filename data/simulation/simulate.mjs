// @ts-check

import { titreOf } from "./forward-model.mjs";
import { generator } from "./generator.mjs";
import { runTrial } from "./trial.mjs";

/**
 * One run of a design: the rows of a bench sheet as somebody would type them, and the truth behind them. The same design and seed give the same rows.
 *
 * @typedef {import("./plan.mjs").Row} Row
 * @param {import("./plan.mjs").Design} design one of designs.json, completed by `designsOf`
 * @param {number} seed
 * @returns {import("./plan.mjs").SimulatedRun}
 */
export function simulate(design, seed) {
	const { records, standards, truth } = runTrial(
		design,
		generator(`design ${design.name}, run ${seed}`),
	);
	return {
		flasks: records.map((jar) => flaskRow(jar, design.bench)),
		solutions: solutionRows(design.bench, standards),
		deviations: [],
		glassware: design.glassware,
		truth,
	};
}

/**
 * The designs of designs.json, each with the common bench and glassware and its own changes to them.
 * @param {any} file the parsed file
 * @returns {import("./plan.mjs").Design[]}
 */
export function designsOf(file) {
	return file.designs.map((/** @type {any} */ design) => ({
		...design,
		bench: {
			...file.bench,
			...design.bench,
			spreads: { ...file.bench.spreads, ...design.bench?.spreads },
		},
		glassware: file.glassware.map(
			(/** @type {any} */ g) => design.glassware?.[g.piece] ?? g,
		),
	}));
}

/** @param {number} value @param {number} digits */
const rounded = (value, digits) => Number(value.toFixed(digits));

/** @param {number | null | undefined} value @param {number} digits @returns {number | ""} "" where there is nothing to write */
const cell = (value, digits) =>
	value === null || value === undefined ? "" : rounded(value, digits);

/**
 * A jar as a row. Every row has the same columns in the same order, for the order of doses and withdrawals is that of the columns; an empty cell is "".
 * @param {import("./trial.mjs").JarRecord} jar @param {import("./plan.mjs").Bench} bench
 * @returns {Row}
 */
function flaskRow(jar, bench) {
	const [first, second] = jar.doses;
	const checked = second !== undefined;
	const leachate = jar.contents === "leachate";
	const char = jar.contents === "char";
	const [titre1, titre2] = jar.readings.map(titreOf);
	return {
		flask: jar.name,
		contents: jar.contents,
		treatment: jar.planned?.treatment ?? "",
		control: char ? (jar.planned?.control ?? "") : "",
		soak: jar.soak,
		"soaked in": jar.planned?.soakedIn ?? "",
		"soak consumes iodine": jar.planned?.consumesIodine ?? "",
		replicate: jar.replicate,
		day: jar.day,
		"char mass (g)": cell(jar.charMass, 3),
		"moisture, wet basis (%)": cell(jar.moisture, 1),
		"leachate (mL)": leachate ? bench.leachate.volume : "",
		"leachate taken (mL)": leachate ? bench.leachate.taken : "",
		"dose 1 (mL)": cell(first, 1),
		"withdrawn 1 (mL)": checked ? bench.drawnToCheck : "",
		"withdrawn 1 titre (mL)": checked ? 0 : "",
		"dose 2 (mL)": cell(second, 1),
		"made up to (mL)": cell(jar.madeUp, 1),
		"char in when made up": char ? "yes" : "",
		"aliquot (mL)": cell(jar.aliquot, 1),
		"titre 1 (mL)": cell(titre1, 2),
		"titre 2 (mL)": cell(titre2, 2),
		acidified: "yes",
		"final pH": jar.planned?.finalPH ?? "",
		"first runnings discarded": jar.doses.length > 0 ? "yes" : "",
		"blue returned": char ? "no" : "",
		lid: "yes",
	};
}

/**
 * Solutions whose strengths are merely stated.
 * @param {{ iodine: number, thiosulfate: number, statedUncertainty: number }} bench
 * @returns {Row[]}
 */
export const statedSolutions = (bench) => [
	{
		solution: "iodine",
		substance: "iodine",
		"concentration (mol/L)": bench.iodine,
		counts: "I2",
		"uncertainty (%)": bench.statedUncertainty,
	},
	{
		solution: "thiosulfate",
		substance: "sodium thiosulfate",
		"concentration (mol/L)": bench.thiosulfate,
		"uncertainty (%)": bench.statedUncertainty,
	},
];

/**
 * @param {import("./plan.mjs").Bench} bench
 * @param {ReturnType<typeof runTrial>["standards"]} standards
 * @returns {Row[]}
 */
export function solutionRows(bench, standards) {
	if (standards === null) return statedSolutions(bench);
	const blank = rounded(titreOf(standards.blank), 2);
	/** @param {import("./forward-model.mjs").Reading[]} readings */
	const titres = (readings) =>
		Object.fromEntries(
			readings.map((r, i) => [`titre ${i + 1} (mL)`, rounded(titreOf(r), 2)]),
		);
	return [
		{
			solution: "iodate",
			substance: "potassium iodate",
			"weighed (g)": rounded(standards.weighed, 3),
			"purity (%)": 99.8,
			"made up to (mL)": 250,
		},
		{
			solution: "thiosulfate",
			substance: "sodium thiosulfate",
			"standardised against": "iodate",
			"aliquot (mL)": 10,
			...titres(standards.thiosulfate),
			"blank titre (mL)": blank,
		},
		{
			solution: "iodine",
			substance: "iodine",
			"standardised against": "thiosulfate",
			"aliquot (mL)": 10,
			...titres(standards.iodine),
			"blank titre (mL)": blank,
		},
	];
}
