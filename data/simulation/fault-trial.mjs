// @ts-check
/**
 * Bench sheets with a known truth and a fault: one for each way in which a verdict was seen to be false. A design of fault-designs.json says what is true and what goes wrong; a seed says what chance does.
 * Nothing of the library that analyses the sheets is used, and the errors are not those that it assumes: tails are heavier, errors larger than stated, jars lose unlike shares, batches and days differ.
 *
 * @typedef {import("./generator.mjs").Generator} Generator
 * @typedef {import("./plan.mjs").Row} Row
 * @typedef {import("./fault-plan.mjs").FaultBench} FaultBench
 * @typedef {import("./fault-plan.mjs").FaultDesign} FaultDesign
 * @typedef {import("./fault-plan.mjs").FaultTreatment} FaultTreatment
 * @typedef {import("./fault-plan.mjs").FaultTruth} FaultTruth
 * @typedef {import("./forward-model.mjs").Jar} Jar
 * @typedef {ReturnType<typeof trueBench>} TrueBench
 * @typedef {{ design: FaultDesign, bench: FaultBench, actual: TrueBench, random: Generator }} Given
 */
import {
	burette,
	emptyJar,
	iodineMolarMass,
	isothermThrough,
	milligramsPerLitre,
	stand,
	titreOf,
} from "./forward-model.mjs";
import { generator } from "./generator.mjs";
import { draw, within } from "./heavy-tails.mjs";
import { statedSolutions } from "./simulate.mjs";

/** What a design and a treatment are unless they say otherwise. */
const plainDesign = {
	claim: "difference",
	enough: true,
	told: [],
	coverage: null,
	benign: false,
	deviations: [],
	leavesOutDry: false,
	typed: {},
	controlNamed: true,
};
const plainTreatment = {
	flasks: 2,
	days: ["1"],
	batches: ["A"],
	soakedIn: "water",
	consumesIodine: "no",
	demand: 0,
	demandSpread: 0,
	leachates: 0,
	happens: {},
	writes: {},
};

/**
 * The designs of fault-designs.json, each with the common bench and glassware and its own changes to them.
 * @param {any} file the parsed file
 * @returns {FaultDesign[]}
 */
export const faultDesignsOf = (file) =>
	file.designs.map((/** @type {any} */ design) => ({
		...plainDesign,
		glassware: file.glassware,
		...design,
		bench: {
			...file.bench,
			...design.bench,
			spreads: { ...file.bench.spreads, ...design.bench?.spreads },
			tolerances: { ...file.bench.tolerances, ...design.bench?.tolerances },
		},
		treatments: design.treatments.map((/** @type {any} */ t) => ({
			...plainTreatment,
			...design.all,
			...t,
		})),
	}));

/** @param {number} value @param {number} digits */
const rounded = (value, digits) => Number(value.toFixed(digits));

/** @template T @param {readonly T[]} list @param {number} i */
const inTurn = (list, i) => list[i % list.length];

/** @param {number} count */
const upTo = (count) => Array.from({ length: count }, (_, i) => i);

/**
 * Remembers what chance gave to each name: one amount for each batch, each day.
 * @param {() => number} drawn
 */
function forEachName(drawn) {
	/** @type {Map<string, number>} */
	const known = new Map();
	return (/** @type {string} */ name) => {
		const value = known.get(name) ?? drawn();
		known.set(name, value);
		return value;
	};
}

/** Errors that flasks of one trial share. @param {FaultBench} bench @param {Generator} random */
function trueBench(bench, random) {
	const { tail, tolerances, beyond } = bench;
	const off = (/** @type {number} */ limit) => within(random, beyond * limit);
	const strength = () => 1 + draw(random, tail, bench.strengthSpread);
	return {
		iodine: bench.iodine * strength(),
		thiosulfate: bench.thiosulfate * strength(),
		dose: off(tolerances.dose),
		aliquot: off(tolerances.aliquot),
		batch: forEachName(() => draw(random, tail, bench.batchSpread)),
		day: forEachName(() => 1 + draw(random, tail, bench.daySpread)),
		burette: burette(random, {
			scale: 1 + off(tolerances.burette) / 50,
			readingSpread: bench.spreads.reading,
			dropSize: bench.drop,
			step: bench.step,
		}),
	};
}

/** A share of iodine that escapes cannot be below 0. @param {number} mean @param {Given} given */
const lossShare = (mean, { bench, random }) =>
	Math.max(0, mean + draw(random, bench.lossTail, bench.lossSpread));

/**
 * What stands in a jar when its iodine has come to rest.
 * @param {{ dose: number, uptake: number, exponent: number, char: number, demand: number, loss: number }} nature mL; mg/g at the stated residue; g; mmol for the whole jar
 * @param {Given} given @returns {Jar}
 */
function jarAtRest(nature, { design, bench, actual, random }) {
	const { tail, spreads, tolerances, beyond } = bench;
	const dose = nature.dose + actual.dose + draw(random, tail, spreads.dose);
	const vessel = within(random, beyond * tolerances.vessel);
	return stand(
		{
			...emptyJar(),
			dissolved: actual.iodine * dose,
			liquid:
				bench.madeUp +
				vessel +
				draw(random, tail, spreads.madeUp) -
				bench.displaced * nature.char,
		},
		{
			isotherm: isothermThrough(nature.uptake, design.residue, nature.exponent),
			char: nature.char,
			demandLeft: nature.demand,
			lossShare: nature.loss,
			early: bench.early,
		},
	);
}

/** A titre as it is written down. @param {number} needed mL @param {Given} given */
function titre(needed, { bench, actual, random }) {
	actual.burette.topUp();
	// What a twentieth of a millilitre would titrate stays colourless with starch.
	if (needed < 0.05) return 0;
	const scatter = 1 + draw(random, bench.tail, bench.spreads.titration);
	return rounded(titreOf(actual.burette.titrate(needed * scatter)), 2);
}

/**
 * Titres of aliquots of a jar; `unseen` is the share of its iodine that thiosulfate does not find.
 * @param {Jar} jar @param {number} unseen @param {Given} given
 */
function titresOf(jar, unseen, given) {
	const { bench, actual, random } = given;
	return upTo(bench.titrations).map(() => {
		const aliquot =
			bench.aliquot +
			actual.aliquot +
			draw(random, bench.tail, bench.spreads.aliquot);
		const iodine = (2 * jar.dissolved * (1 - unseen) * aliquot) / jar.liquid;
		const needed = iodine / actual.thiosulfate;
		return needed < 0.05 ? 0 : titre(needed + bench.reagentBlank, given);
	});
}

/** @param {readonly number[]} titres @returns {Row} */
const titreCells = (titres) =>
	Object.fromEntries(titres.map((t, i) => [`titre ${i + 1} (mL)`, t]));

/** Cells of a flask that was dosed. @param {number} dose @param {FaultBench} bench @returns {Row} */
const dosedCells = (dose, bench) => ({
	"dose (mL)": dose,
	"made up to (mL)": bench.madeUp,
	"aliquot (mL)": bench.aliquot,
});

/** Reagent and iodine blanks of a day. @param {string} day @param {Given} given @returns {Row[]} */
function blanksOf(day, given) {
	const { bench, random } = given;
	const reagent = upTo(bench.reagentBlanks).map((i) => {
		const off = draw(random, "normal", bench.reagentBlankSpread);
		return {
			flask: `RB${day}.${i + 1}`,
			contents: "reagent blank",
			day,
			// A blank that starch does not show is still let in drop by drop.
			"titre 1 (mL)": Math.max(0, rounded(bench.reagentBlank + off, 2)),
		};
	});
	const iodine = upTo(bench.iodineBlanks).map((i) => {
		const loss = lossShare(bench.blankLoss ?? bench.loss, given);
		const jar = jarAtRest(
			{
				dose: bench.blankDose,
				uptake: 0,
				exponent: 1,
				char: 0,
				demand: 0,
				loss,
			},
			given,
		);
		return {
			flask: `IB${day}.${i + 1}`,
			contents: "iodine blank",
			day,
			...dosedCells(bench.blankDose, bench),
			...titreCells(titresOf(jar, 0, given)),
			lid: "yes",
		};
	});
	return [...reagent, ...iodine];
}

/**
 * What chance made of one soak.
 * @param {FaultTreatment} planned @param {number} index @param {number} moistureOff what the treatment's determination of moisture is off by @param {Given} given
 */
function soakOf(
	planned,
	index,
	moistureOff,
	{ design, bench, actual, random },
) {
	const batch = inTurn(planned.batches, index);
	const moisture =
		(planned.moisture ?? bench.moisture) +
		draw(random, bench.tail, bench.moistureSpread);
	const off =
		bench.moistureFor === "soak"
			? draw(random, bench.tail, bench.moistureError)
			: moistureOff;
	return {
		batch,
		name: `${planned.treatment} ${index + 1}`,
		soakShift: draw(random, bench.tail, planned.soakSpread),
		batchShift: actual.batch(batch),
		mean: design.uptake + (planned.difference ?? 0),
		demand:
			planned.demand * (1 + draw(random, bench.tail, planned.demandSpread)),
		moisture,
		moistureFound: Math.max(0, rounded(moisture + off, 1)),
	};
}

/** @typedef {ReturnType<typeof soakOf>} Soak */

/** Cells that every char and leachate row of a soak has. @param {FaultTreatment} planned @param {Soak} soak @param {Given} given @returns {Row} */
function soakCells(planned, soak, { design, bench }) {
	const control = design.treatments.find((t) => t.difference === undefined);
	const named = design.controlNamed && planned.difference !== undefined;
	return {
		treatment: planned.treatment,
		control: named ? (control?.treatment ?? "") : "",
		"char batch": soak.batch,
		soak: soak.name,
		"soaked in": planned.soakedIn,
		"soak consumes iodine": planned.consumesIodine,
		...(bench.moistureFor !== "nobody" && {
			"moisture, wet basis (%)": soak.moistureFound,
		}),
	};
}

/**
 * One flask with char: what is written down, and what is true.
 * @param {FaultTreatment} planned @param {Soak} soak @param {number} number of the flask within the treatment @param {Given} given
 */
function charFlask(planned, soak, number, given) {
	const { bench, actual, random } = given;
	const { tail, spreads } = bench;
	const day = inTurn(planned.days, number);
	const dose = inTurn(planned.doses, number);
	const mass =
		inTurn(planned.charMasses ?? [bench.charMass], number) *
		(1 + draw(random, "normal", bench.charMassSpread));
	const char = mass * (1 - soak.moisture / 100);
	const flaskShift = draw(random, tail, bench.flaskSpread);
	const uptake =
		(soak.mean + soak.soakShift + soak.batchShift + flaskShift) *
		actual.day(day) *
		(planned.happens.reached ?? 1);
	const loss = lossShare(planned.happens.loss ?? bench.loss, given);
	const exponent = planned.exponent ?? bench.exponent;
	const jar = jarAtRest(
		{ dose, uptake, exponent, char, demand: soak.demand * char, loss },
		given,
	);
	const flask = `${planned.prefix}${number + 1}`;
	const name = planned.soakNames && inTurn(planned.soakNames, number);
	/** @type {Row} */
	const row = {
		flask,
		contents: "char",
		day,
		...soakCells(planned, soak, given),
		...(name !== undefined && { soak: name }),
		"char mass (g)": rounded(mass + draw(random, tail, spreads.balance), 3),
		...dosedCells(dose, bench),
		...titreCells(titresOf(jar, planned.happens.unseen ?? 0, given)),
		acidified: "yes",
		"final pH": 5,
		"first runnings discarded": "yes",
		"blue returned": "no",
		lid: "yes",
		...planned.writes,
	};
	const truth = {
		flask,
		treatment: planned.treatment,
		soak: soak.name,
		char,
		moisture: soak.moisture,
		uptake: (jar.onChar * iodineMolarMass) / char,
		residue: milligramsPerLitre(jar.dissolved, jar.liquid),
		lost: jar.lost * iodineMolarMass,
		soakShift: soak.soakShift,
		batchShift: soak.batchShift,
		flaskShift,
	};
	return { row, truth };
}

/** Char of a soak leached in the medium of the trial; a part of the filtrate is dosed and titrated like a flask. @param {FaultTreatment} planned @param {Soak} soak @param {number} number @param {Given} given @returns {Row} */
function leachateRow(planned, soak, number, given) {
	const { charMass, volume, taken, dose } = given.bench.leachate;
	const demand =
		soak.demand * charMass * (1 - soak.moisture / 100) * (taken / volume);
	const jar = jarAtRest(
		{
			dose,
			uptake: 0,
			exponent: 1,
			char: 0,
			demand,
			loss: lossShare(given.bench.loss, given),
		},
		given,
	);
	return {
		flask: `${planned.prefix}L${number + 1}`,
		contents: "leachate",
		day: planned.days[0],
		...soakCells(planned, soak, given),
		control: "",
		"char mass (g)": charMass,
		"leachate (mL)": volume,
		"leachate taken (mL)": taken,
		...dosedCells(dose, given.bench),
		...titreCells(titresOf(jar, 0, given)),
		acidified: "yes",
		lid: "yes",
	};
}

/** All rows of one treatment. @param {FaultTreatment} planned @param {Given} given */
function treatmentRows(planned, given) {
	const { bench, random } = given;
	const moistureOff = draw(random, bench.tail, bench.moistureError);
	/** @type {Row[]} */
	const rows = [];
	/** @type {FaultTruth["flasks"]} */
	const flasks = [];
	for (const s of upTo(planned.soaks)) {
		const soak = soakOf(planned, s, moistureOff, given);
		if (s < planned.leachates) rows.push(leachateRow(planned, soak, s, given));
		for (const f of upTo(planned.flasks)) {
			const made = charFlask(planned, soak, s * planned.flasks + f, given);
			rows.push(made.row);
			flasks.push(made.truth);
		}
	}
	return { rows, flasks };
}

/** Every row with the same columns, in the order in which they first occur; an empty cell is "". @param {readonly Row[]} rows @returns {Row[]} */
function asTable(rows) {
	const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
	return rows.map((row) =>
		Object.fromEntries(columns.map((c) => [c, row[c] ?? ""])),
	);
}

/** Columns that somebody typed in another unit than their header says. @param {Row} row @param {Record<string, number>} factors @returns {Row} */
const mistyped = (row, factors) =>
	Object.fromEntries(
		Object.entries(row).map(([column, cell]) => [
			column,
			typeof cell === "number" && column in factors
				? rounded(cell * factors[column], 6)
				: cell,
		]),
	);

/**
 * One run of a design: the rows of a bench sheet as somebody would type them, and the truth behind them. The same design and seed give the same rows.
 * @param {FaultDesign} design one of fault-designs.json, completed by `faultDesignsOf`
 * @param {number} seed
 * @returns {import("./fault-plan.mjs").FaultRun}
 */
export function simulateFault(design, seed) {
	const { bench } = design;
	const random = generator(`fault ${design.name}, run ${seed}`);
	const given = { design, bench, actual: trueBench(bench, random), random };
	const days = [...new Set(design.treatments.flatMap((t) => t.days))].sort();
	const blanks = days.flatMap((day) => blanksOf(day, given));
	const made = design.treatments.map((t) => treatmentRows(t, given));
	const rows = [...blanks, ...made.flatMap((m) => m.rows)];
	const dry = rows.filter(
		(r) =>
			design.leavesOutDry && r.contents === "char" && r["titre 1 (mL)"] === 0,
	);
	return {
		flasks: asTable(rows.map((row) => mistyped(row, design.typed))),
		solutions: asTable(design.solutions ?? statedSolutions(bench)),
		deviations: [
			...design.deviations,
			...dry.map((r) => ({
				flask: r.flask,
				"what happened": "no iodine was left to titrate",
				handling: "leave out",
			})),
		],
		glassware: design.glassware,
		truth: {
			treatments: design.treatments.flatMap(({ treatment, difference }) =>
				difference === undefined ? [] : [{ treatment, difference }],
			),
			flasks: made.flatMap((m) => m.flasks),
		},
	};
}
