import { type Fit, type FitOptions, fit as fitCurve } from "../fit";
import { derivativesAt, type Isotherm } from "./catalogue/index";
import { slopeAt } from "./deviations";
import {
	mostEvaluationsAgain,
	movedPoint,
	oneStandardError,
} from "./moved-points";
import type { IsothermPoint, IsothermPoints } from "./points";
import { type RawFit, type ResidueFitOptions, startingFrom } from "./raw-fit";
import { effectsOn, type Row, shiftsOf } from "./shared-errors";

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
	const effects = effectsOn(used, [points]);
	const found = fitPoints(isotherm, used, "estimated", {
		...engine,
		confidence,
	});
	const scale = found.residualSD.is === "value" ? found.residualSD.value : 1;
	const rowsAt = (
		at: readonly IsothermPoint[],
		theta: Float64Array,
		size: number,
	): Row[] =>
		at.map((p) => ({
			gradient: derivativesAt(isotherm, theta, p.concentration).map(
				(d) => d / size,
			),
			perConcentration: -slopeAt(isotherm, theta, p.concentration) / size,
			perUptake: 1 / size,
		}));
	return {
		fits: [found],
		combined: found,
		index: [isotherm.model.parameters.map((_, j) => j)],
		used,
		expected: found.fitted,
		deviations: new Float64Array(used.length).fill(scale),
		weights: new Float64Array(used.length).fill(1),
		rows: rowsAt(used, found.theta, 1),
		effects,
		variance: scale ** 2,
		besideEngine: 1,
		degreesOfFreedom: found.degreesOfFreedom,
		scale,
		scaleFrom: "scatter",
		refit: (amounts, reach) => {
			const there = used.map((p, i) => movedPoint(p, effects, amounts, i));
			const size = scale > 0 ? scale : 1e-6;
			const fit = fitPoints(isotherm, there, reach * size, {
				...startingFrom(engine, found),
				search: "never",
				confidence: oneStandardError,
				maxEvaluations: mostEvaluationsAgain,
			});
			return {
				fit,
				shifts: () =>
					shiftsOf(fit, effects, rowsAt(there, fit.theta, size), reach ** 2),
			};
		},
	};
}

/** One call of the engine; the scatter (mg/g) is estimated or given. */
function fitPoints(
	isotherm: Isotherm,
	used: readonly IsothermPoint[],
	scatter: "estimated" | number,
	engine: FitOptions,
): Fit {
	return fitCurve(
		isotherm.model,
		{
			x: used.map((p) => p.concentration),
			y: used.map((p) => p.uptake),
			unitX: "mg/L",
			unitY: "mg/g",
			...(scatter === "estimated"
				? {}
				: { sigmaY: scatter, sigmaIsAbsolute: true }),
		},
		engine,
	);
}
