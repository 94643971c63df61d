/** Scatter of single points about a curve, in units of their standard deviations, and the degrees of freedom that it rests on. */
export interface Scatter {
	readonly scale: number;
	/** The same with what shared errors do to the residuals in it: how far points lie from the curve. */
	readonly withShared: number;
	readonly degreesOfFreedom: number;
}

/** Directions that shared errors move by less than this share of the most moved one count as not moved. */
const unmoved = 1e-12;
/** Halvings of the ratio between which the scale is looked for, and steps in each. */
const finest = 40;
const stepsOfSearch = 200;

/**
 * The scatter that is left when what shared errors do to the points is allowed for. A titrant that is off moves all points together, but not along the curve: they come to lie farther from it, and a
 * scatter taken from the residuals as they are would count that error once more. The residuals, free of the p directions that the parameters follow, are normal with covariance
 * s^2 I + W W', where W holds the shared errors' effects (one standard uncertainty each); s is where their likelihood is greatest (restricted maximum likelihood: Patterson and Thompson 1971,
 * Biometrika 58, 545; from memory). With the eigenvalues l of W W' the degrees of freedom are the sum of (s^2/(s^2 + l))^2, which makes Student's t have the variance that the likelihood gives s^2.
 *
 * Where shared errors explain all of the residuals, nothing tells the scatter apart: then the residuals are taken as they are, and the intervals come out rather too wide.
 *
 * @param gradients derivatives of each point's fitted value by every free parameter, over its standard deviation
 * @param residuals over the same standard deviations
 * @param shared what one standard uncertainty of each shared error does to the residuals, likewise
 */
export function scatterBesideShared(
	gradients: readonly Float64Array[],
	residuals: Float64Array,
	shared: readonly Float64Array[],
): Scatter {
	const n = residuals.length;
	const basis = orthonormal(columnsOf(gradients));
	const spare = n - basis.length;
	const left = without(basis, residuals);
	const squares = dot(left, left);
	const withShared = spare > 0 ? Math.sqrt(squares / spare) : 0;
	const plain: Scatter = {
		scale: withShared,
		withShared,
		degreesOfFreedom: Math.max(0, spare),
	};
	const moved = shared.map((w) => without(basis, w));
	if (spare < 1 || !(squares > 0) || moved.length === 0) return plain;
	const { values, vectors } = eigen(outerProducts(moved, n), n);
	const most = Math.max(...values);
	if (!(most > 0)) return plain;
	const kept = values
		.map((value, i) => ({ value, along: dot(vectors[i], left) ** 2 }))
		.filter(({ value }) => value > unmoved * most)
		.sort((a, b) => b.value - a.value)
		.slice(0, spare);
	const others = spare - kept.length;
	const otherSquares = Math.max(
		0,
		squares - kept.reduce((sum, k) => sum + k.along, 0),
	);
	const minusTwoLogLikelihood = (v: number): number =>
		kept.reduce(
			(sum, k) => sum + Math.log(v + k.value) + k.along / (v + k.value),
			others === 0 ? 0 : others * Math.log(v) + otherSquares / v,
		);
	const variance = lowestOnLog(
		minusTwoLogLikelihood,
		squares * 0.5 ** finest,
		squares,
	);
	const degreesOfFreedom = kept.reduce(
		(sum, k) => sum + (variance / (variance + k.value)) ** 2,
		others,
	);
	return degreesOfFreedom >= 1
		? { scale: Math.sqrt(variance), withShared, degreesOfFreedom }
		: plain;
}

/** Where a function of a positive number is least: the best of even steps in its logarithm, then the golden section around it. */
function lowestOnLog(
	f: (v: number) => number,
	from: number,
	to: number,
): number {
	const step = Math.log(to / from) / stepsOfSearch;
	const at = (i: number): number => from * Math.exp(i * step);
	let best = 0;
	let least = Number.POSITIVE_INFINITY;
	for (let i = 0; i <= stepsOfSearch; i++) {
		const value = f(at(i));
		if (value < least) {
			least = value;
			best = i;
		}
	}
	const ratio = (Math.sqrt(5) - 1) / 2;
	let low = Math.max(0, best - 1);
	let high = Math.min(stepsOfSearch, best + 1);
	while (high - low > 1e-6) {
		const a = high - ratio * (high - low);
		const b = low + ratio * (high - low);
		if (f(at(a)) < f(at(b))) high = b;
		else low = a;
	}
	return at((low + high) / 2);
}

function columnsOf(rows: readonly Float64Array[]): Float64Array[] {
	return Array.from({ length: rows[0]?.length ?? 0 }, (_, j) =>
		Float64Array.from(rows, (row) => row[j]),
	);
}

/** Orthonormal directions that span the columns; a column that adds none to those before it is passed over. */
function orthonormal(columns: readonly Float64Array[]): Float64Array[] {
	const basis: Float64Array[] = [];
	for (const column of columns) {
		const length = Math.sqrt(dot(column, column));
		if (!(length > 0)) continue;
		// Twice is enough for orthogonality to rounding.
		const rest = without(
			basis,
			without(
				basis,
				column.map((v) => v / length),
			),
		);
		const size = Math.sqrt(dot(rest, rest));
		if (size > 1e-10) basis.push(rest.map((v) => v / size));
	}
	return basis;
}

function without(
	basis: readonly Float64Array[],
	vector: Float64Array,
): Float64Array {
	const out = vector.slice();
	for (const b of basis) {
		const along = dot(b, out);
		for (let i = 0; i < out.length; i++) out[i] -= along * b[i];
	}
	return out;
}

function dot(a: Float64Array, b: Float64Array): number {
	let sum = 0;
	for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
	return sum;
}

function outerProducts(
	vectors: readonly Float64Array[],
	n: number,
): Float64Array {
	const out = new Float64Array(n * n);
	for (const v of vectors)
		for (let i = 0; i < n; i++)
			for (let j = 0; j < n; j++) out[i * n + j] += v[i] * v[j];
	return out;
}

/** Eigenvalues and eigenvectors of a symmetric matrix by Jacobi's rotations; a is overwritten. */
function eigen(
	a: Float64Array,
	n: number,
): { values: number[]; vectors: Float64Array[] } {
	const vectors = Array.from({ length: n }, (_, i) => {
		const e = new Float64Array(n);
		e[i] = 1;
		return e;
	});
	for (let sweep = 0; sweep < 30; sweep++) {
		let off = 0;
		let on = 0;
		for (let i = 0; i < n; i++)
			for (let j = 0; j < n; j++)
				if (i === j) on += a[i * n + i] ** 2;
				else off += a[i * n + j] ** 2;
		if (off <= 1e-26 * on) break;
		for (let p = 0; p < n; p++)
			for (let q = p + 1; q < n; q++) rotate(a, vectors, n, p, q);
	}
	return { values: vectors.map((_, i) => a[i * n + i]), vectors };
}

/** One rotation that empties a[p][q]. */
function rotate(
	a: Float64Array,
	vectors: readonly Float64Array[],
	n: number,
	p: number,
	q: number,
): void {
	const apq = a[p * n + q];
	if (apq === 0) return;
	const half = (a[q * n + q] - a[p * n + p]) / (2 * apq);
	const t = (half < 0 ? -1 : 1) / (Math.abs(half) + Math.hypot(half, 1));
	const c = 1 / Math.hypot(t, 1);
	const s = t * c;
	const turn = (of: Float64Array, i: number, j: number): void => {
		const [u, v] = [of[i], of[j]];
		of[i] = c * u - s * v;
		of[j] = s * u + c * v;
	};
	for (let k = 0; k < n; k++) turn(a, k * n + p, k * n + q);
	for (let k = 0; k < n; k++) turn(a, p * n + k, q * n + k);
	for (let k = 0; k < n; k++) {
		const [u, v] = [vectors[p][k], vectors[q][k]];
		vectors[p][k] = c * u - s * v;
		vectors[q][k] = s * u + c * v;
	}
}
