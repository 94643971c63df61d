import { roundingOfSum } from "./rounding";
import type { DescentSettings } from "./settings";
import type { Objective, Workspace } from "./workspace";

/**
 * The commonest curve by itself: a scale times a function of one other free parameter. Everything is then a handful of
 * sums, and the descent a Newton iteration in one unknown whose second derivative comes from the last two slopes.
 * It is what `minimise` does when nothing goes wrong; returns false, with theta at the lowest place met, when something
 * does (the sum of squares rises, a limit is met, a number is not finite), and the general descent goes on from there.
 */
export function descendScaleAndShape(
	objective: Objective,
	y: Float64Array,
	w: Workspace,
	theta: Float64Array,
	settings: DescentSettings,
	floor: number,
): boolean {
	const { points: n, a, order, r } = w;
	const scaleAt = order[0];
	const shapeAt = order[1];
	const first = scaleAt * n;
	const second = shapeAt * n;
	const lower = settings.lower[shapeAt];
	const upper = settings.upper[shapeAt];
	const free = n > 2 ? n - 2 : 1;
	const most = Math.min(settings.maxEvaluations, 30);
	let shape = theta[shapeAt];
	let lastRss = Number.POSITIVE_INFINITY;
	let lastOffset = Number.POSITIVE_INFINITY;
	let lastGradient = 0;
	let lastStep = 0;
	let lastScale = 1;
	w.evaluations = 0;
	for (;;) {
		theta[scaleAt] = 1;
		theta[shapeAt] = shape;
		objective.jacobian(theta, w.jacobian);
		w.evaluations++;
		// Two passes of modified Gram-Schmidt: first the curve of unit scale, then its derivative and y freed of it.
		let gg = 0;
		let gh = 0;
		let gy = 0;
		for (let i = 0; i < n; i++) {
			const g = a[first + i];
			gg += g * g;
			gh += g * a[second + i];
			gy += g * y[i];
		}
		const slope = gh / gg;
		const scale = gy / gg;
		let hh = 0;
		let hy = 0;
		let rss = 0;
		for (let i = 0; i < n; i++) {
			const g = a[first + i];
			const h = a[second + i] - slope * g;
			const v = y[i] - scale * g;
			hh += h * h;
			hy += h * v;
			rss += v * v;
		}
		const tangent = (hy * hy) / hh;
		const noise = roundingOfSum(rss, floor, n);
		if (
			!(rss <= lastRss + 2 * noise) ||
			!(tangent < Number.POSITIVE_INFINITY && hh * scale * scale > 0)
		) {
			theta[scaleAt] = lastScale;
			theta[shapeAt] = shape - lastStep;
			return false;
		}
		const normal = Math.max(0, rss - tangent) / free + floor * floor;
		const offset = tangent === 0 ? 0 : Math.sqrt(tangent / (2 * normal));
		const gradient = scale * hy;
		const straight = scale * scale * hh;
		w.rss = rss;
		w.tangent = tangent;
		w.relativeOffset = offset;
		theta[scaleAt] = scale;
		const still = tangent <= noise && offset > 0.9 * lastOffset;
		if (offset <= settings.tolerance || still) {
			w.stop = still ? "rounding-level" : "offset-small";
			fillFactor(r, gg, slope, scale, hh);
			return true;
		}
		const bent = (lastGradient - gradient) / lastStep;
		const trusted =
			lastOffset < 1 && bent > 0.3 * straight && bent < 3 * straight;
		const step = gradient / (trusted ? bent : straight);
		const moved = shape + step;
		if (!(moved > lower && moved < upper) || w.evaluations >= most)
			return false;
		const shrink = offset / lastOffset;
		if (
			shrink < 0.1 &&
			offset < 1e-3 &&
			10 * offset * shrink <= settings.tolerance
		) {
			// So sure a step that its end need not be looked at.
			theta[shapeAt] = moved;
			theta[scaleAt] = scale - slope * scale * step;
			w.rss -= tangent;
			w.relativeOffset *= shrink;
			w.stop = "offset-small";
			fillFactor(r, gg, slope, scale, hh);
			return true;
		}
		lastRss = rss;
		lastOffset = offset;
		lastGradient = gradient;
		lastStep = step;
		lastScale = scale;
		shape = moved;
	}
}

/** The triangular factor of the Jacobian, from the sums. */
function fillFactor(
	r: Float64Array,
	gg: number,
	slope: number,
	scale: number,
	hh: number,
): void {
	const top = Math.sqrt(gg);
	r[0] = top;
	r[1] = slope * scale * top;
	r[2] = 0;
	r[3] = Math.abs(scale) * Math.sqrt(hh);
}
