import { aboveZero, type Column, column, mass, ratio, volume } from "./column";

/**
 * What an instrument may show of a liquid, by the column that it is written in. Each entry makes the column of the flasks and of the standards, its checks and its line in the column guide; a kind that
 * is read on a calibration line needs nothing else. A kind that is a concentration by itself (see `dry residue`) has one more file, in residue/by-itself/.
 */
export const readingColumns = {
	"absorbance #": column(
		{
			is: "number",
			kinds: [],
			units: [],
			range: {
				least: -0.5,
				leastAllowed: true,
				most: 5,
				words: "an absorbance between -0.5 and 5",
				unit: "",
			},
		},
		"absorbance of the filtrate at the wavelength of the line; repeated readings of one liquid are numbered",
		{ counts: true },
	),
	"transmittance #": column(
		ratio({
			least: 0,
			leastAllowed: false,
			most: 1.2,
			words: "above 0 and at most 120 % (1.2 as a fraction)",
			unit: "1",
		}),
		"transmittance of the filtrate, where the instrument shows no absorbance",
		{ counts: true },
	),
	"intensity #": column(
		{ is: "number", kinds: [], units: [], range: aboveZero },
		"channel of a picture (the one that the colour is complementary to: red for a blue dye), or the count of a light sensor, over the filtrate",
		{ counts: true },
	),
	"conductivity #": column(
		{
			is: "number",
			kinds: ["conductivity"],
			units: ["mS/cm", "µS/cm", "S/m"],
			range: aboveZero,
		},
		"conductivity of the filtrate, read on a line of standards",
		{ counts: true },
	),
	"ph reading #": column(
		{
			is: "number",
			kinds: [],
			units: [],
			range: {
				least: -1,
				leastAllowed: true,
				most: 15,
				words: "a pH between -1 and 15",
				unit: "",
			},
		},
		"pH of the filtrate, read on a line of standards",
		{ counts: true },
	),
	"dry residue #": column(
		mass({
			least: 0,
			leastAllowed: true,
			most: Number.POSITIVE_INFINITY,
			words: "a mass of 0 or more",
			unit: "",
		}),
		"what an aliquot left behind when it was dried to constant mass",
		{ counts: true },
	),
} as const satisfies Record<string, Column>;

/** What belongs to a reading beside its own column. */
export const besideReadings = {
	"absorbance at second wavelength": column(
		{
			is: "number",
			kinds: [],
			units: [],
			range: {
				least: -0.5,
				leastAllowed: true,
				most: 5,
				words: "an absorbance between -0.5 and 5",
				unit: "",
			},
		},
		"absorbance where the dye has no colour: what turbidity alone shows",
		{ counts: true },
	),
	"white intensity": column(
		{ is: "number", kinds: [], units: [], range: aboveZero },
		"intensity of the white reference beside the liquid, in the same picture",
		{ required: "with `intensity #`", counts: true },
	),
	"intensity is": column(
		{
			is: "choice",
			choices: {
				picture: ["srgb", "photo", "jpg", "jpeg"],
				light: ["linear", "raw"],
			},
		},
		"picture: a channel of an ordinary picture, 0 to 255, brightened for the eye; light: counts in proportion to the light",
		{ otherwise: "picture" },
	),
	dilution: column(
		{
			is: "number",
			kinds: [],
			units: [],
			range: {
				least: 1,
				leastAllowed: true,
				most: 100_000,
				words: "a factor of 1 or more",
				unit: "",
			},
		},
		"how many times the filtrate was diluted before it was read",
		{ otherwise: "1: read as it was", counts: true },
	),
	"diluted from": column(
		volume(aboveZero),
		"volume of filtrate taken for a dilution; with `diluted to` in place of `dilution`",
		{ counts: true },
	),
	"diluted to": column(volume(aboveZero), "volume that it was diluted to", {
		counts: true,
	}),
} as const satisfies Record<string, Column>;

export type ReadingKey = keyof typeof readingColumns;
export type BesideKey = keyof typeof besideReadings;

export const readingKeys = Object.keys(readingColumns) as ReadingKey[];

/** Readings that are a concentration by themselves and need no calibration line. */
export const byThemselves: readonly ReadingKey[] = ["dry residue #"];
