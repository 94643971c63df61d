import {
	aboveZero,
	type Column,
	column,
	type Holds,
	mass,
	notNegative,
	pH,
	type Range,
	volume,
} from "./column";

const conductivity: Holds = {
	is: "number",
	kinds: ["conductivity"],
	units: ["µS/cm", "mS/cm"],
	range: notNegative,
};

const fired: Range = {
	least: 50,
	leastAllowed: true,
	most: 1600,
	words: "between 50 and 1600 °C",
	unit: "°C",
};

/** What a row says of the soak of its char and of the rinsing after it: from this follows how much of the soak the char may still hold at most. */
export const soakingColumns = {
	"soak strength": column(
		{
			is: "number",
			kinds: ["massConcentration", "concentration", "ratio"],
			units: ["g/L", "mol/L", "%"],
			range: notNegative,
		},
		"strength of the liquor that the char was soaked in; % is grams in 100 g of liquor",
		{ counts: true },
	),
	"rinse #": column(
		volume(aboveZero),
		"rinse water poured on after the soak, one column for each rinse",
		{ counts: true },
	),
	"char rinsed": column(
		mass(aboveZero),
		"dry mass of the char that these rinses washed, all portions of the soak together",
		{ counts: true },
	),
	"last rinse ph": column(pH, "pH of the last rinse as it ran off"),
	"last rinse conductivity": column(
		conductivity,
		"conductivity of the last rinse as it ran off",
		{ counts: true },
	),
	"last rinse demand": column(
		{
			is: "number",
			kinds: ["concentration"],
			units: ["mmol/L", "mol/L"],
			range: notNegative,
		},
		"iodine (I2) that a litre of the last rinse consumes, by titration of a dosed portion of it",
		{ counts: true },
	),
	"fired after soak": column(
		{
			is: "number",
			kinds: ["temperature"],
			units: ["°C"],
			range: fired,
		},
		"highest temperature of a firing that came after the soak and its rinses",
		{ counts: true },
	),
} as const satisfies Record<string, Column>;
