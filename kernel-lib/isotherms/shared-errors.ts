import type { Fit } from "../fit";
import type { IsothermPoint, IsothermPoints, SharedEffect } from "./points";

/** What one standard uncertainty of a shared input does to every parameter. */
export interface SharedShift {
	readonly key: string;
	readonly what: string;
	readonly degreesOfFreedom: number;
	/** One for each parameter, in its unit. */
	readonly effect: Float64Array;
}

/** One row of the least-squares problem: how the residual of a point answers to an error of its concentration and of its uptake, already divided by its standard deviation. */
export interface Row {
	/** Derivatives of the fitted value by every parameter, over the standard deviation. */
	readonly gradient: Float64Array;
	readonly perConcentration: number;
	readonly perUptake: number;
}

/**
 * Shared errors reach the parameters through all points at once: d(theta) = (J'J)^-1 J' d(residual), with exact derivatives of the curve, to first order in the residuals. They are in no
 * weight, and what they do to the residuals is taken out of the scatter, so that nothing is counted twice.
 *
 * @param inverse (J'J)^-1 for the rows as they are, row by row
 */
export function sharedShifts(
	shared: readonly SharedEffect[],
	rows: readonly Row[],
	inverse: Float64Array,
): SharedShift[] {
	const size = Math.round(Math.sqrt(inverse.length));
	return shared.map((s) => {
		const pull = new Float64Array(size);
		rows.forEach((row, i) => {
			const moved = movedBy(s, row, i);
			for (let j = 0; j < size; j++) pull[j] += row.gradient[j] * moved;
		});
		const effect = new Float64Array(size);
		for (let j = 0; j < size; j++)
			for (let k = 0; k < size; k++)
				effect[j] += inverse[j * size + k] * pull[k];
		return {
			key: s.key,
			what: s.what,
			degreesOfFreedom: s.degreesOfFreedom,
			effect,
		};
	});
}

/** Shifts at a fit whose covariance is `variance` (J'J)^-1 of the rows; none where it has no covariance. */
export function shiftsOf(
	{ covariance }: Fit,
	effects: readonly SharedEffect[],
	rows: readonly Row[],
	variance: number,
): SharedShift[] {
	return covariance.is === "not known" || !(variance > 0)
		? []
		: sharedShifts(
				effects,
				rows,
				covariance.value.map((c) => c / variance),
			);
}

/** What one standard uncertainty of a shared input does to the residual of point i. */
export function movedBy(effect: SharedEffect, row: Row, i: number): number {
	return (
		row.perConcentration * effect.concentration[i] +
		row.perUptake * effect.uptake[i]
	);
}

/** The shared effects of several treatments over the points that a fit uses: an input that several treatments lean on is one input. */
export function effectsOn(
	used: readonly IsothermPoint[],
	treatments: readonly IsothermPoints[],
): SharedEffect[] {
	const effects = new Map<string, SharedEffect>();
	for (const { points, shared } of treatments) {
		const at = used.map((p) => points.indexOf(p));
		for (const s of shared) {
			const before = effects.get(s.key);
			const effect = before ?? {
				...s,
				concentration: new Float64Array(used.length),
				uptake: new Float64Array(used.length),
			};
			at.forEach((i, k) => {
				if (i < 0) return;
				effect.concentration[k] = s.concentration[i];
				effect.uptake[k] = s.uptake[i];
			});
			if (before === undefined) effects.set(s.key, effect);
		}
	}
	return [...effects.values()];
}
