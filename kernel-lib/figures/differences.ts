import type { Comparison, TreatmentVerdict } from "../compare";
import type { Arrow, Figure, Layer, Point } from "./description";
import { figure } from "./figure";
import { countOf, roundedInterval, roundedTo, signed } from "./words";

const unit = "mg/g";

/** The word as it stands at the end of a row; without a scatter to judge by it says no more than the measuring error allows. */
function wordOf(verdict: TreatmentVerdict, comparison: Comparison): string {
	return comparison.scope === "measuring error only" &&
		(verdict.word === "higher" || verdict.word === "lower")
		? `${verdict.word} than measuring error explains`
		: verdict.word;
}

function differenceWords({ difference }: TreatmentVerdict): string {
	switch (difference.is) {
		case "estimate": {
			const r = roundedInterval(
				difference.estimate,
				difference.low,
				difference.high,
			);
			return `${signed(r.value)} ${unit} (${signed(r.low)} to ${signed(r.high)})`;
		}
		case "at least":
		case "at most":
			return `${difference.is} ${signed(roundedTo(difference.limit, 0))} ${unit}`;
		case "not available":
			return `no difference available: ${difference.because}`;
	}
}

/**
 * Treated minus control for every treatment: the estimate with its simultaneous 95 % interval (or the limit as an arrow), the line of no difference, the margin as a shaded zone, and the word
 * of the verdict at the end of the row.
 */
export function differences(comparison: Comparison): Figure {
	const { verdicts } = comparison;
	const margin = comparison.margin.in("mg/g");
	const severalControls = new Set(verdicts.map((v) => v.control)).size > 1;
	const names = verdicts.map((v) =>
		severalControls ? `${v.treatment} against ${v.control}` : v.treatment,
	);
	const words = verdicts.map((v) => wordOf(v, comparison));
	const hovers = verdicts.map(
		(v, i) =>
			`${v.treatment} minus ${v.control}\n${differenceWords(v)}\n${words[i]}`,
	);
	const points: Point[] = [];
	const arrows: Arrow[] = [];
	const labels: { x: number; y: number; text: string }[] = [];
	verdicts.forEach(({ difference }, row) => {
		if (difference.is === "estimate")
			points.push({
				x: difference.estimate,
				y: row,
				xInterval: { low: difference.low, high: difference.high },
				hover: hovers[row],
			});
		else if (difference.is === "not available")
			labels.push({ x: 0, y: row, text: "not available" });
		else
			arrows.push({
				x: difference.limit,
				y: row,
				towards: difference.is === "at least" ? "right" : "left",
				label: difference.is,
				hover: hovers[row],
			});
	});
	const layers: Layer[] = [
		{
			is: "zone",
			name: "",
			axis: "x",
			from: -margin,
			to: margin,
			label: `less than ±${roundedTo(margin, 0)} ${unit} does not matter`,
			ink: "quiet",
		},
		{
			is: "reference line",
			name: "",
			axis: "x",
			at: 0,
			label: "",
			ink: "quiet",
			dash: "solid",
		},
		{
			is: "points",
			name: "difference, simultaneous 95 % interval",
			ink: "blue",
			shape: "circle",
			size: "large",
			points,
		},
	];
	if (arrows.length > 0)
		layers.push({ is: "arrows", name: "only a limit", ink: "rust", arrows });
	if (labels.length > 0) layers.push({ is: "labels", labels });
	const control = severalControls
		? "the control"
		: (verdicts[0]?.control ?? "control");
	return figure({
		title: `Difference in uptake from ${control}`,
		alt: `Difference in uptake, treated minus ${control}, of ${countOf(verdicts.length, "treatment")}, with simultaneous 95 % intervals; differences below ${roundedTo(margin, 0)} ${unit} do not matter. ${verdicts
			.map((v, i) => `${names[i]}: ${differenceWords(v)}, ${words[i]}`)
			.join("; ")}.`,
		x: {
			label: "Uptake, treated minus control",
			unit,
			scale: { is: "linear" },
		},
		y: {
			label: "",
			unit: "",
			scale: { is: "categories", names, ends: words },
		},
		layers,
		notes:
			comparison.scope === "measuring error only"
				? [
						"The intervals cover the measuring error only, not what differs from flask to flask or from soak to soak.",
					]
				: comparison.scope === "these lots"
					? [
							"One soak a treatment: the verdicts are about these lots, not about the treatments.",
						]
					: [],
	});
}
