// @ts-check
/**
 * A treatment trial with a known truth: soaks, jars, blanks, leachates, titrations. A plan says what is true and how the bench works; a seed says what chance does.
 * designs.json and ../demo-run/scenario.json hold plans; their fields are explained in ABOUT.md beside this file.
 *
 * @typedef {import("./generator.mjs").Generator} Generator
 * @typedef {import("./forward-model.mjs").Reading} Reading
 * @typedef {import("./forward-model.mjs").Jar} Jar
 * @typedef {import("./forward-model.mjs").Isotherm} Isotherm
 * @typedef {import("./plan.mjs").Bench} Bench
 * @typedef {import("./plan.mjs").Plan} Plan
 * @typedef {import("./plan.mjs").PlannedTreatment} PlannedTreatment
 * @typedef {import("./plan.mjs").PlannedJar} PlannedJar
 *
 * @typedef {{
 *   name: string, contents: "char" | "reagent blank" | "iodine blank" | "leachate", planned: PlannedTreatment | null, soak: string, replicate: number, day: string,
 *   charMass: number | null, moisture: number | null, doses: number[], madeUp: number | null, aliquot: number | null, readings: Reading[],
 *   liquorRetained: number | null,
 * }} JarRecord what is written down about a jar; null where nothing is
 */
import {
	burette,
	emptyJar,
	iodateMolarMass,
	iodineMolarMass,
	isothermThrough,
	milligramsPerLitre,
	stand,
	without,
} from "./forward-model.mjs";

/** Liquor that a gram of drained char holds when it comes out of its soak, mL. */
const liquorPerGram = 0.8;

/** @param {number} value @param {number} step */
const toStep = (value, step) => Math.round(value / step) * step;

/**
 * What is true of the solutions and the glassware of one trial: errors that all its jars share.
 * @param {Bench} bench @param {Generator} random
 */
export function trueBench(bench, random) {
	const { spreads } = bench;
	return {
		iodine: bench.iodine * (1 + random.normal(bench.strengthSpread)),
		thiosulfate: bench.thiosulfate * (1 + random.normal(bench.strengthSpread)),
		doseScale: 1 + random.normal(spreads.doseCalibration / bench.dose),
		aliquotScale: 1 + random.normal(spreads.aliquotCalibration / bench.aliquot),
		standardAliquot: 10 + random.normal(0.008),
		volumetricFlask: 250 + random.normal(0.06),
		iodatePurity: 0.998 + random.normal(0.0003),
		burette: burette(random, {
			scale: 1 + random.normal(spreads.burette / 50),
			readingSpread: spreads.reading,
			dropSize: bench.drop,
			step: bench.step,
		}),
	};
}

/** @typedef {ReturnType<typeof trueBench>} TrueBench */

/**
 * Thiosulfate against weighed iodate (IO3- + 5 I- + 6 H+ = 3 I2 + 3 H2O), then iodine against thiosulfate.
 * @param {Bench} bench @param {TrueBench} actual @param {Generator} random
 */
export function standardisation(bench, actual, random) {
	const { titrate } = actual.burette;
	const weighed = toStep(0.9 + random.normal(0.004), 0.001);
	const iodate =
		((weighed + random.normal(bench.spreads.balance)) * actual.iodatePurity) /
		iodateMolarMass /
		(actual.volumetricFlask / 1000);
	const inAliquot = () => actual.standardAliquot + random.normal(0.006);
	const three = [0, 1, 2];
	const blank = titrate(bench.reagentBlank);
	return {
		weighed,
		blank,
		thiosulfate: three.map(() =>
			titrate(
				(6 * iodate * inAliquot()) / actual.thiosulfate + bench.reagentBlank,
			),
		),
		iodine: three.map(() =>
			titrate(
				(2 * actual.iodine * inAliquot()) / actual.thiosulfate +
					bench.reagentBlank,
			),
		),
	};
}

/**
 * Aliquots of what is in a jar, titrated one after the other. Less iodine than a twentieth of a millilitre of titrant stays colourless with starch.
 * @param {Jar} jar @param {Bench} bench @param {TrueBench} actual @param {Generator} random
 * @returns {Reading[]}
 */
export function titrations(jar, bench, actual, random) {
	return Array.from({ length: bench.titrations }, () => {
		const volume =
			bench.aliquot * actual.aliquotScale +
			random.normal(bench.spreads.aliquot);
		const needed =
			(2 * jar.dissolved * volume) / jar.liquid / actual.thiosulfate;
		return needed < 0.05
			? actual.burette.nothing()
			: actual.burette.titrate(needed + bench.reagentBlank);
	});
}

/**
 * One jar from first dose to the moment of the aliquot. Every dose but the last stands until the jar looks empty of iodine; then a little is drawn off to see.
 * @param {{ doses: number[], isotherm: Isotherm, char: number, demand: number, lossShare: number, leak: number }} nature demand in mmol for the whole jar
 * @param {Bench} bench @param {TrueBench} actual @param {Generator} random
 */
function jarHistory(nature, bench, actual, random) {
	let jar = emptyJar();
	nature.doses.forEach((dose, i) => {
		const volume = dose * actual.doseScale + random.normal(bench.spreads.dose);
		const last = i === nature.doses.length - 1;
		const liquid = last
			? bench.madeUp +
				random.normal(bench.spreads.madeUp) -
				bench.displaced * nature.char
			: jar.liquid + volume;
		jar = stand(
			{ ...jar, dissolved: jar.dissolved + actual.iodine * volume, liquid },
			{
				isotherm: nature.isotherm,
				char: nature.char,
				demandLeft: nature.demand - jar.consumed,
				lossShare: nature.lossShare,
				early: bench.early,
			},
		);
		if (!last) jar = without(jar, bench.drawnToCheck);
	});
	return nature.leak > 0
		? { ...without(jar, nature.leak), liquid: jar.liquid }
		: jar;
}

/** @param {Bench} bench @param {string} day @param {Generator} random */
const lossOfJar = (bench, day, random) =>
	bench.days[day].loss * (1 + random.normal(bench.lossSpread));

/** @param {number[]} doses @param {number} demand mmol @param {number} lossShare */
const withoutChar = (doses, demand, lossShare) => ({
	doses,
	isotherm: { capacity: 0, exponent: 1 },
	char: 0,
	demand,
	lossShare,
	leak: 0,
});

/** @param {number} count @returns {number[]} 1, 2, ... count */
const numbers = (count) => Array.from({ length: count }, (_, i) => i + 1);

/** @typedef {{ bench: Bench, actual: TrueBench, random: Generator }} Day the bench as planned, as it truly is, and chance */

/**
 * Reagent blanks and iodine blanks of every day.
 * @param {Day} given
 * @returns {JarRecord[]}
 */
function blanks({ bench, actual, random }) {
	return Object.entries(bench.days).flatMap(([day, planned]) => {
		const tag = day.replace(/\D+/g, "");
		const reagent = numbers(planned.reagentBlanks).map((i) => ({
			...blankRecord(`RB${tag}.${i}`, "reagent blank", day, i),
			readings: [actual.burette.titrate(bench.reagentBlank)],
		}));
		const iodine = numbers(planned.iodineBlanks).map((i) => {
			const nature = withoutChar(
				[bench.dose],
				0,
				lossOfJar(bench, day, random),
			);
			const jar = jarHistory(nature, bench, actual, random);
			return {
				...blankRecord(`IB${tag}.${i}`, "iodine blank", day, i),
				doses: nature.doses,
				madeUp: bench.madeUp,
				aliquot: bench.aliquot,
				readings: titrations(jar, bench, actual, random),
			};
		});
		return [...reagent, ...iodine];
	});
}

/**
 * What chance made of one soak: its uptake at the reference residue (mg/g), its demand (mmol/g), its moisture (%) and the moisture that was found.
 * @param {PlannedTreatment} planned @param {number} index @param {Day} given
 */
function soakOf(planned, index, { bench, random }) {
	const uptake = planned.uptake + random.normal(planned.soakSpread);
	const demand = planned.demand * (1 + random.normal(planned.demandSpread));
	const moisture = bench.moisture + random.normal(0.3);
	const moistureFound = toStep(
		moisture + random.normal(bench.spreads.moisture),
		0.1,
	);
	return {
		planned,
		name: `${planned.treatment} ${index + 1}`,
		number: index + 1,
		uptake,
		demand,
		moisture,
		moistureFound,
	};
}

/** @typedef {ReturnType<typeof soakOf>} Soak */

/**
 * Treated char leached in the medium of the trial; a part of the filtrate is dosed and titrated like a jar.
 * @param {Soak} soak @param {string} day @param {Day} given
 * @returns {JarRecord}
 */
function leachateOf(soak, day, { bench, actual, random }) {
	const { charMass, volume, taken, dose } = bench.leachate;
	const mass = charMass + random.normal(0.02);
	const dosedDemand =
		soak.demand * mass * (1 - soak.moisture / 100) * (taken / volume);
	const nature = withoutChar(
		[dose],
		dosedDemand,
		lossOfJar(bench, day, random),
	);
	const jar = jarHistory(nature, bench, actual, random);
	return {
		...blankRecord(`${soak.planned.prefix}L`, "leachate", day, 1),
		planned: soak.planned,
		soak: soak.name,
		charMass: toStep(mass, 0.001),
		moisture: soak.moistureFound,
		doses: nature.doses,
		madeUp: bench.madeUp,
		aliquot: bench.aliquot,
		readings: titrations(jar, bench, actual, random),
		liquorRetained: toStep(liquorPerGram * mass, 0.1),
	};
}

/**
 * One jar with char: what is written down, and what is true.
 * @param {Soak} soak @param {PlannedJar} planned @param {number} index @param {Day} given
 */
function charJar(soak, planned, index, { bench, actual, random }) {
	const { day, doses, leak } = {
		doses: [bench.dose],
		leak: 0,
		...(typeof planned === "string" ? { day: planned } : planned),
	};
	const name = `${soak.planned.prefix}${soak.number}${"abcdefgh"[index]}`;
	const mass = bench.charMass + random.normal(bench.charMassSpread);
	const char = mass * (1 - soak.moisture / 100);
	const uptake =
		(soak.uptake + random.normal(bench.flaskSpread)) * bench.days[day].factor;
	const nature = {
		doses,
		isotherm: isothermThrough(uptake, bench.referenceResidue, bench.exponent),
		char,
		demand: soak.demand * char,
		lossShare: lossOfJar(bench, day, random),
		leak,
	};
	const jar = jarHistory(nature, bench, actual, random);
	/** @type {JarRecord} */
	const record = {
		...blankRecord(name, "char", day, index + 1),
		planned: soak.planned,
		soak: soak.name,
		charMass: toStep(mass + random.normal(bench.spreads.balance), 0.001),
		moisture: soak.moistureFound,
		doses,
		madeUp: bench.madeUp,
		aliquot: bench.aliquot,
		readings: titrations(jar, bench, actual, random),
		liquorRetained: soak.planned.leachate
			? toStep(liquorPerGram * mass, 0.01)
			: null,
	};
	const truth = {
		flask: name,
		char,
		uptake: (jar.onChar * iodineMolarMass) / char,
		residue: milligramsPerLitre(jar.dissolved, jar.liquid),
		demand: (jar.consumed * iodineMolarMass) / char,
		lost: jar.lost * iodineMolarMass,
	};
	return { record, truth };
}

/**
 * Runs a whole trial: blanks first, then treatment by treatment and soak by soak.
 * @param {Plan} plan
 * @param {Generator} random
 */
export function runTrial(plan, random) {
	const { bench } = plan;
	const actual = trueBench(bench, random);
	const standards = bench.standardised
		? standardisation(bench, actual, random)
		: null;
	const given = { bench, actual, random };
	const records = blanks(given);
	/** @type {import("./plan.mjs").Truth["flasks"]} */
	const flasks = [];
	/** @type {import("./plan.mjs").Truth["lots"]} */
	const lots = [];
	for (const planned of plan.treatments) {
		planned.lots.forEach((jars, i) => {
			const soak = soakOf(planned, i, given);
			lots.push({
				treatment: planned.treatment,
				soak: soak.name,
				uptake: soak.uptake,
				demand: soak.demand * iodineMolarMass,
			});
			const first = typeof jars[0] === "string" ? jars[0] : jars[0].day;
			if (planned.leachate && i === 0)
				records.push(leachateOf(soak, first, given));
			jars.forEach((jar, j) => {
				const { record, truth } = charJar(soak, jar, j, given);
				records.push(record);
				flasks.push(truth);
			});
		});
	}
	return {
		records,
		standards,
		truth: {
			iodine: actual.iodine,
			thiosulfate: actual.thiosulfate,
			treatments: plan.treatments.map((t) => treatmentTruth(t, plan, lots)),
			lots,
			flasks,
		},
	};
}

/**
 * @param {string} name @param {JarRecord["contents"]} contents @param {string} day @param {number} replicate
 * @returns {JarRecord}
 */
const blankRecord = (name, contents, day, replicate) => ({
	name,
	contents,
	planned: null,
	soak: "",
	replicate,
	day,
	charMass: null,
	moisture: null,
	doses: [],
	madeUp: null,
	aliquot: null,
	readings: [],
	liquorRetained: null,
});

/**
 * Uptake of a faultless jar of a treatment with the usual dose, mg/g.
 * @param {PlannedTreatment} planned @param {Bench} bench
 */
function uptakeAsDosed(planned, bench) {
	const char = bench.charMass * (1 - bench.moisture / 100);
	const jar = stand(
		{
			...emptyJar(),
			dissolved: bench.iodine * bench.dose,
			liquid: bench.madeUp - bench.displaced * char,
		},
		{
			isotherm: isothermThrough(
				planned.uptake,
				bench.referenceResidue,
				bench.exponent,
			),
			char,
			demandLeft: planned.demand * char,
			lossShare: Object.values(bench.days)[0].loss,
			early: bench.early,
		},
	);
	return {
		uptake: (jar.onChar * iodineMolarMass) / char,
		residue: milligramsPerLitre(jar.dissolved, jar.liquid),
	};
}

/**
 * The true difference of a treatment from its control: of what was planned (the treatment as such) and of the lots that chance made (these lots).
 * @param {PlannedTreatment} planned @param {Plan} plan @param {{ treatment: string, uptake: number }[]} lots
 * @returns {import("./plan.mjs").TreatmentTruth}
 */
function treatmentTruth(planned, plan, lots) {
	const control = plan.treatments.find((t) => t.treatment === planned.control);
	const own = uptakeAsDosed(planned, plan.bench);
	if (control === undefined)
		return { treatment: planned.treatment, control: "", ...own };
	const meanOfLots = (/** @type {string} */ treatment) => {
		const uptakes = lots
			.filter((l) => l.treatment === treatment)
			.map((l) => l.uptake);
		return uptakes.reduce((a, b) => a + b, 0) / uptakes.length;
	};
	return {
		treatment: planned.treatment,
		control: planned.control,
		...own,
		differenceAtSameResidue: planned.uptake - control.uptake,
		differenceAsDosed: own.uptake - uptakeAsDosed(control, plan.bench).uptake,
		differenceOfTheseLots:
			meanOfLots(planned.treatment) - meanOfLots(planned.control),
	};
}
