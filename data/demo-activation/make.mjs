// @ts-check
/** Makes the sheets and their truth from scenario.json: `node data/demo-activation/make.mjs`. The same files come out byte for byte. */
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { csvOf } from "../demo-run/csv.mjs";
import { jsonOf } from "../demo-run/sheet.mjs";
import { generator } from "../simulation/generator.mjs";

const scenario = JSON.parse(
	readFileSync(new URL("scenario.json", import.meta.url), "utf8"),
);

/** @param {number} value @param {number} decimals */
const fixed = (value, decimals) => Number(value.toFixed(decimals));

/** First dissociation constant of phosphoric acid, from memory. */
const phosphoric = 10 ** -2.15;
const molarMassOfAcid = 97.99;

/** @param {number} gramsPerLitre @returns {number} pH of phosphoric acid, second step left out */
function pHOfAcid(gramsPerLitre) {
	const c = gramsPerLitre / molarMassOfAcid;
	const acid =
		(-phosphoric + Math.sqrt(phosphoric ** 2 + 4 * phosphoric * c)) / 2;
	// Water's own hydrogen ions: [H] - [OH] = acid.
	return -Math.log10((acid + Math.sqrt(acid ** 2 + 4e-14)) / 2);
}

/** What is dissolved in each rinse, g/L: each mixes wholly with what the char retains. @param {any} run */
function strengths(run) {
	const { retained, volumes } = run.washing;
	let strength = (1000 * run.agentFired) / retained;
	return volumes.map((/** @type {number} */ v) => {
		strength *= retained / (retained + v);
		return strength;
	});
}

/** What is true of one run. @param {any} run */
function truthOf(run) {
	const dry = run.mass * (1 - (run.moisture ?? 0));
	const washed = run.washing
		? strengths(run).reduce(
				(
					/** @type {number} */ sum,
					/** @type {number} */ c,
					/** @type {number} */ i,
				) => sum + (c * run.washing.volumes[i]) / 1000,
				0,
			)
		: 0;
	const product = run.fired - washed - (run.fines ?? 0) - (run.splash ?? 0);
	return {
		name: run.name,
		dryPrecursor: dry,
		washedOut: washed,
		splashed: run.splash ?? 0,
		product,
		charYield: product / dry,
		...(run.precursor.startsWith("char") ? { burnOff: 1 - product / dry } : {}),
		...(run.solution
			? {
					impregnationRatio: (run.solution.mass * run.solution.strength) / dry,
				}
			: {}),
		...(run.washing
			? {
					retained: run.washing.retained,
					agentLeft: run.agentFired - washed,
				}
			: {}),
	};
}

const heads = {
	temperature: "temperature (°C)",
	rate: "rate (°C/min)",
	hold: "hold (min)",
	atmosphere: "atmosphere",
	steam: "steam (g/min)",
};

/** One row of the activation table. @param {any} run @param {import("../simulation/generator.mjs").Generator} chance @param {number} calibration */
function rowOf(run, chance, calibration) {
	const { balance, water, reference, readingErrors } = scenario;
	const truth = truthOf(run);
	/** @param {number | undefined} grams @param {number} [off] part of the balance's error that another weighing takes away */
	const weighed = (grams, off = 1) =>
		grams === undefined
			? ""
			: fixed(
					grams +
						off * calibration +
						balance.readability * (chance.uniform() - 0.5),
					2,
				);
	const conductive = run.washing && run.agent === "K2CO3";
	const percent = (/** @type {number | undefined} */ x) =>
		x === undefined ? "" : fixed(100 * x, 2);
	/** @type {Record<string, string | number>} */
	const row = {
		"activation run": run.name,
		precursor: run.precursor,
		"precursor batch": run.precursorBatch,
		"precursor size": run.size,
		"precursor mass (g)": weighed(run.mass),
		"precursor moisture, wet basis (%)": percent(run.moisture ?? 0),
		"precursor ash (%)": percent(run.ash),
		agent: run.agent ?? "none",
		"agent solution mass (g)": weighed(run.solution?.mass),
		"agent strength (% w/w)": percent(run.solution?.strength),
		"soak time (h)": run.soak?.hours ?? "",
		"soak temperature (°C)": run.soak?.temperature ?? "",
		"impregnated mass (g)": weighed(run.impregnated),
	};
	for (let i = 0; i < 2; i++)
		for (const [key, head] of Object.entries(heads))
			row[`step ${i + 1} ${head}`] = run.programme[i]?.[key] ?? "";
	row["fired mass (g)"] = weighed(run.fired);
	row["condensate (g)"] = weighed(run.condensate);
	const dissolved = run.washing ? strengths(run) : [];
	for (let i = 0; i < 7; i++) {
		const c = dissolved[i];
		const diluted = run.washing?.diluted?.[i] ?? 1;
		row[`rinse ${i + 1} (mL)`] = run.washing?.volumes[i] ?? "";
		row[`rinse ${i + 1} pH`] =
			run.washing?.readFrom !== undefined && i + 1 >= run.washing.readFrom
				? fixed(pHOfAcid(c) + chance.normal(readingErrors.pH), 2)
				: "";
		row[`rinse ${i + 1} conductivity (µS/cm)`] =
			conductive && c !== undefined
				? Number(
						(
							(water.conductivity + (reference.conducts * c) / diluted) *
							(1 + chance.normal(readingErrors.conductivity))
						).toPrecision(3),
					)
				: "";
		row[`rinse ${i + 1} diluted`] =
			conductive && c !== undefined && diluted > 1 ? diluted : "";
	}
	Object.assign(row, {
		"rinse water conductivity (µS/cm)": conductive ? water.conductivity : "",
		"rinse water pH": run.washing ? water.pH : "",
		"reference strength (g/L)": conductive ? reference.strength : "",
		"reference conductivity (µS/cm)": conductive
			? water.conductivity + reference.strength * reference.conducts
			: "",
		"fines caught (g)": weighed(run.fines),
		"dish mass (g)": weighed(run.drying?.dish),
	});
	for (let i = 0; i < 6; i++) {
		const hours = run.drying?.hours[i];
		row[`drying ${i + 1} time (h)`] = hours ?? "";
		row[`drying ${i + 1} mass (g)`] =
			hours === undefined
				? ""
				: weighed(
						run.drying.dish +
							truth.product +
							run.drying.water * Math.exp(-run.drying.perHour * hours),
					);
	}
	return {
		...row,
		// Weighed in its dish, which is taken off: the balance's own error goes with it.
		"product mass (g)": run.driedOn ? weighed(truth.product, 0) : "",
		"product ash (%)": percent(run.productAsh),
		"product volatile matter (%)": percent(run.productVolatile),
		"energy used (kWh)": run.energy,
		"fired on": scenario.date,
		notes: "invented, like every row of this sheet",
	};
}

const iodineMolarMass = 253.809;

/** Residual iodine, mg/L, at which what was dosed is on the char, in solution or lost. @param {number} at1000 @param {number} mass */
function residueOf(at1000, mass) {
	const { dose, madeUp, iodine, lost, slope } = scenario.flasks;
	const dosed = dose * iodine * iodineMolarMass;
	let [low, high] = [0, (1000 * dosed) / madeUp];
	for (let i = 0; i < 80; i++) {
		const c = (low + high) / 2;
		const held =
			at1000 * (c / 1000) ** slope * mass + ((c * madeUp) / 1000) * (1 + lost);
		if (held > dosed) high = c;
		else low = c;
	}
	return low;
}

/** @param {import("../simulation/generator.mjs").Generator} chance */
function flasksOf(chance) {
	const f = scenario.flasks;
	const titre = (/** @type {number} */ residue) =>
		fixed(
			(2 * residue * f.aliquot) / (iodineMolarMass * 1000 * f.thiosulfate) +
				f.reagentTitre +
				chance.normal(0.02),
			2,
		);
	const wet = {
		"dose (mL)": f.dose,
		"made up to (mL)": f.madeUp,
		"char in when made up": "no",
		"aliquot (mL)": f.aliquot,
	};
	/** @type {Record<string, string | number>[]} */
	const rows = [];
	/** @type {Record<string, string | number>[]} */
	const truths = [];
	const blank = (/** @type {string} */ flask, /** @type {boolean} */ iodine) =>
		rows.push({
			flask,
			contents: iodine ? "iodine blank" : "reagent blank",
			treatment: "",
			control: "",
			sample: "",
			"char batch": "",
			soak: "",
			"soak consumes iodine": "",
			day: scenario.date,
			"char mass (g)": "",
			"mass basis": "",
			...(iodine
				? { ...wet, "char in when made up": "" }
				: {
						"dose (mL)": "",
						"made up to (mL)": "",
						"char in when made up": "",
						"aliquot (mL)": "",
					}),
			"titre (mL)": titre(
				iodine
					? (f.dose * f.iodine * iodineMolarMass * 1000) /
							f.madeUp /
							(1 + f.lost)
					: 0,
			),
			acidified: "yes",
			notes: rows.length === 0 ? "invented, like every row of this sheet" : "",
		});
	blank("R1", false);
	blank("R2", false);
	blank("B1", true);
	blank("B2", true);
	f.chars.forEach((/** @type {any} */ char, /** @type {number} */ i) => {
		for (const repeat of ["a", "b"]) {
			const mass = fixed(f.mass + chance.normal(0.02), 3);
			const residue = residueOf(char.at1000, mass);
			const flask = `${i + 1}${repeat}`;
			rows.push({
				flask,
				contents: "char",
				treatment: char.treatment,
				control: i === 0 ? "" : f.chars[0].treatment,
				sample: "hazelnut shell",
				"char batch": char.batch ?? "",
				soak: char.soak ?? char.batch,
				"soak consumes iodine": "no",
				day: scenario.date,
				"char mass (g)": mass,
				"mass basis": "dry",
				...wet,
				"titre (mL)": titre(residue),
				acidified: "yes",
				notes: "",
			});
			truths.push({
				flask,
				run: char.soak ?? char.batch,
				residue,
				uptake: char.at1000 * (residue / 1000) ** f.slope,
			});
		}
	});
	return { rows, truths };
}

/** Every file that this script makes, by name. @returns {Record<string, string>} */
export function files() {
	const chance = generator(scenario.seed);
	const { balance } = scenario;
	const calibration = balance.tolerance * (2 * chance.uniform() - 1) * 0.8;
	const activation = scenario.runs.map((/** @type {any} */ run) =>
		rowOf(run, chance, calibration),
	);
	const flasks = flasksOf(chance);
	const { iodine, thiosulfate } = scenario.flasks;
	const truth = {
		invented: scenario.invented,
		madeFrom: "scenario.json",
		balanceError: calibration,
		runs: scenario.runs.map(truthOf),
		flasks: flasks.truths,
	};
	return {
		"kiln.csv": csvOf(flasks.rows),
		"kiln.solutions.csv": csvOf([
			{
				solution: "iodine",
				substance: "iodine",
				"concentration (mol/L)": iodine,
				counts: "I2",
				"uncertainty (%)": 0.2,
				notes: "invented",
			},
			{
				solution: "thiosulfate",
				substance: "sodium thiosulfate",
				"concentration (mol/L)": thiosulfate,
				counts: "",
				"uncertainty (%)": 0.2,
				notes: "invented",
			},
		]),
		"kiln.activation.csv": csvOf(activation),
		"kiln.glassware.csv": csvOf([
			{
				piece: "balance of the kiln",
				"used for": "activation",
				"size (mL)": "",
				class: "",
				"tolerance (g)": balance.tolerance,
				"readability (g)": balance.readability,
			},
			{
				piece: "measuring cylinder",
				"used for": "rinse",
				"size (mL)": 500,
				class: "A",
				"tolerance (g)": "",
				"readability (g)": "",
			},
		]),
		"truth.json": jsonOf(truth),
	};
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href)
	for (const [name, text] of Object.entries(files()))
		writeFileSync(new URL(name, import.meta.url), text);
