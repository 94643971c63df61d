import { derivativesAt, type IsothermFit } from "../isotherms";
import { dot } from "../linear";

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
	const { isotherm, theta, scatterCovariance: covariance } = fit;
	const size = theta.length;
	const unit = fit.scaleFrom === "scatter" ? fit.scale ** 2 : 1;
	if (covariance.is === "not known" || !(unit > 0)) return 0;
	/** (J'J)^-1 v for the weights as they are. */
	const solved = (v: Float64Array): Float64Array =>
		Float64Array.from({ length: size }, (_, i) => {
			let sum = 0;
			for (let j = 0; j < size; j++)
				sum += covariance.value[i * size + j] * v[j];
			return sum / unit;
		});
	const pull = solved(derivativesAt(isotherm, theta, residue));
	let variance = 0;
	fit.used.forEach((p, i) => {
		if (p.is !== "reading" || p.balance.is === "not known") return;
		const at = fit.expected[i];
		const steepness = p.balance.slope + isotherm.slope(theta, at);
		const row = derivativesAt(isotherm, theta, at).map(
			(d) => -d / steepness / fit.weights[i],
		);
		const leverage = dot(row, solved(row));
		const residual = (p.concentration - at) / fit.weights[i];
		variance += (dot(row, pull) * residual) ** 2 / Math.max(1 - leverage, 1e-6);
	});
	return Number.isFinite(variance) ? variance : 0;
}
