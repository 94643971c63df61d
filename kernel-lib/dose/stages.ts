import { type Isotherm, meet, uptakeAt } from "../isotherms";
import { bracketedRoot } from "../stats";

/** Water and char side by side until they are in equilibrium. */
export interface Stage {
	/** 1 is where the water enters. */
	readonly stage: number;
	/** mg/L. */
	readonly residueIn: number;
	readonly residueOut: number;
	/** mg/g on the char that leaves the stage; in equilibrium with `residueOut`. */
	readonly uptake: number;
	/** mg/g on the char that enters; 0 for fresh char. */
	readonly uptakeIn: number;
	/** g of char per litre of water that goes through the stage. */
	readonly dose: number;
}

/**
 * How char meets water. "cross-current": fresh char in every stage, split so that the total is least. "cross-current, equal doses": fresh char, the same in every stage. "counter-current": fresh char
 * only where the water leaves; it goes on, stage by stage, to where the water enters.
 */
export type Scheme =
	| "cross-current"
	| "cross-current, equal doses"
	| "counter-current";

/** Grid on which the optimal split is looked for before it is refined. */
const gridPoints = 96;
/** Relative width at which a root is taken: rounding. */
const rounding = 1e-15;

/** Residue (mg/L) that water of this start (mg/L) shows in equilibrium with `dose` g/L of fresh char: start - C = dose q(C). */
export function residueAfter(
	isotherm: Isotherm,
	theta: Float64Array,
	start: number,
	dose: number,
): number {
	if (!(dose > 0)) return start;
	const out = new Float64Array(1);
	meet(
		isotherm,
		theta,
		{ intercept: [start / dose], slope: [1 / dose], near: [start / 2] },
		out,
	);
	return out[0];
}

/** Char (g/L) that takes water from `from` to `to` (mg/L) in one stage. */
export function oneStageDose(
	isotherm: Isotherm,
	theta: Float64Array,
	from: number,
	to: number,
): number {
	return (from - to) / uptakeAt(isotherm, theta, to);
}

/**
 * The stages that take water from `start` to `target` (mg/L), 0 < target < start, with q(target) > 0.
 *
 * @returns stages in the order of the water; their doses (for counter-current: the one dose that goes through all of them)
 */
export function stagesFor(
	scheme: Scheme,
	isotherm: Isotherm,
	theta: Float64Array,
	start: number,
	target: number,
	count: number,
): Stage[] {
	const residues = {
		"cross-current": leastChar,
		"cross-current, equal doses": equalDoses,
		"counter-current": counterCurrent,
	}[scheme](isotherm, theta, start, target, count);
	const q = residues.map((c) => uptakeAt(isotherm, theta, c));
	const counter = scheme === "counter-current";
	const once = (start - target) / q[1];
	return residues.slice(1).map((residueOut, i) => ({
		stage: i + 1,
		residueIn: residues[i],
		residueOut,
		uptake: q[i + 1],
		uptakeIn: counter && i + 1 < count ? q[i + 2] : 0,
		dose: counter ? once : (residues[i] - residueOut) / q[i + 1],
	}));
}

/** Fresh char that the stages use together, g per litre of water. */
export function totalDose(scheme: Scheme, stages: readonly Stage[]): number {
	return scheme === "counter-current"
		? stages[0].dose
		: stages.reduce((sum, s) => sum + s.dose, 0);
}

type Residues = (
	isotherm: Isotherm,
	theta: Float64Array,
	start: number,
	target: number,
	count: number,
) => number[];

/**
 * Least total of (C[i-1] - C[i])/q(C[i]). Setting its derivative by C[i] to zero gives C[i-1] from the two residues after it,
 * C[i-1] = C[i] + q(C[i])^2/q'(C[i]) (1/q(C[i+1]) - 1/q(C[i])),
 * so that one unknown is left, the last residue but one; it is the one for which the chain begins at the start.
 */
const leastChar: Residues = (isotherm, theta, start, target, count) => {
	if (count === 1) return [start, target];
	const q = (c: number): number => uptakeAt(isotherm, theta, c);
	const chain = (lastButOne: number): number[] => {
		const back = [target, lastButOne];
		while (back.length <= count && back[back.length - 1] <= start) {
			const c = back[back.length - 1];
			const qc = q(c);
			const gain = 1 / q(back[back.length - 2]) - 1 / qc;
			back.push(c + (qc * qc * gain) / isotherm.slope(theta, c));
		}
		return back;
	};
	// A chain that passes the start on its way ends above it.
	const miss = (u: number): number => {
		const back = chain(Math.exp(u));
		const end = back[back.length - 1];
		return Number.isFinite(end) ? Math.min(Math.log(end / start), 50) : 50;
	};
	const low = Math.log(target);
	const step = (Math.log(start) - low) / gridPoints;
	const grid = Array.from({ length: gridPoints + 1 }, (_, i) => low + i * step);
	const misses = grid.map((u, i) =>
		i === 0 ? -1 : i === gridPoints ? 1 : miss(u),
	);
	let best: number[] = [];
	let least = Number.POSITIVE_INFINITY;
	for (let i = 1; i <= gridPoints; i++) {
		if (misses[i - 1] > 0 || misses[i] < 0) continue;
		const u = rootBetween(miss, grid[i - 1], grid[i], i === 1);
		const residues = [start, ...chain(Math.exp(u)).slice(0, count).reverse()];
		const total = residues
			.slice(1)
			.reduce((sum, c, k) => sum + (residues[k] - c) / q(c), 0);
		if (total < least && residues.length === count + 1) {
			least = total;
			best = residues;
		}
	}
	return best;
};

/** The root of the miss between two places of the grid; the miss is not defined at the target itself. */
function rootBetween(
	miss: (u: number) => number,
	low: number,
	high: number,
	openBelow: boolean,
): number {
	const f = (u: number): number => (openBelow && u === low ? -1 : miss(u));
	return halved(f, low, high);
}

/** Halving to the last bit: for functions that are steep or flat beyond what interpolation copes with. */
function halved(f: (x: number) => number, low: number, high: number): number {
	let [a, b] = [low, high];
	for (let round = 0; round < 200; round++) {
		const x = (a + b) / 2;
		if (x === a || x === b) break;
		if (f(x) > 0) b = x;
		else a = x;
	}
	return (a + b) / 2;
}

const equalDoses: Residues = (isotherm, theta, start, target, count) => {
	if (count === 1) return [start, target];
	const chain = (dose: number): number[] => {
		const residues = [start];
		for (let i = 0; i < count; i++)
			residues.push(residueAfter(isotherm, theta, residues[i], dose));
		return residues;
	};
	// No stage takes up more than char in equilibrium with the start; one stage alone needs the upper dose.
	const low = (start - target) / (count * uptakeAt(isotherm, theta, start));
	const high = oneStageDose(isotherm, theta, start, target);
	const miss = (logDose: number): number =>
		Math.log(chain(Math.exp(logDose))[count] / target);
	const u = bracketedRoot(
		miss,
		Math.log(low) - 1e-9,
		Math.log(high),
		rounding * 10,
	);
	return [...chain(Math.exp(u)).slice(0, count), target];
};

/**
 * Balance over the stages from i to the last: dose q(C[i]) = C[i-1] - target. Stepping back from the target gives the start that a dose is enough for, which rises with the dose.
 */
const counterCurrent: Residues = (isotherm, theta, start, target, count) => {
	if (count === 1) return [start, target];
	const chain = (dose: number): number[] => {
		const back = [target];
		while (back.length <= count && back[back.length - 1] <= start)
			back.push(
				target + dose * uptakeAt(isotherm, theta, back[back.length - 1]),
			);
		return back;
	};
	const high = oneStageDose(isotherm, theta, start, target);
	const miss = (dose: number): number => {
		const back = chain(dose);
		return back[back.length - 1] - start;
	};
	const dose = halved(miss, 0, high);
	const residues = [target];
	// Stages that hardly work any more stand at the start itself; rounding may put them above it.
	while (residues.length < count)
		residues.push(
			Math.min(
				start,
				target +
					dose * uptakeAt(isotherm, theta, residues[residues.length - 1]),
			),
		);
	return [start, ...residues.reverse()];
};
