// @ts-check
/**
 * A trial of one char with many doses, with a known isotherm: flasks, blanks, titrations. A plan says what is true and how the bench works; chance does the rest.
 *
 * @typedef {import("./generator.mjs").Generator} Generator
 * @typedef {import("./plan.mjs").Row} Row
 * @typedef {import("./forward-model.mjs").Reading} Reading
 * @typedef {{ form: "Langmuir" | "Freundlich" | "Sips", parameters: number[] }} TrueIsotherm q in mg/g, C in mg/L
 * @typedef {{ dose: number, char: number, acid?: number }} PlannedFlask mL, g, mL
 * @typedef {{ flask: string, contents: "char" | "reagent blank" | "iodine blank", planned: PlannedFlask | null, charMass: number | null, dose: number | null, readings: Reading[] }} FlaskRecord
 */
import {
	emptyJar,
	iodineMolarMass,
	milligramsPerLitre,
	stand,
} from "./forward-model.mjs";
import { standardisation, trueBench } from "./trial.mjs";

/** @param {TrueIsotherm} isotherm @returns {(residue: number) => number} */
export function uptakeOf({ form, parameters }) {
	const [a, b, n] = parameters;
	if (form === "Freundlich") return (c) => a * c ** b;
	if (form === "Langmuir") return (c) => (a * b * c) / (1 + b * c);
	return (c) => {
		const u = (b * c) ** n;
		return (a * u) / (1 + u);
	};
}

/** @param {number} value @param {number} step */
const toStep = (value, step) => Math.round(value / step) * step;

/**
 * Errors of the glassware that every flask of a trial shares: each piece is off by one amount within its tolerance, all amounts equally likely.
 * @param {any} bench @param {Generator} random
 */
function trueGlassware({ tolerances }, random) {
	const within = (/** @type {number} */ tolerance) =>
		tolerance * (2 * random.uniform() - 1);
	return {
		dose: within(tolerances.dose),
		aliquot: within(tolerances.aliquot),
		madeUp: within(tolerances.madeUp),
		burette: within(tolerances.burette),
		balance: within(tolerances.balance),
		displaced: within(tolerances.displaced),
	};
}

/** A burette is off by what its tolerance allows from a tenth of its length on, by less below. @param {number} volume mL */
const shareOfBurette = (volume) => Math.min(1, volume / 5);

/**
 * One flask from dose to titration.
 * @param {PlannedFlask} planned @param {number} charMass true mass, g (0 for an iodine blank)
 * @param {(residue: number) => number} uptakeAt
 * @param {{ bench: any, actual: any, glassware: ReturnType<typeof trueGlassware>, random: Generator }} given
 */
function flaskOf(planned, charMass, uptakeAt, given) {
	const { bench, actual, glassware, random } = given;
	const dose =
		planned.dose + glassware.dose + random.normal(bench.spreads.dose);
	const liquid =
		planned.acid === undefined
			? bench.madeUp +
				glassware.madeUp +
				random.normal(bench.spreads.madeUp) -
				(bench.displaced + glassware.displaced) * charMass
			: dose + planned.acid + random.normal(bench.spreads.dose);
	const jar = stand(
		{ ...emptyJar(), dissolved: actual.iodine * dose, liquid },
		{
			isotherm: { uptakeAt },
			char: charMass,
			demandLeft: 0,
			lossShare: bench.loss * (1 + random.normal(bench.lossSpread)),
			early: bench.early,
		},
	);
	return {
		readings: titrationsOf(jar, given),
		truth: {
			char: charMass,
			uptake: charMass === 0 ? 0 : (jar.onChar * iodineMolarMass) / charMass,
			residue: milligramsPerLitre(jar.dissolved, jar.liquid),
			lost: jar.lost * iodineMolarMass,
		},
	};
}

/**
 * Aliquots titrated one after the other; what a twentieth of a millilitre would titrate stays colourless with starch.
 * @param {import("./forward-model.mjs").Jar} jar
 * @param {{ bench: any, actual: any, glassware: ReturnType<typeof trueGlassware>, random: Generator }} given
 * @returns {Reading[]}
 */
function titrationsOf(jar, { bench, actual, glassware, random }) {
	return Array.from({ length: bench.titrations }, () => {
		if (bench.toppedUp) actual.burette.topUp();
		const aliquot =
			bench.aliquot + glassware.aliquot + random.normal(bench.spreads.aliquot);
		const needed =
			(2 * jar.dissolved * aliquot) / jar.liquid / actual.thiosulfate;
		return needed < 0.05
			? actual.burette.nothing()
			: actual.burette.titrate(
					needed +
						bench.reagentBlank -
						glassware.burette * shareOfBurette(needed),
				);
	});
}

/**
 * Runs a trial of several chars on one bench.
 *
 * @param {{ bench: any, chars: { name: string, prefix: string, isotherm: TrueIsotherm, flasks: PlannedFlask[] }[] }} plan
 * @param {Generator} random
 */
export function runIsothermTrial({ bench, chars }, random) {
	const actual = trueBench(bench, random);
	const standards = bench.standardised
		? standardisation(bench, actual, random)
		: null;
	const glassware = trueGlassware(bench, random);
	const given = { bench, actual, glassware, random };
	/** @type {FlaskRecord[]} */
	const records = [];
	for (let i = 1; i <= bench.reagentBlanks; i++) {
		if (bench.toppedUp) actual.burette.topUp();
		records.push({
			flask: `RB${i}`,
			contents: "reagent blank",
			planned: null,
			charMass: null,
			dose: null,
			readings: [actual.burette.titrate(bench.reagentBlank)],
		});
	}
	for (let i = 1; i <= bench.iodineBlanks; i++) {
		const planned = { dose: bench.dose, char: 0 };
		records.push({
			flask: `IB${i}`,
			contents: "iodine blank",
			planned,
			charMass: null,
			dose: bench.dose,
			readings: flaskOf(planned, 0, () => 0, given).readings,
		});
	}
	/** @type {{ flask: string, char: number, uptake: number, residue: number, lost: number }[]} */
	const flasks = [];
	/** @type {{ name: string, record: FlaskRecord }[]} */
	const charRecords = [];
	for (const { name, prefix, isotherm, flasks: planned } of chars) {
		const uptakeAt = uptakeOf(isotherm);
		planned.forEach((p, i) => {
			const mass = p.char * (1 + random.normal(0.01));
			const shift = 1 + random.normal(bench.flaskSpread);
			const { readings, truth } = flaskOf(
				p,
				mass,
				(c) => shift * uptakeAt(c),
				given,
			);
			const flask = `${prefix}${i + 1}`;
			flasks.push({ flask, ...truth });
			const record = {
				flask,
				contents: /** @type {const} */ ("char"),
				planned: p,
				charMass: toStep(
					mass - glassware.balance + random.normal(bench.spreads.balance),
					0.001,
				),
				dose: p.dose,
				readings,
			};
			records.push(record);
			charRecords.push({ name, record });
		});
	}
	return {
		records,
		treatmentOf: new Map(charRecords.map((c) => [c.record.flask, c.name])),
		standards,
		truth: { iodine: actual.iodine, thiosulfate: actual.thiosulfate, flasks },
	};
}
