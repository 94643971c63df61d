import { minimise } from "./minimise";
import type { Solution } from "./solve";
import type { Loss, Task } from "./task";
import { createWorkspace, type Objective } from "./workspace";

/** Tuning constants that keep 95 % efficiency for normal errors: Huber 1981, Robust Statistics; Holland and Welsch 1977, Commun. Stat. A6, 813. */
export const tuning: Readonly<Record<Exclude<Loss, "squares">, number>> = {
	Huber: 1.345,
	Cauchy: 2.385,
};

/** Weight psi(u)/u of a residual u, in units of its standard deviation. */
export function lossWeight(loss: Loss, u: number): number {
	if (loss === "squares") return 1;
	const c = tuning[loss];
	if (loss === "Huber") return Math.abs(u) <= c ? 1 : c / Math.abs(u);
	return 1 / (1 + (u / c) ** 2);
}

/** Derivative of psi at u. */
export function psiSlope(loss: Loss, u: number): number {
	if (loss === "squares") return 1;
	const c = tuning[loss];
	if (loss === "Huber") return Math.abs(u) <= c ? 1 : 0;
	const q = (u / c) ** 2;
	return (1 - q) / (1 + q) ** 2;
}

/** Where the reweighting ended. */
export interface RobustSolution {
	readonly theta: Float64Array;
	/** Standard deviation of a residual: 1.4826 times the median absolute one, or 1 where sigmas are absolute. */
	readonly scale: number;
	readonly weights: Float64Array;
	readonly settled: boolean;
	readonly evaluations: number;
}

/**
 * Minimises a robust loss by iteratively reweighted least squares, from the least-squares solution. Huber's loss is
 * convex in the residuals and its scale is estimated along; Cauchy's has several minima, so it starts from Huber's
 * result and keeps its scale. `rowFactors` are those of the objective and are left at the roots of the weights.
 */
export function reweight(
	task: Task,
	objective: Objective,
	response: Float64Array,
	rowFactors: Float64Array,
	from: Solution,
): RobustSolution {
	const n = task.points;
	const theta = from.theta.slice();
	const w = createWorkspace(n, theta.length, from.structure);
	const settings = {
		lower: task.lower,
		upper: task.upper,
		tolerance: 1e-10,
		maxEvaluations: task.maxEvaluations,
		firstRadius: 1,
	};
	const weighted = response.slice();
	const residuals = new Float64Array(n);
	const residualsAt = (): void => {
		rowFactors.fill(1);
		objective.values(theta, residuals);
		for (let i = 0; i < n; i++) residuals[i] = response[i] - residuals[i];
	};
	let scale = 1;
	let evaluations = 0;
	const settle = (loss: Loss, scaleIsFixed: boolean): boolean => {
		for (let round = 0; round < 200; round++) {
			residualsAt();
			if (!scaleIsFixed) scale = medianScale(residuals);
			if (!(scale > 0)) return true;
			for (let i = 0; i < n; i++) {
				rowFactors[i] = Math.sqrt(lossWeight(loss, residuals[i] / scale));
				weighted[i] = response[i] * rowFactors[i];
			}
			const before = theta.slice();
			minimise(objective, weighted, w, theta, settings);
			evaluations += w.evaluations;
			const still = theta.every(
				(v, j) => Math.abs(v - before[j]) <= 1e-10 * Math.abs(v),
			);
			if (still) return true;
		}
		return false;
	};
	let settled = settle("Huber", task.sigmaIsAbsolute);
	if (task.loss === "Cauchy") settled = settle("Cauchy", true);
	residualsAt();
	const weights = residuals.map((r) =>
		scale > 0 ? lossWeight(task.loss, r / scale) : 1,
	);
	return { theta, scale, weights, settled, evaluations };
}

/** 1.4826 times the median absolute residual: the standard deviation, if the errors are normal. */
function medianScale(residuals: Float64Array): number {
	const sizes = residuals.map(Math.abs).sort();
	const middle = sizes.length >> 1;
	const median =
		sizes.length % 2 === 1
			? sizes[middle]
			: (sizes[middle - 1] + sizes[middle]) / 2;
	return median / 0.6744897501960817;
}

/**
 * Factor on (J'J)^-1 for the covariance of a robust fit: s^2 K^2 [sum psi^2/(n-p)] / [mean psi']^2 with
 * K = 1 + (p/n) var(psi')/mean(psi')^2. Source: Huber 1981, Robust Statistics, section 7.6.
 */
export function robustVariance(
	loss: Loss,
	residuals: Float64Array,
	scale: number,
	freeParameters: number,
): number {
	const n = residuals.length;
	let psiSquares = 0;
	let slope = 0;
	let slopeSquares = 0;
	for (const r of residuals) {
		const u = r / scale;
		psiSquares += (lossWeight(loss, u) * u) ** 2;
		const d = psiSlope(loss, u);
		slope += d;
		slopeSquares += d * d;
	}
	const mean = slope / n;
	const variance = slopeSquares / n - mean * mean;
	const k = 1 + ((freeParameters / n) * variance) / (mean * mean);
	return (
		(k * k * scale * scale * psiSquares) / (n - freeParameters) / (mean * mean)
	);
}
