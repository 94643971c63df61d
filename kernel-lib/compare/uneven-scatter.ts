import { derivativesAt, type IsothermFit } from "../isotherms";
import { dot } from "../linear";
import { curveRows } from "./curve-rows";

/**
 * Variance of the uptake on a curve, (mg/g)^2, when the flasks do not scatter evenly: what each flask pulls at the uptake, times its own residual, freed of what the curve has bent towards it (HC2:
 * MacKinnon and White 1985, J. Econometrics 29, 305; from memory). A spread between flasks that goes with the uptake is larger, beside the reading errors that weigh the points, at high residues than at low
 * ones; one scale for all of them is then too small just where treatments are compared. Flasks that ran dry have no residual and add none.
 *
 * @returns 0 where nothing can be said (points exactly on the curve, or a covariance that is not known)
 */
export function unevenScatterVariance(
	fit: IsothermFit,
	residue: number,
): number {
	const { rows, solved } = curveRows(fit);
	const pull = solved(derivativesAt(fit.isotherm, fit.theta, residue));
	const variance = rows.reduce((sum, { gradient, residual }) => {
		const leverage = dot(gradient, solved(gradient));
		return (
			sum + (dot(gradient, pull) * residual) ** 2 / Math.max(1 - leverage, 1e-6)
		);
	}, 0);
	return Number.isFinite(variance) ? variance : 0;
}
