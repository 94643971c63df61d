import { normalCdf, normalDensity } from "../stats";

/**
 * What a bound adds to the sum of squares, as a residual: sqrt(-2 ln Phi(z)), where z is how far the residue that the curve gives lies below the detection limit, in its standard deviations.
 * Its square is minus twice the log of the probability that the titre stayed below the limit, so that the sum of squares is the likelihood.
 */
export function boundResidual(z: number): number {
	return Math.sqrt(minusTwoLogCdf(z));
}

/** d(boundResidual)/dz. */
export function boundResidualSlope(z: number): number {
	const residual = boundResidual(z);
	if (residual === 0) return 0;
	// Phi underflows far below; there the hazard is that of its asymptote.
	const hazard = z > -37 ? normalDensity(z) / normalCdf(z) : -z - 1 / z;
	return -hazard / residual;
}

function minusTwoLogCdf(z: number): number {
	if (z < -37) return z * z + Math.log(2 * Math.PI * z * z);
	return z > 0 ? -2 * Math.log1p(-normalCdf(-z)) : -2 * Math.log(normalCdf(z));
}
