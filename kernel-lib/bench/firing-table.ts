import {
	type Evidence,
	exact,
	exactRatio,
	input,
	type Kind,
	minus,
	normal,
	type Quantity,
	toBase,
	type UnitOf,
} from "../quantity";
import { readingOf, sourceOf } from "./cell-source";
import type { FiringKey } from "./columns";
import type {
	AgentAmount,
	DryingWeighing,
	Firing,
	Rinse,
	ThermalStep,
} from "./firing";
import { type FiringTable, namesNoAgent } from "./firing-checks";
import type { Instruments } from "./glassware/instruments";
import {
	extraOf,
	isEmpty,
	momentOf,
	numberOf,
	numbersOf,
	type ParsedRow,
	placeOf,
	textOf,
} from "./parsed-table";
import type { Moisture, Recorded } from "./trial";

const notRecorded = { recorded: false } as const;

/** Relative spread of a conductivity reading: temperature and cell constant move it by about this much (common practice, no source). */
const conductivitySpread = 0.02;
/** Spread of a pH reading (common practice, no source). */
const pHSpread = 0.05;
/** Relative spread of a strength or a content that the sheet states without its uncertainty (common practice, no source). */
const contentSpread = 0.01;
/** Spread of a moisture, as a part of the mass (common practice, no source). */
const moistureSpread = 0.002;

const spreadsAssumed = `Activation table: conductivities are taken as read to ${100 * conductivitySpread} %, pH to ${pHSpread}, strengths, contents and energy as known to ${100 * contentSpread} % of their value, moistures to ${100 * moistureSpread} % of the mass (common practice, no source).`;

type Spread = (value: number, unitInBase: number) => Evidence;

const ofItself =
	(part: number): Spread =>
	(value) =>
		normal(Math.abs(value) * part);
const ofTheMass: Spread = (_, unitInBase) =>
	normal(moistureSpread / unitInBase);
const ofPH: Spread = () => normal(pHSpread);

/** Reads the cells of one row. */
interface RowReader {
	readonly name: string;
	text(key: FiringKey, n?: number): string;
	/** `word` stands in the symbol, `meaning` in the working. */
	mass(
		key: FiringKey,
		word: string,
		meaning: string,
		n?: number,
	): Recorded<Quantity<"mass">>;
	number<K extends Kind>(
		kind: K,
		key: FiringKey,
		symbol: string,
		what: string,
		spread?: Spread,
		n?: number,
	): Recorded<Quantity<K>>;
	volume(
		key: FiringKey,
		symbol: string,
		what: string,
		n?: number,
	): Recorded<Quantity<"volume">>;
}

function readerOf(
	table: FiringTable,
	row: ParsedRow,
	instruments: Instruments,
): RowReader {
	const name = textOf(table, row, "firing");
	return {
		name,
		text: (key, n = 1) => textOf(table, row, key, n),
		mass(key, word, meaning, n = 1) {
			const cell = numberOf(table, row, key, n);
			if (cell === null) return notRecorded;
			const reading = readingOf(
				table,
				row,
				cell,
				`m_{\\text{${word}}}`,
				`${meaning}, firing ${name}`,
			);
			return { recorded: true, value: instruments.mass("activation", reading) };
		},
		number(kind, key, symbol, what, spread = () => exact, n = 1) {
			const cell = numberOf(table, row, key, n);
			if (cell === null) return notRecorded;
			const unit = (cell.unit === "" ? kind : cell.unit) as UnitOf<typeof kind>;
			// A scale with an offset (°C) has no spread here, so the step of its unit is never asked for.
			const step = toBase(kind, 1, unit) - toBase(kind, 0, unit);
			return {
				recorded: true,
				value: input(kind, cell.value, unit, spread(cell.value, step), {
					symbol,
					meaning: `${what}, firing ${name}`,
					source: sourceOf(table, row, cell.header),
					scope: "reading",
				}),
			};
		},
		volume(key, symbol, what, n = 1) {
			const cell = numberOf(table, row, key, n);
			if (cell === null) return notRecorded;
			const reading = readingOf(
				table,
				row,
				cell,
				symbol,
				`volume of ${what}, firing ${name}`,
			);
			return { recorded: true, value: instruments.volume("rinse", reading) };
		},
	};
}

function moistureOf(read: RowReader): Recorded<Moisture> {
	for (const basis of ["wet", "dry"] as const) {
		const found = read.number(
			"ratio",
			`precursor moisture, ${basis} basis`,
			"w_{\\text{precursor}}",
			`moisture of the precursor, ${basis} basis`,
			ofTheMass,
		);
		if (found.recorded)
			return { recorded: true, value: { fraction: found.value, basis } };
	}
	return notRecorded;
}

function strengthOf(
	table: FiringTable,
	row: ParsedRow,
	read: RowReader,
): Recorded<Quantity<"massConcentration"> | Quantity<"concentration">> {
	const kind = numberOf(table, row, "agent strength")?.kind;
	const words = [
		"agent strength",
		"c_{\\text{agent}}",
		"strength of the agent's solution",
		ofItself(contentSpread),
	] as const;
	return kind === "concentration"
		? read.number("concentration", ...words)
		: read.number("massConcentration", ...words);
}

function agentOf(
	table: FiringTable,
	row: ParsedRow,
	read: RowReader,
	assumptions: Set<string>,
): Recorded<AgentAmount> {
	const solid = read.mass("agent mass", "agent", "mass of the agent");
	if (solid.recorded) {
		const purity = read.number(
			"ratio",
			"agent purity",
			"P",
			"purity of the agent",
			ofItself(contentSpread),
		);
		if (!purity.recorded)
			assumptions.add(
				"Purity of the agent not recorded: 100 % assumed, exact.",
			);
		return {
			recorded: true,
			value: {
				as: "solid",
				mass: solid.value,
				purity: purity.recorded
					? purity.value
					: exactRatio(1, "P", "purity of the agent, assumed"),
			},
		};
	}
	const solution = read.mass(
		"agent solution mass",
		"agent solution",
		"mass of the agent's solution",
	);
	if (solution.recorded) {
		const massFraction = read.number(
			"ratio",
			"agent strength",
			"w_{\\text{agent}}",
			"mass fraction of agent in its solution",
			ofItself(contentSpread),
		);
		return massFraction.recorded
			? {
					recorded: true,
					value: {
						as: "solution by mass",
						mass: solution.value,
						massFraction: massFraction.value,
					},
				}
			: notRecorded;
	}
	const volume = read.volume(
		"agent solution volume",
		"V_{\\text{agent}}",
		"the agent's solution",
	);
	const strength = volume.recorded ? strengthOf(table, row, read) : notRecorded;
	return volume.recorded && strength.recorded
		? {
				recorded: true,
				value: {
					as: "solution by volume",
					volume: volume.value,
					strength: strength.value,
				},
			}
		: notRecorded;
}

function programmeOf(table: FiringTable, read: RowReader): ThermalStep[] {
	return numbersOf(table, "step # temperature").flatMap((n): ThermalStep[] => {
		const more = <K extends Kind>(
			kind: K,
			key: FiringKey,
			symbol: string,
			what: string,
		): Recorded<Quantity<K>> =>
			read.number(kind, key, symbol, `${what} of step ${n}`, undefined, n);
		const temperature = more(
			"temperature",
			"step # temperature",
			"T",
			"temperature",
		);
		if (!temperature.recorded) return [];
		return [
			{
				temperature: temperature.value,
				rate: more("heatingRate", "step # rate", "\\beta", "heating rate"),
				hold: more("time", "step # hold", "t", "hold"),
				atmosphere: read.text("step # atmosphere", n),
				steam: more("massFlow", "step # steam", "\\dot{m}", "steam"),
			},
		];
	});
}

function rinsesOf(
	table: FiringTable,
	row: ParsedRow,
	read: RowReader,
): Rinse[] {
	return numbersOf(table, "rinse #").flatMap((n): Rinse[] => {
		const volume = read.volume("rinse #", `V_{${n}}`, `rinse ${n}`, n);
		if (!volume.recorded) return [];
		return [
			{
				number: n,
				volume: volume.value,
				pH: read.number(
					"pH",
					"rinse # ph",
					`\\text{pH}_{${n}}`,
					`pH of rinse ${n}`,
					ofPH,
					n,
				),
				conductivity: read.number(
					"conductivity",
					"rinse # conductivity",
					`\\kappa_{${n}}`,
					`conductivity of rinse ${n}`,
					ofItself(conductivitySpread),
					n,
				),
				diluted: numberOf(table, row, "rinse # diluted", n)?.value ?? 1,
				marks: [],
				place: placeOf(table, row, "rinse #", n),
			},
		];
	});
}

function dryingOf(
	table: FiringTable,
	row: ParsedRow,
	read: RowReader,
): DryingWeighing[] {
	const dish = read.mass("dish mass", "dish", "mass of the dish");
	return numbersOf(table, "drying # mass").flatMap((n): DryingWeighing[] => {
		const what = `weighing ${n} of the drying`;
		const time = read.number("time", "drying # time", "t", what, undefined, n);
		const weighed = read.mass("drying # mass", `dish and char, ${n}`, what, n);
		if (!time.recorded || !weighed.recorded) return [];
		return [
			{
				number: n,
				time: time.value,
				mass: dish.recorded ? minus(weighed.value, dish.value) : weighed.value,
				marks: [],
				place: placeOf(table, row, "drying # mass", n),
			},
		];
	});
}

function referenceOf(read: RowReader): Firing["reference"] {
	const strength = read.number(
		"massConcentration",
		"reference strength",
		"c_{\\text{ref}}",
		"strength of the reference solution",
		ofItself(contentSpread),
	);
	const conductivity = read.number(
		"conductivity",
		"reference conductivity",
		"\\kappa_{\\text{ref}}",
		"conductivity of the reference solution",
		ofItself(conductivitySpread),
	);
	return strength.recorded && conductivity.recorded
		? {
				recorded: true,
				value: { strength: strength.value, conductivity: conductivity.value },
			}
		: notRecorded;
}

function precursorMassOf(read: RowReader): Quantity<"mass"> {
	const mass = read.mass(
		"precursor mass",
		"precursor",
		"mass of the precursor",
	);
	if (!mass.recorded)
		throw new Error("The checks let a row without a precursor mass pass.");
	return mass.value;
}

function firingOf(
	table: FiringTable,
	row: ParsedRow,
	index: number,
	instruments: Instruments,
	assumptions: Set<string>,
): Firing {
	const read = readerOf(table, row, instruments);
	const content = (
		key: FiringKey,
		symbol: string,
		what: string,
	): Recorded<Quantity<"ratio">> =>
		read.number("ratio", key, symbol, what, ofItself(contentSpread));
	const drying = dryingOf(table, row, read);
	const product = read.mass("product mass", "product", "mass of the product");
	if (drying.length > 0 && !product.recorded)
		assumptions.add(
			"Where no product mass is recorded, the last weighing of the drying is taken.",
		);
	if (drying.length > 0 && isEmpty(table, row, "dish mass"))
		assumptions.add(
			"Weighings of the drying are taken as without a dish where no dish mass is recorded.",
		);
	const firedOn = momentOf(table, row, "fired on");
	return {
		name: read.name,
		precursor: read.text("precursor"),
		precursorBatch: read.text("precursor batch"),
		precursorSize: read.text("precursor size"),
		precursorMass: precursorMassOf(read),
		precursorMoisture: moistureOf(read),
		precursorAsh: content(
			"precursor ash",
			"A_{\\text{precursor}}",
			"ash of the dry precursor",
		),
		precursorCarbon: content(
			"precursor carbon",
			"w_{\\text{C}}",
			"carbon in the dry precursor",
		),
		agent: namesNoAgent(read.text("agent")) ? "" : read.text("agent"),
		agentAmount: agentOf(table, row, read, assumptions),
		soakTime: read.number("time", "soak time", "t", "time of the soak"),
		soakTemperature: read.number(
			"temperature",
			"soak temperature",
			"T",
			"temperature of the soak",
		),
		impregnatedMass: read.mass(
			"impregnated mass",
			"impregnated",
			"mass after the soak",
		),
		liquorDrained: read.mass(
			"liquor drained",
			"liquor",
			"mass of the liquor poured off",
		),
		liquorStrength: content(
			"liquor strength",
			"w_{\\text{liquor}}",
			"mass fraction of agent in the liquor",
		),
		programme: programmeOf(table, read),
		charredMass: read.mass("charred mass", "charred", "mass after charring"),
		firedMass: read.mass("fired mass", "fired", "mass out of the kiln"),
		condensate: read.mass(
			"condensate",
			"condensate",
			"mass of tar and water caught",
		),
		gasMass: read.mass("gas mass", "gas", "mass of the gas"),
		rinses: rinsesOf(table, row, read),
		rinseWater: {
			conductivity: read.number(
				"conductivity",
				"rinse water conductivity",
				"\\kappa_{\\text{water}}",
				"conductivity of the rinse water",
				ofItself(conductivitySpread),
			),
			pH: read.number(
				"pH",
				"rinse water ph",
				"\\text{pH}_{\\text{water}}",
				"pH of the rinse water",
				ofPH,
			),
		},
		reference: referenceOf(read),
		finesCaught: read.mass("fines caught", "fines", "mass of the fines caught"),
		drying,
		productMass: product,
		productMoisture: read.number(
			"ratio",
			"product moisture, wet basis",
			"w_{\\text{product}}",
			"moisture of the product, wet basis",
			ofTheMass,
		),
		productAsh: content(
			"product ash",
			"A_{\\text{product}}",
			"ash of the dry product",
		),
		productVolatileMatter: content(
			"product volatile matter",
			"\\text{VM}",
			"volatile matter of the dry product",
		),
		energyUsed: read.number(
			"energy",
			"energy used",
			"E",
			"energy used",
			ofItself(contentSpread),
		),
		firedOn:
			firedOn === null ? notRecorded : { recorded: true, value: firedOn.date },
		whatHappened: read.text("what happened"),
		notes: read.text("notes"),
		extra: extraOf(table, table.raw.rows[index].cells),
		marks: [],
		place: placeOf(table, row, "firing"),
	};
}

/** Builds the firings; only after the checks found nothing. */
export function buildFirings(
	table: FiringTable,
	instruments: Instruments,
	assumptions: Set<string>,
): Firing[] {
	if (table.rows.length > 0) assumptions.add(spreadsAssumed);
	return table.rows.map((row, i) =>
		firingOf(table, row, i, instruments, assumptions),
	);
}
