import { derivativesAt, type IsothermFit, uptakeAt } from "../isotherms";
import { dot } from "../linear";

/** A flask on its curve; all but the uptake over the standard deviation that weighs it. */
export interface CurveRow {
	readonly flask: string;
	/** Place among the points of the fit, which name their shared errors by it. */
	readonly point: number;
	/** mg/g: what the curve gives it. */
	readonly uptake: number;
	/** Residue that was read, less the one of the curve. */
	readonly residual: number;
	/** d(residue of the curve)/d(parameters). */
	readonly gradient: Float64Array;
	/** d(residual)/d(uptake) and d(residual)/d(concentration) of the point. */
	readonly perUptake: number;
	readonly perConcentration: number;
}

/** A fitted curve to first order about where it is. */
export interface CurveRows {
	/** Flasks whose residue was read. */
	readonly rows: readonly CurveRow[];
	/** (J'J)^-1 v over all points, those that ran dry among them. */
	readonly solved: (v: Float64Array) => Float64Array;
}

/** @returns no rows where the covariance of the parameters is not known, or the points lie exactly on the curve */
export function curveRows(fit: IsothermFit): CurveRows {
	const { isotherm, theta, scatterCovariance: covariance } = fit;
	const unit = fit.scaleFrom === "scatter" ? fit.scale ** 2 : 1;
	if (covariance.is === "not known" || !(unit > 0))
		return { rows: [], solved: (v) => v.map(() => 0) };
	const size = theta.length;
	const places = new Map(fit.points.points.map((p, i) => [p, i]));
	const rows = fit.used.flatMap((p, i): CurveRow[] => {
		if (p.is !== "reading" || p.balance.is === "not known") return [];
		const at = fit.expected[i];
		const slope = isotherm.slope(theta, at);
		const steepness = p.balance.slope + slope;
		const weight = fit.weights[i];
		return [
			{
				flask: p.flask,
				point: places.get(p) ?? -1,
				uptake: uptakeAt(isotherm, theta, at),
				residual: (p.concentration - at) / weight,
				gradient: derivativesAt(isotherm, theta, at).map(
					(d) => -d / steepness / weight,
				),
				perUptake: -1 / steepness / weight,
				perConcentration: slope / steepness / weight,
			},
		];
	});
	return {
		rows,
		solved: (v) =>
			Float64Array.from(
				{ length: size },
				(_, i) =>
					dot(covariance.value.subarray(i * size, (i + 1) * size), v) / unit,
			),
	};
}
