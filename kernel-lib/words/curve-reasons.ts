import {
	type Comparison,
	type CurveUptake,
	residueText,
	type TreatmentVerdict,
} from "../compare";
import { decimalsFor, fixed, quoted } from "../quantity";
import { percent, sentence } from "./wording";

function heldText(
	{ treatment, uptake, low, high, fits }: CurveUptake,
	residue: number,
	confidence: number,
	probe: string,
): string {
	const places = Math.max(0, decimalsFor((high - low) / 2));
	const read = fits
		.flatMap((f) => f.used)
		.filter((p) => p.is === "reading").length;
	const from = Math.max(...fits.map((f) => f.range.low));
	const to = Math.min(...fits.map((f) => f.range.high));
	const on =
		fits.length === 1
			? `its ${fits[0].isotherm.name} isotherm`
			: `the ${fits[0].isotherm.name} isotherms of its ${fits.length} soaks`;
	return `${quoted(treatment)} holds ${fixed(uptake, places)} mg/g of ${probe} at ${residueText(residue)} on ${on} (its own ${percent(confidence)} interval ${fixed(low, places)} to ${fixed(high, places)}), from ${read} flasks that left ${residueText(from)} to ${residueText(to)}.`;
}

/** What each side holds on its curve at the stated residue, and what a reader should know of that curve. */
export function curveReasons(c: Comparison, v: TreatmentVerdict): string[] {
	const { at, method, confidence } = c;
	if (at.is !== "isotherms" || method.is !== "isotherms") return [];
	return [v.treatment, v.control].flatMap((t) =>
		method.curves
			.filter((curve) => curve.treatment === t)
			.flatMap((curve) => [
				heldText(curve, at.residue.in("mg/L"), confidence, c.probe),
				...curve.fits.flatMap((f) =>
					f.opinion.map((o) =>
						sentence(`The isotherm of ${quoted(f.points.name)}: ${o}`),
					),
				),
			]),
	);
}
