// @ts-check
/** Makes the demo run with methylene blue and its truth from scenario.json: `node data/demo-dye/make.mjs`. The same files come out byte for byte. */
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { csvOf } from "../demo-run/csv.mjs";
import { generator } from "../simulation/generator.mjs";
import {
	glasswareRows,
	photometer,
	residueOf,
	solutionRows,
} from "./bench.mjs";
import { doses } from "./doses.mjs";

const scenario = JSON.parse(
	readFileSync(new URL("scenario.json", import.meta.url), "utf8"),
);

export function files() {
	const s = scenario;
	const chance = generator(s.seed);
	const many = doses(s);
	const { rows, row, calibration } = photometer(s, chance);
	/** @type {any[]} */
	const truths = [];

	const added = (s.dose_mL * s.stock.true_mg_L) / 1000;
	for (const day of [0, 1]) {
		row(
			{
				flask: `W${day + 1}`,
				contents: "reagent blank",
				"dose (mL)": "",
				"made up to (mL)": "",
				notes: day === 0 ? "invented demo run" : "",
			},
			0,
			1,
			1,
			day,
		);
		const blank = (1000 * added * s.recovery) / s.madeUp_mL;
		row({ flask: `B${day + 1}`, contents: "dye blank" }, blank, 1, 100, day);
		for (const t of s.treatments)
			for (const lot of day === 0 ? [1, 2] : [3, 4]) {
				const flask = `${t.letter}${lot}`;
				const qm = t.qMax_mg_g + chance.normal(s.lotSpread_mg_g);
				const weighed = Number(
					(s.charMass_g + chance.normal(0.004)).toFixed(4),
				);
				const moisture = Number((4.5 + chance.normal(0.4)).toFixed(1));
				const dry = weighed * (1 - moisture / 100);
				const liquid = s.madeUp_mL - s.displaced_mL_per_g * dry;
				// Glass and filter take their share of what is in solution.
				const met = added * s.recovery;
				const residue = residueOf(met, dry, liquid, qm, s.langmuirK_L_per_mg);
				const wrong = flask === s.notDiluted.flask;
				row(
					{
						flask,
						treatment: t.treatment,
						control: t.control,
						"char batch": "kiln 5",
						soak: `${t.letter === "S" ? "firing" : "soak"} ${flask}`,
						"soaked in": t.soakedIn,
						replicate: lot,
						"char mass (g)": weighed.toFixed(4),
						"moisture, wet basis (%)": moisture.toFixed(1),
						"char in when made up": "yes",
						notes: wrong ? s.notDiluted.note : "",
					},
					residue,
					wrong ? s.notDiluted.diluteFrom_mL : t.diluteFrom_mL,
					t.diluteTo_mL,
					day,
				);
				truths.push({
					flask,
					treatment: t.treatment,
					uptake_mg_g: (met - (residue * liquid) / 1000) / dry,
					residue_mg_L: residue,
					aboveTheLine:
						(residue * (wrong ? s.notDiluted.diluteFrom_mL : t.diluteFrom_mL)) /
							t.diluteTo_mL >
						Math.max(...s.standards_mg_L),
				});
			}
	}

	const meanOf = (/** @type {number[]} */ x) =>
		x.reduce((a, b) => a + b, 0) / x.length;
	const truth = {
		about: "invented: what is true of the demo run with methylene blue",
		stock_mg_L: s.stock.true_mg_L,
		line: s.line,
		recovery: s.recovery,
		flasks: truths,
		treatments: s.treatments.map((/** @type {any} */ t) => ({
			treatment: t.treatment,
			qMax_mg_g: t.qMax_mg_g,
			mean_mg_g: meanOf(
				truths
					.filter((f) => f.treatment === t.treatment)
					.map((f) => f.uptake_mg_g),
			),
		})),
		doses: many.truth,
	};
	return {
		...many.files,
		"dye.csv": csvOf(rows),
		"dye.calibration.csv": csvOf(calibration(["V2", "V4"])),
		"dye.solutions.csv": csvOf(solutionRows(s)),
		"dye.glassware.csv": csvOf(glasswareRows()),
		"truth.json": `${JSON.stringify(truth, null, "\t")}\n`,
	};
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href)
	for (const [name, text] of Object.entries(files()))
		writeFileSync(new URL(name, import.meta.url), text);
