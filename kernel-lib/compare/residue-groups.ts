import { studentTQuantile } from "../stats";
import type { CurveOrNot } from "./curve-estimate";
import { combinedDegrees, estimateVariance } from "./curve-variance";
import { groupSummaries } from "./group-summaries";
import type { Observations } from "./observations";
import { noSpread } from "./spread";
import { unitModelOf } from "./unit-model";
import type { CurveUptake, GroupSummary } from "./verdict";

/** The uptakes on the curves, each with an interval of its own. */
export function curveUptakes(
	curves: ReadonlyMap<string, CurveOrNot>,
	confidence: number,
): CurveUptake[] {
	return [...curves].flatMap(([treatment, curve]) => {
		if (curve.is !== "estimate") return [];
		const { estimate } = curve;
		const { uptake, scatterFrom, degreesOfFreedom, fits } = estimate;
		const half =
			studentTQuantile((1 + confidence) / 2, combinedDegrees(estimate)) *
			Math.sqrt(estimateVariance(estimate));
		return [
			{
				treatment,
				uptake,
				low: uptake - half,
				high: uptake + half,
				scatterFrom,
				degreesOfFreedom,
				fits,
			},
		];
	});
}

/** Each treatment as it enters: its uptake on the curve at the stated residue, with an interval of its own. A treatment without a curve stands as measured, at its own residue, with its measuring error alone. */
export function curveGroups(
	treatments: readonly string[],
	curves: ReadonlyMap<string, CurveOrNot>,
	observations: Observations,
	residue: number,
	confidence: number,
): GroupSummary[] {
	const without = treatments.filter((t) => curves.get(t)?.is !== "estimate");
	const asMeasured = groupSummaries(
		without,
		{
			observations,
			unitModel: { ...unitModelOf(observations.list), level: "flask" },
			spread: noSpread,
		},
		confidence,
	);
	const onCurve = new Map(
		curveUptakes(curves, confidence).map((c) => [c.treatment, c]),
	);
	return treatments.flatMap((treatment): GroupSummary[] => {
		const curve = onCurve.get(treatment);
		if (curve === undefined)
			return asMeasured.filter((g) => g.treatment === treatment);
		const flasks = observations.list.filter((o) => o.treatment === treatment);
		return [
			{
				treatment,
				units: new Set(flasks.map((o) => o.flask.flask.soak)).size,
				flasks: flasks.length,
				// Bounds are in the curve as what they are; no group stands at one.
				boundFlasks: [],
				mean: curve.uptake,
				low: curve.low,
				high: curve.high,
				residue,
				left:
					flasks.reduce(
						(sum, o) => sum + o.flask.residue.quantity.in("mg/L"),
						0,
					) / flasks.length,
				is: "value",
			},
		];
	});
}
