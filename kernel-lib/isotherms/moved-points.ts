import type { Fit } from "../fit";
import { normalCdf } from "../stats";
import type { IsothermPoint, SharedEffect } from "./points";
import type { SharedShift } from "./shared-errors";

/** A fit of moved points begins near its end; one that needs more than this runs off. */
export const mostEvaluationsAgain = 100;

/** Level at which an interval ends where the sum of squares has risen by one. */
export const oneStandardError = 2 * normalCdf(1) - 1;

/**
 * The same fit again, of points that shared errors have moved: by `amounts` standard uncertainties, one for each of the effects. Its errors are told to be `reach` times as large, so that a profile
 * interval of it ends `reach` standard errors of the scatter away.
 */
export type Refit = (amounts: readonly number[], reach: number) => MovedFit;

export interface MovedFit {
	readonly fit: Fit;
	/** What one standard uncertainty of each shared error does to the parameters there; empty where the fit has no errors. */
	readonly shifts: () => SharedShift[];
}

/** Point i after shared errors have moved it; its balance line goes with it. */
export function movedPoint(
	point: IsothermPoint,
	effects: readonly SharedEffect[],
	amounts: readonly number[],
	i: number,
): IsothermPoint {
	let concentration = 0;
	let uptake = 0;
	effects.forEach((e, k) => {
		concentration += amounts[k] * e.concentration[i];
		uptake += amounts[k] * e.uptake[i];
	});
	const { balance } = point;
	return {
		...point,
		concentration: point.concentration + concentration,
		uptake: point.uptake + uptake,
		balance:
			balance.is === "known"
				? {
						...balance,
						intercept:
							balance.intercept + uptake + balance.slope * concentration,
					}
				: balance,
	};
}
