import { refuse } from "../problem";
import { noteSeed } from "../stats";
import { blockRunner, type Draw, planBlocks } from "./block-plan";
import { plainSymbol, symbolOf } from "./expression";
import { plainNumber } from "./format";
import { sensitivities } from "./graph";
import { blockLength, randomDraw, sobolDraw } from "./monte-carlo-draws";
import {
	countOption,
	eitherOption,
	numberOption,
	type OptionRule,
	requireOptions,
	textOption,
	wordOption,
} from "./options";
import { type SampleStatistics, sampleStatistics } from "./order-statistics";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";
import { fromBase, unitFactor } from "./units";

export interface MonteCarloOptions {
	/** Number of trials, a million unless told otherwise. */
	readonly trials: number;
	/** Coverage probability of the intervals, 0.95 unless told otherwise. */
	readonly confidence: number;
	/** The same seed gives the same result on every machine. */
	readonly seed: number | string;
	/**
	 * "random": independent draws. "sobol": a scrambled low-discrepancy sequence, which reaches the same accuracy with a small part of the trials (less than a hundredth for the limits of
	 * a chain of normal inputs, about a fifth for rectangular ones and where a Student's t with few degrees of freedom leads); take a power of two.
	 */
	readonly sampling: "random" | "sobol";
}

const defaults: MonteCarloOptions = {
	trials: 1_000_000,
	confidence: 0.95,
	seed: 1,
	sampling: "random",
};

/** The ends of an interval, in the unit of the result. */
export interface Interval {
	readonly lower: number;
	readonly upper: number;
}

/** What the propagation of distributions gave (JCGM 101:2008). All numbers in the unit of the result. */
export interface MonteCarloResult {
	readonly quantity: Quantity;
	readonly trials: number;
	readonly mean: number;
	readonly standardUncertainty: number;
	readonly confidence: number;
	/** As much probability below as above it (7.7.2). */
	readonly symmetric: Interval;
	/** The shortest interval of the confidence (7.7.4, note 1). */
	readonly shortest: Interval;
	/** What the reader must know: inputs without a variance, trials that were too few. */
	readonly notes: readonly string[];
}

/** What a series of random numbers starts from. */
export const seedOption: OptionRule = eitherOption(
	numberOption(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY),
	textOption,
);

const rules = {
	trials: countOption(1),
	confidence: numberOption(0, 1),
	seed: seedOption,
	sampling: wordOption("random", "sobol"),
};

/** Most trials that are kept in memory at once. */
const mostTrials = 1e9;

/** The options with their defaults. Ten trials outside of the interval are the fewest that place its ends; a decision of ours. */
function completeOptions(
	options: Partial<MonteCarloOptions>,
	of: string,
): MonteCarloOptions {
	requireOptions(options, rules, of);
	const complete = { ...defaults, ...options };
	const { trials, confidence } = complete;
	const least = Math.ceil(10 / (1 - confidence));
	if (trials < least || trials > mostTrials)
		refuse(
			"trials-wrong",
			of,
			`${trials} trials`,
			`a whole number of trials from ${least} on for a confidence of ${confidence} (JCGM 101 advises ${Math.ceil(1e4 / (1 - confidence))} or more), and at most ${mostTrials}`,
			"Change the number of trials.",
		);
	return complete;
}

/** Writes down the seed that trials are drawn from. */
export function noteTrials({ seed }: MonteCarloOptions): void {
	noteSeed("Monte Carlo", seed);
}

/** All trials of all results, in base units. */
export function simulate(
	roots: readonly QuantityNode[],
	options: MonteCarloOptions,
): Float64Array[] {
	const { trials, seed, sampling } = options;
	const plan = planBlocks(roots);
	const samples = roots.map(() => new Float64Array(trials));
	const random = sampling === "random" ? randomDraw(plan, seed) : null;
	const sobol =
		sampling === "sobol" && plan.inputs.length > 0
			? sobolDraw(plan, roots[0], seed)
			: null;
	const none: Draw = () => {};
	const run = blockRunner(plan, blockLength);
	for (let first = 0; first < trials; first += blockLength) {
		const length = Math.min(blockLength, trials - first);
		const draw: Draw = random ?? (sobol === null ? none : sobol(first, length));
		const into = samples.map((s) => s.subarray(first, first + length));
		if (length === blockLength) run(draw, into);
		else blockRunner(plan, length)(draw, into);
	}
	return samples;
}

/** Probabilistically symmetric interval from the ordered trials (JCGM 101:2008, 7.7.2). */
function symmetricInterval(
	sample: SampleStatistics,
	trials: number,
	confidence: number,
): Interval {
	const inside = Math.floor(confidence * trials + 0.5);
	const first = Math.max(0, Math.floor((trials - inside + 1) / 2) - 1);
	const [lower, upper] = sample.ranks([
		first,
		Math.min(trials - 1, first + inside),
	]);
	return { lower, upper };
}

/** Shortest interval: of all intervals that hold the confidence's share of the ordered trials, the one with the least width (7.7.4). */
function shortestInterval(
	sample: SampleStatistics,
	trials: number,
	confidence: number,
): Interval {
	const inside = Math.min(Math.floor(confidence * trials + 0.5), trials - 1);
	const starts = trials - inside;
	const low = sample.range(0, starts);
	const high = sample.range(inside, trials);
	let best = 0;
	for (let r = 1; r < starts; r++)
		if (high[r] - low[r] < high[best] - low[best]) best = r;
	return { lower: low[best], upper: high[best] };
}

/** Inputs known from two or three readings: their Student's t has no variance. */
export function fewReadings(node: QuantityNode): string[] {
	return [...sensitivities(node).values()]
		.filter(
			(s) =>
				s.input.distribution === "student" && s.input.degreesOfFreedom <= 2,
		)
		.map(({ node: x, input }) => {
			const df = plainNumber(input.degreesOfFreedom);
			const name =
				x.name.meaning === "" ? plainSymbol(symbolOf(x)) : x.name.meaning;
			return `${name}: Student's t with ${df} degree${df === "1" ? "" : "s"} of freedom has no variance (JCGM 101:2008, 6.4.9.4), so the standard deviation of the trials means nothing here. The interval does.`;
		});
}

function notesOn(node: QuantityNode, options: MonteCarloOptions): string[] {
	const { sampling, trials, confidence } = options;
	const advised = Math.ceil(1e4 / (1 - confidence) - 1e-6);
	return [
		...fewReadings(node),
		...(sampling === "random" && trials < advised
			? [
					`${trials} trials are few for a confidence of ${confidence}: JCGM 101:2008, 7.2.2 advises ${advised} or more.`,
				]
			: []),
	];
}

function finite(samples: Float64Array, q: Quantity): void {
	for (let i = 0; i < samples.length; i++)
		if (!Number.isFinite(samples[i]))
			refuse(
				"trial-not-finite",
				"monteCarlo",
				`a trial of ${q} that is not a number: some draw divides by zero or takes the logarithm of a negative number`,
				"inputs whose errors leave every trial a number",
				"The uncertainty of an input is too large for this formula: look at the budget for the largest one.",
			);
}

export function summary(
	q: Quantity,
	samples: Float64Array,
	confidence: number,
	notes: readonly string[],
): MonteCarloResult {
	const node = nodeOf(q) as QuantityNode;
	const sample = sampleStatistics(samples, node.base, node.baseUncertainty);
	const { mean, standardDeviation } = sample;
	if (!Number.isFinite(standardDeviation)) finite(samples, q);
	const shown = (base: number): number => fromBase(q.kind, base, q.unit);
	const interval = ({ lower, upper }: Interval): Interval => ({
		lower: shown(lower),
		upper: shown(upper),
	});
	let shortest: Interval | null = null;
	return {
		quantity: q,
		trials: samples.length,
		mean: shown(mean),
		standardUncertainty: standardDeviation / unitFactor(q.kind, q.unit),
		confidence,
		symmetric: interval(symmetricInterval(sample, samples.length, confidence)),
		// Needs both tails in order, so it is worked out when somebody asks.
		get shortest(): Interval {
			shortest ??= interval(
				shortestInterval(sample, samples.length, confidence),
			);
			return shortest;
		},
		notes,
	};
}

/**
 * Monte Carlo: propagation of distributions (JCGM 101:2008) on the same graph that first order uses: every input is drawn from its own distribution, one draw for each key however often it
 * appears, and the formula is evaluated for blocks of trials.
 *
 * @throws ProblemError for options that it does not have or cannot take, and when a trial is not a number
 * @example
 * quantity.monteCarlo(quantity.input("mass", 3, "g", quantity.normal(0.1)), { trials: 10000, seed: 1 }).standardUncertainty.toFixed(1) // => "0.1"
 */
export function monteCarlo(
	q: Quantity,
	options: Partial<MonteCarloOptions> = {},
): MonteCarloResult {
	const complete = completeOptions(options, "monteCarlo");
	const node = nodeOf(q) as QuantityNode;
	noteTrials(complete);
	const [samples] = simulate([node], complete);
	return summary(q, samples, complete.confidence, notesOn(node, complete));
}

/** The trials themselves, jointly for several results (trial i of each uses the same draws), in the unit of each result. */
export function monteCarloTrials(
	quantities: readonly Quantity[],
	options: Partial<MonteCarloOptions> = {},
): readonly Float64Array[] {
	const roots = quantities.map((q) => nodeOf(q) as QuantityNode);
	const complete = completeOptions(options, "monteCarloTrials");
	noteTrials(complete);
	return simulate(roots, complete).map((samples, i) => {
		finite(samples, quantities[i]);
		const { kind, unit } = quantities[i];
		return samples.map((base) => fromBase(kind, base, unit));
	});
}
