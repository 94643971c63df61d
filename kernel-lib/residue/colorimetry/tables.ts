import {
	decimalsFor,
	fixed,
	quoted,
	type Table,
	type TableCell,
	table,
	valueText,
	withTable,
} from "../../quantity";
import { detectionLimits, type LimitOptions } from "./limits";
import { type CalibrationLine, formulas } from "./line";
import {
	bendTest,
	evenScatter,
	lackOfFit,
	type ShapeTest,
} from "./shape-tests";

const terms = [
	["a", "reading at no concentration"],
	["b", "slope"],
	["k", "bend"],
] as const;

/** A line in numbers (signal per concentration in the units of the line). */
function lineTable(line: CalibrationLine): Table {
	const rows: TableCell[][] = terms.flatMap(([symbol, meaning], i) => {
		const u = Math.sqrt(line.covariance[i][i]);
		if (line.coefficients[i] === 0 && u === 0) return [];
		const unit =
			i === 0
				? line.signalUnit
				: `${line.signalUnit} per ${i === 1 ? line.concentrationUnit : `(${line.concentrationUnit})²`}`;
		return [[symbol, meaning, valueText(line.coefficients[i], u), unit]];
	});
	return table(
		`Line ${quoted(line.name)}: ${formulas[line.model]}`,
		["", "what it is", "value (u)", "unit"],
		[
			...rows,
			[
				"s",
				"scatter of a single reading about the line",
				line.residualDeviation.toPrecision(2),
				line.signalUnit,
			],
			[
				"",
				"degrees of freedom",
				Number.isFinite(line.degreesOfFreedom)
					? String(line.degreesOfFreedom)
					: "stated, not estimated",
				"",
			],
		],
		line.assumptions,
	);
}

function standardsTable(line: CalibrationLine): Table {
	const digits = decimalsFor(line.residualDeviation);
	return table(
		`Standards of line ${quoted(line.name)}`,
		[
			"standard",
			`concentration (${line.concentrationUnit})`,
			"reading",
			"on the line",
			"off the line",
			"in units of the scatter",
		],
		line.points.map((p) => [
			p.standard,
			String(p.concentration),
			fixed(p.signal, digits),
			fixed(p.fitted, digits),
			fixed(p.residual, digits),
			line.residualDeviation > 0
				? fixed((p.residual * Math.sqrt(p.weight)) / line.residualDeviation, 1)
				: "0",
		]),
	);
}

function testCells(test: ShapeTest, fine: string, wrong: string): TableCell[] {
	return test.is === "not available"
		? ["not available", test.because]
		: [
				`F(${test.degreesOfFreedom.join("; ")}) = ${test.F.toPrecision(3)}, p = ${test.p < 0.001 ? "below 0.001" : test.p.toPrecision(2)}`,
				test.contradicts ? wrong : fine,
			];
}

/** The working range: from the limit of quantification (or the lowest standard, if that is higher) to the highest standard, in the concentration unit of the line. */
export function workingRange(
	line: CalibrationLine,
	options: LimitOptions = {},
):
	| { readonly is: "range"; readonly low: number; readonly high: number }
	| { readonly is: "not available"; readonly because: string } {
	const { quantification } = detectionLimits(line, options);
	return quantification.is === "not available"
		? quantification
		: {
				is: "range",
				low: Math.max(line.low, quantification.value),
				high: line.high,
			};
}

function lineChecksTable(line: CalibrationLine, options: LimitOptions): Table {
	const limits = detectionLimits(line, options);
	const range = workingRange(line, options);
	const unit = line.concentrationUnit;
	const shown = (c: number): string => `${c.toPrecision(2)} ${unit}`;
	return table(
		`Is line ${quoted(line.name)} fit for use?`,
		["check", "found", "what it means"],
		[
			[
				"lack of fit (scatter of repeated standards)",
				...testCells(
					lackOfFit(line),
					"the repeated readings do not contradict the line",
					"the standards lie further from the line than their repeated readings scatter: look for a wrong standard, or a bend",
				),
			],
			[
				"bend (Mandel, ISO 8466-1)",
				...testCells(
					bendTest(line),
					"a bent line describes the readings no better",
					"a bent line describes the readings better: take the quadratic one, or a shorter range",
				),
			],
			[
				"even scatter at both ends (ISO 8466-1)",
				...testCells(
					evenScatter(line),
					"no sign that the readings scatter differently at the two ends",
					"the readings scatter differently at the two ends: weight them",
				),
			],
			[
				"decision limit",
				shown(limits.decision),
				`a reading above it is not a blank's (${limits.definition})`,
			],
			[
				"limit of detection",
				shown(limits.detection),
				`what is there is missed with the error probability only (${limits.definition})`,
			],
			[
				"limit of quantification",
				limits.quantification.is === "value"
					? shown(limits.quantification.value)
					: "not available",
				limits.quantification.is === "value"
					? "from here on a number is good to a third, with 95 % confidence, unless told otherwise (DIN 32645)"
					: limits.quantification.because,
			],
			[
				"working range",
				range.is === "range"
					? `${range.low.toPrecision(2)} to ${line.high} ${unit}`
					: "not available",
				"readings outside become bounds: nothing is extrapolated",
			],
		],
		[
			limits.method,
			"A test that finds nothing wrong with few standards proves little.",
		],
	);
}

/** Gives a line its tables; `limits` says whose definitions its checks follow. */
export function withLineTables(
	line: Omit<CalibrationLine, "table" | "standards" | "checks">,
	limits: LimitOptions,
): CalibrationLine {
	// The tables that the type asks for are what follows.
	const whole = line as CalibrationLine;
	return withTable(
		withTable(withTable(whole, lineTable), standardsTable, "standards"),
		() => lineChecksTable(whole, limits),
		"checks",
	);
}
