import { bentStep, forgetBend, learnBend } from "./bend";
import { evaluatePoint, linearise } from "./point";
import { roundingOf, roundingOfSum } from "./rounding";
import { descendScaleAndShape } from "./scale-and-shape";
import type { DescentSettings } from "./settings";
import { dampedStep, fitStepToRegion, gaussNewtonStep } from "./step";
import type { Objective, Workspace } from "./workspace";

/** Relative offset below which steps are short enough to learn the bend of the curve from. */
const learnBelow = 1;

/**
 * Least squares by a scaled trust-region Levenberg-Marquardt iteration on the nonlinear parameters, with the linear ones
 * replaced by their best values at every point (variable projection: Golub and Pereyra 1973; Kaufman 1975).
 * Theta holds the start and, afterwards, the result; nothing is allocated. The workspace holds the sum of squares, the
 * relative offset and the reason for stopping.
 */
export function minimise(
	objective: Objective,
	y: Float64Array,
	w: Workspace,
	theta: Float64Array,
	settings: DescentSettings,
): void {
	const n = w.points;
	const k = w.freeCount - w.linearCount;
	const { gradient, gradientBefore, trial } = w;
	const floor = roundingOf(y);
	if (
		w.form === "owned" &&
		w.freeCount === 2 &&
		w.linearCount === 1 &&
		descendScaleAndShape(objective, y, w, theta, settings, floor)
	)
		return;
	w.evaluations = 0;
	w.relativeOffset = Number.POSITIVE_INFINITY;
	w.rss = evaluatePoint(objective, y, w, theta);
	if (
		w.rss === Number.POSITIVE_INFINITY ||
		!linearise(objective, y, w, theta)
	) {
		w.rss = Number.POSITIVE_INFINITY;
		w.stop = "not-finite";
		return;
	}
	forgetBend(w);
	let radius = settings.firstRadius * (firstScale(w, theta) || 1);
	let lambda = 0;
	diagnose(w, theta, settings, floor);

	while (w.relativeOffset > settings.tolerance) {
		if (w.evaluations >= settings.maxEvaluations) {
			w.stop = "too-many-evaluations";
			return;
		}
		const noise = roundingOfSum(w.rss, floor, n);
		const polishing = w.tangent <= noise;
		const bent = bentStep(w) <= radius;
		if (bent) lambda = 0;
		else if (gaussNewtonStep(w) <= 1.1 * radius || polishing) lambda = 0;
		else lambda = fitStepToRegion(w, radius, lambda);
		const length = moveTrial(w, theta, settings);
		const predicted = bent ? gainAlong(w) : predictedGain(w);
		const rss = evaluatePoint(objective, y, w, trial);
		const ratio = (w.rss - rss) / predicted;
		const gained = !polishing && rss < w.rss && ratio > 1e-4;
		for (let j = 0; j < k; j++) gradientBefore[j] = gradient[j];
		const before = w.relativeOffset;
		if (gained && linearise(objective, y, w, trial)) {
			if (ratio > 0.75 || (lambda === 0 && ratio > 0.25))
				radius = Math.max(radius, 2 * length);
			else if (ratio < 0.25) radius = 0.5 * Math.min(radius, length);
			w.rss = rss;
			accept(w, theta);
			if (diagnose(w, theta, settings, floor) < learnBelow) learnBend(w);
			if (nextStepSuffices(w, before, settings)) {
				takeLastStep(w, theta, settings, before);
				break;
			}
			continue;
		}
		if (w.tangent <= noise + 1e-10 * w.rss) {
			// So near the minimum the sum of squares can hardly tell better from worse; the offset still can.
			const rssBefore = w.rss;
			w.rss = rss;
			if (
				rss <= rssBefore + 2 * noise &&
				linearise(objective, y, w, trial) &&
				diagnose(w, trial, settings, floor) < 0.9 * before
			) {
				accept(w, theta);
				learnBend(w);
				continue;
			}
			w.rss = evaluatePoint(objective, y, w, theta);
			linearise(objective, y, w, theta);
			diagnose(w, theta, settings, floor);
			if (polishing) {
				w.stop = "rounding-level";
				return;
			}
		}
		forgetBend(w);
		radius = (ratio > 0 ? 0.5 : 0.2) * Math.min(radius, length);
		if (!(radius > 1e-14 * scaledNorm(w, theta))) {
			w.stop = "stuck";
			return;
		}
	}
	w.stop = "offset-small";
}

/** Chooses the open nonlinear parameters (those not held by a limit) and returns the relative offset of Bates and Watts 1981, Technometrics 23, 179. */
function diagnose(
	w: Workspace,
	theta: Float64Array,
	settings: DescentSettings,
	floor: number,
): number {
	const { r, qtr, gradient, open, order } = w;
	const l = w.linearCount;
	const m = w.freeCount;
	const k = m - l;
	let openCount = 0;
	for (let j = 0; j < k; j++) {
		let g = 0;
		for (let i = 0; i <= j; i++) g += r[(l + i) * m + l + j] * qtr[l + i];
		gradient[j] = g;
		const p = order[l + j];
		const held =
			(g < 0 && theta[p] <= settings.lower[p]) ||
			(g > 0 && theta[p] >= settings.upper[p]);
		if (!held) open[openCount++] = j;
	}
	w.openCount = openCount;
	let tangent = 0;
	if (openCount === k) {
		for (let j = l; j < m; j++) tangent += qtr[j] * qtr[j];
	} else {
		dampedStep(w, 0);
		const b = w.smallColumns[openCount];
		for (let c = 0; c < openCount; c++) tangent += w.small[b + c] ** 2;
	}
	const free = Math.max(1, w.points - m);
	const normal = Math.max(0, w.rss - tangent) / free + floor * floor;
	w.tangent = tangent;
	w.relativeOffset = tangent === 0 ? 0 : Math.sqrt(tangent / (m * normal));
	return w.relativeOffset;
}

/** Sets the parameters' scales to the lengths of their columns and returns the scaled length of theta. */
function firstScale(w: Workspace, theta: Float64Array): number {
	for (let j = 0; j < w.scale.length; j++) {
		const length = columnLength(w, j);
		w.scale[j] = length > 0 ? length : 1;
	}
	return scaledNorm(w, theta);
}

/** Length of the projected column of nonlinear parameter j. */
function columnLength(w: Workspace, j: number): number {
	const l = w.linearCount;
	const m = w.freeCount;
	let squares = 0;
	for (let i = 0; i <= j; i++) squares += w.r[(l + i) * m + l + j] ** 2;
	return Math.sqrt(squares);
}

function scaledNorm(w: Workspace, theta: Float64Array): number {
	let squares = 0;
	for (let j = 0; j < w.scale.length; j++)
		squares += (w.scale[j] * theta[w.order[w.linearCount + j]]) ** 2;
	return Math.sqrt(squares);
}

/** Puts theta plus the step, cut at the limits, into w.trial and returns the scaled length of what is left of the step. */
function moveTrial(
	w: Workspace,
	theta: Float64Array,
	settings: DescentSettings,
): number {
	const { trial, step, order, scale } = w;
	const { lower, upper } = settings;
	for (let j = 0; j < w.size; j++) trial[j] = theta[j];
	let squares = 0;
	for (let j = 0; j < step.length; j++) {
		const p = order[w.linearCount + j];
		let moved = theta[p] + step[j];
		if (moved < lower[p]) moved = lower[p];
		if (moved > upper[p]) moved = upper[p];
		step[j] = moved - theta[p];
		trial[p] = moved;
		squares += (scale[j] * step[j]) ** 2;
	}
	return Math.sqrt(squares);
}

/** Fall of the sum of squares along w.step if the curve were straight in its parameters. */
function predictedGain(w: Workspace): number {
	const { r, step, gradient } = w;
	const l = w.linearCount;
	const m = w.freeCount;
	const k = m - l;
	let gain = 0;
	for (let i = 0; i < k; i++) {
		let row = 0;
		for (let j = i; j < k; j++) row += r[(l + i) * m + l + j] * step[j];
		gain += 2 * gradient[i] * step[i] - row * row;
	}
	return gain;
}

/** Fall along a step to the minimum of a quadratic: half of what the gradient alone would promise. */
function gainAlong(w: Workspace): number {
	let gain = 0;
	for (let j = 0; j < w.step.length; j++) gain += w.gradient[j] * w.step[j];
	return gain;
}

/** Moves theta to the trial point and lets the scales grow with the columns there (More 1978). */
function accept(w: Workspace, theta: Float64Array): void {
	for (let j = 0; j < w.size; j++) theta[j] = w.trial[j];
	for (let j = 0; j < w.scale.length; j++)
		w.scale[j] = Math.max(w.scale[j], columnLength(w, j));
}

/** Whether the offset, shrinking as it did over the last step, will be well below the tolerance after the next one. */
function nextStepSuffices(
	w: Workspace,
	before: number,
	settings: DescentSettings,
): boolean {
	const shrink = w.relativeOffset / before;
	return (
		shrink < 0.1 &&
		w.relativeOffset < 1e-3 &&
		10 * w.relativeOffset * shrink <= settings.tolerance &&
		w.openCount === w.step.length
	);
}

/** Takes a step so sure that its end need not be evaluated: all parameters move, the linear ones by what the triangular factor says. */
function takeLastStep(
	w: Workspace,
	theta: Float64Array,
	settings: DescentSettings,
	before: number,
): void {
	const { r, order, step, delta } = w;
	const l = w.linearCount;
	const m = w.freeCount;
	if (bentStep(w) === Number.POSITIVE_INFINITY) gaussNewtonStep(w);
	moveTrial(w, theta, settings);
	for (let i = l - 1; i >= 0; i--) {
		let sum = 0;
		for (let j = l; j < m; j++) sum -= r[i * m + j] * step[j - l];
		for (let c = i + 1; c < l; c++) sum -= r[i * m + c] * delta[c];
		delta[i] = sum / r[i * m + i];
	}
	for (let j = 0; j < w.size; j++) theta[j] = w.trial[j];
	for (let i = 0; i < l; i++) theta[order[i]] += delta[i];
	w.rss -= w.tangent;
	w.relativeOffset *= w.relativeOffset / before;
}
