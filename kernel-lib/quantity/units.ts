import { type Checked, ProblemError, problem } from "../problem";
import type { Kind } from "./kinds";
import { didYouMean } from "./nearest-name";

/** Factor to the base unit; temperature scales have an offset too: base = value * factor + offset. */
export interface UnitScale {
	readonly factor: number;
	readonly offset?: number;
}

/** Units of each kind, the one used for display first. A new unit is one entry here. */
export const units = {
	ratio: { "1": { factor: 1 }, "%": { factor: 0.01 } },
	mass: {
		g: { factor: 1 },
		mg: { factor: 1e-3 },
		µg: { factor: 1e-6 },
		kg: { factor: 1e3 },
	},
	volume: {
		mL: { factor: 1e-3 },
		L: { factor: 1 },
		µL: { factor: 1e-6 },
		m3: { factor: 1e3 },
	},
	amount: {
		mmol: { factor: 1e-3 },
		mol: { factor: 1 },
		µmol: { factor: 1e-6 },
	},
	equivalents: { meq: { factor: 1e-3 }, eq: { factor: 1 } },
	concentration: {
		"mol/L": { factor: 1 },
		"mmol/L": { factor: 1e-3 },
		"µmol/L": { factor: 1e-6 },
	},
	normality: { N: { factor: 1 }, mN: { factor: 1e-3 } },
	massConcentration: {
		"mg/L": { factor: 1e-3 },
		"g/L": { factor: 1 },
		"µg/L": { factor: 1e-6 },
		"mg/mL": { factor: 1 },
	},
	density: {
		"g/mL": { factor: 1e3 },
		"g/cm3": { factor: 1e3 },
		"kg/m3": { factor: 1 },
		"g/L": { factor: 1 },
	},
	molarMass: { "g/mol": { factor: 1 } },
	equivalentsPerAmount: { "eq/mol": { factor: 1 } },
	uptake: {
		"mg/g": { factor: 1e-3 },
		"g/g": { factor: 1 },
		"g/kg": { factor: 1e-3 },
	},
	amountPerMass: { "mmol/g": { factor: 1e-3 }, "mol/g": { factor: 1 } },
	volumePerMass: { "mL/g": { factor: 1e-3 }, "L/g": { factor: 1 } },
	temperature: {
		"°C": { factor: 1, offset: 273.15 },
		K: { factor: 1 },
		"°F": { factor: 5 / 9, offset: 459.67 * (5 / 9) },
	},
	temperatureDifference: { K: { factor: 1 }, "°C": { factor: 1 } },
	perTemperature: { "1/K": { factor: 1 }, "1/°C": { factor: 1 } },
	time: {
		min: { factor: 60 },
		s: { factor: 1 },
		h: { factor: 3600 },
		d: { factor: 86400 },
	},
	perTime: {
		"1/min": { factor: 1 / 60 },
		"1/s": { factor: 1 },
		"1/h": { factor: 1 / 3600 },
		"1/d": { factor: 1 / 86400 },
	},
	length: {
		mm: { factor: 1e-3 },
		m: { factor: 1 },
		cm: { factor: 1e-2 },
		µm: { factor: 1e-6 },
		nm: { factor: 1e-9 },
	},
	area: { m2: { factor: 1 }, cm2: { factor: 1e-4 } },
	areaPerMass: { "m2/g": { factor: 1 } },
	areaPerAmount: { "m2/mol": { factor: 1 } },
	energy: {
		kJ: { factor: 1e3 },
		J: { factor: 1 },
		MJ: { factor: 1e6 },
		kWh: { factor: 3.6e6 },
	},
	energyPerAmount: { "kJ/mol": { factor: 1e3 }, "J/mol": { factor: 1 } },
	absorbance: { absorbance: { factor: 1 } },
	conductivity: {
		"µS/cm": { factor: 1e-4 },
		"mS/cm": { factor: 0.1 },
		"S/m": { factor: 1 },
	},
	pH: { pH: { factor: 1 } },
	money: { money: { factor: 1 } },
	price: { "money/kg": { factor: 1e-3 }, "money/g": { factor: 1 } },
	energyPrice: { "money/kWh": { factor: 1 / 3.6e6 } },
	heatingRate: {
		"°C/min": { factor: 1 / 60 },
		"K/min": { factor: 1 / 60 },
		"°C/h": { factor: 1 / 3600 },
	},
	massFlow: {
		"g/min": { factor: 1 / 60 },
		"g/h": { factor: 1 / 3600 },
		"kg/h": { factor: 1000 / 3600 },
	},
	flow: {
		"mL/min": { factor: 1e-3 / 60 },
		"L/h": { factor: 1 / 3600 },
		"L/s": { factor: 1 },
	},
} as const satisfies Record<Kind, Record<string, UnitScale>>;

/** The units that a kind may be written in. */
export type UnitOf<K extends Kind> = K extends Kind
	? keyof (typeof units)[K] & string
	: never;

/** How people also write a unit. Case matters in the first look; the second look forgives it where nothing else could be meant. */
const spellings: Readonly<Record<string, string>> = {
	ml: "mL",
	l: "L",
	ul: "µL",
	uL: "µL",
	μL: "µL",
	"cm³": "mL",
	cm3: "mL",
	cc: "mL",
	ug: "µg",
	μg: "µg",
	umol: "µmol",
	"mol/l": "mol/L",
	M: "mol/L",
	"mmol/l": "mmol/L",
	mM: "mmol/L",
	"eq/L": "N",
	"g/l": "g/L",
	"mg/l": "mg/L",
	ppm: "mg/L",
	"g/ml": "g/mL",
	"g/cm³": "g/cm3",
	"kg/m³": "kg/m3",
	"m³": "m3",
	"m²": "m2",
	"m²/g": "m2/g",
	"ml/g": "mL/g",
	C: "°C",
	degC: "°C",
	"% w/w": "%",
	percent: "%",
	fraction: "1",
	"": "1",
	um: "µm",
	μm: "µm",
	minutes: "min",
	hours: "h",
	days: "d",
};

export function unitScale(kind: Kind, unit: string): UnitScale | null {
	const table = units[kind] as Record<string, UnitScale>;
	return Object.hasOwn(table, unit) ? table[unit] : null;
}

/** The unit that a kind is shown in when nobody asks otherwise. */
export function displayUnit(kind: Kind): string {
	return Object.keys(units[kind])[0];
}

/** A unit as a person wrote it, turned into the table's own spelling for that kind; a problem says which units would do. Pure: `where` is added by the caller. */
export function readUnit(kind: Kind, written: string): Checked<string> {
	const text = written.trim();
	const candidates = [text, spellings[text] ?? ""];
	for (const name of Object.keys(units[kind])) {
		if (
			candidates.includes(name) ||
			// "MJ" and "mJ" differ by 1e9: only the letters after the first may differ in case.
			(name[0] === text[0] && name.toLowerCase() === text.toLowerCase())
		) {
			return { ok: true, value: name };
		}
	}
	return {
		ok: false,
		problems: [
			problem(
				"unit-unknown",
				{},
				text === "" ? "no unit" : `the unit "${text}"`,
				`a unit of ${kind}: ${Object.keys(units[kind]).join(", ")}`,
				"Write the unit in round brackets after the name of the column.",
			),
		],
	};
}

export function toBase(kind: Kind, value: number, unit: string): number {
	const scale = unitScale(kind, unit);
	if (scale === null) throw unknownUnit(kind, unit);
	return value * scale.factor + (scale.offset ?? 0);
}

export function fromBase(kind: Kind, base: number, unit: string): number {
	const scale = unitScale(kind, unit);
	if (scale === null) throw unknownUnit(kind, unit);
	return (base - (scale.offset ?? 0)) / scale.factor;
}

/** Factor alone, for uncertainties and differences, where an offset has no meaning. */
export function unitFactor(kind: Kind, unit: string): number {
	const scale = unitScale(kind, unit);
	if (scale === null) throw unknownUnit(kind, unit);
	return scale.factor;
}

function unknownUnit(kind: Kind, unit: string): Error {
	const known = Object.keys(units[kind]);
	return new ProblemError([
		problem(
			"unit-unknown",
			{},
			`"${unit}", which is not a unit of ${kind}`,
			`one of ${known.join(", ")}`,
			didYouMean(unit, known),
		),
	]);
}
