import { mean } from "../stats";
import type { CurveEffect, CurveEstimate } from "./curve-estimate";

/** How far the curves of soaks of one treatment lie apart at the stated residue. */
export interface SoakSpread {
	/** (mg/g)^2, of one soak. */
	readonly variance: number;
	/** 0 where no treatment had several soaks with curves. */
	readonly degreesOfFreedom: number;
}

/**
 * Pooled over all treatments with several soaks; it holds the scatter about each curve already. Where the soaks happen to agree better than the scatter about their curves allows, that scatter is the least
 * that is believed.
 */
export function soakSpreadOf(
	treatments: readonly (readonly CurveEstimate[])[],
): SoakSpread {
	const several = treatments.filter((soaks) => soaks.length > 1);
	const all = several.flat();
	const degreesOfFreedom = all.length - several.length;
	if (degreesOfFreedom < 1) return { variance: 0, degreesOfFreedom: 0 };
	let squares = 0;
	for (const soaks of several) {
		const middle = mean(soaks.map((s) => s.uptake));
		for (const s of soaks) squares += (s.uptake - middle) ** 2;
	}
	return {
		variance: Math.max(
			squares / degreesOfFreedom,
			mean(all.map((s) => s.scatterVariance)),
		),
		degreesOfFreedom,
	};
}

/** The uptake of a treatment as the mean of its soaks, each of which counts once; a single soak borrows the spread of the others. */
export function overSoaks(
	treatment: string,
	soaks: readonly CurveEstimate[],
	spread: SoakSpread,
): CurveEstimate {
	const shared = new Map<string, CurveEffect>();
	for (const s of soaks)
		for (const [key, { effect, degreesOfFreedom }] of s.shared)
			shared.set(key, {
				effect: (shared.get(key)?.effect ?? 0) + effect / soaks.length,
				degreesOfFreedom,
			});
	return {
		treatment,
		fits: soaks.flatMap((s) => s.fits),
		uptake: mean(soaks.map((s) => s.uptake)),
		scatterVariance: spread.variance / soaks.length,
		degreesOfFreedom: spread.degreesOfFreedom,
		spread: "between soaks",
		scatterFrom: "soaks",
		shared,
	};
}
