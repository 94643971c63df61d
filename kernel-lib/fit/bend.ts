import type { Workspace } from "./workspace";

/**
 * Gauss-Newton leaves out how the curve bends in its parameters, and so gains only a constant factor a step where the
 * points scatter. What it leaves out is estimated here from the change of the gradient along each step and added to the
 * Hessian near the minimum, which makes the last steps converge faster than any constant factor.
 *
 * Source: Dennis, Gay and Welsch 1981, ACM Trans. Math. Softw. 7, 348 (the symmetric update and its sizing).
 */

/** Relative offset below which the estimate is trusted. */
const trustedBelow = 0.02;

export function forgetBend(w: Workspace): void {
	const { bend } = w;
	for (let i = 0; i < bend.length; i++) bend[i] = 0;
	w.bendSteps = 0;
}

/** Learns from the step just taken: w.step, the gradient before it and the one after it. */
export function learnBend(w: Workspace): void {
	const { bend, step, gradient, gradientBefore, r, helper: change, rest } = w;
	const l = w.linearCount;
	const m = w.freeCount;
	const k = m - l;
	let along = 0;
	let left = 0;
	let old = 0;
	for (let i = 0; i < k; i++)
		along += (gradientBefore[i] - gradient[i]) * step[i];
	if (!(along > 0)) {
		forgetBend(w);
		return;
	}
	for (let i = 0; i < k; i++) {
		change[i] = gradientBefore[i] - gradient[i];
		let straight = 0;
		for (let a = 0; a <= i; a++) {
			let row = 0;
			for (let j = a; j < k; j++) row += r[(l + a) * m + l + j] * step[j];
			straight += r[(l + a) * m + l + i] * row;
		}
		rest[i] = change[i] - straight;
		left += rest[i] * step[i];
		for (let j = 0; j < k; j++) old += step[i] * bend[i * k + j] * step[j];
	}
	const size = old === 0 ? 0 : Math.min(1, Math.abs(left / old));
	let miss = 0;
	for (let i = 0; i < k; i++) {
		for (let j = 0; j < k; j++) {
			bend[i * k + j] *= size;
			rest[i] -= bend[i * k + j] * step[j];
		}
		miss += rest[i] * step[i];
	}
	for (let i = 0; i < k; i++)
		for (let j = 0; j < k; j++)
			bend[i * k + j] +=
				(rest[i] * change[j] + change[i] * rest[j]) / along -
				(miss * change[i] * change[j]) / (along * along);
	w.bendSteps++;
}

/** The step with the bend taken into account, to w.step; its scaled length, or Infinity where there is no trustworthy estimate. */
export function bentStep(w: Workspace): number {
	const { bend, step, gradient, hessian, r, scale } = w;
	const l = w.linearCount;
	const m = w.freeCount;
	const k = m - l;
	if (
		w.bendSteps === 0 ||
		w.openCount < k ||
		!(w.relativeOffset < trustedBelow)
	)
		return Number.POSITIVE_INFINITY;
	// Cholesky factor of the Hessian, in its lower triangle; given up at the first pivot that the bend has made too small. In place and without copies, as in qr.ts.
	for (let i = 0; i < k; i++)
		for (let j = 0; j <= i; j++) {
			let straight = 0;
			for (let a = 0; a <= j; a++)
				straight += r[(l + a) * m + l + i] * r[(l + a) * m + l + j];
			let sum = straight + bend[i * k + j];
			for (let a = 0; a < j; a++)
				sum -= hessian[i * k + a] * hessian[j * k + a];
			if (i === j) {
				if (!(sum > 0.05 * r[(l + i) * m + l + i] ** 2))
					return Number.POSITIVE_INFINITY;
				hessian[i * k + i] = Math.sqrt(sum);
			} else hessian[i * k + j] = sum / hessian[j * k + j];
		}
	for (let i = 0; i < k; i++) {
		let sum = gradient[i];
		for (let a = 0; a < i; a++) sum -= hessian[i * k + a] * step[a];
		step[i] = sum / hessian[i * k + i];
	}
	let length = 0;
	for (let i = k - 1; i >= 0; i--) {
		let sum = step[i];
		for (let a = i + 1; a < k; a++) sum -= hessian[a * k + i] * step[a];
		step[i] = sum / hessian[i * k + i];
		length += (step[i] * scale[i]) ** 2;
	}
	return Math.sqrt(length);
}
