// @ts-check
/** Makes the demo run with methylene blue and its truth from scenario.json: `node data/demo-dye/make.mjs`. The same files come out byte for byte. */
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { csvOf } from "../demo-run/csv.mjs";
import { generator } from "../simulation/generator.mjs";

const scenario = JSON.parse(
	readFileSync(new URL("scenario.json", import.meta.url), "utf8"),
);

/** What is left (mg/L) when `added` mg meet `char` g in `liquid` mL: added = q char + C liquid, q = qm K C/(1 + K C). Bisection. @param {number} added @param {number} char @param {number} liquid @param {number} qm @param {number} k */
function residueOf(added, char, liquid, qm, k) {
	let [low, high] = [0, (1000 * added) / liquid];
	for (let i = 0; i < 200; i++) {
		const c = (low + high) / 2;
		const q = (qm * k * c) / (1 + k * c);
		if (q * char + (c * liquid) / 1000 > added) high = c;
		else low = c;
	}
	return (low + high) / 2;
}

export function files() {
	const s = scenario;
	const chance = generator(s.seed);
	/** An absorbance as the photometer shows it. @param {number} a */
	const shown = (a) => (a + chance.normal(s.line.readingSpread)).toFixed(3);
	/** @param {number} cuvette mg/L */
	const absorbance = (cuvette) =>
		s.line.intercept + s.line.slope_per_mg_L * cuvette;
	const first =
		(s.line.secondWavelength_nm / s.line.wavelength_nm) ** s.turbidity.exponent;

	/** @type {import("../simulation/plan.mjs").Row[]} */
	const rows = [];
	/** @type {any[]} */
	const truths = [];

	/** @param {Record<string, any>} about @param {number} filtrate mg/L @param {number} from @param {number} to @param {number} day */
	const row = (about, filtrate, from, to, day) => {
		const part = from / to;
		const fines = chance.uniform() * s.turbidity.most * part;
		const signal =
			absorbance(filtrate * part) + s.filterColour[day] * part + first * fines;
		const diluted = from !== to;
		rows.push({
			flask: "",
			contents: "char",
			treatment: "",
			control: "",
			"char batch": "",
			soak: "",
			"soaked in": "",
			replicate: "",
			day: s.days[day],
			"char mass (g)": "",
			"moisture, wet basis (%)": "",
			"dose (mL)": s.dose_mL,
			"made up to (mL)": s.madeUp_mL,
			"char in when made up": "",
			"diluted from (mL)": diluted ? from : "",
			"diluted to (mL)": diluted ? to : "",
			"absorbance 1": shown(signal),
			"absorbance 2": shown(signal),
			"absorbance at second wavelength": Math.abs(
				fines + chance.normal(0.0005),
			).toFixed(3),
			"first runnings discarded": "yes",
			notes: "",
			...about,
		});
	};

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

	const standards = s.standards_mg_L.flatMap((/** @type {number} */ c) =>
		Array.from({ length: s.standardReadings }, () => ({
			standard: `E${s.standards_mg_L.indexOf(c)}`,
			"concentration (mg/L)": c,
			"absorbance 1": shown(
				absorbance((c * s.stock.true_mg_L) / s.stock.nominal_mg_L),
			),
			"read after": "",
		})),
	);
	const again = ["V2", "V4"].map((flask) => ({
		standard: "E3",
		"concentration (mg/L)": 2,
		"absorbance 1": shown(
			absorbance((2 * s.stock.true_mg_L) / s.stock.nominal_mg_L),
		),
		"read after": flask,
	}));
	const calibration = [...standards, ...again].map((r, i) => ({
		...r,
		"made from": i === 0 ? "blue" : "",
		"wavelength (nm)": i === 0 ? s.line.wavelength_nm : "",
		"second wavelength (nm)": i === 0 ? s.line.secondWavelength_nm : "",
		notes: i === 0 ? "invented demo run" : "",
	}));

	const solutions = [
		{
			solution: "blue",
			substance: "methylene blue",
			"concentration (mg/L)": s.stock.nominal_mg_L,
			"uncertainty (%)": s.stock.statedUncertainty_percent,
			notes: "invented demo run; weighed as 85 % dye",
		},
	];
	const glassware = [
		["burette", "dose", 50, "B"],
		["volumetric flask", "made up", 100, "B"],
		["volumetric flask", "made up", 250, "B"],
		["volumetric pipette", "aliquot", 1, "A"],
		["volumetric pipette", "aliquot", 5, "A"],
		["volumetric pipette", "aliquot", 25, "A"],
	].map(([piece, use, size, grade]) => ({
		piece: `${piece} ${size} mL`,
		"used for": use,
		"size (mL)": size,
		class: grade,
		"readability (g)": "",
	}));
	glassware.push({
		piece: "balance",
		"used for": "char mass",
		"size (mL)": "",
		class: "",
		"readability (g)": "0.0001",
	});

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
	};
	return {
		"dye.csv": csvOf(rows),
		"dye.calibration.csv": csvOf(calibration),
		"dye.solutions.csv": csvOf(solutions),
		"dye.glassware.csv": csvOf(glassware),
		"truth.json": `${JSON.stringify(truth, null, "\t")}\n`,
	};
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href)
	for (const [name, text] of Object.entries(files()))
		writeFileSync(new URL(name, import.meta.url), text);
