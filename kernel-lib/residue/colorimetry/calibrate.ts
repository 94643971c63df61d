import { signalKinds } from "../../bench";
import {
	type Checked,
	contentHash,
	correlatedInputs,
	exact,
	exactRatio,
	input,
	listOption,
	type OptionRule,
	objectOption,
	type Problem,
	type ProblemPlace,
	problem,
	type Quantity,
	quantityOption,
	quoted,
	type ResultKind,
	readUnit,
	requireOptions,
	requireResults,
	stated,
	textOption,
	type UnitOf,
	units,
	valueOrThrow,
	wordOption,
} from "../../quantity";
import { studentTQuantile } from "../../stats";
import { type LimitOptions, requireLimitOptions } from "./limits";
import {
	type CalibrationLine,
	type CalibrationPoint,
	type ConcentrationKind,
	type LineModel,
	powersOf,
	type ReadingError,
	type SignalKind,
	smallestSignal,
	weightOf,
} from "./line";
import { fitPolynomial, type Polynomial } from "./polynomial";
import { withLineTables } from "./tables";

/** One reading of one standard, as typed. */
export interface Standard {
	/** In the concentration unit of the line. */
	readonly concentration: number;
	/** In the unit of the signal. */
	readonly signal: number;
	readonly name?: string;
	/** Standard deviation of this reading, for lines whose reading error is "stated"; in the unit of the signal. */
	readonly deviation?: number;
	readonly place?: ProblemPlace;
}

export interface CalibrationOptions {
	readonly name?: string;
	/** "straight" unless told otherwise. */
	readonly model?: LineModel;
	/** "alike" unless told otherwise. */
	readonly readingError?: ReadingError;
	/** "mg/L" unless told otherwise; a molar unit makes a line in mol. */
	readonly concentrationUnit?: string;
	/** "absorbance" unless told otherwise. */
	readonly signal?: SignalKind;
	/** "" takes the usual unit of the signal. */
	readonly signalUnit?: string;
	/** See `CalibrationLine.strength`. */
	readonly strength?: Quantity<"ratio">;
	readonly assumptions?: readonly string[];
	/** Where the readings come from, in words. */
	readonly source?: string;
	/** Whose definitions the limits among the `checks` of the line follow: `definition`, `errorProbability`, `readings`, `quantificationFactor`. */
	readonly limits?: LimitOptions;
}

const calibrationRules: Readonly<Record<keyof CalibrationOptions, OptionRule>> =
	{
		name: textOption,
		model: wordOption("straight", "through zero", "quadratic"),
		readingError: wordOption(
			"alike",
			"variance with signal",
			"deviation with signal",
			"stated",
		),
		concentrationUnit: textOption,
		signal: wordOption(...signalKinds),
		signalUnit: textOption,
		strength: quantityOption("ratio"),
		assumptions: listOption(textOption),
		source: textOption,
		limits: objectOption('{ definition: "ISO 11843" }'),
	};

const standardKind: ResultKind = {
	parts: ["concentration", "signal"],
	expected: "a standard, such as { concentration: 2, signal: 0.41 }",
};

/** The unit that a kind of signal is shown in first. */
function usualUnit(kind: SignalKind): string {
	return Object.keys(units[kind])[0];
}

function concentrationUnitOf(
	written: string,
): Checked<{ kind: ConcentrationKind; unit: string }> {
	for (const kind of ["massConcentration", "concentration"] as const) {
		const read = readUnit(kind, written);
		if (read.ok) return { ok: true, value: { kind, unit: read.value } };
	}
	return {
		ok: false,
		problems: [
			problem(
				"unit-unknown",
				{},
				`concentrations in "${written}"`,
				"mg/L, g/L, µg/L, mol/L, mmol/L or µmol/L",
				"Give the concentrations of the standards in one of these.",
			),
		],
	};
}

/** What keeps standards from making a line. */
function standardProblems(
	standards: readonly Standard[],
	model: LineModel,
	error: ReadingError,
	where: Partial<ProblemPlace>,
): Problem[] {
	const coefficients = powersOf[model].length;
	const levels = new Set(standards.map((s) => s.concentration)).size;
	const problems = standards.flatMap((s): Problem[] => {
		const at = s.place ?? where;
		const called =
			s.name === undefined ? "a standard" : `standard ${quoted(s.name)}`;
		return [
			...(Number.isFinite(s.concentration) &&
			Number.isFinite(s.signal) &&
			s.concentration >= 0
				? []
				: [
						problem(
							"standard-not-a-number",
							at,
							`${called} of ${s.concentration} that reads ${s.signal}`,
							"a concentration of 0 or more and a reading, both finite",
							"Look both up again.",
						),
					]),
			...(error === "stated" && !((s.deviation ?? 0) > 0)
				? [
						problem(
							"deviation-missing",
							at,
							`${called} without a standard deviation`,
							"a standard deviation above 0 for every standard",
							"Give it, or let all readings count alike.",
						),
					]
				: []),
		];
	});
	if (standards.length <= coefficients || levels < coefficients)
		problems.push(
			problem(
				"too-few-standards",
				where,
				`${standards.length} reading${standards.length === 1 ? "" : "s"} at ${levels} concentration${levels === 1 ? "" : "s"}`,
				`at least ${coefficients + 1} readings at ${coefficients} concentrations for the line ${model}`,
				"Read more standards: five or six, spread over the range, are usual.",
			),
		);
	return problems;
}

/** What keeps a fitted line from being read backwards: it does not rise or fall by more than its scatter could make, or it turns back. */
function lineProblems(
	fitted: Polynomial,
	standards: readonly Standard[],
	model: LineModel,
	where: Partial<ProblemPlace>,
): Problem[] {
	const [, b, k] = fitted.coefficients;
	const top = Math.max(...standards.map((s) => s.concentration));
	const degreesOfFreedom = standards.length - powersOf[model].length;
	const variance = fitted.residualSquares / degreesOfFreedom;
	// The change from nothing to the highest standard, with its error.
	const change = (b + k * top) * top;
	const [, [, vbb, vbk], [, , vkk]] = fitted.unscaledCovariance;
	const error =
		top *
		Math.sqrt(Math.max(0, variance * (vbb + 2 * top * vbk + top * top * vkk)));
	if (!(Math.abs(change) > studentTQuantile(0.975, degreesOfFreedom) * error))
		return [
			problem(
				"line-flat",
				where,
				"readings that do not change with the concentration by more than they scatter",
				"readings that rise or fall from standard to standard",
				"Look whether the readings and the concentrations are in their own columns, and whether the standards reach high enough.",
			),
		];
	return (b + 2 * k * top) * b > 0
		? []
		: [
				problem(
					"line-bends-over",
					where,
					"a bent line that turns back before its highest standard",
					"a line that only rises (or only falls), so that a reading stands for one concentration",
					"Leave out the highest standards, or take a straight line over a shorter range.",
				),
			];
}

function weightsOf(
	standards: readonly Standard[],
	error: ReadingError,
): number[] {
	if (error === "stated") {
		const squares = standards.map((s) => (s.deviation ?? 1) ** 2);
		// Weight 1 belongs to the mean variance, so that the residual deviation is that of a middling reading.
		const middle = squares.reduce((s, v) => s + v, 0) / squares.length;
		return squares.map((v) => middle / v);
	}
	const smallest = smallestSignal(standards.map((s) => s.signal));
	return standards.map((s) => weightOf(error, s.signal, smallest));
}

/** Every standard with what the fitted line says of it. */
function pointsOf(
	standards: readonly Standard[],
	weights: readonly number[],
	[a, b, k]: Polynomial["coefficients"],
): CalibrationPoint[] {
	return standards.map((s, i) => {
		const fitted = a + (b + k * s.concentration) * s.concentration;
		return {
			standard: s.name ?? String(i + 1),
			concentration: s.concentration,
			signal: s.signal,
			weight: weights[i],
			fitted,
			residual: s.signal - fitted,
		};
	});
}

/** The line of a fit in which nothing is wrong. */
function lineOf(
	fitted: Polynomial,
	points: readonly CalibrationPoint[],
	options: CalibrationOptions,
	unit: { readonly kind: ConcentrationKind; readonly unit: string },
): CalibrationLine {
	const {
		name = "calibration",
		model = "straight",
		readingError = "alike",
		signal: signalKind = "absorbance",
	} = options;
	const signalUnit = options.signalUnit || usualUnit(signalKind);
	const degreesOfFreedom = points.length - powersOf[model].length;
	const variance = fitted.residualSquares / degreesOfFreedom;
	const covariance = fitted.unscaledCovariance.map((row) =>
		row.map((v) => v * variance),
	);
	const hash = contentHash(JSON.stringify([name, model, points]));
	const source =
		options.source ??
		`calibration line ${quoted(name)}: ${points.length} readings of standards (content ${hash})`;
	const x = points.map((p) => p.concentration);
	return withLineTables(
		{
			name,
			model,
			readingError,
			signalKind,
			signalUnit,
			concentrationKind: unit.kind,
			concentrationUnit: unit.unit,
			coefficients: fitted.coefficients,
			covariance,
			residualDeviation: Math.sqrt(variance),
			degreesOfFreedom,
			points,
			low: Math.min(...x),
			high: Math.max(...x),
			shared: sharedCoefficients(
				fitted.coefficients,
				covariance,
				model,
				signalKind,
				signalUnit,
				unit.unit,
				`${source}, ${hash}`,
				degreesOfFreedom,
			),
			strength: options.strength ?? exactRatio(1, "1", ""),
			assumptions: [
				...(options.assumptions ?? []),
				...(variance > 0
					? []
					: [
							"All standards stand exactly on the line: it shows no scatter, so that the uncertainties of what is read on it are too small.",
						]),
			],
			source,
		},
		options.limits ?? {},
	);
}

/** Checks standards and draws a line through them: the line, or everything that is wrong. */
export function checkCalibration(
	standards: readonly Standard[],
	options: CalibrationOptions = {},
	where: Partial<ProblemPlace> = {},
): Checked<CalibrationLine> {
	const { model = "straight", readingError = "alike" } = options;
	const unit = concentrationUnitOf(options.concentrationUnit ?? "mg/L");
	const problems = standardProblems(standards, model, readingError, where);
	if (!unit.ok) problems.push(...unit.problems);
	if (!unit.ok || problems.length > 0) return { ok: false, problems };
	const weights = weightsOf(standards, readingError);
	const fitted = fitPolynomial(
		standards.map((s) => s.concentration),
		standards.map((s) => s.signal),
		weights,
		powersOf[model],
	);
	const bad = lineProblems(fitted, standards, model, where);
	if (bad.length > 0) return { ok: false, problems: bad };
	const points = pointsOf(standards, weights, fitted.coefficients);
	return { ok: true, value: lineOf(fitted, points, options, unit.value) };
}

/**
 * A calibration line through standards: straight, through zero or quadratic; all readings alike, weighted by the size of the signal, or by stated standard deviations. Numbers may be typed, or come from
 * the calibration table of a bench sheet (`calibrationLines`). A line is shown as a table; `standards` and `checks` are further ones.
 *
 * @param standards concentrations and signals in the units of the line: mg/L and absorbance unless `options` say otherwise
 * @throws ProblemError that lists everything that is wrong, options that it does not have among it
 * @example
 * const standards = [0, 2, 4, 8].map((c) => ({ concentration: c, signal: 0.001 + 0.2 * c + (c === 4 ? 1e-9 : 0) }));
 * residue.calibrate(standards, { model: "straight" }).coefficients.map((x) => Number(x.toFixed(6))) // => [0.001, 0.2, 0]
 * residue.calibrate(standards, { limits: { definition: "ISO 11843" } }).checks.rows.length // => 7
 */
export function calibrate(
	standards: readonly Standard[],
	options: CalibrationOptions = {},
): CalibrationLine {
	requireResults(standards, standardKind, "calibrate");
	requireOptions(options, calibrationRules, "calibrate");
	requireLimitOptions(options.limits ?? {});
	return valueOrThrow(checkCalibration(standards, options));
}

/** The coefficients as quantities whose errors go together. The slope is the change of the signal for 1 concentration unit, so that no kind "signal per concentration" is needed. */
export function sharedCoefficients(
	coefficients: readonly [number, number, number],
	covariance: readonly (readonly number[])[],
	model: LineModel,
	kind: SignalKind,
	unit: string,
	perUnit: string,
	source: string,
	degreesOfFreedom: number,
): CalibrationLine["shared"] {
	const names = [
		["a", "signal of the line at no concentration"],
		["b", `change of the signal for 1 ${perUnit}`],
		["k", `bend of the line for (1 ${perUnit})²`],
	] as const;
	const present = powersOf[model];
	const deviation = (i: number): number => Math.sqrt(covariance[i][i]);
	const made = correlatedInputs(
		present.map((i) => ({
			kind,
			value: coefficients[i],
			unit: unit as UnitOf<SignalKind>,
			standardUncertainty: deviation(i),
			symbol: names[i][0],
			meaning: names[i][1],
		})),
		present.map((i) =>
			present.map((j) =>
				i === j
					? 1
					: deviation(i) * deviation(j) > 0
						? covariance[i][j] / (deviation(i) * deviation(j))
						: 0,
			),
		),
		source,
		degreesOfFreedom,
	) as Quantity<SignalKind>[];
	const of = (i: 0 | 1 | 2): Quantity<SignalKind> => {
		const at = present.indexOf(i);
		return at >= 0
			? made[at]
			: input(kind, 0, unit as UnitOf<SignalKind>, exact, {
					symbol: names[i][0],
					meaning: `${names[i][1]}: none in this line`,
					source: stated(`${model} line`),
				});
	};
	return { intercept: of(0), slope: of(1), curvature: of(2) };
}
