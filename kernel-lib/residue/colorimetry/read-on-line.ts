import {
	type Evidence,
	exact,
	exactRatio,
	furtherApartThan,
	input,
	type Measured,
	meanOf,
	minus,
	named,
	normal,
	per,
	plus,
	type Quantity,
	raised,
	scaled,
	stated,
	times,
	type UnitOf,
} from "../../quantity";
import { sampleStandardDeviation } from "../../stats";
import { concentrationAt } from "./inverse";
import {
	type DetectionLimits,
	detectionLimits,
	type LimitOptions,
} from "./limits";
import {
	type CalibrationLine,
	type ConcentrationKind,
	readingVariance,
	type SignalKind,
} from "./line";

/** A liquid read on a line: a value within the standards, or a bound beyond them. Never an extrapolation. */
export interface LineReading {
	readonly line: CalibrationLine;
	/** Mean of the readings with its scatter. */
	readonly signal: Quantity<SignalKind>;
	readonly readings: number;
	/** Of the liquid as it stood in the cuvette. */
	readonly concentration: Measured<ConcentrationKind>;
	/** Says that the readings lie further apart than the scatter about the line explains; "" where they do not. */
	readonly apart: string;
	/** True for a value below the limit of quantification. */
	readonly uncertain: boolean;
	/** True for a reading further below the zero of the line than a blank strays: no liquid reads so, and the bound that it gives is in doubt. */
	readonly belowZero: boolean;
}

/** Error of the mean of the readings of one liquid: the larger of the scatter about the line and that of the readings themselves, s/sqrt(m) each, with its degrees of freedom. */
function errorOfMean(
	line: CalibrationLine,
	mean: number,
	signals: readonly number[],
): Evidence {
	const ofLine = Math.sqrt(readingVariance(line, mean, signals.length));
	const own =
		signals.length > 1
			? sampleStandardDeviation(signals) / Math.sqrt(signals.length)
			: 0;
	return own > ofLine
		? normal(own, signals.length - 1)
		: normal(ofLine, line.degreesOfFreedom);
}

/** The mean of the signals of one liquid, with an error that is independent from liquid to liquid: as large as the line scatters, or as the signals do where that is more. */
export function meanSignal(
	line: CalibrationLine,
	readings: readonly Quantity<SignalKind>[],
	of: string,
): Quantity<SignalKind> {
	const unit = line.signalUnit as UnitOf<SignalKind>;
	const mean = meanOf(readings).to(unit);
	return named(
		plus(
			mean,
			input(
				line.signalKind,
				0,
				unit,
				errorOfMean(
					line,
					mean.value,
					readings.map((r) => r.in(unit)),
				),
				{
					symbol: "δ_{reading}",
					meaning: `reading error of ${of}`,
					source: stated(
						`the larger of the scatter about ${line.source} and that of the ${readings.length === 1 ? "reading" : `${readings.length} readings`}: ${of}`,
					),
					scope: "reading",
					computedFrom: `${line.source}, ${of}`,
				},
			),
		),
		"S",
		`reading of ${of}`,
	);
}

/**
 * Concentration that a signal stands for, with the errors of the line (shared by all that is read on it) and of its standards: c = (S - a)/b, or for a bent line c = 2p/(1 + sqrt(1 + 4 p k/b)) with
 * p = (S - a)/b.
 */
export function concentrationOf(
	line: CalibrationLine,
	signal: Quantity<SignalKind>,
): Quantity<ConcentrationKind> {
	const { intercept, slope, curvature } = line.shared;
	const p = per(minus(signal, intercept), slope) as Quantity<"ratio">;
	const bend = per(curvature, slope) as Quantity<"ratio">;
	const ratio =
		line.model === "quadratic"
			? per(
					scaled(p, 2),
					plus(
						exactRatio(1, "1"),
						raised(plus(exactRatio(1, "1"), scaled(times(p, bend), 4)), 0.5),
					),
				)
			: p;
	const one = input(
		line.concentrationKind,
		1,
		line.concentrationUnit as UnitOf<ConcentrationKind>,
		exact,
		{ symbol: `1 ${line.concentrationUnit}`, source: stated("unit") },
	);
	return atTrueStrength(line, times(one, ratio) as Quantity<ConcentrationKind>);
}

/** A concentration as the standards are really worth; as it is where nothing else is known of them. */
function atTrueStrength(
	{ strength }: CalibrationLine,
	nominal: Quantity<ConcentrationKind>,
): Quantity<ConcentrationKind> {
	return strength.standardUncertainty > 0 || strength.value !== 1
		? (times(nominal, strength) as Quantity<ConcentrationKind>)
		: nominal;
}

function atConcentration(
	line: CalibrationLine,
	c: number,
	what: string,
): Quantity<ConcentrationKind> {
	const limit = input(
		line.concentrationKind,
		c,
		line.concentrationUnit as UnitOf<ConcentrationKind>,
		exact,
		{
			symbol: "c_{limit}",
			meaning: what,
			source: stated(`${what}, ${line.source}`),
			computedFrom: line.source,
		},
	);
	return atTrueStrength(line, limit);
}

/**
 * Whether a concentration lies as far below zero as the detection limit lies above it, and by twice its own uncertainty (blank, turbidity and line included).
 *
 * @param plain the concentration that the signal stands for, in the unit of the line
 */
function isBelowZero(
	line: CalibrationLine,
	signal: Quantity<SignalKind>,
	plain: number,
	detection: number,
): boolean {
	if (!(plain < -detection)) return false;
	const c = concentrationOf(line, signal) as Quantity;
	return c.value < -2 * c.standardUncertainty;
}

/** The concentration in the cuvette: a value within the line, a bound outside it. */
function concentrationIn(
	line: CalibrationLine,
	signal: Quantity<SignalKind>,
	plain: number,
	limits: DetectionLimits,
	of: string,
): Measured<ConcentrationKind> {
	const inCuvette = (
		q: Quantity<ConcentrationKind>,
	): Quantity<ConcentrationKind> =>
		named(q, "c_{read}", `concentration of ${of} in the cuvette`);
	// On a bent line a reading above the top stands for no concentration at all: it is taken as that of the top or more, which lies beyond the highest standard.
	if (plain > line.high)
		return {
			is: "at least",
			quantity: inCuvette(
				atConcentration(line, line.high, "the highest standard"),
			),
			because:
				"it read higher than the highest standard; dilute it and read it again",
		};
	if (plain >= limits.decision && plain >= line.low)
		return {
			is: "value",
			quantity: inCuvette(concentrationOf(line, signal)),
		};
	const least = Math.max(limits.detection, line.low);
	return {
		is: "at most",
		quantity: inCuvette(
			atConcentration(
				line,
				least,
				least === line.low
					? "the lowest standard"
					: `the detection limit (${limits.definition})`,
			),
		),
		because:
			plain >= limits.decision
				? "it read lower than the lowest standard"
				: "it cannot be distinguished from a blank",
	};
}

/**
 * Reads a liquid on a line.
 *
 * Above the highest standard the answer is "at least" that standard. Below the decision limit, where a blank could read as much, it is "at most" the detection limit; below the lowest standard of a line that
 * does not begin near zero it is "at most" that standard.
 *
 * @param readings of one liquid (duplicates), one or more
 * @param of what was read, in words; tells one liquid's reading error from another's
 */
export function readOnLine(
	line: CalibrationLine,
	readings: readonly Quantity<SignalKind>[],
	of: string,
	options: Omit<LimitOptions, "readings"> = {},
): LineReading {
	const unit = line.signalUnit as UnitOf<SignalKind>;
	const signal = meanSignal(line, readings, of);
	const plain = concentrationAt(line, signal.in(unit));
	const limits = detectionLimits(line, {
		...options,
		readings: readings.length,
	});
	const { quantification, detection } = limits;
	const concentration = concentrationIn(line, signal, plain, limits, of);
	return {
		line,
		signal,
		readings: readings.length,
		apart: furtherApartThan(
			readings.map((r) => r.in(unit)),
			Math.sqrt(readingVariance(line, signal.in(unit), 1)),
			`Its readings (${line.signalKind}, corrected)`,
			unit === "absorbance" ? "" : unit,
		),
		belowZero: isBelowZero(line, signal, plain, detection),
		uncertain:
			concentration.is === "value" &&
			(quantification.is === "not available" || plain < quantification.value),
		concentration,
	};
}
