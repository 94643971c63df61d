import type { Drying } from "../activation";
import type { Figure, Layer } from "./description";
import { figure } from "./figure";
import { countOf, roundedInterval, roundedTo } from "./words";

/** Points of the drawn curve. */
const steps = 60;

/** The final mass that the curve tends to, or why there is none. */
function curveText(curve: Drying["curve"]): string {
	if (curve.is === "not known") return `No curve: ${curve.because}.`;
	const { low, high } = curve.finalMassInterval;
	if (low.is === "not known" || high.is === "not known")
		return "The weighings set no firm final mass.";
	const span = roundedInterval(curve.finalMass, low.value, high.value);
	return `Final mass by the fit ${span.value} g (95 %: ${span.low} to ${span.high} g).`;
}

/**
 * Weighings of a drying (bars: k = 2), the fitted approach to constant mass as far as it takes to dry, and the predicted final mass with its 95 % interval as a band across. Without a fit the weighings stand alone
 * and the note says why.
 */
export function dryingCurve(dried: Drying): Figure {
	const { points, curve, firing } = dried;
	const layers: Layer[] = [];
	const lastHours = points.length === 0 ? 0 : points[points.length - 1].hours;
	if (curve.is === "fitted") {
		const { low, high } = curve.finalMassInterval;
		if (low.is === "value" && high.is === "value" && low.value > 0)
			layers.push({
				is: "zone",
				name: "final mass, 95 % interval",
				axis: "y",
				from: low.value,
				to: high.value,
				label: "",
				ink: "teal",
			});
		layers.push({
			is: "reference line",
			name: "final mass, fitted",
			axis: "y",
			at: curve.finalMass,
			label: "",
			ink: "teal",
			dash: "dashed",
		});
		// As far as the drying lasts by the best guess, but no more than as long again as it has lasted.
		const end = lastHours + Math.min(curve.moreHours, lastHours);
		const start = points[0].hours;
		layers.push({
			is: "line",
			name: "approach to constant mass, fitted",
			ink: "blue",
			dash: "solid",
			points: Array.from({ length: steps + 1 }, (_, i) => {
				const x = start + ((end - start) * i) / steps;
				return { x, y: curve.massAt(x) };
			}),
		});
	}
	layers.push({
		is: "points",
		name: "weighed",
		ink: "rust",
		shape: "circle",
		points: points.map((p) => ({
			x: p.hours,
			y: p.grams,
			yInterval: {
				low: p.grams - 2 * p.uncertainty,
				high: p.grams + 2 * p.uncertainty,
			},
			hover: `${roundedTo(p.hours, 0)} h in the oven\n${roundedTo(p.grams, 2 * p.uncertainty)} g`,
		})),
	});
	const masses = points
		.map(
			(p) =>
				`${roundedTo(p.hours, 0)} h: ${roundedTo(p.grams, 2 * p.uncertainty)} g`,
		)
		.join("; ");
	const note = curveText(curve);
	return figure({
		title: `Drying of ${firing.name}: ${dried.verdict}`,
		alt: `Mass of ${firing.name} at ${countOf(points.length, "weighing")}. ${masses}. ${note} ${dried.rule.sentence}`,
		x: { label: "Time in the oven", unit: "h", scale: { is: "linear" } },
		y: { label: "Mass", unit: "g", scale: { is: "linear" } },
		layers,
		notes: [note, dried.rule.sentence],
	});
}
