import { stirlingError } from "./stirling";

/** Nodes s and weights of an integral over the density of S = sqrt(chi-square / df); the weights sum to 1 and fall from first to last. */
export interface ChiNodes {
	readonly s: Float64Array;
	readonly weight: Float64Array;
}

/** Weights below this are left out. */
const NEGLIGIBLE = 1e-40;

/**
 * Nodes for the mean of a smooth function of S over its distribution. The trapezoidal rule in u = ln S converges
 * exponentially, because the density falls off fast at both ends and is analytic in the strip |Im u| < pi/4
 * (Trefethen and Weideman 2014, SIAM Rev. 56, 385). `sharpness` is the largest slope of the function in u: about the
 * limit itself for a normal probability up to limit * S. Infinite degrees of freedom give the single node S = 1.
 */
export function chiNodes(
	degreesOfFreedom: number,
	sharpness: number,
): ChiNodes {
	if (degreesOfFreedom === Number.POSITIVE_INFINITY) {
		return { s: Float64Array.of(1), weight: Float64Array.of(1) };
	}
	const half = degreesOfFreedom / 2;
	const spread = Math.sqrt(2 * degreesOfFreedom + sharpness * sharpness);
	const step = Math.min(0.1, 0.55 / spread);
	const scale =
		2 * step * Math.sqrt(half / (2 * Math.PI)) * Math.exp(-stirlingError(half));
	const density = (u: number): number =>
		scale * Math.exp(half * (2 * u - Math.expm1(2 * u)));
	const nodes: { s: number; weight: number }[] = [];
	for (const direction of [1, -1]) {
		for (let index = direction === 1 ? 0 : 1; ; index++) {
			const u = direction * index * step;
			const weight = density(u);
			if (weight < NEGLIGIBLE) break;
			nodes.push({ s: Math.exp(u), weight });
		}
	}
	nodes.sort((a, b) => b.weight - a.weight);
	return {
		s: Float64Array.from(nodes, (node) => node.s),
		weight: Float64Array.from(nodes, (node) => node.weight),
	};
}
