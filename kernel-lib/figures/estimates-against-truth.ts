import { confidenceText, type RepeatedWay, type Repeats } from "../isotherms";
import { listed, requireOptions, textOption } from "../quantity";
import type { Figure, Layer, Point } from "./description";
import { figure } from "./figure";
import { seriesLook } from "./look";
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

/** A set of repeats, and what it was made with; "" where there is one set. */
export type NamedRepeats = readonly [name: string, repeats: Repeats];

/** Marks of several sets lie so far apart in a row, of which 1 is the whole. */
const setsApart = 0.34;

function setLayer(
	[name, { ways, confidence }]: NamedRepeats,
	index: number,
	count: number,
): Layer {
	const { ink, shape } = seriesLook(index);
	const text = confidenceText(confidence);
	return {
		is: "points",
		name: name === "" ? `median, and the middle ${text} of the trials` : name,
		ink,
		shape,
		size: count === 1 ? "large" : "small",
		points: ways.map(
			(way, row): Point => ({
				x: way.median,
				y: row + (index - (count - 1) / 2) * setsApart,
				xInterval: { low: way.low, high: way.high },
				hover: `${way.name}\n${wayWords(way, text)}`,
			}),
		),
	};
}

function setWords([name, { ways, trials, confidence }]: NamedRepeats): string {
	const text = confidenceText(confidence);
	return `${name === "" ? "" : `With ${name}: `}${label} in ${countOf(trials, "simulated trial")}. ${ways
		.map((w) => `${w.name}: ${wayWords(w, text)}`)
		.join(". ")}.`;
}

/** The true value of each set, once where all have one. */
function truthLines(sets: readonly NamedRepeats[]): Layer[] {
	const truths = [...new Set(sets.map(([, s]) => s.truth.plateau))];
	return truths.map((at) => ({
		is: "reference line",
		name: "",
		axis: "x",
		at,
		label: "true value",
		ink: "text",
		dash: "dashed",
	}));
}

const label = "Plateau q_max";

/**
 * Plateaus from many repeats of a trial against the one that was put in: the median of each way to read it off, a bar over the middle 95 % of its estimates (or what else the repeats' confidence is), the truth as a line, and at the end of the row how often the way's own
 * interval held the truth. A way that is right has its point on the line, a short bar, and that confidence at the end. Several sets of repeats stand one under the other in each row.
 *
 * @throws ProblemError for options that it does not have
 */
export function estimatesAgainstTruth(
	sets: readonly NamedRepeats[],
	options: EstimatesOptions = {},
): Figure {
	requireOptions(options, { title: textOption }, "figures.straightLines");
	const { title = "What each way makes of the same trials" } = options;
	const [, first] = sets[0];
	const confidence = confidenceText(first.confidence);
	const truth = roundedTo(first.truth.plateau, 0);
	return figure({
		title,
		alt: `${title}. The true value is ${truth} ${unit}. ${sets.map(setWords).join(" ")}`,
		x: { label, unit, scale: { is: "linear" } },
		y: {
			label: "",
			unit: "",
			scale: {
				is: "categories",
				names: first.ways.map((w) => w.name),
				ends: first.ways.map((_, k) =>
					sets.map(([, s]) => percent(s.ways[k].covered)).join(", "),
				),
			},
		},
		layers: [
			...truthLines(sets),
			...sets.map((set, i) => setLayer(set, i, sets.length)),
		],
		notes: [
			`At the right: in how many trials the method's own ${confidence} interval held the true value${sets.length > 1 ? `, ${listed(sets.map(([name]) => name))} in this order` : ""}. It should be ${confidence}.`,
			...(sets.length > 1
				? [
						`Mark and bar: median, and the middle ${confidence} of the estimates.`,
					]
				: []),
		],
	});
}
