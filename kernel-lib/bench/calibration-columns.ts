import {
	aboveZero,
	type Column,
	column,
	notes,
	notNegative,
	text,
} from "./column";
import { besideReadings, readingColumns } from "./reading-columns";

const wavelength = {
	is: "number",
	kinds: ["length"],
	units: ["nm"],
	range: aboveZero,
} as const;

/** The columns of the calibration table: one row a reading of a standard. */
export const calibrationColumns = {
	standard: column(
		text,
		"name of the standard; the same name where it was read again",
		{
			required: "every row",
		},
	),
	line: column(
		text,
		"name of the calibration line, where there is more than one",
		{ otherwise: "calibration" },
	),
	concentration: column(
		{
			is: "number",
			kinds: ["massConcentration", "concentration"],
			units: ["mg/L", "g/L", "µg/L", "mmol/L", "µmol/L"],
			range: notNegative,
		},
		"concentration of the standard as made up",
		{ required: "every row", counts: true },
	),
	...readingColumns,
	"absorbance at second wavelength":
		besideReadings["absorbance at second wavelength"],
	"white intensity": besideReadings["white intensity"],
	"intensity is": besideReadings["intensity is"],
	"read after": column(
		text,
		"flask after which this standard was read again to see whether the instrument drifted; such a row is no part of the line",
		{ counts: true },
	),
	"made from": column(
		text,
		"solution of the solutions table that the standards were diluted from: its error is then shared with what was dosed",
	),
	model: column(
		{
			is: "choice",
			choices: {
				straight: ["linear"],
				"through zero": ["through the origin"],
				quadratic: ["bent"],
			},
		},
		"shape of the line",
		{ otherwise: "straight" },
	),
	"reading error": column(
		{
			is: "choice",
			choices: {
				alike: ["constant"],
				"variance with signal": [],
				"deviation with signal": ["proportional"],
			},
		},
		"how the error of a reading goes with its size",
		{ otherwise: "alike" },
	),
	wavelength: column(wavelength, "wavelength of the readings"),
	"second wavelength": column(
		wavelength,
		"wavelength of `absorbance at second wavelength`, where the dye has no colour",
		{ required: "with `absorbance at second wavelength`", counts: true },
	),
	notes,
} as const satisfies Record<string, Column>;

export type CalibrationKey = keyof typeof calibrationColumns;
