import { fit as fitCurve } from "../fit";
import { slopeAt } from "./deviations";
import type { IsothermPoints } from "./isotherm-points";
import { derivativesAt, type Isotherm } from "./isotherms";
import type { RawFit, ResidueFitOptions } from "./residue-fit";
import { effectsOn } from "./shared-errors";

/**
 * The ordinary fit: uptake on concentration, every point alike, as if the concentrations were known exactly. Flasks that ran dry have no place in it. Kept for plain published points and to show
 * what it makes of data whose two coordinates come from one titre.
 */
export function fitUptakes(
	isotherm: Isotherm,
	points: IsothermPoints,
	{ engine, confidence }: Pick<ResidueFitOptions, "engine" | "confidence">,
): RawFit {
	const used = points.points.filter((p) => p.is === "reading");
	const found = fitCurve(
		isotherm.model,
		{
			x: used.map((p) => p.concentration),
			y: used.map((p) => p.uptake),
			unitX: "mg/L",
			unitY: "mg/g",
		},
		{ ...engine, confidence },
	);
	const scale = found.residualSD.kind === "known" ? found.residualSD.value : 1;
	return {
		fits: [found],
		combined: found,
		index: [isotherm.model.parameters.map((_, j) => j)],
		used,
		expected: found.fitted,
		deviations: new Float64Array(used.length).fill(scale),
		weights: new Float64Array(used.length).fill(1),
		rows: used.map((p) => ({
			gradient: derivativesAt(isotherm, found.theta, p.concentration),
			perConcentration: -slopeAt(isotherm, found.theta, p.concentration),
			perUptake: 1,
		})),
		effects: effectsOn(used, [points]),
		variance: scale ** 2,
		besideEngine: 1,
		degreesOfFreedom: found.degreesOfFreedom,
		scale,
		scaleFrom: "scatter",
	};
}
