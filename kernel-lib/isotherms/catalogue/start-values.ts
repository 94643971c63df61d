/** Greatest y. */
export function greatest(y: Float64Array): number {
	let most = Number.NEGATIVE_INFINITY;
	for (const v of y) if (v > most) most = v;
	return most;
}

/**
 * The concentration at which the points reach a given uptake, by straight lines between neighbours; the points need not be sorted. Falls back on the middle of the range.
 */
export function concentrationReaching(
	x: Float64Array,
	y: Float64Array,
	level: number,
): number {
	let below = Number.NEGATIVE_INFINITY;
	let above = Number.POSITIVE_INFINITY;
	let yBelow = 0;
	let yAbove = 0;
	for (let i = 0; i < x.length; i++) {
		if (y[i] <= level && x[i] > below) {
			below = x[i];
			yBelow = y[i];
		}
		if (y[i] >= level && x[i] < above) {
			above = x[i];
			yAbove = y[i];
		}
	}
	if (Number.isFinite(below) && Number.isFinite(above) && yAbove > yBelow)
		return below + ((level - yBelow) / (yAbove - yBelow)) * (above - below);
	if (Number.isFinite(above)) {
		// every point lies above the level: through the origin, in proportion
		return (above * level) / yAbove;
	}
	return below > 0 ? below : 1;
}

/** Straight line y = a + b x by least squares; b = 0 where x does not vary. */
export function line(
	x: ArrayLike<number>,
	y: ArrayLike<number>,
): { a: number; b: number } {
	const n = x.length;
	let sx = 0;
	let sy = 0;
	for (let i = 0; i < n; i++) {
		sx += x[i];
		sy += y[i];
	}
	let sxx = 0;
	let sxy = 0;
	for (let i = 0; i < n; i++) {
		sxx += (x[i] - sx / n) ** 2;
		sxy += (x[i] - sx / n) * (y[i] - sy / n);
	}
	const b = sxx > 0 ? sxy / sxx : 0;
	return { a: (sy - b * sx) / n, b };
}

/**
 * The straight-line form of y = a x / (1 + b s) that needs no division: y = a x - b s y, by least squares through the
 * origin. It leans on the scatter of y, so it is a start and no result; b = 0 or below where the points do not bend.
 */
export function hyperbolaStart(
	x: Float64Array,
	s: Float64Array,
	y: Float64Array,
): { a: number; b: number } {
	let xx = 0;
	let xz = 0;
	let zz = 0;
	let xy = 0;
	let zy = 0;
	for (let i = 0; i < y.length; i++) {
		const z = s[i] * y[i];
		xx += x[i] * x[i];
		xz += x[i] * z;
		zz += z * z;
		xy += x[i] * y[i];
		zy += z * y[i];
	}
	const determinant = xx * zz - xz * xz;
	return determinant > 0
		? {
				a: (xy * zz - zy * xz) / determinant,
				b: (xy * xz - zy * xx) / determinant,
			}
		: { a: 0, b: 0 };
}

/** Langmuir's pair (plateau, affinity) as a start: from its straight-line form, or else the plateau a third above the highest point and the affinity from the half-way point. */
export function saturatingStart(
	x: Float64Array,
	y: Float64Array,
): { plateau: number; affinity: number } {
	const { a, b } = hyperbolaStart(x, x, y);
	if (a > 0 && b > 0) return { plateau: a / b, affinity: b };
	const plateau = 1.3 * greatest(y);
	const half = concentrationReaching(x, y, plateau / 2);
	return { plateau, affinity: half > 0 ? 1 / half : 1 };
}

/** Power law (scale, exponent) from the logarithms of the points that have one. */
export function powerStart(
	logX: ArrayLike<number>,
	y: Float64Array,
): { scale: number; exponent: number } {
	const lx: number[] = [];
	const ly: number[] = [];
	for (let i = 0; i < y.length; i++) {
		if (y[i] > 0 && Number.isFinite(logX[i])) {
			lx.push(logX[i]);
			ly.push(Math.log(y[i]));
		}
	}
	if (lx.length < 2)
		return { scale: Math.max(greatest(y), 1e-12), exponent: 0.5 };
	const { a, b } = line(lx, ly);
	const exponent = Math.min(5, Math.max(0.05, b));
	// through the middle of the points with that exponent
	const mean = (v: number[]): number => v.reduce((s, w) => s + w, 0) / v.length;
	return {
		scale: Math.exp(b === exponent ? a : mean(ly) - exponent * mean(lx)),
		exponent,
	};
}

/** Natural logarithms, -Infinity for 0: what power-law models prepare once per data set. */
export function logarithms(x: Float64Array): Float64Array {
	return x.map(Math.log);
}

/** The opposite of `logarithms`, for start values that need x itself. */
export function exponentials(logX: Float64Array): Float64Array {
	const x = new Float64Array(logX.length);
	for (let i = 0; i < x.length; i++) x[i] = Math.exp(logX[i]);
	return x;
}
