import type { Drying, DryingPoint } from "../activation";
import { confidenceText } from "../isotherms";
import { quoted } from "../quantity";
import type { Figure, Layer } from "./description";
import { errorBar } from "./error-bar";
import { figure } from "./figure";
import { countOf, roundedInterval, roundedTo } from "./words";

/** Points of the drawn curve. */
const steps = 60;

type Fitted = Extract<Drying["curve"], { is: "fitted" }>;

function finalMassLayers(curve: Fitted): Layer[] {
	const { finalMass, finalMassInterval } = curve;
	const { low, high } = finalMassInterval;
	return [
		...(low.is === "value" && high.is === "value" && low.value > 0
			? [
					{
						is: "zone" as const,
						name: `final mass, ${confidenceText(curve.confidence)} interval`,
						axis: "y" as const,
						from: low.value,
						to: high.value,
						label: "",
						ink: "teal" as const,
					},
				]
			: []),
		{
			is: "reference line",
			name: "final mass, fitted",
			axis: "y",
			at: finalMass,
			label: "",
			ink: "teal",
			dash: "dashed",
		},
	];
}

/** As far as the drying lasts by the best guess, but no more than as long again as it has lasted. */
function curveLayer(curve: Fitted, points: Drying["points"]): Layer {
	const start = points[0].hours;
	const last = points[points.length - 1].hours;
	const end = last + Math.min(curve.moreHours, last);
	return {
		is: "line",
		name: "approach to constant mass, fitted",
		ink: "blue",
		dash: "solid",
		points: Array.from({ length: steps + 1 }, (_, i) => {
			const x = start + ((end - start) * i) / steps;
			return { x, y: curve.massAt(x) };
		}),
	};
}

function massText(p: DryingPoint): string {
	return `${roundedTo(p.grams, 2 * p.uncertainty)} g`;
}

function weighedLayer(points: Drying["points"]): Layer {
	return {
		is: "points",
		name: "weighed",
		ink: "rust",
		shape: "circle",
		points: points.map((p) => ({
			x: p.hours,
			y: p.grams,
			yInterval: errorBar(p.grams, p.uncertainty),
			hover: `${roundedTo(p.hours, 0)} h in the oven\n${massText(p)}`,
		})),
	};
}

/** What the curve says of the final mass, or why there is none. */
function outcomeOf({ curve }: Drying): string {
	if (curve.is === "not known") return `No curve: ${curve.because}.`;
	const { low, high } = curve.finalMassInterval;
	if (low.is === "not known" || high.is === "not known")
		return "The weighings set no firm final mass.";
	const r = roundedInterval(curve.finalMass, low.value, high.value);
	return `Final mass by the fit ${r.value} g (${confidenceText(curve.confidence)}: ${r.low} to ${r.high} g).`;
}

/**
 * Weighings of a drying (bars: 95 %), the fitted approach to constant mass as far as it takes to dry, and the predicted final mass with its interval as a band across. Without a fit the weighings stand alone
 * and the note says why.
 */
export function dryingCurve(dried: Drying): Figure {
	const { points, curve, firing, rule } = dried;
	const outcome = outcomeOf(dried);
	const masses = points
		.map((p) => `${roundedTo(p.hours, 0)} h: ${massText(p)}`)
		.join("; ");
	return figure({
		title: `Drying of ${quoted(firing.name)}: ${dried.verdict}`,
		alt: `Mass of ${quoted(firing.name)} at ${countOf(points.length, "weighing")}. ${masses}. ${outcome} ${rule.sentence}`,
		x: { label: "Time in the oven", unit: "h", scale: { is: "linear" } },
		y: { label: "Mass", unit: "g", scale: { is: "linear" } },
		layers: [
			...(curve.is === "fitted"
				? [...finalMassLayers(curve), curveLayer(curve, points)]
				: []),
			weighedLayer(points),
		],
		notes: [outcome, rule.sentence],
	});
}
