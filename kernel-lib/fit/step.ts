import { reduceColumns } from "./qr";
import type { Workspace } from "./workspace";

/** Solves the scaled damped problem for the open nonlinear parameters; the step goes to w.step, its scaled length is returned (Infinity if singular). */
export function dampedStep(w: Workspace, lambda: number): number {
	const { small, smallColumns, smallHeads, r, qtr, scale, step, open } = w;
	const l = w.linearCount;
	const m = w.freeCount;
	const k = m - l;
	const q = w.openCount;
	const rows = lambda > 0 ? k + q : k;
	const root = Math.sqrt(lambda);
	const b = smallColumns[q];
	for (let c = 0; c < q; c++) {
		const j = open[c];
		const base = smallColumns[c];
		for (let i = 0; i < k; i++)
			small[base + i] = i <= j ? r[(l + i) * m + l + j] : 0;
		for (let i = k; i < rows; i++)
			small[base + i] = i - k === c ? root * scale[j] : 0;
	}
	for (let i = 0; i < k; i++) small[b + i] = qtr[l + i];
	for (let i = k; i < rows; i++) small[b + i] = 0;
	reduceColumns(small, rows, smallColumns, 0, q, q + 1, smallHeads);
	for (let j = 0; j < k; j++) step[j] = 0;
	let length = 0;
	for (let c = q - 1; c >= 0; c--) {
		let sum = small[b + c];
		for (let d = c + 1; d < q; d++)
			sum -= small[smallColumns[d] + c] * step[open[d]];
		const diagonal = small[smallColumns[c] + c];
		if (Math.abs(diagonal) <= 1e-15 * scale[open[c]])
			return Number.POSITIVE_INFINITY;
		const v = sum / diagonal;
		step[open[c]] = v;
		length += (v * scale[open[c]]) ** 2;
	}
	return Math.sqrt(length);
}

/** The undamped step, straight from the triangular factor when no parameter is held by a bound. */
export function gaussNewtonStep(w: Workspace): number {
	const { r, qtr, scale, step } = w;
	const l = w.linearCount;
	const m = w.freeCount;
	const k = m - l;
	if (w.openCount < k) return dampedStep(w, 0);
	let length = 0;
	for (let j = k - 1; j >= 0; j--) {
		const row = (l + j) * m + l;
		let sum = qtr[l + j];
		for (let c = j + 1; c < k; c++) sum -= r[row + c] * step[c];
		const diagonal = r[row + j];
		if (Math.abs(diagonal) <= 1e-15 * scale[j]) return Number.POSITIVE_INFINITY;
		const v = sum / diagonal;
		step[j] = v;
		length += (v * scale[j]) ** 2;
	}
	return Math.sqrt(length);
}

/**
 * Takes the step that is as long as the trust region, by Newton's iteration on the secular equation
 * (More 1978, The Levenberg-Marquardt algorithm: implementation and theory). Returns its damping.
 */
export function fitStepToRegion(
	w: Workspace,
	radius: number,
	last: number,
): number {
	const { small, smallColumns, scale, step, open, helper, gradient } = w;
	const q = w.openCount;
	let lower = 0;
	let upper = 0;
	for (let c = 0; c < q; c++)
		upper += (gradient[open[c]] / scale[open[c]]) ** 2;
	upper = Math.sqrt(upper) / radius;
	let lambda = last > 0 && last < upper ? last : 1e-3 * upper;
	for (let round = 0; round < 12; round++) {
		const length = dampedStep(w, lambda);
		const miss = length - radius;
		if (Math.abs(miss) <= 0.1 * radius) break;
		if (miss > 0) lower = Math.max(lower, lambda);
		else upper = Math.min(upper, lambda);
		// Solve R' v = D^2 step / |D step|.
		let norm = 0;
		for (let c = 0; c < q; c++) {
			let sum = (scale[open[c]] ** 2 * step[open[c]]) / length;
			for (let d = 0; d < c; d++) sum -= small[smallColumns[c] + d] * helper[d];
			helper[c] = sum / small[smallColumns[c] + c];
			norm += helper[c] * helper[c];
		}
		lambda += miss / radius / norm;
		if (!(lambda > lower && lambda < upper))
			lambda = Math.max(0.001 * upper, Math.sqrt(lower * upper));
	}
	return lambda;
}
