import { studentTQuantile } from "../stats";
import type { CurveOrNot } from "./curve-estimate";
import { combinedDegrees, estimateVariance } from "./curve-variance";
import { groupSummaries } from "./group-summaries";
import type { Observations } from "./observations";
import { footingOf } from "./scope";
import type { GroupSummary } from "./verdict";

/** Each treatment as it enters: its uptake on the curve at the stated residue, with an interval of its own. A treatment without a curve stands as measured, at its own residue, with its measuring error alone. */
export function curveGroups(
	treatments: readonly string[],
	curves: ReadonlyMap<string, CurveOrNot>,
	observations: Observations,
	residue: number,
	alpha: number,
): GroupSummary[] {
	const without = treatments.filter((t) => curves.get(t)?.is !== "estimate");
	const asMeasured = groupSummaries(
		without,
		observations,
		{ ...footingOf(observations.list), level: "flask" },
		{ deviation: 0, degreesOfFreedom: 0, fromReadings: false },
		alpha,
	);
	return treatments.flatMap((treatment): GroupSummary[] => {
		const curve = curves.get(treatment);
		if (curve?.is !== "estimate")
			return asMeasured.filter((g) => g.treatment === treatment);
		const { estimate } = curve;
		const half =
			studentTQuantile(1 - alpha / 2, combinedDegrees(estimate)) *
			Math.sqrt(estimateVariance(estimate));
		const flasks = observations.list.filter((o) => o.treatment === treatment);
		return [
			{
				treatment,
				units: new Set(flasks.map((o) => o.flask.flask.soak)).size,
				flasks: flasks.length,
				// Bounds are in the curve as what they are; no group stands at one.
				boundFlasks: [],
				mean: estimate.uptake,
				low: estimate.uptake - half,
				high: estimate.uptake + half,
				residue,
				is: "value",
			},
		];
	});
}
