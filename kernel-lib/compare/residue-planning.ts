import type { CurveEstimate } from "./curve-estimate";
import type { Judgement } from "./judgement";
import { mostUnits, safeCriticalValue, spreadToReckonWith } from "./planning";
import { withoutNumber } from "./replicates";
import type { CurveDifference, CurveDifferences } from "./residue-differences";
import type { Replicates, VerdictScope } from "./verdict";

export interface ResiduePlan {
	readonly differences: CurveDifferences;
	readonly scope: VerdictScope;
	readonly confidence: number;
}

/** Scatter to reckon with: the upper 80 % limit of what was seen about each curve. */
function reckonedVariance({ treated, control }: CurveDifference): number {
	return [treated, control].reduce((sum, c) => {
		const upper = Number.isFinite(c.degreesOfFreedom)
			? spreadToReckonWith(1, c.degreesOfFreedom)
			: 1;
		return sum + c.scatterVariance * upper ** 2;
	}, 0);
}

/** Full width of the simultaneous interval with so many times the flasks of this trial, at the same doses. */
function fullWidth(d: CurveDifference, times: number, g: ResiduePlan): number {
	const fewest = Math.min(
		d.treated.degreesOfFreedom,
		d.control.degreesOfFreedom,
	);
	const critical = safeCriticalValue(
		g.differences.family.length,
		fewest * times,
		g.confidence,
	);
	return (
		2 * critical * Math.sqrt(reckonedVariance(d) / times + d.sharedVariance)
	);
}

function timesThatDecide(
	d: CurveDifference,
	margin: number,
	g: ResiduePlan,
): number {
	for (let times = 1; times <= mostUnits; times += times < 20 ? 1 : 10)
		if (fullWidth(d, times, g) <= margin) return times;
	return Number.POSITIVE_INFINITY;
}

/** Soaks behind an uptake: its curves, or the flasks of the one curve, each with a soak of its own. */
function soaksOf({ fits, soaks, spread }: CurveEstimate): number {
	return spread === "between soaks" ? soaks : fits[0].used.length;
}

/** What would tell, by the margin and the scatter; the difference just observed plays no part. */
export function replicatesAtResidue(j: Judgement, g: ResiduePlan): Replicates {
	if (j.word !== "cannot tell") return { is: "enough" };
	if (j.obstacles.length > 0 || j.difference.is !== "interval")
		return { is: "not given", why: { is: "other obstacle" } };
	if (j.margin.is === "not known" || j.ground.claim !== "difference")
		return withoutNumber(j);
	const d = g.differences.family[j.difference.index];
	const times = timesThatDecide(d, j.margin.value, g);
	if (!Number.isFinite(times))
		return {
			is: "not given",
			why:
				d.sharedVariance > reckonedVariance(d) / mostUnits
					? {
							is: "errors of the curves",
							effect: Math.sqrt(d.sharedVariance),
						}
					: { is: "too many times the flasks", most: mostUnits },
		};
	const about = d.treated.spread === "between soaks" ? "soaks" : "flasks";
	return g.scope === "treatment"
		? {
				is: "number",
				units: Math.ceil(times * soaksOf(d.treated)),
				from: { is: "scatter about isotherms", of: about, times },
			}
		: {
				is: "at least",
				units: Math.max(2, times),
				from: { is: "scatter about isotherms", of: about, times },
			};
}
