// @ts-check
/**
 * Jars of one tinted water with different masses of char, with a known isotherm: what truly happens in each, and what a person then reads from a burette. Nothing here is taken from the library that analyses the data.
 *
 * The tint is iodine. A share of what titrates as iodine may be something that char does not take up.
 * Units: mL, g, mg/L, mg/g, mol/L.
 *
 * @typedef {import("./generator.mjs").Generator} Generator
 * @typedef {import("./plan.mjs").Row} Row
 * @typedef {{ form: "Langmuir" | "Freundlich" | "Sips", parameters: number[] }} TrueIsotherm
 * @typedef {{ name: string, prefix: string, isotherm: TrueIsotherm, masses: number[] }} PlannedChar
 * @typedef {{ start: number, notAdsorbable: number, thiosulfate: number, thiosulfateSpread: number, volume: number, aliquot: number, titrations: number, reading: number, drop: number, step: number, reagentBlank: number, reagentBlanks: number, iodineBlanks: number, flaskSpread: number, loss: number, tolerances: { volume: number, aliquot: number, burette: number, balance: number } }} WaterBench
 */

/** mg per mmol of I2; 2 x 126.90447 (IUPAC abridged atomic weight, from memory). */
const iodineMolarMass = 253.80894;

/** @param {TrueIsotherm} isotherm @returns {(residue: number) => number} */
export function trueUptake({ form, parameters }) {
	const [a, b, n] = parameters;
	if (form === "Freundlich") return (c) => (c > 0 ? a * c ** b : 0);
	if (form === "Langmuir")
		return (c) => (c > 0 ? (a * b * c) / (1 + b * c) : 0);
	return (c) => {
		const u = c > 0 ? (b * c) ** n : 0;
		return (a * u) / (1 + u);
	};
}

/**
 * Residue of a jar in equilibrium: there = (residue - what char does not take) x liquid + on the char, by halving.
 * @param {(adsorbable: number) => number} uptakeAt @param {number} start mg/L @param {number} background mg/L @param {number} dose g/L
 */
export function residueOf(uptakeAt, start, background, dose) {
	let low = background;
	let high = start;
	for (let i = 0; i < 100; i++) {
		const c = (low + high) / 2;
		if (c + dose * uptakeAt(c - background) < start) low = c;
		else high = c;
	}
	return (low + high) / 2;
}

/** The dose that truly takes this water to a target in one jar, g/L. @param {TrueIsotherm} isotherm @param {number} start @param {number} share @param {number} target */
export function trueDose(isotherm, start, share, target) {
	return (start - target) / trueUptake(isotherm)(target - share * start);
}

/** @param {number} value @param {number} step */
const toStep = (value, step) => Math.round(value / step) * step;

/**
 * One trial of one or more chars on one bench.
 * @param {WaterBench} bench @param {PlannedChar[]} chars @param {Generator} random
 */
export function runWaterTrial(bench, chars, random) {
	const within = (/** @type {number} */ t) => t * (2 * random.uniform() - 1);
	const actual = {
		thiosulfate:
			bench.thiosulfate * (1 + random.normal(bench.thiosulfateSpread)),
		volume: bench.volume + within(bench.tolerances.volume),
		aliquot: bench.aliquot + within(bench.tolerances.aliquot),
		// A burette is off by a share of what it delivers, and by no more than its tolerance over half its length.
		burette: within(bench.tolerances.burette),
		balance: within(bench.tolerances.balance),
	};
	/** A titre as it is written down; the end point is off by part of a drop, anew at every titration unless a hand that always sees it alike says by how much. */
	const titre = (
		/** @type {number} */ residue,
		endPoint = random.normal(bench.drop),
	) => {
		const needed =
			(2 * (residue / iodineMolarMass) * (actual.aliquot / 1000)) /
			actual.thiosulfate;
		const delivered =
			needed + bench.reagentBlank - actual.burette * Math.min(1, needed / 2.5);
		return toStep(
			Math.max(0, delivered + endPoint + random.normal(bench.reading)),
			bench.step,
		);
	};
	const titres = (/** @type {number} */ residue) =>
		Array.from({ length: bench.titrations }, () => titre(residue));
	/** @type {{ flask: string, contents: string, treatment: string, mass: number | null, titres: number[] }[]} */
	const records = [];
	for (let i = 1; i <= bench.reagentBlanks; i++)
		records.push({
			flask: `RB${i}`,
			contents: "reagent blank",
			treatment: "",
			mass: null,
			titres: [titre(0)],
		});
	for (let i = 1; i <= bench.iodineBlanks; i++)
		records.push({
			flask: `IB${i}`,
			contents: "iodine blank",
			treatment: "",
			mass: null,
			titres: titres(bench.start * (1 - bench.loss)),
		});
	/** @type {{ flask: string, char: number, residue: number, uptake: number }[]} */
	const truth = [];
	for (const { name, prefix, isotherm, masses } of chars) {
		const q = trueUptake(isotherm);
		masses.forEach((planned, i) => {
			const char = planned * (1 + random.normal(0.01));
			const shift = 1 + random.normal(bench.flaskSpread);
			const dose = char / (actual.volume / 1000);
			const start = bench.start * (1 - bench.loss);
			const residue = residueOf(
				(c) => shift * q(c),
				start,
				bench.notAdsorbable * start,
				dose,
			);
			const flask = `${prefix}${i + 1}`;
			truth.push({ flask, char, residue, uptake: (start - residue) / dose });
			records.push({
				flask,
				contents: "char",
				treatment: name,
				mass: toStep(char - actual.balance + random.normal(0.0003), 0.001),
				titres: titres(residue),
			});
		});
	}
	const sameEndPoint = random.normal(bench.drop);
	return {
		records,
		/** Three titres of the water itself, seen by one hand on one day, and the blank that is taken off them. */
		standard: Array.from({ length: 3 }, () => titre(bench.start, sameEndPoint)),
		standardBlank: toStep(
			Math.max(0, bench.reagentBlank + random.normal(bench.reading)),
			bench.step,
		),
		truth,
	};
}

/**
 * The rows of a bench sheet, as a person would write them.
 * @param {WaterBench} bench @param {ReturnType<typeof runWaterTrial>["records"]} records @returns {Row[]}
 */
export function flaskRows(bench, records) {
	return records.map((r) => {
		const jar = r.contents !== "reagent blank";
		return {
			flask: r.flask,
			contents: r.contents,
			treatment: r.treatment,
			"char mass (g)": r.mass === null ? "" : r.mass.toFixed(3),
			"mass basis": r.mass === null ? "" : "dry",
			"dose (mL)": jar ? bench.volume : "",
			"aliquot (mL)": jar ? bench.aliquot : "",
			...Object.fromEntries(
				Array.from({ length: bench.titrations }, (_, i) => [
					`titre ${i + 1} (mL)`,
					r.titres[i]?.toFixed(2) ?? "",
				]),
			),
			acidified: "yes",
		};
	});
}

/**
 * The solutions: thiosulfate as its label says, the water titrated with it.
 * @param {WaterBench} bench @param {{ standard: number[], standardBlank: number }} trial @param {number} statedPercent @returns {Row[]}
 */
export function waterSolutions(
	bench,
	{ standard, standardBlank },
	statedPercent,
) {
	return [
		{
			solution: "thiosulfate",
			substance: "sodium thiosulfate",
			"concentration (mol/L)": bench.thiosulfate,
			counts: "",
			"uncertainty (%)": statedPercent,
			"uncertainty is": "standard",
			"standardised against": "",
			"aliquot (mL)": "",
			"titre 1 (mL)": "",
			"titre 2 (mL)": "",
			"titre 3 (mL)": "",
			"blank titre (mL)": "",
		},
		{
			solution: "tinted water",
			substance: "iodine",
			"concentration (mol/L)": "",
			counts: "I2",
			"uncertainty (%)": "",
			"uncertainty is": "",
			"standardised against": "thiosulfate",
			"aliquot (mL)": bench.aliquot,
			"titre 1 (mL)": standard[0].toFixed(2),
			"titre 2 (mL)": standard[1].toFixed(2),
			"titre 3 (mL)": standard[2].toFixed(2),
			"blank titre (mL)": standardBlank.toFixed(2),
		},
	];
}

/** @param {WaterBench} bench @returns {Row[]} */
export function waterGlassware(bench) {
	return [
		{
			piece: "burette",
			"used for": "titre; standard titre",
			"size (mL)": 25,
			class: "A",
			"tolerance (mL)": bench.tolerances.burette,
			"division (mL)": 0.05,
			"tolerance (g)": "",
			"readability (g)": "",
		},
		{
			piece: "volumetric flask 200 mL",
			"used for": "dose",
			"size (mL)": bench.volume,
			class: "B",
			"tolerance (mL)": bench.tolerances.volume,
			"division (mL)": "",
			"tolerance (g)": "",
			"readability (g)": "",
		},
		{
			piece: "pipette 50 mL",
			"used for": "aliquot; standard aliquot",
			"size (mL)": bench.aliquot,
			class: "A",
			"tolerance (mL)": bench.tolerances.aliquot,
			"division (mL)": "",
			"tolerance (g)": "",
			"readability (g)": "",
		},
		{
			piece: "balance",
			"used for": "char mass",
			"size (mL)": "",
			class: "",
			"tolerance (mL)": "",
			"division (mL)": "",
			"tolerance (g)": bench.tolerances.balance,
			"readability (g)": 0.001,
		},
	];
}
