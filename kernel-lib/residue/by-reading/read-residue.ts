import {
	asUsed,
	dosedWith,
	type Flask,
	type InstrumentReadings,
	isUsable,
	signalOf,
	step,
	type Trial,
} from "../../bench";
import {
	type Measured,
	meanOfRepeats,
	minus,
	named,
	type Problem,
	ProblemError,
	per,
	plainNumber,
	plus,
	problem,
	type Quantity,
	quoted,
	throwProblems,
	times,
	type UnitOf,
} from "../../quantity";
import { massConcentrations, molarMassOf } from "../../solutions";
import { type Account, type Counted, runningAccount } from "../account";
import {
	bendTest,
	type CalibrationLine,
	type ConcentrationKind,
	type LineReading,
	meanSignal,
	readOnLine,
	type SignalKind,
} from "../colorimetry";
import { dimerCaution } from "../methylene-blue";
import type { ReagentBlank } from "../reagent-blank";
import { byItself } from "./by-itself";
import { driftChecks, driftFactor } from "./drift";
import { limitOptions, linesOf, noLine, wavelengthsOf } from "./lines-of-trial";
import { signalsOf } from "./signal";

/** What a flask still held when an instrument read it. */
export interface ReadResidue {
	readonly is: "read";
	/** With the readings in use. */
	readonly flask: Flask;
	/** What was dosed and is left: "methylene blue". */
	readonly probe: string;
	readonly account: Account<"mass">;
	/** The liquid in the cuvette as it was read; "by itself" for a kind of reading that needs no line. */
	readonly reading:
		| { readonly is: "on a line"; readonly on: LineReading }
		| { readonly is: "by itself" };
	/** Of the flask's liquid: the cuvette's times the dilution. A bound for a reading outside the line. */
	readonly residue: Measured<"massConcentration">;
	/** Residue times the liquid: what was left in all, or its bound. */
	readonly left: Quantity<"mass">;
	readonly reagentBlank: ReagentBlank["is"];
	/** What weakens the number, as full sentences. */
	readonly cautions: readonly string[];
	/** Why its reading cannot be right, as a full sentence; "" where nothing contradicts. */
	readonly contradiction: string;
}

function lineFor(
	lines: readonly CalibrationLine[],
	readings: InstrumentReadings,
): CalibrationLine | "none" {
	if (readings.line !== "")
		return lines.find((l) => l.name === readings.line) ?? "none";
	const fitting = lines.filter((l) => l.signalKind === signalOf(readings.kind));
	return fitting.length === 1 ? fitting[0] : "none";
}

/** What is wrong with the line of a flask's readings: there is none, or it is for another kind of signal. */
function lineProblemsOf(
	lines: readonly CalibrationLine[],
	readings: InstrumentReadings,
	{ place }: Flask,
): Problem[] {
	const { kind, line } = readings;
	const signal = signalOf(kind);
	if (signal === "by itself") return [];
	const found = lineFor(lines, readings);
	if (found !== "none" && found.signalKind === signal) return [];
	return [
		problem(
			found === "none" ? "line-not-found" : "line-of-wrong-kind",
			{ ...place, column: kind },
			found === "none"
				? `a reading of ${kind}${line === "" ? "" : ` to be read on ${quoted(line)}`}, and ${lines.length === 0 ? "no line" : `the lines ${lines.map((l) => `${quoted(l.name)} (${l.signalKind})`).join(", ")}`}`
				: `a reading of ${kind} on the line ${quoted(found.name)} for ${found.signalKind}`,
			"one line for this kind of reading",
			"Add its standards to the calibration table, name the line in the column `read on`, or read the sheet with a molar absorptivity (option `absorptivities`).",
		),
	];
}

/** Flasks in use whose readings find no line, or one for another kind of signal; and a sheet that has no line at all and needs one. */
function lineProblems(trial: Trial): Problem[] {
	const used = trial.flasks.filter((f) => f.readings.recorded && isUsable(f));
	if (used.length === 0) return [];
	const lines = linesOf(trial);
	const wrong = used.flatMap((f) =>
		f.readings.recorded ? lineProblemsOf(lines, f.readings.value, f) : [],
	);
	return wrong.length > 0 && lines.length === 0 ? noLine(trial) : wrong;
}

const sameReading = (a: InstrumentReadings, b: Flask): boolean =>
	b.readings.recorded &&
	b.readings.value.kind === a.kind &&
	b.readings.value.line === a.line;

/** The blanks that serve a flask: those of its day, else those of the other days. */
function blanksFor(
	trial: Trial,
	flask: Flask,
	readings: InstrumentReadings,
): { is: ReagentBlank["is"]; flasks: readonly Flask[] } {
	const all = trial.flasks
		.filter(
			(f) =>
				f.contents === "reagent blank" &&
				sameReading(readings, f) &&
				isUsable(f),
		)
		.map(asUsed);
	const own = all.filter((f) => f.day === flask.day);
	return own.length > 0
		? { is: "same day", flasks: own }
		: { is: all.length > 0 ? "other days" : "none", flasks: all };
}

/**
 * What an undiluted filtrate shows without probe, beyond the line's own zero: the mean over the blanks of (S - a) times their dilution. It is diluted with the probe, so that a flask diluted D times shows a
 * D-th of it.
 */
function blankExcess(
	trial: Trial,
	line: CalibrationLine,
	blanks: readonly Flask[],
): Quantity<SignalKind> {
	const each = blanks.flatMap((f) => {
		if (!f.readings.recorded) return [];
		const readings = f.readings.value;
		const signal = meanSignal(
			line,
			signalsOf(readings, wavelengthsOf(trial, line.name)),
			`blank ${f.name}`,
		);
		const beyond = minus(signal, line.shared.intercept);
		return [isUndiluted(readings) ? beyond : times(beyond, readings.dilution)];
	}) as Quantity<SignalKind>[];
	return named(
		meanOfRepeats(each, "blanks without probe"),
		"S_{blank}",
		`reading of the blank (${blanks.map((f) => f.name).join(", ")}) beyond the zero of the line`,
	);
}

function isUndiluted({ dilution }: InstrumentReadings): boolean {
	return dilution.value === 1 && dilution.standardUncertainty === 0;
}

/** A liquid of a flask read on its line: turbidity and blank taken off, drift corrected where that was asked for. */
function onLine(
	trial: Trial,
	flask: Flask,
	readings: InstrumentReadings,
	line: CalibrationLine,
	of: string,
): { reading: LineReading; blank: ReagentBlank["is"] } {
	const blanks = blanksFor(trial, flask, readings);
	const { intercept } = line.shared;
	const undrifted = (signal: Quantity<SignalKind>): Quantity<SignalKind> => {
		if (trial.settings.drift !== "correct") return signal;
		const checks = driftChecks(trial).filter((c) => c.line === line.name);
		const factor = driftFactor(flask, trial, checks);
		const own = times(minus(signal, intercept), factor);
		return plus(intercept, own as Quantity<SignalKind>);
	};
	const withoutBlank = (signal: Quantity<SignalKind>): Quantity<SignalKind> => {
		if (blanks.is === "none") return signal;
		const excess = blankExcess(trial, line, blanks.flasks);
		const share = isUndiluted(readings)
			? excess
			: per(excess, readings.dilution);
		return minus(signal, share as Quantity<SignalKind>);
	};
	const corrected = signalsOf(readings, wavelengthsOf(trial, line.name)).map(
		(signal) => withoutBlank(undrifted(signal)),
	);
	return {
		reading: readOnLine(line, corrected, of, limitOptions(trial)),
		blank: blanks.is,
	};
}

/** A concentration on a line as mass per volume: a molar one times the molar mass of the probe. */
function inMass(
	found: Measured<ConcentrationKind>,
	probe: string,
): Measured<"massConcentration"> {
	const q = found.quantity as Quantity;
	const quantity =
		q.kind === "concentration"
			? times(q as Quantity<"concentration">, molarMassOf(probe)).to("mg/L")
			: (q as Quantity<"massConcentration">);
	return { ...found, quantity } as Measured<"massConcentration">;
}

/** A liquid of a flask as a mass concentration: its final filtrate, or what was withdrawn. */
function concentrationOfLiquid(
	trial: Trial,
	flask: Flask,
	readings: InstrumentReadings,
	of: string,
): {
	readonly reading: ReadResidue["reading"];
	readonly concentration: Measured<"massConcentration">;
	readonly blank: ReagentBlank["is"];
} {
	throwProblems(lineProblemsOf(linesOf(trial), readings, flask));
	const line = lineFor(linesOf(trial), readings);
	if (line === "none" || signalOf(readings.kind) === "by itself") {
		const blanks = blanksFor(trial, flask, readings);
		return {
			reading: { is: "by itself" },
			concentration: byItself(readings.kind).concentration(
				flask,
				readings,
				blanks.flasks,
			),
			blank: blanks.is,
		};
	}
	const { reading, blank } = onLine(trial, flask, readings, line, of);
	return {
		reading: { is: "on a line", on: reading },
		concentration: inMass(
			reading.concentration,
			dosedWith(flask, trial.solutions),
		),
		blank,
	};
}

function scaledUp(
	found: Measured<"massConcentration">,
	readings: InstrumentReadings,
	flask: Flask,
	probe: string,
): Measured<"massConcentration"> {
	return {
		...found,
		quantity: named(
			(isUndiluted(readings)
				? found.quantity
				: times(found.quantity, readings.dilution)
			).to("mg/L"),
			"\\rho_{residue}",
			`${found.is === "value" ? "residual" : found.is} ${probe} in flask ${flask.name}`,
		),
	} as Measured<"massConcentration">;
}

/** Whether the standards of a line show what dimers do to it: they hold the same dimers as a flask that reads alike, as long as the shape of the line was tested or is bent. */
function describesDimers(line: CalibrationLine): boolean {
	const test = bendTest(line);
	return (
		line.model === "quadratic" || (test.is === "value" && !test.contradicts)
	);
}

function cautionsOf(
	trial: Trial,
	reading: ReadResidue["reading"],
	probe: string,
): string[] {
	if (reading.is === "by itself")
		return [
			"A dry residue counts everything dissolved, salts of the char too.",
		];
	const { on } = reading;
	const drifted = driftChecks(trial).filter(
		(c) => c.line === on.line.name && c.drifted,
	);
	const cuvette = inMass(on.concentration, probe).quantity;
	return [
		on.apart,
		on.uncertain
			? "Below the limit of quantification: seen, but not a number to build on."
			: "",
		describesDimers(on.line) ? "" : dimerCaution(probe, cuvette),
		drifted.length > 0 && trial.settings.drift !== "correct"
			? `The instrument drifted (standard ${drifted.map((c) => `${c.standard} after flask ${c.after}`).join(", ")}): the readings were taken as they are.`
			: "",
	].filter((text) => text !== "");
}

function contradictionOf(reading: ReadResidue["reading"]): string {
	if (reading.is === "by itself" || !reading.on.belowZero) return "";
	const { line, signal } = reading.on;
	const text = (x: number): string => plainNumber(Number(x.toPrecision(3)));
	const zero = text(line.coefficients[0]);
	return `It read clearly below the zero of its line (${line.signalKind} ${text(signal.in(line.signalUnit as UnitOf<SignalKind>))} with blank and turbidity taken off, zero of the line ${zero}), as no liquid does: look at the zero of the instrument, the cuvette and the blank, and read it again.`;
}

/**
 * Residue of a flask that an instrument read: readings (turbidity taken off by the second wavelength) less the blank of the day, read backwards on their line, times the dilution. The
 * coefficients of a line are one set of inputs for all flasks that are read on it, so that their errors go together. Outside a line the residue is a bound.
 */
export function readResidue(
	trial: Trial,
	flask: Flask,
	readings: InstrumentReadings,
): ReadResidue {
	const probe = dosedWith(flask, trial.solutions);
	const counted: Counted<"mass"> = {
		kind: "mass",
		name: probe,
		dosed: (dose) =>
			times(massConcentrations(trial).of(dose.solution), dose.volume).to("mg"),
		withdrawn: (event) => {
			if (event.is !== "withdrawn and read")
				throw new Error(`Flask ${flask.name} is read, not titrated.`);
			const { concentration } = concentrationOfLiquid(
				trial,
				flask,
				event.readings,
				`a portion withdrawn from flask ${flask.name}`,
			);
			if (concentration.is !== "value")
				throw new ProblemError([
					problem(
						"withdrawal-off-the-line",
						{ ...flask.place, column: "withdrawn reading" },
						`a withdrawn portion outside the line: ${concentration.because}`,
						"a reading between a blank and the highest standard",
						"Dilute it and write its undiluted reading, or leave the flask out.",
					),
				]);
			return { amount: times(concentration.quantity, event.volume).to("mg") };
		},
	};
	const account = runningAccount(flask, counted, trial.settings);
	const { reading, concentration, blank } = concentrationOfLiquid(
		trial,
		flask,
		readings,
		`flask ${flask.name}`,
	);
	const residue = scaledUp(concentration, readings, flask, probe);
	return {
		is: "read",
		flask,
		probe,
		account,
		reading,
		residue,
		left: named(
			times(residue.quantity, account.liquid).to("mg"),
			"m_{left}",
			`${probe} left in flask ${flask.name}${residue.is === "value" ? "" : `, ${residue.is}`}`,
		),
		reagentBlank: blank,
		cautions: cautionsOf(trial, reading, probe),
		contradiction: contradictionOf(reading),
	};
}

/** @throws ProblemError that names every flask whose readings find no line */
export const requireLines: (trial: Trial) => void = step((trial) =>
	throwProblems(lineProblems(trial)),
);
