import { known, type MaybeKnown, notKnown } from "../quantity";
import { chiSquareUpperTail, fUpperTail } from "../stats";
import type { Fit, TestResult } from "./result";
import { shapiroWilk } from "./shapiro-wilk";
import { whiten } from "./whitening";

/** The checks that a fit report shows. None of them proves a model right; each can show it wrong. */
export interface FitChecks {
	/** Scatter about the curve against the scatter of replicates. */
	readonly lackOfFit: MaybeKnown<TestResult>;
	/** Scatter about the curve against the errors given as absolute. */
	readonly chiSquare: MaybeKnown<TestResult>;
	/** Whether residuals of one sign keep together along x. */
	readonly runs: MaybeKnown<TestResult>;
	/** Whether the residuals look normal. */
	readonly normality: MaybeKnown<TestResult>;
}

export function checkFit(fit: Fit): FitChecks {
	if (!Number.isFinite(fit.residualSumOfSquares)) {
		const none = notKnown("the curve is not finite at the values reached");
		return { lackOfFit: none, chiSquare: none, runs: none, normality: none };
	}
	return {
		lackOfFit: lackOfFit(fit),
		chiSquare: chiSquareTest(fit),
		runs: runsTest(fit),
		normality: normalityTest(fit),
	};
}

/**
 * F test of lack of fit: points with exactly the same x are replicates; their scatter is compared with what the curve
 * leaves over beyond it. Source: Draper and Smith 1998, Applied Regression Analysis, section 2.1; Bates and Watts 1988, section 1.3.
 */
export function lackOfFit(fit: Fit): MaybeKnown<TestResult> {
	const { task, freeParameters } = fit;
	if (task.whitening.kind === "covariance")
		return notKnown("not defined for correlated points");
	const groups = new Map<string, number[]>();
	for (let i = 0; i < fit.points; i++) {
		const at = [task.setOfPoint[i]];
		for (let c = i; c < task.x.length; c += fit.points)
			at.push(String(task.x[c]));
		const key = at.join("|");
		groups.set(key, [...(groups.get(key) ?? []), i]);
	}
	const weight = (i: number): number =>
		task.whitening.kind === "sigma" ? 1 / task.whitening.sigma[i] ** 2 : 1;
	let pure = 0;
	for (const members of groups.values()) {
		const total = members.reduce((s, i) => s + weight(i), 0);
		const mean = members.reduce((s, i) => s + weight(i) * task.y[i], 0) / total;
		for (const i of members) pure += weight(i) * (task.y[i] - mean) ** 2;
	}
	const pureDf = fit.points - groups.size;
	const lackDf = groups.size - freeParameters;
	if (pureDf === 0)
		return notKnown(
			"no two points have the same x, so there are no replicates",
		);
	if (lackDf <= 0)
		return notKnown(
			`${groups.size} different x for ${freeParameters} free parameters leave nothing to test`,
		);
	if (!(pure > 0))
		return notKnown(
			"all replicates agree exactly, so their scatter has no size",
		);
	const lack = Math.max(0, fit.residualSumOfSquares - pure);
	const f = lack / lackDf / (pure / pureDf);
	const p = fUpperTail(f, lackDf, pureDf);
	return known({
		name: "lack of fit, F",
		statistic: f,
		p,
		meaning:
			p < 0.05
				? "the curve misses the means of the replicates by more than their scatter explains"
				: "the curve misses the means of the replicates by no more than their scatter explains",
	});
}

/** Sum of squared residuals over their absolute sigmas, against chi-square. */
export function chiSquareTest(fit: Fit): MaybeKnown<TestResult> {
	if (!fit.task.sigmaIsAbsolute)
		return notKnown("the errors of the points were not given as absolute");
	if (fit.degreesOfFreedom === 0)
		return notKnown("as many free parameters as points leave nothing to test");
	const statistic = fit.residualSumOfSquares;
	const p = chiSquareUpperTail(statistic, fit.degreesOfFreedom);
	return known({
		name: "chi-square",
		statistic,
		p,
		meaning:
			p < 0.025
				? "the points scatter more about the curve than their stated errors allow"
				: p > 0.975
					? "the points scatter less about the curve than their stated errors would make them"
					: "the scatter about the curve agrees with the stated errors",
	});
}

/** Residuals in units of their errors, in the order of x (sets one after the other); exact zeros left out. */
function orderedResiduals(fit: Fit): number[] {
	const { task } = fit;
	const whitened = fit.residuals.slice();
	whiten(task.whitening, whitened, 0, fit.points);
	return Array.from(whitened.keys())
		.sort(
			(a, b) =>
				task.setOfPoint[a].localeCompare(task.setOfPoint[b]) ||
				task.x[a] - task.x[b] ||
				a - b,
		)
		.map((i) => whitened[i])
		.filter((r) => r !== 0);
}

/**
 * Runs of one sign among the residuals in the order of x; p from the exact distribution, for too few runs only (too
 * few mean that the curve runs beside the points). Source: Wald and Wolfowitz 1940, Ann. Math. Stat. 11, 147.
 */
export function runsTest(fit: Fit): MaybeKnown<TestResult> {
	const residuals = orderedResiduals(fit);
	const plus = residuals.filter((r) => r > 0).length;
	const minus = residuals.length - plus;
	if (plus === 0 || minus === 0) return notKnown("all residuals have one sign");
	let runs = 1;
	for (let i = 1; i < residuals.length; i++)
		if (residuals[i] > 0 !== residuals[i - 1] > 0) runs++;
	const p = fewRuns(runs, plus, minus);
	return known({
		name: "runs",
		statistic: runs,
		p,
		meaning:
			p < 0.05
				? "residuals of one sign keep together: the curve has another shape than the points"
				: "residuals of either sign follow each other as chance would have it",
	});
}

/** P(number of runs <= r) for m signs of one kind and n of the other. */
function fewRuns(r: number, m: number, n: number): number {
	const total = logChoose(m + n, n);
	let p = 0;
	for (let k = 2; k <= r; k++) {
		const half = k >> 1;
		const ways = (a: number, b: number): number =>
			Math.exp(logChoose(m - 1, a) + logChoose(n - 1, b) - total);
		p +=
			k % 2 === 0
				? 2 * ways(half - 1, half - 1)
				: ways(half, half - 1) + ways(half - 1, half);
	}
	return Math.min(1, p);
}

function logChoose(n: number, k: number): number {
	if (k < 0 || k > n) return Number.NEGATIVE_INFINITY;
	let sum = 0;
	for (let i = 1; i <= Math.min(k, n - k); i++)
		sum += Math.log(n - Math.min(k, n - k) + i) - Math.log(i);
	return sum;
}

/** Shapiro-Wilk test of the standardised residuals. With fewer than about 10 points it can find almost nothing wrong. */
export function normalityTest(fit: Fit): MaybeKnown<TestResult> {
	if (fit.standardisedResiduals.is === "not known")
		return fit.standardisedResiduals;
	const test = shapiroWilk(fit.standardisedResiduals.value);
	if (test.is === "not known") return test;
	const { w, p } = test.value;
	return known({
		name: "Shapiro-Wilk",
		statistic: w,
		p,
		meaning:
			p < 0.05
				? "the residuals are further from a normal distribution than chance would have them"
				: "nothing speaks against normal residuals",
	});
}
