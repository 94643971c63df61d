import { decimalsFor, fixed } from "../quantity";
import { studentTQuantile } from "../stats";
import type { CurveOrNot } from "./curve-estimate";
import { combinedDegrees, estimateVariance } from "./curve-variance";
import type { Pair } from "./pairs";
import { residueText } from "./stated-residue";
import { percent, sentence } from "./words";

/** What each side holds on its curve, and what a reader should know of that curve. */
export function curveReasons(
	pair: Pair,
	curves: ReadonlyMap<string, CurveOrNot>,
	residue: number,
	alpha: number,
): string[] {
	return [pair.treatment, pair.control].flatMap((t) => {
		const curve = curves.get(t);
		if (curve?.is !== "estimate") return [];
		const { estimate } = curve;
		const { fits, uptake } = estimate;
		const half =
			studentTQuantile(1 - alpha / 2, combinedDegrees(estimate)) *
			Math.sqrt(estimateVariance(estimate));
		const places = Math.max(0, decimalsFor(half));
		const used = fits.flatMap((f) => f.used);
		const read = used.filter((p) => p.is === "reading").length;
		const low = Math.max(...fits.map((f) => f.range.low));
		const high = Math.min(...fits.map((f) => f.range.high));
		const on =
			fits.length === 1
				? `its ${fits[0].isotherm.name} isotherm`
				: `the ${fits[0].isotherm.name} isotherms of its ${fits.length} soaks`;
		return [
			`"${t}" holds ${fixed(uptake, places)} mg/g at ${residueText(residue)} on ${on} (its own ${percent(1 - alpha)} interval ${fixed(uptake - half, places)} to ${fixed(uptake + half, places)}), from ${read} flasks that left ${residueText(low)} to ${residueText(high)}.`,
			...fits.flatMap((f) =>
				f.opinion.map((o) =>
					sentence(`The isotherm of "${f.points.name}": ${o}`),
				),
			),
		];
	});
}
