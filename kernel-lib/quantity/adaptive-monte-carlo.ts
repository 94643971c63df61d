import { refuse } from "../problem";
import { expandedUncertainty } from "./budget";
import { decimalsFor, fixed, plainNumber, unitText } from "./format";
import {
	fewReadings,
	type Interval,
	type MonteCarloOptions,
	type MonteCarloResult,
	noteTrials,
	seedOption,
	simulate,
	summary,
} from "./monte-carlo";
import { countOption, numberOption, requireOptions } from "./options";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";
import { type Table, table } from "./table";

/** Half a unit in the last place of an uncertainty that is given with so many significant digits (JCGM 101:2008, 7.9.2). */
export function numericalTolerance(uncertainty: number, digits: 1 | 2): number {
	if (!(uncertainty > 0)) return 0;
	const decimals =
		digits === 2
			? decimalsFor(uncertainty)
			: -Math.floor(Math.log10(Number(uncertainty.toPrecision(1))) + 1e-12);
	return 0.5 * 10 ** -decimals;
}

/** A Monte Carlo run that went on until it was accurate enough. */
export interface AdaptiveMonteCarlo {
	readonly result: MonteCarloResult;
	/** Whether the tolerance was reached before the trials ran out. */
	readonly stable: boolean;
	/** In the unit of the result. */
	readonly tolerance: number;
	readonly text: string;
}

/** How exact a run is to be, beside confidence and seed. */
export interface AdaptiveOptions
	extends Omit<MonteCarloOptions, "trials" | "sampling"> {
	/** Significant digits of the standard uncertainty that are to be right, 2 unless told otherwise. */
	readonly digits: 1 | 2;
}

/** Where an adaptive run stops, stable or not. */
const mostTrials = 10_000_000;

const adaptiveRules = {
	digits: countOption(1),
	confidence: numberOption(0, 1),
	seed: seedOption,
};

interface CompleteOptions {
	readonly digits: 1 | 2;
	/** Of one sequence. */
	readonly monteCarlo: MonteCarloOptions;
}

function complete(
	options: Partial<AdaptiveOptions>,
	of: string,
): CompleteOptions {
	requireOptions(options, adaptiveRules, of);
	const { digits = 2, confidence = 0.95, seed = 1 } = options;
	if (digits > 2)
		refuse(
			"digits-wrong",
			of,
			`${digits} digits of an uncertainty`,
			"1 or 2",
			"More digits of an uncertainty say nothing.",
		);
	const trials = Math.max(Math.ceil(100 / (1 - confidence)), 10_000);
	if (2 * trials > mostTrials)
		refuse(
			"confidence-too-high",
			of,
			`a confidence of ${confidence}`,
			`one that sequences of at most ${mostTrials / 2} trials reach`,
			"Take a lower confidence, such as 0.99.",
		);
	return {
		digits,
		monteCarlo: { trials, confidence, seed, sampling: "random" },
	};
}

/**
 * Adaptive number of trials (JCGM 101:2008, 7.9): sequences of trials are added until twice the standard deviation of the averages of mean, standard uncertainty and both ends
 * of the symmetric interval is below half a unit in the last of `digits` significant digits of the standard uncertainty. It gives up at ten million trials and says so.
 * @throws ProblemError for options that it does not have or cannot take, and when a trial is not a number
 */
export function adaptiveMonteCarlo(
	q: Quantity,
	options: Partial<AdaptiveOptions> = {},
): AdaptiveMonteCarlo {
	const { digits, monteCarlo } = complete(options, "adaptiveMonteCarlo");
	return runUntil(q, (u) => numericalTolerance(u, digits), monteCarlo);
}

/** Mean, standard uncertainty and both ends of the symmetric interval of one sequence. */
type SequenceRow = readonly [number, number, number, number];

function averageOf(rows: readonly SequenceRow[], k: number): number {
	return rows.reduce((sum, r) => sum + r[k], 0) / rows.length;
}

/** Whether twice the standard deviation of the average of every number is within the tolerance (JCGM 101:2008, 7.9.4). */
function isStable(rows: readonly SequenceRow[], tolerance: number): boolean {
	const h = rows.length;
	return [0, 1, 2, 3].every((k) => {
		const average = averageOf(rows, k);
		const squares = rows.reduce((sum, r) => sum + (r[k] - average) ** 2, 0);
		return 2 * Math.sqrt(squares / (h * (h - 1))) <= tolerance;
	});
}

function joined(parts: readonly Float64Array[], length: number): Float64Array {
	const all = new Float64Array(parts.length * length);
	parts.forEach((part, i) => {
		all.set(part, i * length);
	});
	return all;
}

function runUntil(
	q: Quantity,
	toleranceFor: (uncertainty: number) => number,
	options: MonteCarloOptions,
): AdaptiveMonteCarlo {
	const { trials, confidence, seed } = options;
	noteTrials(options);
	const node = nodeOf(q) as QuantityNode;
	const parts: Float64Array[] = [];
	const rows: SequenceRow[] = [];
	let tolerance = 0;
	let stable = false;
	while (!stable && (parts.length + 1) * trials <= mostTrials) {
		const [samples] = simulate([node], {
			...options,
			seed: `${seed}/${parts.length}`,
		});
		parts.push(samples);
		const one = summary(q, samples, confidence, []);
		const { lower, upper } = one.symmetric;
		rows.push([one.mean, one.standardUncertainty, lower, upper]);
		if (rows.length < 2) continue;
		tolerance = toleranceFor(averageOf(rows, 1));
		stable = isStable(rows, tolerance);
	}
	const all = joined(parts, trials);
	const within = `${plainNumber(tolerance)}${unitText(q.unit)}`;
	return {
		result: summary(q, all, confidence, fewReadings(node)),
		stable,
		tolerance,
		text: stable
			? `Stable after ${all.length} trials: mean, standard uncertainty and limits are right to ${within}.`
			: `Not stable to ${within} after ${all.length} trials.`,
	};
}

/** First order set against Monte Carlo (JCGM 101:2008, clause 8). All numbers in the unit of the result. */
export interface FirstOrderTest {
	readonly firstOrder: Interval;
	readonly monteCarlo: MonteCarloResult;
	/** Differences of the lower and of the upper ends, without sign. */
	readonly lowerDifference: number;
	readonly upperDifference: number;
	readonly tolerance: number;
	/** Whether both differences are within the tolerance: first order is good enough. */
	readonly agrees: boolean;
	readonly text: string;
	readonly table: Table;
}

/**
 * Is first order good enough? Compares y plus or minus k u with the symmetric Monte Carlo interval to half a unit in the last of `digits` significant digits of u(y). The number
 * of trials is adaptive, to a fifth of that tolerance (JCGM 101:2008, clause 8.2).
 * @throws ProblemError for options that it does not have or cannot take, and when a trial is not a number
 * @example
 * quantity.compareWithFirstOrder(quantity.input("mass", 3, "g", quantity.normal(0.1))).agrees // => true
 */
export function compareWithFirstOrder(
	q: Quantity,
	options: Partial<AdaptiveOptions> = {},
): FirstOrderTest {
	const { digits, monteCarlo } = complete(options, "compareWithFirstOrder");
	const tolerance = numericalTolerance(nodeOf(q).standardUncertainty, digits);
	const run = runUntil(q, () => tolerance / 5, monteCarlo);
	const trials = run.result;
	const firstOrder = expandedUncertainty(q, trials.confidence);
	const lowerDifference = Math.abs(firstOrder.lower - trials.symmetric.lower);
	const upperDifference = Math.abs(firstOrder.upper - trials.symmetric.upper);
	const agrees = lowerDifference <= tolerance && upperDifference <= tolerance;
	const places = Math.max(0, decimalsFor(tolerance));
	const unit = unitText(q.unit);
	const text = agrees
		? `First order is good enough: its limits and those of Monte Carlo differ by no more than ${plainNumber(tolerance)}${unit}.`
		: `First order is not good enough here: its limits differ from those of Monte Carlo by ${fixed(lowerDifference, places)} and ${fixed(upperDifference, places)}${unit}, more than ${plainNumber(tolerance)}. Take the Monte Carlo interval.`;
	return {
		firstOrder: { lower: firstOrder.lower, upper: firstOrder.upper },
		monteCarlo: trials,
		lowerDifference,
		upperDifference,
		tolerance,
		agrees,
		text,
		table: comparisonTable(q, firstOrder, trials, places, [
			text,
			...(run.stable ? [] : [run.text]),
			...trials.notes,
		]),
	};
}

function comparisonTable(
	q: Quantity,
	firstOrder: Interval,
	trials: MonteCarloResult,
	places: number,
	notes: readonly string[],
): Table {
	const row = (
		name: string,
		value: number,
		u: number,
		{ lower, upper }: Interval,
	): string[] => [
		name,
		...[value, u, lower, upper].map((x) => fixed(x, places)),
	];
	const { mean, standardUncertainty, symmetric, shortest, confidence } = trials;
	const unit = unitText(q.unit);
	const percent = plainNumber(100 * confidence);
	return table(
		`First order and Monte Carlo${unit === "" ? "" : ` (${unit.trim()})`}`,
		["", "value", "u", `lower ${percent} %`, `upper ${percent} %`],
		[
			row("first order", q.value, q.standardUncertainty, firstOrder),
			row("Monte Carlo, symmetric", mean, standardUncertainty, symmetric),
			row("Monte Carlo, shortest", mean, standardUncertainty, shortest),
		],
		notes,
	);
}
