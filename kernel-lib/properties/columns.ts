import { columns, type TableForm } from "../bench";

const { aboveZero, column, mass, notNegative, pH, text, volume, yesNo } =
	columns;

/** Properties that are read off a row; the others follow from them. */
const rowProperties = {
	moisture: [],
	"total ash": ["ash"],
	"volatile matter": ["volatiles"],
	"apparent density": ["bed density"],
	"water-soluble content": ["water-soluble", "water solubles"],
	"ball-pan hardness": ["hardness"],
	pH: [],
	"particle size": ["sieving", "sieve analysis"],
	"float-sink": ["float sink", "float and sink"],
} as const satisfies Record<string, readonly string[]>;

export type RowProperty = keyof typeof rowProperties;

/** The table of property readings: one row for one determination. */
export const propertyColumns = {
	determination: column(text, "name or number of the determination", {
		required: "every row",
	}),
	sample: column(text, "the char", { required: "every row" }),
	property: column(
		{ is: "choice", choices: rowProperties },
		"what was determined; it says which of the other columns the row needs",
		{ required: "every row" },
	),
	dish: column(
		mass(aboveZero),
		"empty dish, crucible with its lid, or cylinder",
		{ counts: true },
	),
	"dish and sample": column(mass(aboveZero), "the same with the sample", {
		counts: true,
	}),
	"dish after": column(
		mass(aboveZero),
		"the same after drying, ashing, heating or evaporating",
		{ counts: true },
	),
	"sample mass": column(
		mass(aboveZero),
		"sample weighed by itself: put into the pan, on the sieves, into the cylinder, extracted",
		{ counts: true },
	),
	dried: column(
		yesNo,
		"whether the sample was dried before it was weighed; where it was not, the mean moisture of the same char in this table is used",
		{
			required:
				"total ash, volatile matter, apparent density, water-soluble content",
			counts: true,
		},
	),
	volume: column(volume(aboveZero), "volume in the cylinder", {
		counts: true,
	}),
	"extract volume": column(volume(aboveZero), "all of the extract", {
		counts: true,
	}),
	"aliquot volume": column(
		volume(aboveZero),
		"part of it that was evaporated",
		{
			counts: true,
		},
	),
	ph: column(pH, "pH of the extract", { counts: true }),
	retained: column(
		mass(notNegative),
		"mass on the hardness test sieve after shaking with the balls",
		{ counts: true },
	),
	"sieve # opening": column(
		{
			is: "number",
			kinds: ["length"],
			units: ["mm", "µm"],
			range: aboveZero,
		},
		"opening of a sieve",
		{ required: "wherever `sieve # mass` is filled", counts: true },
	),
	"sieve # mass": column(mass(notNegative), "mass that stayed on it", {
		required: "wherever `sieve # opening` is filled",
		counts: true,
	}),
	pan: column(mass(notNegative), "mass in the pan below the sieves", {
		counts: true,
	}),
	liquid: column(text, "the liquid of a float-sink split, in words"),
	"liquid density": column(
		{
			is: "number",
			kinds: ["density"],
			units: ["g/mL", "kg/m3"],
			range: aboveZero,
		},
		"its density by hydrometer or weighing",
		{ counts: true },
	),
	floated: column(mass(notNegative), "dry mass that floated", { counts: true }),
	sunk: column(mass(notNegative), "dry mass that sank", { counts: true }),
	notes: column(text, "anything worth remembering"),
} as const;

export type PropertyKey = keyof typeof propertyColumns;

export const propertyForm: TableForm<PropertyKey> = {
	name: "properties",
	key: "determination",
	columns: propertyColumns,
};

/** What a row of each property must hold. */
export const needed: Readonly<Record<RowProperty, readonly PropertyKey[]>> = {
	moisture: ["dish", "dish and sample", "dish after"],
	"total ash": ["dish", "dish and sample", "dish after", "dried"],
	"volatile matter": ["dish", "dish and sample", "dish after", "dried"],
	"apparent density": ["volume", "dried"],
	"water-soluble content": [
		"sample mass",
		"extract volume",
		"aliquot volume",
		"dish",
		"dish after",
		"dried",
	],
	"ball-pan hardness": ["sample mass", "retained"],
	pH: ["ph"],
	"particle size": ["pan"],
	"float-sink": ["liquid density", "floated", "sunk"],
};
