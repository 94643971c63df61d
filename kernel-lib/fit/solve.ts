import { createRandom, noteSeed } from "../stats";
import { plainStructure, type Structure } from "./linearity";
import { minimise } from "./minimise";
import { evaluatePoint } from "./point";
import { relabel } from "./relabel";
import { roundingOfSumOfSquares } from "./rounding";
import type { DescentSettings } from "./settings";
import { positionsOnAxis, type Task } from "./task";
import {
	createWorkspace,
	type Objective,
	type StopReason,
	type Workspace,
} from "./workspace";

/** What the descents ended with. */
export interface Solution {
	readonly theta: Float64Array;
	/** Holds the triangular factor of the Jacobian at theta. */
	readonly workspace: Workspace;
	readonly structure: Structure;
	readonly rss: number;
	readonly stop: StopReason;
	readonly relativeOffset: number;
	readonly evaluations: number;
	/** Descents from different start values. */
	readonly descents: number;
	/** Another set of values with the same sum of squares, if one turned up. */
	readonly rival:
		| { readonly kind: "none" }
		| { readonly kind: "found"; readonly theta: Float64Array };
	/** Whether the search ran to its end without finding anything lower. */
	readonly searched: "yes" | "not asked for" | "no agreement";
}

/** A stop after which theta is a stationary point, as well as double precision can tell. */
export function isStationary(stop: StopReason): boolean {
	return stop === "offset-small" || stop === "rounding-level";
}

/**
 * Finds the least sum of squares: a descent from the start; a descent on all parameters at once where a linear one
 * meets its limit; and, where it is asked for or needed, a search for a lower minimum.
 */
export function solve(
	task: Task,
	objective: Objective,
	response: Float64Array,
	start: Float64Array,
): Solution {
	const size = task.start.length;
	const settings: DescentSettings = {
		lower: task.lower,
		upper: task.upper,
		tolerance: task.tolerance,
		maxEvaluations: task.maxEvaluations,
		firstRadius: 1,
	};
	let structure = task.structure;
	let workspace = createWorkspace(task.points, size, structure);
	let evaluations = 0;
	let descents = 0;
	const descend = (theta: Float64Array, s: DescentSettings): void => {
		minimise(objective, response, workspace, theta, s);
		evaluations += workspace.evaluations;
		descents++;
	};

	const best = start.slice();
	descend(best, settings);
	if (!keepsPromise(task, objective, response, workspace, best)) {
		structure = plainStructure(structure);
		workspace = createWorkspace(task.points, size, structure);
		clip(best, task);
		descend(best, settings);
	}
	let rss = workspace.rss;
	let rival: Solution["rival"] = { kind: "none" };
	let searched: Solution["searched"] = "not asked for";
	const clean = isStationary(workspace.stop) && isFullRank(workspace);
	if (
		task.search === "always" ||
		(task.search === "auto" && !(task.startIsGuess && clean))
	) {
		const found = search(
			task,
			objective,
			response,
			workspace,
			structure,
			start,
			best,
			rss,
		);
		evaluations += found.evaluations;
		descents += found.descents;
		rival = found.rival;
		searched = found.agreement === "yes" ? "yes" : "no agreement";
		if (!(found.rss > rss)) best.set(found.theta);
	}
	if (task.structure.linear.length + task.structure.nonlinear.length > 0) {
		const probe = createWorkspace(task.points, size, task.structure);
		const total = (theta: Float64Array): number =>
			evaluatePoint(objective, response, probe, theta);
		const here = total(best.slice());
		relabel(best, start, task.structure, here, likeness(here, response), total);
	}
	descend(best, settings);
	if (!isStationary(workspace.stop) && structure.form !== "none") {
		// A second opinion from all parameters at once: projection can make a narrow valley where there was a wide one.
		const other = plainStructure(structure);
		const plain = createWorkspace(task.points, size, other);
		const theta = best.slice();
		minimise(objective, response, plain, theta, settings);
		evaluations += plain.evaluations;
		descents++;
		if (plain.rss <= workspace.rss && isStationary(plain.stop)) {
			best.set(theta);
			workspace = plain;
			structure = other;
		}
	}
	rss = workspace.rss;
	return {
		theta: best,
		workspace,
		structure,
		rss,
		stop: workspace.stop,
		relativeOffset: workspace.relativeOffset,
		evaluations,
		descents,
		rival,
		searched,
	};
}

/** Whether the projected linear parameters are within their limits and the sum of squares is what linearity promised. */
function keepsPromise(
	task: Task,
	objective: Objective,
	response: Float64Array,
	w: Workspace,
	theta: Float64Array,
): boolean {
	if (w.form === "none" || w.stop === "not-finite") return true;
	if (!withinLimits(theta, task)) return false;
	// Terms that cannot be distinguished have no trustworthy sum of squares either.
	if (!isFullRank(w)) return true;
	objective.values(theta, w.values);
	let rss = 0;
	let scale = 0;
	for (let i = 0; i < w.points; i++) {
		rss += (response[i] - w.values[i]) ** 2;
		scale += response[i] ** 2;
	}
	return Math.abs(rss - w.rss) <= 1e-6 * w.rss + 1e-20 * scale;
}

function withinLimits(theta: Float64Array, task: Task): boolean {
	return theta.every((v, j) => v >= task.lower[j] && v <= task.upper[j]);
}

function clip(theta: Float64Array, task: Task): void {
	theta.forEach((v, j) => {
		theta[j] = Number.isFinite(v)
			? Math.min(task.upper[j], Math.max(task.lower[j], v))
			: task.start[j];
	});
}

/** Whether every column of the Jacobian keeps a part of its own beside the others. */
export function isFullRank(w: Workspace): boolean {
	const m = w.freeCount;
	for (let j = 0; j < m; j++) {
		let norm = 0;
		for (let i = 0; i <= j; i++) norm += w.r[i * m + j] ** 2;
		if (!(w.r[j * m + j] ** 2 > 1e-22 * norm)) return false;
	}
	return true;
}

/** Sums of squares nearer to each other than this are of one minimum. */
function likeness(rss: number, response: Float64Array): number {
	return 1e-7 * rss + 4 * roundingOfSumOfSquares(rss, response);
}

interface Found {
	readonly theta: Float64Array;
	readonly rss: number;
	readonly rival: Solution["rival"];
	readonly agreement: "yes" | "no";
	readonly chains: number;
	readonly evaluations: number;
	readonly descents: number;
}

/** Steps of the scan along one parameter, in units of its logarithm, and how far it goes each way. */
const scanStep = 0.1;
const scanReach = 4;
/** Descents from scattered starts after which, all in vain, the search ends. */
const scatteredStarts = 4;
/** Chains of descents that may be tried until enough of them agree on the lowest minimum. */
const mostChains = 8;
/** Draws for one group of parameters, of which the best two are followed. */
const shakes = 60;
/** Equally good values farther away than this factor are no rivals: the start has chosen between them (a period of 44 months and its alias of 0.98 months, say). */
const choiceOfStart = 10;
/** Spread of the scattered starts: a factor of e^2.5 each way. */
const scatter = 2.5;

/**
 * Looks for a lower minimum, in turns until a whole turn is in vain:
 * along each nonlinear parameter (over four e-folds each way, and at the positions on the x axis and their inverses,
 * since parameters are often positions or rates), descending from the lowest points of that scan; and from scattered starts.
 */
function search(
	task: Task,
	objective: Objective,
	response: Float64Array,
	w: Workspace,
	structure: Structure,
	start: Float64Array,
	from: Float64Array,
	fromRss: number,
): Found {
	noteSeed("start values of fits", task.seed);
	const random = createRandom(task.seed);
	const places = positionsOnAxis(task.x);
	const positions = [
		...places,
		...places.filter((x) => x !== 0).map((x) => 1 / x),
	];
	const budget = 100 * task.maxEvaluations;
	const quick: DescentSettings = {
		lower: task.lower,
		upper: task.upper,
		tolerance: 1e-6,
		maxEvaluations: Math.min(120, task.maxEvaluations),
		firstRadius: 1,
	};
	let evaluations = 0;
	let descents = 0;
	const spent = (): boolean => evaluations > budget;
	const trial = new Float64Array(from.length);
	const total = (theta: Float64Array): number => {
		evaluations++;
		return evaluatePoint(objective, response, w, theta);
	};
	const within = (j: number, value: number): number =>
		Math.min(task.upper[j], Math.max(task.lower[j], value));
	/** Where descents ended as low as the lowest place, but no lower. */
	const equals: Low[] = [];
	/** Descends from `trial`; true if it ends lower than `low`, which then is moved there. */
	const descend = (low: Low): boolean => {
		minimise(objective, response, w, trial, quick);
		evaluations += w.evaluations;
		descents++;
		if (!Number.isFinite(w.rss) || !withinLimits(trial, task)) return false;
		const settled = isStationary(w.stop) && isFullRank(w);
		const tolerance = likeness(low.rss, response);
		if (low.rss < Infinity && !(w.rss < low.rss - tolerance)) {
			if (settled && w.rss <= low.rss + tolerance)
				equals.push({ theta: trial.slice(), rss: w.rss, settled });
			return false;
		}
		low.theta.set(trial);
		low.rss = w.rss;
		low.settled = settled;
		return true;
	};
	/** Scans each nonlinear parameter from the low and descends from the lowest three places. */
	const scan = (low: Low): boolean => {
		let better = false;
		for (const j of structure.nonlinear) {
			if (spent()) return false;
			const tried = scanValues(
				start[j],
				positions,
				task.lower[j],
				task.upper[j],
			);
			const heights = tried.map((value) => {
				trial.set(low.theta);
				trial[j] = value;
				return total(trial);
			});
			const lows = tried
				.map((value, i) => ({ value, height: heights[i], i }))
				.filter(
					({ height, i }) =>
						height < Infinity &&
						!(heights[i - 1] < height) &&
						!(heights[i + 1] < height),
				)
				.sort((a, b) => a.height - b.height);
			for (const { value } of lows.slice(0, 3)) {
				trial.set(low.theta);
				trial[j] = value;
				if (descend(low)) {
					better = true;
					break;
				}
			}
		}
		return better;
	};
	const drawn = (j: number, here: number): number => {
		const kind = random.integer(3);
		return within(
			j,
			kind === 0
				? positions[random.integer(positions.length)]
				: scattered(kind === 1 ? start[j] : here, random.uniform()),
		);
	};
	/** Draws the parameters of each group anew and descends from the best two draws. */
	const shake = (low: Low): boolean => {
		let better = false;
		for (const group of structure.groups) {
			if (group.length < 2 || spent()) continue;
			const draws = Array.from({ length: shakes }, () => {
				trial.set(low.theta);
				for (const j of group) trial[j] = drawn(j, low.theta[j]);
				const at = trial.slice();
				return { at, height: total(trial) };
			}).sort((a, b) => a.height - b.height);
			for (const { at } of draws.slice(0, 2)) {
				trial.set(at);
				if (descend(low)) better = true;
			}
		}
		return better;
	};
	const settle = (low: Low): Low => {
		while (!spent() && (scan(low) || shake(low)));
		return low;
	};
	const fresh = (): Low => {
		const low: Low = { theta: from.slice(), rss: Infinity, settled: false };
		for (let k = 0; k < scatteredStarts; k++) {
			trial.set(start);
			for (const j of structure.nonlinear)
				trial[j] =
					k % 2 === 0
						? within(j, scattered(start[j], random.uniform()))
						: drawn(j, start[j]);
			descend(low);
		}
		return low;
	};

	let best = settle({ theta: from.slice(), rss: fromRss, settled: true });
	let agreeing = 1;
	let chains = 1;
	const needed = (): number =>
		residualsAreStructured(task, objective, response, best.theta) ? 4 : 2;
	while (agreeing < needed() && chains < mostChains && !spent()) {
		chains++;
		const other = settle(fresh());
		const tolerance = likeness(best.rss, response);
		if (other.rss < best.rss - tolerance) {
			best = other;
			agreeing = 1;
		} else if (other.rss <= best.rss + tolerance) {
			agreeing++;
			if (other.settled) equals.push(other);
		}
	}
	/** Whether another place is as low as the best and yet a place of its own: not the same under other names, and not along the same valley. */
	const isRival = (other: Low): boolean => {
		const tolerance = likeness(best.rss, response);
		if (Math.abs(other.rss - best.rss) > tolerance) return false;
		relabel(other.theta, best.theta, structure, other.rss, tolerance, total);
		const apart = structure.nonlinear.some(
			(j) =>
				Math.abs(other.theta[j] - best.theta[j]) >
				1e-3 * Math.abs(best.theta[j]),
		);
		const elsewhere = structure.nonlinear.some((j) => {
			const ratio = Math.abs(other.theta[j] / best.theta[j]);
			return ratio > choiceOfStart || ratio < 1 / choiceOfStart;
		});
		if (!apart || elsewhere) return false;
		trial.set(best.theta);
		for (const j of structure.nonlinear)
			trial[j] = (best.theta[j] + other.theta[j]) / 2;
		return total(trial) > best.rss + tolerance;
	};
	const other = equals.find(isRival);
	const rival: Solution["rival"] =
		other === undefined
			? { kind: "none" }
			: { kind: "found", theta: other.theta };
	return {
		theta: best.theta,
		rss: best.rss,
		rival,
		agreement: agreeing >= needed() ? "yes" : "no",
		chains,
		evaluations,
		descents,
	};
}

/** The lowest place of one chain of descents. */
interface Low {
	readonly theta: Float64Array;
	rss: number;
	/** Whether the descent that ended here ended at a stationary point of full rank. */
	settled: boolean;
}

/** Whether neighbouring residuals, in the order of x, resemble each other far beyond chance: then the curve may be in the wrong minimum. */
function residualsAreStructured(
	task: Task,
	objective: Objective,
	response: Float64Array,
	theta: Float64Array,
): boolean {
	const n = task.points;
	if (n < 15) return false;
	const residual = new Float64Array(n);
	objective.values(theta, residual);
	const order = Array.from(residual.keys()).sort(
		(a, b) => task.x[a] - task.x[b] || a - b,
	);
	let squares = 0;
	let neighbours = 0;
	let last = 0;
	for (const i of order) {
		const r = response[i] - residual[i];
		squares += r * r;
		neighbours += r * last;
		last = r;
	}
	return neighbours * Math.sqrt(n) > 3 * squares;
}

function scanValues(
	start: number,
	positions: readonly number[],
	lower: number,
	upper: number,
): number[] {
	const values = [...positions];
	for (let u = -scanReach; u <= scanReach + 1e-9; u += scanStep) {
		values.push((start || 1) * Math.exp(u));
		if (start === 0) values.push(-Math.exp(u));
	}
	return values.filter((v) => v >= lower && v <= upper).sort((a, b) => a - b);
}

function scattered(centre: number, uniform: number): number {
	return (centre || 1) * Math.exp(scatter * (2 * uniform - 1));
}
