import { type Kind, minus, type Quantity } from "../quantity";
import type { FiringKey } from "./columns";
import type { DryingWeighing, Firing, Rinse, ThermalStep } from "./firing";
import { agentOf } from "./firing-agent";
import {
	conductivitySpread,
	contentSpread,
	notRecorded,
	ofItself,
	ofPH,
	ofTheMass,
	type RowReader,
	readerOf,
	spreadsAssumed,
} from "./firing-cells";
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
} from "./parsed-table";
import type { Moisture, Recorded } from "./trial";

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

const content = (
	read: RowReader,
	key: FiringKey,
	symbol: string,
	what: string,
): Recorded<Quantity<"ratio">> =>
	read.number("ratio", key, symbol, what, ofItself(contentSpread));

type Part<K extends keyof Firing> = Pick<Firing, K>;

const precursorOf = (
	read: RowReader,
): Part<
	| "precursor"
	| "precursorBatch"
	| "precursorSize"
	| "precursorMass"
	| "precursorMoisture"
	| "precursorAsh"
	| "precursorCarbon"
> => ({
	precursor: read.text("precursor"),
	precursorBatch: read.text("precursor batch"),
	precursorSize: read.text("precursor size"),
	precursorMass: precursorMassOf(read),
	precursorMoisture: moistureOf(read),
	precursorAsh: content(
		read,
		"precursor ash",
		"A_{\\text{precursor}}",
		"ash of the dry precursor",
	),
	precursorCarbon: content(
		read,
		"precursor carbon",
		"w_{\\text{C}}",
		"carbon in the dry precursor",
	),
});

const soakOf = (
	read: RowReader,
): Part<
	| "soakTime"
	| "soakTemperature"
	| "impregnatedMass"
	| "liquorDrained"
	| "liquorStrength"
> => ({
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
		read,
		"liquor strength",
		"w_{\\text{liquor}}",
		"mass fraction of agent in the liquor",
	),
});

const outOfTheKiln = (
	read: RowReader,
): Part<"charredMass" | "firedMass" | "condensate" | "gasMass"> => ({
	charredMass: read.mass("charred mass", "charred", "mass after charring"),
	firedMass: read.mass("fired mass", "fired", "mass out of the kiln"),
	condensate: read.mass(
		"condensate",
		"condensate",
		"mass of tar and water caught",
	),
	gasMass: read.mass("gas mass", "gas", "mass of the gas"),
});

const rinseWaterOf = (read: RowReader): Firing["rinseWater"] => ({
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
});

const productOf = (
	read: RowReader,
): Part<
	"productMass" | "productMoisture" | "productAsh" | "productVolatileMatter"
> => ({
	productMass: read.mass("product mass", "product", "mass of the product"),
	productMoisture: read.number(
		"ratio",
		"product moisture, wet basis",
		"w_{\\text{product}}",
		"moisture of the product, wet basis",
		ofTheMass,
	),
	productAsh: content(
		read,
		"product ash",
		"A_{\\text{product}}",
		"ash of the dry product",
	),
	productVolatileMatter: content(
		read,
		"product volatile matter",
		"\\text{VM}",
		"volatile matter of the dry product",
	),
});

function assumedOfDrying(
	table: FiringTable,
	row: ParsedRow,
	productWeighed: boolean,
): string[] {
	return [
		...(productWeighed
			? []
			: [
					"Where no product mass is recorded, the last weighing of the drying is taken.",
				]),
		...(isEmpty(table, row, "dish mass")
			? [
					"Weighings of the drying are taken as without a dish where no dish mass is recorded.",
				]
			: []),
	];
}

function firingOf(
	table: FiringTable,
	row: ParsedRow,
	index: number,
	instruments: Instruments,
	assumptions: Set<string>,
): Firing {
	const read = readerOf(table, row, instruments);
	const drying = dryingOf(table, row, read);
	const product = productOf(read);
	if (drying.length > 0)
		for (const assumed of assumedOfDrying(
			table,
			row,
			product.productMass.recorded,
		))
			assumptions.add(assumed);
	const firedOn = momentOf(table, row, "fired on");
	return {
		name: read.name,
		...precursorOf(read),
		agent: namesNoAgent(read.text("agent")) ? "" : read.text("agent"),
		agentAmount: agentOf(table, row, read, assumptions),
		...soakOf(read),
		programme: programmeOf(table, read),
		...outOfTheKiln(read),
		rinses: rinsesOf(table, row, read),
		rinseWater: rinseWaterOf(read),
		reference: referenceOf(read),
		finesCaught: read.mass("fines caught", "fines", "mass of the fines caught"),
		drying,
		...product,
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
