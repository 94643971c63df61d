import { mean } from "../stats";
import type { CurveEstimate } from "./curve-estimate";
import type { SpreadRule } from "./settings";
import { moderated, noSpread, type Spread, scatterOf } from "./spread";

/**
 * How far the curves of soaks of one treatment lie apart at the stated residue, by treatment; it holds the scatter about each curve already. Where soaks happen to agree better than the scatter about their curves allows,
 * that scatter is the least that is believed. Each treatment's variance is its own, drawn to the pooled one. No degrees of freedom where no treatment had several soaks with curves.
 *
 * @param used degrees of freedom that days, told by how the soaks of a treatment differ, have used up
 */
export function soakSpreadOf(
	treatments: ReadonlyMap<string, readonly CurveEstimate[]>,
	rule: SpreadRule,
	used: ReadonlyMap<string, number> = new Map(),
): Spread {
	const several = [...treatments].filter(([, soaks]) => soaks.length > 1);
	if (several.length === 0) return noSpread;
	const leastOf = (soaks: readonly CurveEstimate[]): number =>
		mean(soaks.map((s) => s.scatterVariance));
	const own = several.map(([treatment, soaks]) => {
		const middle = mean(soaks.map((s) => s.uptake));
		return {
			treatment,
			degreesOfFreedom: soaks.length - 1 - (used.get(treatment) ?? 0),
			squares: soaks.reduce((sum, s) => sum + (s.uptake - middle) ** 2, 0),
			readings: leastOf(soaks),
		};
	});
	return moderated(
		own,
		{
			degreesOfFreedom: own.reduce((sum, g) => sum + g.degreesOfFreedom, 0),
			readings: leastOf(several.flatMap(([, soaks]) => soaks)),
		},
		rule,
	);
}

/** The uptake of a treatment as the mean of its soaks, each of which counts once; a single soak borrows the spread of the others. */
export function overSoaks(
	treatment: string,
	soaks: readonly CurveEstimate[],
	spread: Spread,
): CurveEstimate {
	const shared = new Map<string, number>();
	for (const s of soaks)
		for (const [key, effect] of s.shared)
			shared.set(key, (shared.get(key) ?? 0) + effect / soaks.length);
	const { variance, denominator } = scatterOf(
		spread,
		new Map([[treatment, 1 / soaks.length]]),
	);
	return {
		treatment,
		fits: soaks.flatMap((s) => s.fits),
		uptake: mean(soaks.map((s) => s.uptake)),
		scatterVariance: variance,
		degreesOfFreedom:
			denominator > 0 ? variance ** 2 / denominator : spread.degreesOfFreedom,
		spread: "between soaks",
		soaks: soaks.length,
		scatterFrom: "soaks",
		shared,
	};
}
