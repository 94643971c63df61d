import { confidenceText, type RepeatedWay, type Repeats } from "../isotherms";
import { requireOptions, textOption } from "../quantity";
import type { Figure, Point } from "./description";
import { figure } from "./figure";
import { countOf, roundedInterval, roundedTo } from "./words";

export interface EstimatesOptions {
	readonly title?: string;
}

const unit = "mg/g";

function percent(share: number): string {
	return `${Math.round(100 * share)} %`;
}

function wayWords(
	{ median, low, high, covered }: RepeatedWay,
	confidence: string,
): string {
	const r = roundedInterval(median, low, high);
	return `median ${r.value} ${unit}, ${confidence} of the trials between ${r.low} and ${r.high} ${unit}; its ${confidence} interval held the truth in ${percent(covered)} of trials`;
}

/**
 * Plateaus from many repeats of a trial against the one that was put in: the median of each way to read it off, a bar over the middle 95 % of its estimates (or what else the repeats' confidence is), the truth as a line, and at the end of the row how often the way's own
 * interval held the truth. A way that is right has its point on the line, a short bar, and that confidence at the end.
 *
 * @throws ProblemError for options that it does not have
 */
export function estimatesAgainstTruth(
	repeats: Repeats,
	options: EstimatesOptions = {},
): Figure {
	requireOptions(options, { title: textOption }, "figures.straightLines");
	const { title = "What each way makes of the same trials" } = options;
	const { ways, trials, truth } = repeats;
	const confidence = confidenceText(repeats.confidence);
	const words = ways.map((w) => wayWords(w, confidence));
	const label = "Plateau q_max";
	return figure({
		title,
		alt: `${title}. ${label} in ${countOf(trials, "simulated trial")}; the true value is ${roundedTo(truth.plateau, 0)} ${unit}. ${ways
			.map((w, i) => `${w.name}: ${words[i]}`)
			.join(". ")}.`,
		x: { label, unit, scale: { is: "linear" } },
		y: {
			label: "",
			unit: "",
			scale: {
				is: "categories",
				names: ways.map((w) => w.name),
				ends: ways.map((w) => percent(w.covered)),
			},
		},
		layers: [
			{
				is: "reference line",
				name: "",
				axis: "x",
				at: truth.plateau,
				label: "true value",
				ink: "text",
				dash: "dashed",
			},
			{
				is: "points",
				name: `median, and the middle ${confidence} of the trials`,
				ink: "blue",
				shape: "circle",
				size: "large",
				points: ways.map(
					({ name, median, low, high }, row): Point => ({
						x: median,
						y: row,
						xInterval: { low, high },
						hover: `${name}\n${words[row]}`,
					}),
				),
			},
		],
		notes: [
			`At the right: in how many trials the method's own ${confidence} interval held the true value. It should be ${confidence}.`,
		],
	});
}
