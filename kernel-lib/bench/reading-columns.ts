import type { Kind } from "../quantity";
import {
	aboveZero,
	absorbance,
	bare,
	between,
	type Column,
	column,
	mass,
	pH,
	ratio,
	volume,
} from "./column";

/** A kind of reading: its name, what kind of quantity its numbers are, what it becomes, and its column. */
interface Reading {
	readonly kind: string;
	readonly quantity: Kind;
	/** The kind of signal that meets a calibration line; "by itself" for a kind that is a concentration without one. */
	readonly meets: Kind | "by itself";
	readonly column: Column;
}

/**
 * What an instrument may show of a liquid, by the column that it is written in. An entry makes the column of the flasks and of the standards, its checks, its line in the column guide and its way to a
 * calibration line: to add a kind that is read on a line, add an entry. A kind that is a concentration by itself (`dry residue`) has one more file, in residue/by-reading/by-itself/; so have, in
 * residue/by-reading/signal.ts, readings that become another signal first (a transmittance becomes an absorbance).
 */
export const readingKinds = {
	"absorbance #": {
		kind: "absorbance",
		quantity: "absorbance",
		meets: "absorbance",
		column: column(
			absorbance,
			"absorbance of the filtrate at the wavelength of the line; repeated readings of one liquid are numbered",
			{ counts: true },
		),
	},
	"transmittance #": {
		kind: "transmittance",
		quantity: "ratio",
		meets: "absorbance",
		column: column(
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
	},
	"intensity #": {
		kind: "intensity",
		quantity: "ratio",
		meets: "absorbance",
		column: column(
			bare(aboveZero),
			"channel of a picture (the one that the colour is complementary to: red for a blue dye), or the count of a light sensor, over the filtrate",
			{ counts: true },
		),
	},
	"conductivity #": {
		kind: "conductivity",
		quantity: "conductivity",
		meets: "conductivity",
		column: column(
			{
				is: "number",
				kinds: ["conductivity"],
				units: ["mS/cm", "µS/cm", "S/m"],
				range: aboveZero,
			},
			"conductivity of the filtrate, read on a line of standards",
			{ counts: true },
		),
	},
	"ph reading #": {
		kind: "pH",
		quantity: "pH",
		meets: "pH",
		column: column(pH, "pH of the filtrate, read on a line of standards", {
			counts: true,
		}),
	},
	"dry residue #": {
		kind: "dry residue",
		quantity: "mass",
		meets: "by itself",
		column: column(
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
	},
} as const satisfies Record<string, Reading>;

export type ReadingKey = keyof typeof readingKinds;

/** The name of a kind of reading. A picture's channel or a sensor's count is an intensity. */
export type ReadingKind = (typeof readingKinds)[ReadingKey]["kind"];

/** What a calibration line may be of. */
export type SignalKind = Exclude<
	(typeof readingKinds)[ReadingKey]["meets"],
	"by itself"
>;

export const readingKeys = Object.keys(readingKinds) as ReadingKey[];

/** The kinds of signal that a line may be of. */
export const signalKinds: readonly SignalKind[] = [
	...new Set(readingKeys.map((key) => readingKinds[key].meets)),
].filter((meets) => meets !== "by itself");

/** Their columns alone. */
export const readingColumns = Object.fromEntries(
	readingKeys.map((key) => [key, readingKinds[key].column]),
) as { readonly [K in ReadingKey]: Column };

/** What the readings of a kind become before they meet a line. */
export function signalOf(kind: ReadingKind): SignalKind | "by itself" {
	const key = readingKeys.find((k) => readingKinds[k].kind === kind);
	return key === undefined ? "by itself" : readingKinds[key].meets;
}

/** Readings that are a concentration by themselves and need no calibration line. */
export const byThemselves: readonly ReadingKey[] = readingKeys.filter(
	(key) => readingKinds[key].meets === "by itself",
);

/** What belongs to a reading beside its own column. */
export const besideReadings = {
	"absorbance at second wavelength": column(
		absorbance,
		"absorbance where the dye has no colour: what turbidity alone shows",
		{ counts: true },
	),
	"white intensity": column(
		bare(aboveZero),
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
		bare(between(1, 100_000, "a factor of 1 or more")),
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

export type BesideKey = keyof typeof besideReadings;
