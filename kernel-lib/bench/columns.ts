import { calibrationColumns } from "./calibration-columns";
import {
	aboveZero,
	bare,
	between,
	type Column,
	column,
	date,
	dryMoisture,
	mass,
	notes,
	notNegative,
	pH,
	ratio,
	text,
	volume,
	wetMoisture,
	yesNo,
} from "./column";
import { firingColumns } from "./firing-columns";
import { besideReadings, readingColumns } from "./reading-columns";
import { soakingColumns } from "./soaking-columns";

/**
 * The columns of a bench sheet, declared once. Header recognition, the checks of the cells, the messages and the column guide are all made from these tables.
 * `#` in a name stands for a number ("dose 1", "dose 2"; it may be left out where there is only one).
 */
export const flaskColumns = {
	flask: column(text, "name of the flask, used once", {
		required: "every row",
		also: ["jar", "bottle", "vial", "flask name", "flask number"],
	}),
	contents: column(
		{
			is: "choice",
			choices: {
				char: [],
				"reagent blank": ["indicator blank"],
				"iodine blank": ["probe blank", "dye blank"],
				leachate: [],
			},
		},
		"what the flask is there for: char; reagent blank (water, indicator and titrant only); iodine blank or dye blank (the same doses without char); leachate (of a treated char)",
		{ otherwise: "char" },
	),
	treatment: column(text, "what was done to the char", {
		required: "char and leachate rows",
	}),
	control: column(
		text,
		"treatment that this one is compared with; left empty in rows of the control itself",
		{
			otherwise:
				'the one treatment whose whole name is that of a control ("control", "untreated", "raw char", "water only"), where no row names a control',
		},
	),
	sample: column(text, "what the char was made from, or its name"),
	"char batch": column(text, "batch of char that the portion came from"),
	soak: column(
		text,
		"what was treated as one: the soak or the firing; this is the unit that a verdict counts",
	),
	"soaked in": column(text, "what it was soaked in, in words"),
	...soakingColumns,
	"soak consumes iodine": column(
		yesNo,
		"whether residues of the soak can consume iodine by themselves (alkali, wood vinegar, sulfite, ascorbic acid)",
	),
	replicate: column(text, "number of the repeat"),
	day: column(text, "day of the flask; blanks correct flasks of their own day"),
	"char mass": column(
		mass(notNegative),
		"mass of char put into the flask; in a leachate row the mass of char that was leached",
		{ required: "char and leachate rows", counts: true },
	),
	"mass basis": column(
		{
			is: "choice",
			choices: {
				"as weighed": ["wet", "moist", "as is", "as received"],
				dry: ["dried"],
			},
		},
		"whether the mass is as weighed or of dry char",
		{ otherwise: "as weighed" },
	),
	"moisture, wet basis #": column(
		ratio(wetMoisture),
		"water in the char per mass of moist char; repeated determinations are numbered",
		{ counts: true },
	),
	"moisture, dry basis #": column(
		ratio(dryMoisture),
		"water in the char per mass of dry char; repeated determinations are numbered",
		{ counts: true },
	),
	moisture: column(
		ratio(dryMoisture),
		"water in the char, on the basis that the column `moisture basis` names",
	),
	"moisture basis": column(
		{
			is: "choice",
			choices: { wet: ["wet basis", "moist"], dry: ["dry basis"] },
		},
		"basis of the column `moisture`",
		{ required: "wherever `moisture` is filled" },
	),
	"moisture uncertainty": column(
		ratio(between(0, 0.5, "between 0 and 50 % (0 and 0.5 as a fraction)", "1")),
		"standard uncertainty of the moisture, in points: 0.3 (%) for 4.2 % that are good to 0.3",
		{
			otherwise: `1 point for one determination; the scatter of repeats, at least 0.3 points each`,
			counts: true,
		},
	),
	"dose #": column(
		volume(aboveZero),
		"volume of iodine (or dye) solution added; doses, liquids, making up and withdrawals happen in the order of their columns",
		{ required: "char, iodine blank and leachate rows (one)", counts: true },
	),
	"dose # of": column(text, "name of the solution dosed", {
		otherwise: "the only iodine (or dye) solution",
		counts: true,
	}),
	"liquid added #": column(
		volume(aboveZero),
		"water (or iodide solution) added without iodine",
		{ counts: true },
	),
	"made up to": column(
		volume(aboveZero),
		"total volume that the flask was made up to",
		{
			otherwise: "the liquid is what was added less what was withdrawn",
			counts: true,
		},
	),
	"char in when made up": column(
		yesNo,
		"yes: made up with the char in the flask; no: the filtrate was made up",
		{ otherwise: "yes" },
	),
	"withdrawn #": column(volume(aboveZero), "volume taken out on the way", {
		counts: true,
	}),
	"withdrawn # titre": column(
		volume(notNegative),
		"titre of what was withdrawn; 0 where it was colourless",
		{ required: "wherever `withdrawn #` is filled and titrated", counts: true },
	),
	"withdrawn # reading": column(
		bare(
			between(
				-0.5,
				Number.POSITIVE_INFINITY,
				"a reading, in the unit of the flask's own",
			),
		),
		"reading of what was withdrawn, undiluted, by the same instrument and in the same unit as the flask's own readings, in place of a titre",
		{ counts: true },
	),
	"withdrawn # aliquot": column(
		volume(aboveZero),
		"part of the withdrawn volume that was titrated",
		{ otherwise: "the whole of it", counts: true },
	),
	"withdrawn # at": column(
		date,
		"date and time of the withdrawal; beside `dosed at` it says how long the char had stood by then",
	),
	aliquot: column(
		volume(aboveZero),
		"volume of the final liquid taken for each titration",
		{ required: "every titrated row but reagent blanks", counts: true },
	),
	"titre #": column(
		volume(notNegative),
		"thiosulfate solution used; 0 where the aliquot was colourless from the start",
		{
			required:
				"every row, unless burette readings or readings of an instrument are given",
			counts: true,
		},
	),
	"burette start #": column(
		volume(notNegative),
		"burette reading before the titration",
		{ counts: true },
	),
	"burette end #": column(
		volume(notNegative),
		"burette reading at the end point",
		{ counts: true },
	),
	"refilled at #": column(
		volume(notNegative),
		"reading at which the burette was refilled during the titration",
		{ counts: true },
	),
	"refilled to #": column(
		volume(notNegative),
		"reading after the burette was refilled",
		{ counts: true },
	),
	"titrated with": column(text, "name of the thiosulfate solution", {
		otherwise: "the only thiosulfate solution",
	}),
	...readingColumns,
	...besideReadings,
	"read on": column(
		text,
		"name of the calibration line that the readings are read on",
		{ otherwise: "the only line", counts: true },
	),
	acidified: column(
		yesNo,
		"whether the aliquot was acidified before titrating",
	),
	"final ph": column(pH, "pH of the liquid at the end"),
	"first runnings discarded": column(
		yesNo,
		"whether the first runnings of the filter were thrown away",
	),
	"blue returned": column(
		yesNo,
		"whether the blue came back after the end point (fines in the aliquot)",
	),
	"acid boiled": column(
		yesNo,
		"whether the char was boiled in acid before it was dosed (iodine number)",
	),
	"ground fine": column(
		yesNo,
		"whether the char was ground so that 95 % passes 45 µm (iodine number; from memory, check your copy of the standard)",
	),
	lid: column(yesNo, "whether the flask stood closed"),
	"dosed at": column(
		date,
		"date and time of dosing, e.g. 2031-05-03 or 2031-05-03 14:30",
	),
	"titrated at": column(date, "date and time of titrating"),
	"particle size": column(text, "sieve fraction"),
	"liquor retained": column(
		volume(notNegative),
		"soak liquor that the char still held when it went into the flask",
		{ counts: true },
	),
	leachate: column(
		volume(aboveZero),
		"leachate rows: the whole volume of leachate",
		{ counts: true },
	),
	"leachate taken": column(
		volume(aboveZero),
		"leachate rows: the part of the leachate that was dosed",
		{ counts: true },
	),
	photograph: column(
		text,
		'file names of photographs of the flask, beside the sheet, several separated by ";"',
	),
	"photograph shows": column(text, "what is to be seen on them"),
	notes,
} as const satisfies Record<string, Column>;

export const solutionColumns = {
	solution: column(text, "name of the solution, as the flasks use it", {
		required: "every row",
	}),
	substance: column(
		text,
		"what is dissolved: iodine, sodium thiosulfate, potassium iodate, potassium dichromate; for readings of an instrument any substance, by its name or formula",
		{ required: "every row" },
	),
	concentration: column(
		{
			is: "number",
			kinds: ["concentration", "normality", "massConcentration", "ratio"],
			units: ["mol/L", "mmol/L", "N", "mg/L", "g/L", "% w/w"],
			range: aboveZero,
		},
		"concentration as stated",
		{
			required: "every row that is neither weighed nor standardised",
			counts: true,
		},
	),
	density: column(
		{
			is: "number",
			kinds: ["density"],
			units: ["g/mL", "kg/m3"],
			range: aboveZero,
		},
		"density of the solution",
		{ required: "with a concentration in % w/w", counts: true },
	),
	counts: column(
		{
			is: "choice",
			choices: {
				I2: ["iodine molecules", "molecules"],
				equivalents: ["equivalent", "eq", "i"],
			},
		},
		"what an iodine concentration in mol/L or mmol/L counts; the two differ by a factor of two",
		{ required: "iodine in mol/L or mmol/L", counts: true },
	),
	uncertainty: column(
		{
			is: "number",
			kinds: ["ratio", "concentration", "normality", "massConcentration"],
			units: ["%", "the unit of the concentration"],
			range: notNegative,
		},
		"uncertainty of the concentration, relative in % or in its own unit",
	),
	"uncertainty is": column(
		{
			is: "choice",
			choices: {
				standard: ["k=1", "k = 1", "standard uncertainty"],
				"k=2": ["k = 2", "expanded"],
				tolerance: ["limits"],
			},
		},
		"what kind of uncertainty it is",
		{ otherwise: "standard" },
	),
	"standardised against": column(
		text,
		"name of the solution that it was titrated against",
	),
	aliquot: column(
		volume(aboveZero),
		"standardisation: volume titrated (of the standard for a thiosulfate, of the iodine itself for an iodine)",
		{ required: "with `standardised against`", counts: true },
	),
	"titre #": column(volume(aboveZero), "standardisation: titres", {
		required: "with `standardised against` (one)",
		counts: true,
	}),
	"blank titre": column(
		volume(notNegative),
		"standardisation: titre of the blank",
		{ counts: true },
	),
	weighed: column(
		mass(aboveZero),
		"mass of the substance that was weighed out",
		{
			counts: true,
		},
	),
	purity: column(
		ratio({
			least: 0,
			leastAllowed: false,
			most: 1,
			words: "above 0 and at most 100 % (1 as a fraction)",
			unit: "1",
		}),
		"purity of the substance weighed out",
		{ otherwise: "100 %", counts: true },
	),
	"made up to": column(volume(aboveZero), "volume that it was made up to", {
		required: "with `weighed`",
		counts: true,
	}),
	"standardised on": column(date, "date of the standardisation"),
	notes,
} as const satisfies Record<string, Column>;

export const deviationColumns = {
	flask: column(
		text,
		'flask that it touched (blanks and leachates too), or several separated by ";"',
		{
			required: "every row that names nothing else",
			also: ["jar", "bottle", "vial", "flask name", "flask number"],
		},
	),
	solution: column(text, "solution that it touched"),
	standard: column(text, "standard of a calibration line that it touched"),
	firing: column(text, "firing that it touched"),
	part: column(
		text,
		'the part that is meant where it is not the whole: "titre 2", "reading 1", "rinse 3", "weighing 4"',
	),
	"what happened": column(text, "what went wrong, in words", {
		required: "every row",
	}),
	handling: column(
		{
			is: "choice",
			choices: {
				"leave out": ["left out", "exclude", "out"],
				keep: ["kept", "in"],
			},
		},
		"whether the main result leaves it out; the page shows it both ways",
		{ otherwise: "leave out" },
	),
} as const satisfies Record<string, Column>;

export const glasswareColumns = {
	piece: column(
		text,
		"what it is: burette, volumetric pipette, graduated pipette, volumetric flask, measuring cylinder, syringe, piston pipette, balance (with a name of its own where there are two)",
		{ required: "every row" },
	),
	"used for": column(
		text,
		'what it measured: dose, aliquot, made up, titre, liquid added, withdrawn, standard aliquot, standard titre, leachate, rinse, char mass, weighed, activation (all masses of the activation table); several separated by ";"',
		{ required: "every row" },
	),
	size: column(volume(aboveZero), "nominal volume", {
		required: "every piece but a balance",
		counts: true,
	}),
	class: column(
		{
			is: "choice",
			choices: { A: ["as", "class a"], B: ["class b"] },
		},
		"class of accuracy",
		{ otherwise: "B" },
	),
	tolerance: column(
		{
			is: "number",
			kinds: ["volume", "mass"],
			units: ["mL", "µL", "g", "mg"],
			range: notNegative,
		},
		"largest error allowed, from the piece or its certificate",
		{ otherwise: "by the standard for that piece", counts: true },
	),
	division: column(
		volume(aboveZero),
		"smallest division of the scale; readings are taken as good to half of it",
		{ counts: true },
	),
	readability: column(mass(aboveZero), "last digit that the balance shows", {
		counts: true,
	}),
} as const satisfies Record<string, Column>;

export type FlaskKey = keyof typeof flaskColumns;
export type SolutionKey = keyof typeof solutionColumns;
export type DeviationKey = keyof typeof deviationColumns;
export type GlasswareKey = keyof typeof glasswareColumns;
export type FiringKey = keyof typeof firingColumns;

/** The tables by name; the key column tells the header row. */
export const sheets = {
	flasks: { columns: flaskColumns, key: "flask" },
	solutions: { columns: solutionColumns, key: "solution" },
	deviations: { columns: deviationColumns, key: "what happened" },
	glassware: { columns: glasswareColumns, key: "piece" },
	activation: { columns: firingColumns, key: "firing" },
	calibration: { columns: calibrationColumns, key: "standard" },
} as const;

export type SheetName = keyof typeof sheets;
export const sheetNames: readonly SheetName[] = [
	"flasks",
	"solutions",
	"deviations",
	"glassware",
	"activation",
	"calibration",
];

/** How a column of the table is written at the head of a sheet, e.g. "dose 1 (mL)"; `unit` "" leaves the unit out. */
export function headerText(key: string, number: string, unit: string): string {
	const name = key
		.replace(/\bph\b/, "pH")
		.replace("#", number)
		.replace(/\s+/g, " ")
		.trim();
	return unit === "" ? name : `${name} (${unit})`;
}
