import { reduceColumns } from "./qr";
import type { Objective, Workspace } from "./workspace";

/** Sum of squares at theta; linear parameters in theta are replaced by their best values there. Infinity where the curve is not finite. */
export function evaluatePoint(
	objective: Objective,
	y: Float64Array,
	w: Workspace,
	theta: Float64Array,
): number {
	const { points: n, a, values, residual, columns } = w;
	const l = w.linearCount;
	const rhs = columns[w.freeCount];
	w.evaluations++;
	if (l === 0) {
		objective.values(theta, values);
		let rss = 0;
		for (let i = 0; i < n; i++) {
			const d = y[i] - values[i];
			residual[i] = d;
			rss += d * d;
		}
		return Number.isFinite(rss) ? rss : Number.POSITIVE_INFINITY;
	}
	if (w.form === "offset") {
		objective.values(theta, values);
		for (let i = 0; i < n; i++) residual[i] = y[i] - values[i];
	} else {
		const unit = w.form === "owned" ? 1 : 0;
		for (let j = 0; j < l; j++) theta[w.order[j]] = unit;
	}
	const source = w.form === "offset" ? residual : y;
	for (let i = 0; i < n; i++) a[rhs + i] = source[i];
	objective.jacobian(theta, w.jacobian);
	if (w.form === "owned") {
		for (let j = 0; j < l; j++) theta[w.order[j]] = 0;
		reduceColumns(a, n, columns, 0, l, w.freeCount + 1, w.heads);
	} else {
		// The right-hand side is swapped in behind the linear columns, so that only those are reduced now.
		const next = columns[l];
		columns[l] = rhs;
		reduceColumns(a, n, columns, 0, l, l + 1, w.heads);
		columns[l] = next;
	}
	let rss = 0;
	for (let i = l; i < n; i++) rss += a[rhs + i] * a[rhs + i];
	for (let j = l - 1; j >= 0; j--) {
		let sum = a[rhs + j];
		let norm = 0;
		for (let c = j + 1; c < l; c++) sum -= a[columns[c] + j] * w.delta[c];
		for (let i = 0; i <= j; i++) norm += a[columns[j] + i] ** 2;
		const diagonal = a[columns[j] + j];
		const delta = diagonal * diagonal <= 1e-24 * norm ? 0 : sum / diagonal;
		w.delta[j] = delta;
	}
	for (let j = 0; j < l; j++) theta[w.order[j]] += w.delta[j];
	return Number.isFinite(rss) ? rss : Number.POSITIVE_INFINITY;
}

/** Factorises the Jacobian at the point evaluated last. */
export function linearise(
	objective: Objective,
	y: Float64Array,
	w: Workspace,
	theta: Float64Array,
): boolean {
	const { points: n, a, columns, r, qtr } = w;
	const l = w.linearCount;
	const m = w.freeCount;
	const rhs = columns[m];
	if (w.form === "owned") {
		reduceColumns(a, n, columns, l, m, m + 1, w.heads);
	} else {
		objective.jacobian(theta, w.jacobian);
		const source = w.form === "sum" ? y : w.residual;
		for (let i = 0; i < n; i++) a[rhs + i] = source[i];
		reduceColumns(a, n, columns, 0, m, m + 1, w.heads);
	}
	for (let j = 0; j < m; j++) {
		const factor =
			w.form === "owned" && j >= l ? theta[w.order[w.owners[j - l]]] : 1;
		const base = columns[j];
		for (let i = 0; i <= j; i++) {
			const v = a[base + i] * factor;
			if (!(Math.abs(v) < Number.POSITIVE_INFINITY)) return false;
			a[base + i] = v;
		}
	}
	for (let j = 0; j < m; j++) {
		for (let i = 0; i <= j; i++) r[i * m + j] = a[columns[j] + i];
		qtr[j] = a[rhs + j];
	}
	return true;
}
