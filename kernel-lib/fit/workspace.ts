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
	/** Second-order part of the Hessian of half the sum of squares, estimated from the gradients met on the way; k x k. */
	readonly bend: Float64Array;
	/** How many steps `bend` has learnt from. */
	bendSteps: number;
	readonly gradientBefore: Float64Array;
	readonly hessian: Float64Array;
	readonly small: Float64Array;
	readonly smallColumns: Int32Array;
	readonly smallHeads: Float64Array;
	readonly helper: Float64Array;
	readonly rest: Float64Array;
	readonly open: Int32Array;
	rss: number;
	/** Squared length of the residual's part in the tangent plane: the gain that a Gauss-Newton step promises. */
	tangent: number;
	relativeOffset: number;
	evaluations: number;
	stop: StopReason;
	openCount: number;
}

export function createWorkspace(
	points: number,
	size: number,
	layout: Layout,
): Workspace {
	const { linear, nonlinear } = layout;
	const l = linear.length;
	const k = nonlinear.length;
	const m = l + k;
	const order = new Int32Array(m);
	for (let j = 0; j < m; j++) order[j] = j < l ? linear[j] : nonlinear[j - l];
	const columns = new Int32Array(m + 1);
	for (let j = 0; j < m; j++) columns[j] = order[j] * points;
	columns[m] = size * points;
	const owners = new Int32Array(layout.owners.length);
	for (let j = 0; j < owners.length; j++) owners[j] = layout.owners[j];
	const stackRows = 2 * k;
	const smallColumns = new Int32Array(k + 1);
	for (let j = 0; j <= k; j++) smallColumns[j] = j * stackRows;
	// One block of memory for all: fits are short, and many small allocations would take a good part of their time.
	const lengths =
		(size + 3) * points +
		2 * m * m +
		2 * k * k +
		(k + 1) * stackRows +
		size +
		2 * m +
		l +
		7 * k +
		2;
	const block = new ArrayBuffer(8 * lengths);
	let next = 0;
	const take = (length: number): Float64Array => {
		const view = new Float64Array(block, next, length);
		next += 8 * length;
		return view;
	};
	const a = take((size + 1) * points);
	return {
		points,
		size,
		linearCount: l,
		freeCount: m,
		form: layout.form,
		owners,
		order,
		columns,
		a,
		jacobian: a.subarray(0, size * points),
		heads: take(m + 1),
		values: take(points),
		residual: take(points),
		r: take(m * m),
		inverse: take(m * m),
		qtr: take(m),
		delta: take(l),
		scale: take(k),
		step: take(k),
		gradient: take(k),
		trial: take(size),
		bend: take(k * k),
		bendSteps: 0,
		gradientBefore: take(k),
		hessian: take(k * k),
		small: take((k + 1) * stackRows),
		smallColumns,
		smallHeads: take(k + 1),
		helper: take(k),
		rest: take(k),
		open: new Int32Array(k),
		rss: Number.POSITIVE_INFINITY,
		tangent: Number.POSITIVE_INFINITY,
		relativeOffset: Number.POSITIVE_INFINITY,
		evaluations: 0,
		stop: "running",
		openCount: k,
	};
}
