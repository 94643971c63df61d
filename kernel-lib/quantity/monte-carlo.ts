import {
	createRandom,
	createSobol,
	normalCdf,
	SOBOL_MAX_DIMENSIONS,
} from "../stats";
import {
	type BlockPlan,
	blockRunner,
	type Draw,
	planBlocks,
} from "./block-plan";
import { expandedUncertainty } from "./budget";
import { plainSymbol, symbolOf } from "./expression";
import { decimalsFor, fixed, plainNumber, unitText } from "./format";
import { sensitivities } from "./graph";
import { type SampleStatistics, sampleStatistics } from "./order-statistics";
import {
	type Input,
	nodeOf,
	type Quantity,
	type QuantityNode,
} from "./quantity";
import { studentFromNormal } from "./student-deviates";
import { type Table, table } from "./table";
import { fromBase, unitFactor } from "./units";

export interface MonteCarloOptions {
	/** Number of trials, a million unless told otherwise. */
	readonly trials: number;
	/** Coverage probability of the intervals, 0.95 unless told otherwise. */
	readonly level: number;
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
	level: 0.95,
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
	readonly level: number;
	/** As much probability below as above it (7.7.2). */
	readonly symmetric: Interval;
	/** The shortest interval of the level (7.7.4, note 1). */
	readonly shortest: Interval;
	/** What the reader must know: inputs without a variance, trials that were too few. */
	readonly notes: readonly string[];
}

/** Trials that are computed at once: the columns of a chain stay in the processor's nearest memory. */
const blockLength = 1024;

function checkOptions(options: MonteCarloOptions): void {
	const { trials, level, sampling } = options;
	if (!(level > 0 && level < 1))
		throw new RangeError(
			`A coverage probability lies between 0 and 1, found ${level}.`,
		);
	const least = Math.ceil(10 / (1 - level));
	if (!Number.isInteger(trials) || trials < least || trials > 1e9)
		throw new RangeError(
			`Monte Carlo at a level of ${level} needs a whole number of trials from ${least} on (JCGM 101 advises ${Math.ceil(1e4 / (1 - level))} or more), found ${trials}.`,
		);
	if (sampling !== "random" && sampling !== "sobol")
		throw new RangeError(
			`Sampling is "random" or "sobol", found "${sampling}".`,
		);
}

function withDefaults(options: Partial<MonteCarloOptions>): MonteCarloOptions {
	for (const key of Object.keys(options))
		if (!Object.hasOwn(defaults, key))
			throw new RangeError(
				`"${key}" is not an option of Monte Carlo; there are ${Object.keys(defaults).join(", ")}.`,
			);
	const complete = { ...defaults, ...options };
	checkOptions(complete);
	return complete;
}

function randomDraw(plan: BlockPlan, seed: number | string): Draw {
	const random = createRandom(seed);
	const inputs = plan.inputs.map((p) => p.input);
	return (i, column) => {
		const { distribution, degreesOfFreedom } = inputs[i];
		switch (distribution) {
			case "rectangular":
				return random.fillRectangular(column);
			case "triangular":
				return random.fillTriangular(column);
			case "student":
				return random.fillStudentT(column, degreesOfFreedom);
			default:
				return random.fillNormal(column);
		}
	};
}

function triangularQuantile(p: number): number {
	return p < 0.5 ? Math.sqrt(2 * p) - 1 : 1 - Math.sqrt(2 * (1 - p));
}

/** Turns standard normal deviates into deviates of another distribution of the same probability, in place: limits at plus and minus 1, Student's t as it is. */
function fromNormal(column: Float64Array, input: Input): void {
	const { distribution, degreesOfFreedom } = input;
	if (distribution === "student") studentFromNormal(column, degreesOfFreedom);
	if (distribution === "rectangular")
		for (let j = 0; j < column.length; j++)
			column[j] = 2 * normalCdf(column[j]) - 1;
	if (distribution === "triangular")
		for (let j = 0; j < column.length; j++)
			column[j] = triangularQuantile(normalCdf(column[j]));
}

/** Standard deviation that the trials of an input have: Student's t is wider than its scale; without a variance, ten times is wide enough to point the way. */
function effectiveSpread({
	uncertainty,
	distribution,
	degreesOfFreedom: df,
}: Input): number {
	return distribution !== "student"
		? uncertainty
		: uncertainty * (df > 2 ? Math.sqrt(df / (df - 2)) : 10);
}

/** The direction in which a result changes fastest, its inputs counted in their own spreads; of length 1, or all zero. */
function steepest(plan: BlockPlan, root: QuantityNode): Float64Array {
	const found = sensitivities(root);
	const gradient = Float64Array.from(plan.inputs, ({ input }) => {
		const s = found.get(input.key);
		return s === undefined ? 0 : s.derivative * effectiveSpread(input);
	});
	const length = Math.hypot(...gradient);
	return length === 0 ? gradient : gradient.map((g) => g / length);
}

/** Householder vector v with v'v = 2: I - v v' turns the first coordinate axis into a direction. Empty where it is that axis already. */
function householder(direction: Float64Array): Float64Array {
	const v = direction.map((d, i) => d - (i === 0 ? 1 : 0));
	const size = Math.hypot(...v);
	return size < 1e-12 || direction.every((d) => d === 0)
		? new Float64Array(0)
		: v.map((x) => (x / size) * Math.SQRT2);
}

/**
 * Draws from a scrambled Sobol sequence. Its points are best spread along the first coordinate, so the standard normal deviates are turned until that coordinate is the
 * direction in which the result changes fastest (the linear transformation of Imai and Tan (2006), J. Comput. Finance 10, 129; from memory); other distributions are
 * reached from the turned normal deviates, so that normal inputs gain most and heavy-tailed ones least.
 */
function sobolDraw(
	plan: BlockPlan,
	root: QuantityNode,
	seed: number | string,
): (first: number, length: number) => Draw {
	const dimensions = plan.inputs.length;
	if (dimensions > SOBOL_MAX_DIMENSIONS)
		throw new RangeError(
			`A low-discrepancy sequence serves up to ${SOBOL_MAX_DIMENSIONS} uncertain inputs; this result has ${dimensions}. Take random sampling.`,
		);
	const sobol = createSobol(dimensions, seed);
	const v = householder(steepest(plan, root));
	const columns = plan.inputs.map(() => new Float64Array(blockLength));
	const along = new Float64Array(blockLength);
	return (first, length) => {
		along.fill(0);
		columns.forEach((w, i) => {
			sobol.fillNormal(i, first, w.subarray(0, length));
			if (v.length > 0) addScaled(along, w, v[i]);
		});
		if (v.length > 0)
			columns.forEach((w, i) => {
				addScaled(w, along, -v[i]);
			});
		return (i, column) => {
			column.set(columns[i].subarray(0, column.length));
			fromNormal(column, plan.inputs[i].input);
		};
	};
}

function addScaled(to: Float64Array, x: Float64Array, factor: number): void {
	for (let j = 0; j < to.length; j++) to[j] += factor * x[j];
}

/** All trials of all results, in base units. */
function simulate(
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
	level: number,
): Interval {
	const inside = Math.floor(level * trials + 0.5);
	const first = Math.max(0, Math.floor((trials - inside + 1) / 2) - 1);
	const [lower, upper] = sample.ranks([
		first,
		Math.min(trials - 1, first + inside),
	]);
	return { lower, upper };
}

/** Shortest interval: of all intervals that hold the level's share of the ordered trials, the one with the least width (7.7.4). */
function shortestInterval(
	sample: SampleStatistics,
	trials: number,
	level: number,
): Interval {
	const inside = Math.min(Math.floor(level * trials + 0.5), trials - 1);
	const starts = trials - inside;
	const low = sample.range(0, starts);
	const high = sample.range(inside, trials);
	let best = 0;
	for (let r = 1; r < starts; r++)
		if (high[r] - low[r] < high[best] - low[best]) best = r;
	return { lower: low[best], upper: high[best] };
}

/** Inputs known from two or three readings: their Student's t has no variance. */
function fewReadings(node: QuantityNode): string[] {
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
	const { sampling, trials, level } = options;
	const advised = Math.ceil(1e4 / (1 - level) - 1e-6);
	return [
		...fewReadings(node),
		...(sampling === "random" && trials < advised
			? [
					`${trials} trials are few for a level of ${level}: JCGM 101:2008, 7.2.2 advises ${advised} or more.`,
				]
			: []),
	];
}

function finite(samples: Float64Array, q: Quantity): void {
	for (let i = 0; i < samples.length; i++)
		if (!Number.isFinite(samples[i]))
			throw new RangeError(
				`Monte Carlo met a trial of ${q} that is not a number: some draw divides by zero or takes the logarithm of a negative number. The uncertainty of an input is too large for this formula.`,
			);
}

function summary(
	q: Quantity,
	samples: Float64Array,
	level: number,
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
		level,
		symmetric: interval(symmetricInterval(sample, samples.length, level)),
		// Needs both tails in order, so it is worked out when somebody asks.
		get shortest(): Interval {
			shortest ??= interval(shortestInterval(sample, samples.length, level));
			return shortest;
		},
		notes,
	};
}

/**
 * Propagation of distributions (JCGM 101:2008) on the same graph that first order uses: every input is drawn from its own distribution, one draw for each key however often it
 * appears, and the formula is evaluated for blocks of trials.
 *
 * @throws RangeError for options that make no sense, and when a trial is not a number
 */
export function monteCarlo(
	q: Quantity,
	options: Partial<MonteCarloOptions> = {},
): MonteCarloResult {
	const complete = withDefaults(options);
	const node = nodeOf(q) as QuantityNode;
	const [samples] = simulate([node], complete);
	return summary(q, samples, complete.level, notesOn(node, complete));
}

/** The trials themselves, jointly for several results (trial i of each uses the same draws), in the unit of each result. */
export function monteCarloTrials(
	quantities: readonly Quantity[],
	options: Partial<MonteCarloOptions> = {},
): readonly Float64Array[] {
	const roots = quantities.map((q) => nodeOf(q) as QuantityNode);
	return simulate(roots, withDefaults(options)).map((samples, i) => {
		finite(samples, quantities[i]);
		const { kind, unit } = quantities[i];
		return samples.map((base) => fromBase(kind, base, unit));
	});
}

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

type AdaptiveOptions = Partial<Omit<MonteCarloOptions, "trials" | "sampling">>;

/** Where an adaptive run stops, stable or not. */
const mostTrials = 10_000_000;

/**
 * Adaptive number of trials (JCGM 101:2008, 7.9): sequences of trials are added until twice the standard deviation of the averages of mean, standard uncertainty and both ends
 * of the symmetric interval is below half a unit in the last of `digits` significant digits of the standard uncertainty. It gives up at ten million trials and says so.
 */
export function adaptiveMonteCarlo(
	q: Quantity,
	digits: 1 | 2 = 2,
	options: AdaptiveOptions = {},
): AdaptiveMonteCarlo {
	return runUntil(q, (u) => numericalTolerance(u, digits), options);
}

function runUntil(
	q: Quantity,
	toleranceFor: (uncertainty: number) => number,
	options: AdaptiveOptions,
): AdaptiveMonteCarlo {
	const { level } = withDefaults({ ...options });
	const length = Math.max(Math.ceil(100 / (1 - level)), 10_000);
	const complete = withDefaults({ ...options, trials: length });
	const node = nodeOf(q) as QuantityNode;
	const parts: Float64Array[] = [];
	const rows: number[][] = [];
	let tolerance = 0;
	let stable = false;
	while (!stable && (parts.length + 1) * length <= mostTrials) {
		const [samples] = simulate([node], {
			...complete,
			seed: `${complete.seed}/${parts.length}`,
		});
		parts.push(samples);
		const one = summary(q, samples, level, []);
		const { lower, upper } = one.symmetric;
		rows.push([one.mean, one.standardUncertainty, lower, upper]);
		const h = rows.length;
		if (h < 2) continue;
		const averageOf = (k: number): number =>
			rows.reduce((sum, r) => sum + r[k], 0) / h;
		tolerance = toleranceFor(averageOf(1));
		stable = [0, 1, 2, 3].every((k) => {
			const average = averageOf(k);
			const squares = rows.reduce((sum, r) => sum + (r[k] - average) ** 2, 0);
			return 2 * Math.sqrt(squares / (h * (h - 1))) <= tolerance;
		});
	}
	const all = new Float64Array(parts.length * length);
	parts.forEach((part, i) => {
		all.set(part, i * length);
	});
	const within = `${plainNumber(tolerance)}${unitText(q.unit)}`;
	return {
		result: summary(q, all, level, fewReadings(node)),
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
 * of trials is adaptive, to a fifth of that tolerance as clause 8.2 advises.
 */
export function compareWithFirstOrder(
	q: Quantity,
	digits: 1 | 2 = 2,
	options: AdaptiveOptions = {},
): FirstOrderTest {
	const tolerance = numericalTolerance(q.standardUncertainty, digits);
	const run = runUntil(q, () => tolerance / 5, options);
	const trials = run.result;
	const { level } = trials;
	const firstOrder = expandedUncertainty(q, level);
	const lowerDifference = Math.abs(firstOrder.lower - trials.symmetric.lower);
	const upperDifference = Math.abs(firstOrder.upper - trials.symmetric.upper);
	const agrees = lowerDifference <= tolerance && upperDifference <= tolerance;
	const places = Math.max(0, decimalsFor(tolerance));
	const unit = unitText(q.unit);
	const text = agrees
		? `First order is good enough: its limits and those of Monte Carlo differ by no more than ${plainNumber(tolerance)}${unit}.`
		: `First order is not good enough here: its limits differ from those of Monte Carlo by ${fixed(lowerDifference, places)} and ${fixed(upperDifference, places)}${unit}, more than ${plainNumber(tolerance)}. Take the Monte Carlo interval.`;
	const row = (
		name: string,
		value: number,
		u: number,
		{ lower, upper }: Interval,
	): string[] => [
		name,
		...[value, u, lower, upper].map((x) => fixed(x, places)),
	];
	const { mean, standardUncertainty, symmetric, shortest } = trials;
	return {
		firstOrder: { lower: firstOrder.lower, upper: firstOrder.upper },
		monteCarlo: trials,
		lowerDifference,
		upperDifference,
		tolerance,
		agrees,
		text,
		table: table(
			`First order and Monte Carlo${unit === "" ? "" : ` (${unit.trim()})`}`,
			[
				"",
				"value",
				"u",
				`lower ${fixed(100 * level, 0)} %`,
				`upper ${fixed(100 * level, 0)} %`,
			],
			[
				row("first order", q.value, q.standardUncertainty, firstOrder),
				row("Monte Carlo, symmetric", mean, standardUncertainty, symmetric),
				row("Monte Carlo, shortest", mean, standardUncertainty, shortest),
			],
			[text, ...(run.stable ? [] : [run.text]), ...trials.notes],
		),
	};
}
