import { sensitivities } from "./graph";
import type { Kind } from "./kinds";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";
import type { Input } from "./source";
import { unitFactor } from "./units";

/** Covariance of two results in the product of their own units: what their shared inputs contribute. */
export function covariance(a: Quantity, b: Quantity): number {
	const sa = sensitivities(nodeOf(a));
	const sb = sensitivities(nodeOf(b));
	let c = 0;
	for (const [key, s] of sa) {
		const other = sb.get(key);
		if (other) c += s.derivative * other.derivative * s.input.uncertainty ** 2;
	}
	return c / (unitFactor(a.kind, a.unit) * unitFactor(b.kind, b.unit));
}

/**
 * Correlation of two results, from -1 to 1, by the inputs that they share; 0 where one of them is exact.
 * @example
 * const burette = quantity.input("volume", 0, "mL", quantity.rectangular(0.1));
 * const titre = (mL: number) => quantity.plus(quantity.input("volume", mL, "mL", quantity.rectangular(0.1)), burette);
 * quantity.correlation(titre(10), titre(20)) // => 0.5
 */
export function correlation(a: Quantity, b: Quantity): number {
	const ua = nodeOf(a).standardUncertainty;
	const ub = nodeOf(b).standardUncertainty;
	return ua > 0 && ub > 0 ? covariance(a, b) / (ua * ub) : 0;
}

/**
 * Effective degrees of freedom by Welch and Satterthwaite (JCGM 100:2008, G.4.1), for independent inputs. Infinity where every input's uncertainty is taken as known.
 */
export function effectiveDegreesOfFreedom(q: Quantity): number {
	let variance = 0;
	let denominator = 0;
	for (const s of sensitivities(nodeOf(q)).values()) {
		const v = (s.derivative * s.input.uncertainty) ** 2;
		variance += v;
		if (Number.isFinite(s.input.degreesOfFreedom))
			denominator += v ** 2 / s.input.degreesOfFreedom;
	}
	return denominator > 0
		? variance ** 2 / denominator
		: Number.POSITIVE_INFINITY;
}

/**
 * What several results of one kind have in common, without a dense matrix: the variance that is each result's own, and for every shared input the column of sensitivities times
 * its uncertainty. covariance(i, j) = own[i] + replicate[i] (if i = j) + sum over shared of effect[i] * effect[j]. All in the unit of the results, which must be one.
 */
export interface SharedErrors {
	/** By readings of the result alone. */
	readonly ownVariance: Float64Array;
	/** By what differs from one replicate to the next and touches this result alone. */
	readonly replicateVariance: Float64Array;
	readonly shared: readonly {
		readonly input: Input;
		readonly node: QuantityNode;
		/** d(result i)/d(input) times the input's standard uncertainty. */
		readonly effect: Float64Array;
	}[];
}

/** What one input does to a list of results: by the place of each that it touches, d(result)/d(input) times its standard uncertainty, in the unit of the result. */
export interface ErrorColumn {
	readonly input: Input;
	readonly node: QuantityNode;
	readonly effect: ReadonlyMap<number, number>;
}

/** The inputs of a list of results, by key; each knows only the results that lean on it. */
export function errorColumns(
	results: readonly Quantity[],
): ReadonlyMap<string, ErrorColumn> {
	const columns = new Map<
		string,
		{ input: Input; node: QuantityNode; effect: Map<number, number> }
	>();
	results.forEach((q, i) => {
		const factor = unitFactor(q.kind, q.unit);
		for (const [key, s] of sensitivities(nodeOf(q) as QuantityNode)) {
			let column = columns.get(key);
			if (!column) {
				column = { input: s.input, node: s.node, effect: new Map() };
				columns.set(key, column);
			}
			column.effect.set(i, (s.derivative * s.input.uncertainty) / factor);
		}
	});
	return columns;
}

/** Inputs that touch one result only are its own, unless they are said to be shared. */
const isOwn = ({ scope }: Input, touched: number): boolean =>
	scope !== "shared" && touched === 1;

function dense(
	effect: ReadonlyMap<number, number>,
	count: number,
): Float64Array {
	const all = new Float64Array(count);
	for (const [i, e] of effect) all[i] = e;
	return all;
}

/** Splits errors by scope: inputs of scope "reading" or "replicate" that touch one result only are its own, everything else is shared. */
export function sharedErrors<K extends Kind>(
	results: readonly Quantity<K>[],
): SharedErrors {
	const ownVariance = new Float64Array(results.length);
	const replicateVariance = new Float64Array(results.length);
	const shared: SharedErrors["shared"][number][] = [];
	for (const { input, node, effect } of errorColumns(results).values()) {
		if (isOwn(input, effect.size)) {
			const own = input.scope === "replicate" ? replicateVariance : ownVariance;
			for (const [i, e] of effect) own[i] += e * e;
		} else shared.push({ input, node, effect: dense(effect, results.length) });
	}
	return { ownVariance, replicateVariance, shared };
}

/** What one input does to both results of one flask: d(result)/d(input) times its standard uncertainty. */
export interface OwnError {
	readonly input: Input;
	/** Place of the flask. */
	readonly at: number;
	readonly first: number;
	readonly second: number;
}

/**
 * Two results of each flask (say its uptake and its residue, in one unit each) whose errors hang together, because they come from one reading. Every input keeps its effect on both: those that are one flask's
 * own, and those that more flasks lean on.
 */
export interface LinkedErrors {
	readonly own: readonly OwnError[];
	readonly shared: readonly {
		readonly input: Input;
		readonly node: QuantityNode;
		/** d(first i)/d(input) times the input's standard uncertainty, and the same for the second. */
		readonly first: Float64Array;
		readonly second: Float64Array;
	}[];
}

const untouched: ReadonlyMap<number, number> = new Map();

/** Splits the errors of pairs of results by scope, as `sharedErrors` does for one result of each. */
export function linkedErrors<A extends Kind, B extends Kind>(
	pairs: readonly (readonly [Quantity<A>, Quantity<B>])[],
): LinkedErrors {
	const count = pairs.length;
	const firsts = errorColumns(pairs.map(([first]) => first));
	const seconds = errorColumns(pairs.map(([, second]) => second));
	const own: OwnError[] = [];
	const shared: LinkedErrors["shared"][number][] = [];
	for (const [key, { input, node }] of new Map([...firsts, ...seconds])) {
		const first = firsts.get(key)?.effect ?? untouched;
		const second = seconds.get(key)?.effect ?? untouched;
		const touched = new Set([...first.keys(), ...second.keys()]);
		if (!isOwn(input, touched.size)) {
			shared.push({
				input,
				node,
				first: dense(first, count),
				second: dense(second, count),
			});
			continue;
		}
		for (const at of touched)
			own.push({
				input,
				at,
				first: first.get(at) ?? 0,
				second: second.get(at) ?? 0,
			});
	}
	return { own, shared };
}

/** How a result moves with each of some readings: d(result)/d(reading), in the units of both; 0 for a reading that it does not lean on, or that is exact. */
export function derivativesBy(
	result: Quantity,
	readings: readonly Quantity[],
): number[] {
	const all = sensitivities(nodeOf(result) as QuantityNode);
	const factor = unitFactor(result.kind, result.unit);
	return readings.map((reading) => {
		const key = (nodeOf(reading) as QuantityNode).input?.key ?? "";
		const own = all.get(key)?.derivative ?? 0;
		return (own * unitFactor(reading.kind, reading.unit)) / factor;
	});
}
