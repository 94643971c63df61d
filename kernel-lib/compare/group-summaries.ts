import { studentTQuantile } from "../stats";
import { contrastErrors } from "./contrast-errors";
import { unitsAtLimit } from "./contrasts";
import type { Ground } from "./differences";
import { meanResidue } from "./residues";
import type { GroupSummary } from "./verdict";

/** Each treatment that still has flasks: its mean at the residue of the comparison (not adjusted for days) with an interval of its own, for drawing. Scatter and shared inputs are both in it. `at`: the residue of the comparison, mg/L; without one each stands at its own. */
export function groupSummaries(
	treatments: readonly string[],
	{ observations, unitModel, spread }: Ground,
	confidence: number,
	at?: number,
): GroupSummary[] {
	const { list } = observations;
	return treatments
		.filter((t) => list.some((o) => o.treatment === t))
		.map((treatment) => {
			const units = unitsAtLimit(list, treatment, unitModel.level);
			const errors = contrastErrors(
				units.map((unit) => ({ unit, weight: 1 / units.length })),
				observations,
				spread,
			);
			const mean = units.reduce((s, u) => s + u.mean, 0) / units.length;
			const halfWidth =
				errors.variance > 0
					? studentTQuantile((1 + confidence) / 2, errors.degreesOfFreedom) *
						Math.sqrt(errors.variance)
					: 0;
			const left = meanResidue(list, treatment, unitModel.level).value;
			const own = list.filter((o) => o.treatment === treatment);
			const sides = new Set(own.map((o) => o.side));
			const [only] = sides;
			return {
				treatment,
				units: units.length,
				flasks: own.length,
				boundFlasks: own.filter((o) => o.side !== "value").map((o) => o.name),
				mean,
				low: mean - halfWidth,
				high: mean + halfWidth,
				residue: at ?? left,
				left,
				is: sides.size === 1 ? only : "value",
			};
		});
}
