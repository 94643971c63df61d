import {
	aboveZero,
	bare,
	between,
	type Column,
	column,
	date,
	dryMoisture,
	type Holds,
	mass,
	notes,
	notNegative,
	pH,
	type Range,
	ratio,
	text,
	volume,
	wetMoisture,
} from "./column";

const share: Range = {
	least: 0,
	leastAllowed: true,
	most: 1,
	words: "between 0 and 100 % (0 and 1 as a fraction)",
	unit: "1",
};
const someShare: Range = { ...share, leastAllowed: false };

const temperature: Holds = {
	is: "number",
	kinds: ["temperature"],
	units: ["°C"],
	range: {
		least: -20,
		leastAllowed: true,
		most: 1600,
		words: "between -20 and 1600 °C",
		unit: "°C",
	},
};
const time: Holds = {
	is: "number",
	kinds: ["time"],
	units: ["h", "min", "d"],
	range: notNegative,
};
const conductivity = (range: Range): Holds => ({
	is: "number",
	kinds: ["conductivity"],
	units: ["mS/cm", "µS/cm"],
	range,
});
/** The table of firings: one row for what was charred, soaked, fired, washed and dried as one. */
export const firingColumns = {
	firing: column(
		text,
		"name of the firing: what the flasks name in `soak`, or else in `char batch`",
		{ required: "every row", also: ["activation run"] },
	),
	precursor: column(text, "what was charred or activated, in words"),
	"precursor batch": column(text, "batch of the precursor"),
	"precursor size": column(text, "size of its pieces"),
	"precursor mass": column(mass(aboveZero), "mass that the firing began with", {
		required: "every row",
		counts: true,
	}),
	"precursor moisture, wet basis": column(
		ratio(wetMoisture),
		"water in the precursor per mass of moist precursor",
		{ counts: true },
	),
	"precursor moisture, dry basis": column(
		ratio(dryMoisture),
		"water in the precursor per mass of dry precursor",
		{ counts: true },
	),
	"precursor ash": column(ratio(share), "ash of the dry precursor", {
		counts: true,
	}),
	"precursor carbon": column(
		ratio(someShare),
		"carbon in the dry precursor, for ratios by moles",
		{ counts: true },
	),
	agent: column(
		text,
		'what it was impregnated with, by name or formula; "none" or empty for none',
	),
	"agent mass": column(mass(aboveZero), "mass of the solid agent used", {
		counts: true,
	}),
	"agent purity": column(
		ratio(someShare),
		"mass fraction of agent in that solid",
		{ otherwise: "100 %", counts: true },
	),
	"agent solution mass": column(
		mass(aboveZero),
		"mass of the agent's solution, instead of `agent mass`",
		{ counts: true },
	),
	"agent solution volume": column(
		volume(aboveZero),
		"volume of the agent's solution, instead of its mass",
		{ counts: true },
	),
	"agent strength": column(
		{
			is: "number",
			kinds: ["ratio", "massConcentration", "concentration"],
			units: ["% w/w", "g/L", "mol/L"],
			range: aboveZero,
		},
		"strength of that solution: % w/w for a mass, g/L or mol/L for a volume",
		{ required: "wherever a solution is given", counts: true },
	),
	"soak time": column(time, "how long it was soaked"),
	"soak temperature": column(temperature, "temperature of the soak"),
	"impregnated mass": column(
		mass(aboveZero),
		"mass after the soak, as it went into the kiln",
		{ counts: true },
	),
	"liquor drained": column(
		mass(notNegative),
		"mass of the liquor poured off after the soak",
		{ counts: true },
	),
	"liquor strength": column(
		ratio(share),
		"mass fraction of agent in the liquor poured off",
		{ otherwise: "that of the soak's solution", counts: true },
	),
	"step # temperature": column(
		temperature,
		"thermal programme: temperature that the step goes to",
	),
	"step # rate": column(
		{
			is: "number",
			kinds: ["heatingRate"],
			units: ["°C/min", "°C/h"],
			range: aboveZero,
		},
		"thermal programme: heating rate",
	),
	"step # hold": column(time, "thermal programme: time held there"),
	"step # atmosphere": column(
		text,
		"thermal programme: atmosphere (own gas under a lid, nitrogen, steam, carbon dioxide, air)",
	),
	"step # steam": column(
		{
			is: "number",
			kinds: ["massFlow"],
			units: ["g/min", "g/h", "kg/h"],
			range: notNegative,
		},
		"thermal programme: steam fed",
	),
	"charred mass": column(
		mass(aboveZero),
		"mass after charring, where charring and activating were two steps",
		{ counts: true },
	),
	"fired mass": column(
		mass(aboveZero),
		"mass out of the kiln, dry, before washing; with what is left of the agent",
		{ counts: true },
	),
	condensate: column(mass(notNegative), "tar and water caught from the kiln", {
		counts: true,
	}),
	"gas mass": column(mass(notNegative), "gas given off, where measured", {
		counts: true,
	}),
	"rinse #": column(
		volume(aboveZero),
		"volume of rinse water that ran off; as much is taken to have been poured on",
		{ counts: true },
	),
	"rinse # ph": column(pH, "pH of that rinse"),
	"rinse # conductivity": column(
		conductivity(notNegative),
		"conductivity of that rinse, as read",
		{ counts: true },
	),
	"rinse # diluted": column(
		bare(between(1, 10000, "a number of 1 or more")),
		"how many times it was diluted with the rinse water before its conductivity was read",
		{ otherwise: "1: not diluted", counts: true },
	),
	"rinse water conductivity": column(
		conductivity(notNegative),
		"conductivity of the water itself",
		{ otherwise: "fitted, where the readings allow it, else 0", counts: true },
	),
	"rinse water ph": column(pH, "pH of the water itself", { otherwise: "7" }),
	"reference strength": column(
		{
			is: "number",
			kinds: ["massConcentration"],
			units: ["g/L", "mg/L"],
			range: aboveZero,
		},
		"strength of a solution of the agent whose conductivity was read",
		{ counts: true },
	),
	"reference conductivity": column(
		conductivity(aboveZero),
		"conductivity of that solution; turns readings of rinses into grams",
		{ required: "with `reference strength`", counts: true },
	),
	"fines caught": column(
		mass(notNegative),
		"dry mass of fines caught from the rinses",
		{ counts: true },
	),
	"dish mass": column(
		mass(aboveZero),
		"mass of the dish that it was dried in",
		{ otherwise: "the weighings are without a dish", counts: true },
	),
	"drying # time": column(time, "time in the oven at a weighing", {
		required: "wherever `drying # mass` is filled",
		counts: true,
	}),
	"drying # mass": column(mass(aboveZero), "mass at that weighing", {
		required: "wherever `drying # time` is filled",
		counts: true,
	}),
	"product mass": column(
		mass(aboveZero),
		"mass of the washed and dried product",
		{ otherwise: "the last weighing of the drying", counts: true },
	),
	"product moisture, wet basis": column(
		ratio(wetMoisture),
		"water still in the product mass",
		{ otherwise: "none", counts: true },
	),
	"product ash": column(ratio(share), "ash of the dry product", {
		counts: true,
	}),
	"product volatile matter": column(
		ratio(share),
		"volatile matter of the dry product",
		{ counts: true },
	),
	"energy used": column(
		{
			is: "number",
			kinds: ["energy"],
			units: ["kWh", "MJ", "kJ"],
			range: notNegative,
		},
		"energy used by kiln and oven",
	),
	"fired on": column(date, "date of the firing"),
	"what happened": column(text, "what went wrong, in words"),
	notes,
} as const satisfies Record<string, Column>;
