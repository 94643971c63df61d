import { type Isotherm, uptakeAt } from "./catalogue/index";
import type { IsothermPoint } from "./points";

/**
 * Standard deviation of a residue about the one that the flask should show (mg/L), from the errors that are the flask's own. An error dC of the residue and dq of the uptake (they come from
 * one titre) move the point against the meeting of isotherm and balance line by (q' dC - dq)/(slope + q'), q' being the isotherm's slope; for an error of the titre alone that is dC itself.
 */
export function residueDeviation(
	point: IsothermPoint,
	slopeOfIsotherm: number,
): number {
	if (point.balance.is === "not known") return 0;
	const { own, balance } = point;
	const variance =
		slopeOfIsotherm ** 2 * own.concentration -
		2 * slopeOfIsotherm * own.covariance +
		own.uptake;
	return Math.sqrt(Math.max(0, variance)) / (balance.slope + slopeOfIsotherm);
}

/**
 * Standard deviations of all points for one curve; all 1 where no own error is known, so that the scatter alone tells their size.
 *
 * @param at the residues that the curve gives the flasks (or, before there is a curve, those that were read)
 */
export function deviationsAt(
	isotherm: Isotherm,
	theta: Float64Array,
	points: readonly IsothermPoint[],
	at: Float64Array,
): Float64Array {
	const deviations = Float64Array.from(points, (p, i) =>
		residueDeviation(p, slopeAt(isotherm, theta, at[i])),
	);
	return deviations.every((d) => d > 0) ? deviations : deviations.fill(1);
}

/** Slope of the isotherm at a residue, never below zero. */
export function slopeAt(
	isotherm: Isotherm,
	theta: Float64Array,
	concentration: number,
): number {
	const slope = isotherm.slope(theta, Math.max(concentration, 1e-9));
	return Number.isFinite(slope) && slope > 0 ? slope : 0;
}

/** Start for the slopes before anything is fitted: the isotherm's own guess from the points that were read. */
export function guess(
	isotherm: Isotherm,
	points: readonly IsothermPoint[],
): Float64Array {
	const out = new Float64Array(isotherm.model.parameters.length).fill(1);
	const read = points.filter((p) => p.is === "reading");
	if (isotherm.model.start.kind === "from data" && read.length > 0)
		isotherm.model.start.guess(
			isotherm.model.prepare(Float64Array.from(read, (p) => p.concentration)),
			Float64Array.from(read, (p) => p.uptake),
			out,
		);
	return out;
}

/** Share of the plateau that the curve reaches at a concentration; 0 where it has no plateau. */
export function coverAt(
	isotherm: Isotherm,
	theta: Float64Array,
	concentration: number,
): number {
	return isotherm.plateau.is === "at"
		? uptakeAt(isotherm, theta, concentration) / isotherm.plateau.uptake(theta)
		: 0;
}
