import { reduceColumns } from "./qr";

/**
 * The sum of squares to be made small: |response - values(theta)|^2, all in units of each point's own error
 * (divided by sigma, or whitened by the Cholesky factor of the points' covariance).
 */
export interface Objective {
	/** Number of points. */
	readonly points: number;
	/** Length of theta, fixed parameters included. */
	readonly size: number;
	/** Curve at theta, `points` numbers. */
	values(theta: Float64Array, out: Float64Array): void;
	/** Derivatives at theta, column by column: parameter j begins at j * points. */
	jacobian(theta: Float64Array, out: Float64Array): void;
}

/**
 * How the linear parameters enter.
 * - "none": no parameter is projected out.
 * - "owned": the curve is a sum of the linear parameters times functions of the others, and every nonlinear parameter
 *   belongs to one term only (a scale times a shape, two sites, a sum of peaks).
 * - "sum": the curve is a sum of the linear parameters times functions of the others, and nothing else.
 * - "offset": as "sum", plus a part without linear parameters.
 */
export type LinearForm = "none" | "owned" | "sum" | "offset";

export interface Layout {
	readonly linear: readonly number[];
	readonly nonlinear: readonly number[];
	readonly form: LinearForm;
	/** For the form "owned": index in `linear` of the term that each nonlinear parameter belongs to. */
	readonly owners: readonly number[];
}

export type StopReason =
	| "running"
	| "offset-small"
	| "rounding-level"
	| "too-many-evaluations"
	| "not-finite"
	| "stuck";

/** Everything that one fit needs, allocated once. Results are read from it after `minimise`. */
export interface Workspace {
	readonly points: number;
	readonly size: number;
	readonly linearCount: number;
	readonly freeCount: number;
	readonly form: LinearForm;
	readonly owners: Int32Array;
	/** Parameter index of each free parameter, linear ones first. */
	readonly order: Int32Array;
	readonly columns: Int32Array;
	readonly a: Float64Array;
	/** The part of `a` that holds the Jacobian. */
	readonly jacobian: Float64Array;
	readonly heads: Float64Array;
	readonly values: Float64Array;
	readonly residual: Float64Array;
	/** Triangular factor of the Jacobian at the last accepted point, row-major freeCount x freeCount, in `order`. */
	readonly r: Float64Array;
	/** Room for the inverse of `r`, of the same shape. */
	readonly inverse: Float64Array;
	readonly qtr: Float64Array;
	readonly delta: Float64Array;
	readonly scale: Float64Array;
	readonly step: Float64Array;
	readonly gradient: Float64Array;
	readonly trial: Float64Array;
	readonly small: Float64Array;
	readonly smallColumns: Int32Array;
	readonly smallHeads: Float64Array;
	readonly helper: Float64Array;
	readonly open: Int32Array;
	rss: number;
	/** Squared length of the residual's part in the tangent plane: the gain that a Gauss-Newton step promises. */
	tangent: number;
	relativeOffset: number;
	evaluations: number;
	stop: StopReason;
	openCount: number;
}

export interface StepSettings {
	readonly lower: Float64Array;
	readonly upper: Float64Array;
	readonly tolerance: number;
	readonly maxEvaluations: number;
	/** First radius of the trust region, in units of the scaled start. */
	readonly firstRadius: number;
}

export function createWorkspace(
	points: number,
	size: number,
	layout: Layout,
): Workspace {
	const order = Int32Array.from([...layout.linear, ...layout.nonlinear]);
	const m = order.length;
	const k = layout.nonlinear.length;
	const columns = new Int32Array(m + 1);
	for (let j = 0; j < m; j++) columns[j] = order[j] * points;
	columns[m] = size * points;
	const stackRows = 2 * k;
	const smallColumns = new Int32Array(k + 1);
	for (let j = 0; j <= k; j++) smallColumns[j] = j * stackRows;
	const a = new Float64Array((size + 1) * points);
	return {
		points,
		size,
		linearCount: layout.linear.length,
		freeCount: m,
		form: layout.form,
		owners: Int32Array.from(layout.owners),
		order,
		columns,
		a,
		jacobian: a.subarray(0, size * points),
		heads: new Float64Array(m + 1),
		values: new Float64Array(points),
		residual: new Float64Array(points),
		r: new Float64Array(m * m),
		inverse: new Float64Array(m * m),
		qtr: new Float64Array(m),
		delta: new Float64Array(layout.linear.length),
		scale: new Float64Array(k),
		step: new Float64Array(k),
		gradient: new Float64Array(k),
		trial: new Float64Array(size),
		small: new Float64Array((k + 1) * stackRows),
		smallColumns,
		smallHeads: new Float64Array(k + 1),
		helper: new Float64Array(k),
		open: new Int32Array(k),
		rss: Number.POSITIVE_INFINITY,
		tangent: Number.POSITIVE_INFINITY,
		relativeOffset: Number.POSITIVE_INFINITY,
		evaluations: 0,
		stop: "running",
		openCount: k,
	};
}

/** Root mean square rounding of one residual: what no iteration can get below. */
function roundingOf(y: Float64Array): number {
	let norm = 0;
	for (let i = 0; i < y.length; i++) norm += y[i] * y[i];
	return 2.2e-16 * Math.sqrt(norm / y.length);
}

/** How far two sums of squares near `rss` may differ by rounding alone. */
function roundingOfSum(rss: number, floor: number, n: number): number {
	return 1e-14 * rss + 8 * floor * Math.sqrt(n * rss) + floor * floor * n;
}

/** How far two sums of squares near `rss` may differ by rounding alone, from the response that they are computed with. */
export function roundingOfSumOfSquares(rss: number, y: Float64Array): number {
	return roundingOfSum(rss, roundingOf(y), y.length);
}

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
		for (let i = 0; i < n; i++) residual[i] = y[i];
		for (let j = 0; j < l; j++) theta[w.order[j]] = unit;
	}
	objective.jacobian(theta, w.jacobian);
	for (let i = 0; i < n; i++) a[rhs + i] = residual[i];
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
function linearise(
	objective: Objective,
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
		for (let i = 0; i < n; i++) a[rhs + i] = w.residual[i];
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

/** Solves the scaled damped problem for the open nonlinear parameters; the step goes to w.step, its scaled length is returned (Infinity if singular). */
function dampedStep(w: Workspace, lambda: number): number {
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
function gaussNewtonStep(w: Workspace): number {
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
 * Damping that makes the step as long as the trust region, by Newton's iteration on the secular equation
 * (More 1978, The Levenberg-Marquardt algorithm: implementation and theory). Returns the damping.
 */
function fitStepToRegion(w: Workspace, radius: number, last: number): number {
	const { small, smallColumns, scale, step, open, helper, gradient } = w;
	const q = w.openCount;
	const newton = gaussNewtonStep(w);
	if (newton <= 1.1 * radius) return 0;
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

/** Chooses the open nonlinear parameters (not held by a bound) and returns the relative offset of Bates and Watts (1981, Technometrics 23, 179). */
function diagnose(
	w: Workspace,
	theta: Float64Array,
	settings: StepSettings,
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
		const at = theta[order[l + j]];
		const held =
			(g < 0 && at <= settings.lower[order[l + j]]) ||
			(g > 0 && at >= settings.upper[order[l + j]]);
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
	w.tangent = tangent;
	const normal = Math.max(0, w.rss - tangent) / free + floor * floor;
	w.relativeOffset = tangent === 0 ? 0 : Math.sqrt(tangent / m / normal);
	return w.relativeOffset;
}

/**
 * Least squares by a scaled trust-region Levenberg-Marquardt iteration on the nonlinear parameters, with the linear ones
 * replaced by their best values at every point (variable projection: Golub and Pereyra 1973; Kaufman 1975).
 * Theta holds the start and, afterwards, the result; nothing is allocated.
 */
export function minimise(
	objective: Objective,
	y: Float64Array,
	w: Workspace,
	theta: Float64Array,
	settings: StepSettings,
): void {
	const { order, scale, step, trial, r, gradient } = w;
	const { lower, upper } = settings;
	const n = w.points;
	const l = w.linearCount;
	const m = w.freeCount;
	const k = m - l;
	const floor = roundingOf(y);

	w.evaluations = 0;
	w.stop = "running";
	w.relativeOffset = Number.POSITIVE_INFINITY;
	w.rss = evaluatePoint(objective, y, w, theta);
	if (w.rss === Number.POSITIVE_INFINITY || !linearise(objective, w, theta)) {
		w.rss = Number.POSITIVE_INFINITY;
		w.stop = "not-finite";
		return;
	}
	scale.fill(0);
	let radius = 0;
	for (let j = 0; j < k; j++) {
		let s = 0;
		for (let i = 0; i <= j; i++) s += r[(l + i) * m + l + j] ** 2;
		scale[j] = s > 0 ? Math.sqrt(s) : 1;
		radius += (scale[j] * theta[order[l + j]]) ** 2;
	}
	radius = settings.firstRadius * (radius > 0 ? Math.sqrt(radius) : 1);
	let lambda = 0;
	diagnose(w, theta, settings, floor);

	while (w.relativeOffset > settings.tolerance) {
		if (w.evaluations >= settings.maxEvaluations) {
			w.stop = "too-many-evaluations";
			return;
		}
		const noise = roundingOfSum(w.rss, floor, n);
		const polishing = w.tangent <= noise;
		if (polishing) gaussNewtonStep(w);
		else lambda = fitStepToRegion(w, radius, lambda);
		for (let j = 0; j < w.size; j++) trial[j] = theta[j];
		for (let j = 0; j < k; j++) {
			const p = order[l + j];
			const moved = Math.min(upper[p], Math.max(lower[p], theta[p] + step[j]));
			step[j] = moved - theta[p];
			trial[p] = moved;
		}
		let length = 0;
		let predicted = 0;
		for (let i = 0; i < k; i++) {
			let s = 0;
			for (let j = i; j < k; j++) s += r[(l + i) * m + l + j] * step[j];
			predicted += 2 * gradient[i] * step[i] - s * s;
			length += (scale[i] * step[i]) ** 2;
		}
		length = Math.sqrt(length);
		const rss = evaluatePoint(objective, y, w, trial);
		const ratio = (w.rss - rss) / predicted;
		const gained = !polishing && rss < w.rss && ratio > 1e-4;
		if (gained && linearise(objective, w, trial)) {
			if (ratio > 0.75 || (lambda === 0 && ratio > 0.25))
				radius = Math.max(radius, 2 * length);
			else if (ratio < 0.25) radius = 0.5 * Math.min(radius, length);
			w.rss = rss;
			for (let j = 0; j < w.size; j++) theta[j] = trial[j];
			for (let j = 0; j < k; j++) {
				let s = 0;
				for (let i = 0; i <= j; i++) s += r[(l + i) * m + l + j] ** 2;
				scale[j] = Math.max(scale[j], Math.sqrt(s));
			}
			diagnose(w, theta, settings, floor);
			continue;
		}
		if (w.tangent <= noise + 1e-10 * w.rss) {
			// So near the minimum the sum of squares can hardly tell better from worse; the offset still can.
			const before = w.relativeOffset;
			const rssBefore = w.rss;
			w.rss = rss;
			if (
				rss <= rssBefore + 2 * noise &&
				linearise(objective, w, trial) &&
				diagnose(w, trial, settings, floor) < 0.9 * before
			) {
				for (let j = 0; j < w.size; j++) theta[j] = trial[j];
				continue;
			}
			w.rss = evaluatePoint(objective, y, w, theta);
			linearise(objective, w, theta);
			diagnose(w, theta, settings, floor);
			if (polishing) {
				w.stop = "rounding-level";
				return;
			}
		}
		radius = (ratio > 0 ? 0.5 : 0.2) * Math.min(radius, length);
		if (!(radius > 1e-14 * scaledNorm(w, theta))) {
			w.stop = "stuck";
			return;
		}
	}
	w.stop = "offset-small";
}

function scaledNorm(w: Workspace, theta: Float64Array): number {
	let s = 0;
	for (let j = 0; j < w.scale.length; j++)
		s += (w.scale[j] * theta[w.order[w.linearCount + j]]) ** 2;
	return Math.sqrt(s);
}
