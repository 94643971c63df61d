// @ts-check
/** Flasks with several doses of methylene blue: one stock, five masses of each char, two soaks. */
import { csvOf } from "../demo-run/csv.mjs";
import { generator } from "../simulation/generator.mjs";
import {
	glasswareRows,
	photometer,
	residueOf,
	solutionRows,
} from "./bench.mjs";

/** The sheet with its sister files, and what is true of it. @param {any} s the scenario */
export function doses(s) {
	const d = s.doses;
	const chance = generator(d.seed);
	const { rows, row, calibration } = photometer(s, chance);
	/** @type {any[]} */
	const flasks = [];
	const added = (s.dose_mL * s.stock.true_mg_L) / 1000;
	const met = added * s.recovery;
	row(
		{
			flask: "W1",
			contents: "reagent blank",
			"dose (mL)": "",
			"made up to (mL)": "",
			notes: "invented demo run",
		},
		0,
		1,
		1,
		0,
	);
	for (const n of [1, 2])
		row(
			{ flask: `B${n}`, contents: "dye blank" },
			(1000 * met) / s.madeUp_mL,
			1,
			100,
			0,
		);
	for (const t of d.treatments)
		for (const soak of [1, 2])
			for (const [k, { char_g, from_mL, to_mL }] of d.flasks.entries()) {
				const flask = `${t.letter}${soak}${"abcde"[k]}`;
				const weighed = Number((char_g + chance.normal(0.002)).toFixed(4));
				const moisture = Number((4.5 + chance.normal(0.3)).toFixed(1));
				const dry = weighed * (1 - moisture / 100);
				const liquid = s.madeUp_mL - s.displaced_mL_per_g * dry;
				const qm = t.qMax_mg_g + chance.normal(d.flaskSpread_mg_g);
				const residue = residueOf(met, dry, liquid, qm, d.langmuirK_L_per_mg);
				row(
					{
						flask,
						treatment: t.treatment,
						control: t.control,
						"char batch": "kiln 6",
						soak: `soak ${t.letter}${soak}`,
						"soaked in": t.soakedIn,
						replicate: soak,
						"char mass (g)": weighed.toFixed(4),
						"moisture, wet basis (%)": moisture.toFixed(1),
						"char in when made up": "yes",
					},
					residue,
					from_mL,
					to_mL,
					0,
				);
				flasks.push({ flask, residue_mg_L: residue });
			}
	const last = flasks[flasks.length - 1].flask;
	return {
		files: {
			"dye-doses.csv": csvOf(rows),
			"dye-doses.calibration.csv": csvOf(calibration([last])),
			"dye-doses.solutions.csv": csvOf(solutionRows(s)),
			"dye-doses.glassware.csv": csvOf(glasswareRows()),
		},
		truth: {
			langmuirK_L_per_mg: d.langmuirK_L_per_mg,
			treatments: d.treatments.map((/** @type {any} */ t) => ({
				treatment: t.treatment,
				qMax_mg_g: t.qMax_mg_g,
			})),
			flasks,
		},
	};
}
