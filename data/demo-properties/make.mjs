// @ts-check
/** Makes the table of readings and its truth from scenario.json: `node data/demo-properties/make.mjs`. The same files come out byte for byte. */
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { csvOf } from "../demo-run/csv.mjs";
import { jsonOf } from "../demo-run/sheet.mjs";
import { generator } from "../simulation/generator.mjs";

/** @typedef {import("../simulation/plan.mjs").Row} Row */
/** @typedef {import("../simulation/generator.mjs").Generator} Generator */

const scenario = JSON.parse(
	readFileSync(new URL("scenario.json", import.meta.url), "utf8"),
);

const columns = [
	"determination",
	"sample",
	"property",
	"dish (g)",
	"dish and sample (g)",
	"dish after (g)",
	"sample mass (g)",
	"dried",
	"volume (mL)",
	"extract volume (mL)",
	"aliquot volume (mL)",
	"pH",
	"retained (g)",
	...scenario.openings.flatMap(
		(/** @type {number} */ _, /** @type {number} */ i) => [
			`sieve ${i + 1} opening (mm)`,
			`sieve ${i + 1} mass (g)`,
		],
	),
	"pan (g)",
	"liquid",
	"liquid density (g/mL)",
	"floated (g)",
	"sunk (g)",
	"notes",
];

/** Normal distribution function by the series of Abramowitz and Stegun 26.2.17, good to 1e-7. @param {number} z */
function normalShare(z) {
	const t = 1 / (1 + 0.2316419 * Math.abs(z));
	const tail =
		(Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
		t *
		(0.31938153 +
			t *
				(-0.356563782 +
					t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
	return z > 0 ? 1 - tail : tail;
}

/** Inverse of it by halving. @param {number} share */
function normalPlace(share) {
	let [low, high] = [-8, 8];
	for (let i = 0; i < 80; i++) {
		const middle = (low + high) / 2;
		if (normalShare(middle) < share) low = middle;
		else high = middle;
	}
	return (low + high) / 2;
}

/** @param {any} char @param {number} opening */
const passing = (char, opening) =>
	normalShare(Math.log(opening / char.medianSize) / char.sizeSpread);
/** @param {any} char @param {number} share */
const sizeAt = (char, share) =>
	char.medianSize * Math.exp(char.sizeSpread * normalPlace(share));
/** @param {any} char @param {number} density */
const floating = (char, density) =>
	normalShare((density - char.grainDensity) / char.grainDensitySpread);

/** What is true of a char. @param {any} char */
function truthOf(char) {
	return {
		sample: char.sample,
		moisture: char.moisture,
		ash: char.ash,
		volatile: char.volatile,
		fixedCarbon: 1 - char.ash - char.volatile,
		density: char.density,
		soluble: char.soluble,
		hardness: char.hardness,
		pH: char.pH,
		effectiveSize: sizeAt(char, 0.1),
		sixtyPercentSize: sizeAt(char, 0.6),
		floated: scenario.liquids.map((/** @type {any} */ l) =>
			floating(char, l.density),
		),
	};
}

/** The readings of one char. @param {any} char @param {Generator} random @returns {Row[]} */
function rowsOf(char, random) {
	const { scatter, balances } = scenario;
	/** @param {number} mass */
	const fine = (mass) =>
		(mass + random.normal(0.4 * balances.analytical)).toFixed(4);
	/** @param {number} mass */
	const coarse = (mass) =>
		Math.max(0, mass + random.normal(0.3 * balances.bench)).toFixed(2);
	const letter = char.sample[0].toUpperCase();
	/** @type {Row[]} */
	const rows = [];
	/** @param {string} property @param {string} short @param {Row} readings @param {string} [notes] */
	const add = (property, short, readings, notes = "invented") => {
		const before = rows.filter((r) => r.property === property).length;
		rows.push({
			determination: `${letter}-${short}${before + 1}`,
			sample: char.sample,
			property,
			...readings,
			notes,
		});
	};
	/** Three weighings of a dish. @param {number} sample @param {number} left part of the sample that stays */
	const dish = (sample, left) => {
		const empty = 20 + 6 * random.uniform();
		const mass = sample * (1 + 0.03 * (2 * random.uniform() - 1));
		return {
			"dish (g)": fine(empty),
			"dish and sample (g)": fine(empty + mass),
			"dish after (g)": fine(empty + mass * left),
		};
	};
	for (const _ of [1, 2])
		add(
			"moisture",
			"M",
			dish(10, 1 - char.moisture - random.normal(scatter.moisture)),
		);
	const dry = 1 - char.moisture;
	for (const replicate of [1, 2]) {
		const early = scenario.ashTakenOutEarly;
		const grey = early.sample === char.sample && early.replicate === replicate;
		const ash =
			char.ash + random.normal(scatter.ash) + (grey ? early.tooMuch : 0);
		add(
			"total ash",
			"A",
			{ ...dish(2, ash * dry), dried: "no" },
			grey ? "invented; still grey when it was taken out" : undefined,
		);
	}
	for (const _ of [1, 2]) {
		const volatile = char.volatile + random.normal(scatter.volatile);
		add("volatile matter", "V", {
			...dish(1, 1 - char.moisture - volatile * dry),
			dried: "no",
		});
	}
	for (const _ of [1, 2])
		add("apparent density", "D", {
			"sample mass (g)": coarse(
				(100 * (char.density + random.normal(scatter.density))) / dry,
			),
			dried: "no",
			"volume (mL)": "100",
		});
	for (const _ of [1, 2]) {
		const soluble = char.soluble + random.normal(scatter.soluble);
		const empty = 40 + 5 * random.uniform();
		add("water-soluble content", "E", {
			"dish (g)": fine(empty),
			"dish after (g)": fine(empty + (10 * dry * soluble * 50) / 200),
			"sample mass (g)": coarse(10),
			dried: "no",
			"extract volume (mL)": "200",
			"aliquot volume (mL)": "50",
		});
	}
	for (const _ of [1, 2]) {
		const loaded = 50 + random.normal(0.4);
		add("ball-pan hardness", "H", {
			"sample mass (g)": coarse(loaded),
			"retained (g)": coarse(
				loaded * (char.hardness + random.normal(scatter.hardness)),
			),
		});
	}
	for (const _ of [1, 2])
		add("pH", "P", { pH: (char.pH + random.normal(scatter.pH)).toFixed(2) });
	for (const _ of [1, 2]) {
		const sample = 100 + random.normal(1);
		/** @type {number[]} */
		const openings = scenario.openings;
		const parts = [...openings, 0].map((d, i) => {
			const above = i === 0 ? 1 : passing(char, openings[i - 1]);
			const share = above - (d === 0 ? 0 : passing(char, d));
			return share * (1 + random.normal(scatter.sieve));
		});
		const whole = parts.reduce((a, b) => a + b, 0);
		const masses = parts.map(
			(p) => (sample * (1 - char.lostOnSieving) * p) / whole,
		);
		add("particle size", "S", {
			"sample mass (g)": coarse(sample),
			...Object.fromEntries(
				openings.flatMap((d, i) => [
					[`sieve ${i + 1} opening (mm)`, d],
					[
						`sieve ${i + 1} mass (g)`,
						masses[i] < balances.bench / 2 ? "0.00" : coarse(masses[i]),
					],
				]),
			),
			"pan (g)": coarse(masses[openings.length]),
		});
	}
	for (const { liquid, density } of scenario.liquids) {
		const share = floating(char, density) + random.normal(scatter.floated);
		add("float-sink", "F", {
			liquid,
			"liquid density (g/mL)": density.toFixed(3),
			"floated (g)": coarse(10 * share),
			"sunk (g)": coarse(10 * (1 - share)),
		});
	}
	return rows;
}

/** The files, by name. @returns {Record<string, string>} */
export function files() {
	const random = generator(scenario.seed);
	const rows = scenario.chars.flatMap((/** @type {any} */ char) =>
		rowsOf(char, random),
	);
	return {
		"chars.csv": csvOf(
			rows.map((/** @type {Row} */ row) =>
				Object.fromEntries(columns.map((c) => [c, row[c] ?? ""])),
			),
		),
		"truth.json": jsonOf({
			invented: scenario.invented,
			madeFrom: "scenario.json",
			chars: scenario.chars.map(truthOf),
		}),
	};
}

if (import.meta.url === pathToFileURL(process.argv[1]).href)
	for (const [name, text] of Object.entries(files()))
		writeFileSync(new URL(name, import.meta.url), text);
