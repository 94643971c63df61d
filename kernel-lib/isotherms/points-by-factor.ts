import type { IsothermPoints } from "./points";

/**
 * The points with the uptake of each flask divided by a factor, its balance line and errors with it: on the curve that all flasks have in common stands what a flask would have shown had nothing multiplied its uptakes. The residues stay as they were read.
 *
 * @param factorOf by the name of the flask, above 0
 */
export function dividedBy(
	points: IsothermPoints,
	factorOf: (flask: string) => number,
): IsothermPoints {
	const factors = points.points.map((p) => factorOf(p.flask));
	return {
		...points,
		points: points.points.map((p, i) => ({
			...p,
			uptake: p.uptake / factors[i],
			balance:
				p.balance.is === "known"
					? {
							...p.balance,
							intercept: p.balance.intercept / factors[i],
							slope: p.balance.slope / factors[i],
						}
					: p.balance,
			own: {
				concentration: p.own.concentration,
				uptake: p.own.uptake / factors[i] ** 2,
				covariance: p.own.covariance / factors[i],
			},
		})),
		shared: points.shared.map((s) => ({
			...s,
			uptake: s.uptake.map((e, i) => e / factors[i]),
		})),
	};
}
