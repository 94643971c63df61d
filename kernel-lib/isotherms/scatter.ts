import {
	dot,
	orthonormalBasis,
	spannedDirections,
	withoutDirections,
} from "../linear";

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
	const basis = orthonormalBasis(columnsOf(gradients));
	const spare = n - basis.length;
	const left = withoutDirections(basis, residuals);
	const squares = dot(left, left);
	const withShared = spare > 0 ? Math.sqrt(squares / spare) : 0;
	const plain: Scatter = {
		scale: withShared,
		withShared,
		degreesOfFreedom: Math.max(0, spare),
	};
	const moved = shared.map((w) => withoutDirections(basis, w));
	if (spare < 1 || !(squares > 0) || moved.length === 0) return plain;
	// At most one direction for each error: W W' itself has as many rows as there are points.
	const spanned = spannedDirections(moved).map(({ direction, reach }) => ({
		value: reach ** 2,
		along: dot(direction, left) ** 2,
	}));
	const most = spanned[0].value;
	if (!(most > 0)) return plain;
	const kept = spanned
		.filter(({ value }) => value > unmoved * most)
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
