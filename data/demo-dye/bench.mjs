// @ts-check
/** The bench of the demo runs with methylene blue: what is left in a flask, what the photometer shows of it, and the sister tables. */

/** What is left (mg/L) when `added` mg meet `char` g in `liquid` mL: added = q char + C liquid, q = qm K C/(1 + K C). Bisection. @param {number} added @param {number} char @param {number} liquid @param {number} qm @param {number} k */
export function residueOf(added, char, liquid, qm, k) {
	let [low, high] = [0, (1000 * added) / liquid];
	for (let i = 0; i < 200; i++) {
		const c = (low + high) / 2;
		const q = (qm * k * c) / (1 + k * c);
		if (q * char + (c * liquid) / 1000 > added) high = c;
		else low = c;
	}
	return (low + high) / 2;
}

/**
 * The photometer and its rows on a sheet, by the chances of one run.
 * @param {any} s the scenario @param {ReturnType<typeof import("../simulation/generator.mjs").generator>} chance
 */
export function photometer(s, chance) {
	/** An absorbance as the photometer shows it. @param {number} a */
	const shown = (a) => (a + chance.normal(s.line.readingSpread)).toFixed(3);
	/** @param {number} cuvette mg/L */
	const absorbance = (cuvette) =>
		s.line.intercept + s.line.slope_per_mg_L * cuvette;
	const first =
		(s.line.secondWavelength_nm / s.line.wavelength_nm) ** s.turbidity.exponent;

	/** @type {import("../simulation/plan.mjs").Row[]} */
	const rows = [];

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

	/** The calibration table; a standard is read again after some flasks. @param {string[]} readAgainAfter */
	const calibration = (readAgainAfter) => {
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
		const again = readAgainAfter.map((flask) => ({
			standard: "E3",
			"concentration (mg/L)": 2,
			"absorbance 1": shown(
				absorbance((2 * s.stock.true_mg_L) / s.stock.nominal_mg_L),
			),
			"read after": flask,
		}));
		return [...standards, ...again].map((r, i) => ({
			...r,
			"made from": i === 0 ? "blue" : "",
			"wavelength (nm)": i === 0 ? s.line.wavelength_nm : "",
			"second wavelength (nm)": i === 0 ? s.line.secondWavelength_nm : "",
			notes: i === 0 ? "invented demo run" : "",
		}));
	};
	return { rows, row, calibration };
}

/** @param {any} s */
export function solutionRows(s) {
	return [
		{
			solution: "blue",
			substance: "methylene blue",
			"concentration (mg/L)": s.stock.nominal_mg_L,
			"uncertainty (%)": s.stock.statedUncertainty_percent,
			notes: "invented demo run; weighed as 85 % dye",
		},
	];
}

export function glasswareRows() {
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
	return glassware;
}
