import {
	type CalibrationStandard,
	inUse,
	readingsInUse,
	signalOf,
	step,
	type Trial,
} from "../../bench";
import {
	type Checked,
	exact,
	idsOf,
	input,
	named,
	type Problem,
	per,
	problem,
	type Quantity,
	quoted,
	stated,
	throwProblems,
	type UnitOf,
	units,
} from "../../quantity";
import { type MassConcentrations, massConcentrations } from "../../solutions";
import {
	type CalibrationLine,
	checkCalibration,
	type LimitOptions,
	lineFromAbsorptivity,
	type SignalKind,
	type Standard,
} from "../colorimetry";
import { signalsOf, type Wavelengths } from "./signal";

/** Definition and error probabilities of the detection limits that the trial was read with. */
export function limitOptions(trial: Trial): LimitOptions {
	const { limitDefinition, errorProbability, quantificationFactor } =
		trial.settings;
	return {
		definition: limitDefinition,
		errorProbability,
		quantificationFactor,
	};
}

/** Wavelengths that the calibration table names for a line, else those that the trial was read with. */
export function wavelengthsOf(
	trial: Trial,
	line: string,
): Wavelengths | "not known" {
	const found = trial.standards.find(
		(s) => s.line === line && s.wavelength > 0 && s.secondWavelength > 0,
	);
	if (found !== undefined)
		return { first: found.wavelength, second: found.secondWavelength };
	const { wavelengths } = trial.settings;
	return wavelengths.first > 0 && wavelengths.second > 0
		? wavelengths
		: "not known";
}

/** The unit of a line's signals: that of the readings of its first standard. */
function signalUnitOf(first: CalibrationStandard): string {
	const [reading] = first.readings.values;
	const kind = signalOf(first.readings.kind);
	return kind === "by itself" || kind === "absorbance"
		? "absorbance"
		: reading.unit;
}

function standardsOf(
	rows: readonly CalibrationStandard[],
	wavelengths: Wavelengths | "not known",
	unit: string,
): Standard[] {
	return rows.flatMap((row) =>
		signalsOf(row.readings, wavelengths).map(
			(signal): Standard => ({
				name: row.standard,
				concentration: row.concentration,
				signal: signal.in(unit as UnitOf<SignalKind>),
				place: row.place,
			}),
		),
	);
}

/** True strength of the standards over the nominal one: 1, as uncertain as the solution that they were made from, and shared with what was dosed from it. */
function strengthOf(
	solution: string,
	strengths: MassConcentrations,
): Quantity<"ratio"> {
	const made = strengths.of(solution);
	const nominal = input(
		"massConcentration",
		made.value,
		made.unit as UnitOf<"massConcentration">,
		exact,
		{
			symbol: "\\rho_{nominal}",
			meaning: `nominal strength of ${quoted(solution)}`,
			source: stated(
				`value of the solution ${quoted(solution)}, without its error`,
			),
			computedFrom: idsOf([made])[0],
		},
	);
	return named(
		per(made, nominal) as Quantity<"ratio">,
		"f_{standards}",
		`true over nominal strength of the standards made from ${quoted(solution)}`,
	);
}

/** A sheet without a single line. Nothing is wrong with it until one is asked for. */
export function noLine(trial: Trial): Problem[] {
	if (linesOf(trial).length > 0) return [];
	if (trial.standards.length > 0)
		return [
			problem(
				"no-standard-left",
				{ ...trial.standards[0].place, column: "standard" },
				"every standard of the calibration table left out by a deviation",
				"the standards that the instrument was calibrated with",
				"Keep them in the deviations table, or leave out the flasks that were read on their line as well.",
			),
		];
	const sister = /\.csv$/i.test(trial.file)
		? `write ${trial.file.replace(/\.csv$/i, ".calibration.csv")}`
		: 'add a table "calibration"';
	const titrated = trial.flasks.some((f) => f.titrations.length > 0);
	return [
		problem(
			"no-calibration-table",
			{ file: trial.file },
			"no calibration table",
			"the standards that the instrument was calibrated with",
			`Beside the bench sheet, ${sister} with the columns "standard", "concentration (mg/L)" and "absorbance 1" (or another reading), or make a line from a molar absorptivity.${titrated ? " Flasks that were titrated need no line." : ""}`,
		),
	];
}

/** The standards that no deviation leaves out, each with the readings in use. */
export function standardsInUse(trial: Trial): CalibrationStandard[] {
	return inUse(trial.standards)
		.map((s) => ({ ...s, readings: readingsInUse(s.readings) }))
		.filter((s) => s.readings.values.length > 0);
}

function lineOf(
	trial: Trial,
	name: string,
	standards: readonly CalibrationStandard[],
): Checked<CalibrationLine> {
	const all = standards.filter((s) => s.line === name);
	const rows = all.filter((s) => s.readAfter === "");
	const [first] = all;
	const kind = signalOf(first.readings.kind);
	const unit = signalUnitOf(first);
	return checkCalibration(
		standardsOf(inOneUnit(rows), wavelengthsOf(trial, name), unit),
		{
			name,
			model: first.model,
			readingError: first.readingError,
			concentrationUnit: first.unit,
			signal: kind === "by itself" ? "absorbance" : kind,
			signalUnit: unit,
			...(first.madeFrom === ""
				? {
						assumptions: [
							`The standards of ${quoted(name)} are taken as exact: the sheet does not say what they were made from.`,
						],
					}
				: { strength: strengthOf(first.madeFrom, massConcentrations(trial)) }),
			source: `calibration line ${quoted(name)} of ${trial.file}`,
			limits: limitOptions(trial),
		},
		first.place,
	);
}

/** The lines of a trial, which may have none: those of its calibration table, then those from the molar absorptivities that it was read with. */
export const linesOf: (trial: Trial) => readonly CalibrationLine[] = step(
	(trial) => {
		const standards = standardsInUse(trial);
		const made = [...new Set(standards.map((s) => s.line))].map((name) =>
			lineOf(trial, name, standards),
		);
		throwProblems(made.flatMap((line) => (line.ok ? [] : line.problems)));
		return [
			...made.flatMap((line) => (line.ok ? [line.value] : [])),
			...trial.settings.absorptivities.map((about) =>
				lineFromAbsorptivity(about, limitOptions(trial)),
			),
		];
	},
);

/** Concentrations in the unit of the first row: a table may have a column for each of two units. */
export function inOneUnit(
	rows: readonly CalibrationStandard[],
): CalibrationStandard[] {
	if (rows.length === 0) return [];
	const { unit } = rows[0];
	const factor = (u: string): number => {
		const all: Readonly<Record<string, { readonly factor: number }>> = {
			...units.massConcentration,
			...units.concentration,
		};
		return all[u].factor / all[unit].factor;
	};
	return rows.map((row) => ({
		...row,
		unit,
		concentration: row.concentration * factor(row.unit),
	}));
}
