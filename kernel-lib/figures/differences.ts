import {
	type Comparison,
	differencePlaces,
	requireComparison,
	type TreatmentVerdict,
} from "../compare";
import { confidenceText } from "../isotherms";
import {
	fixed,
	known,
	type MaybeKnown,
	notKnown,
	plainNumber,
	quoted,
} from "../quantity";
import { whyNoDifference } from "../words";
import type { Arrow, Figure, Interval, Layer, Point } from "./description";
import { differenceEnds, differenceStretch } from "./difference-stretch";
import { figure } from "./figure";
import { linearOver, onlyLimits } from "./flask-marks";
import { countOf, roundedTo, signed } from "./words";

const unit = "mg/g";

/** The word as it stands at the end of a row; without a scatter to judge by it says no more than the measuring error allows. */
function wordOf(verdict: TreatmentVerdict, comparison: Comparison): string {
	return comparison.scope === "measuring error only" &&
		(verdict.word === "higher" || verdict.word === "lower")
		? `${verdict.word} than measuring error explains`
		: verdict.word;
}

function differenceWords(verdict: TreatmentVerdict): string {
	const { difference } = verdict;
	switch (difference.is) {
		case "estimate": {
			const text = (value: number): string =>
				signed(fixed(value, differencePlaces(verdict)));
			return `${text(difference.estimate)} ${unit} (${text(difference.low)} to ${text(difference.high)})`;
		}
		case "at least":
		case "at most":
			return `${difference.is} ${signed(fixed(difference.limit, differencePlaces(verdict)))} ${unit}`;
		case "not available":
			return `no difference available: ${whyNoDifference(difference, verdict)}`;
	}
}

/** The rows of the figure: one treatment against its control each. */
interface Row {
	readonly verdict: TreatmentVerdict;
	readonly name: string;
	readonly word: string;
	readonly hover: string;
}

/** Whose difference it is, in a sentence. */
function rowWords(
	{ treatment, control }: TreatmentVerdict,
	severalControls: boolean,
): string {
	return severalControls
		? `${quoted(treatment)} against ${quoted(control)}`
		: quoted(treatment);
}

function rowsOf(comparison: Comparison, severalControls: boolean): Row[] {
	return comparison.verdicts.map((verdict) => {
		const { treatment, control } = verdict;
		const word = wordOf(verdict, comparison);
		return {
			verdict,
			name: severalControls ? `${treatment} against ${control}` : treatment,
			word,
			hover: `${treatment} minus ${control}\n${differenceWords(verdict)}\n${word}`,
		};
	});
}

/** The stretch that the axis is about; null for all that is drawn. */
function shownOf({ verdicts }: Comparison): Interval | null {
	return differenceStretch(
		verdicts.flatMap(({ margin }) =>
			margin.is === "value" ? [margin.value] : [],
		),
		verdicts.flatMap((v) => differenceEnds(v.difference)),
	);
}

/** The numbers of a row that does not lie on the axis as a whole; else what it is called by anyway. */
function labelOf(
	verdict: TreatmentVerdict,
	shown: Interval | null,
	usual: string,
): string {
	const isCut =
		shown !== null &&
		differenceEnds(verdict.difference).some(
			(v) => v < shown.low || v > shown.high,
		);
	return isCut ? differenceWords(verdict) : usual;
}

/** Estimates as points, limits as arrows, and a text where there is no difference. */
function differenceLayers(
	rows: readonly Row[],
	interval: string,
	shown: Interval | null,
): Layer[] {
	const points: Point[] = [];
	const arrows: Arrow[] = [];
	const labels: { x: number; y: number; text: string }[] = [];
	rows.forEach(({ verdict, hover }, y) => {
		const { difference } = verdict;
		if (difference.is === "estimate")
			points.push({
				x: difference.estimate,
				y,
				xInterval: { low: difference.low, high: difference.high },
				hover,
				label: labelOf(verdict, shown, ""),
			});
		else if (difference.is === "not available")
			labels.push({ x: 0, y, text: "no value" });
		else
			arrows.push({
				x: difference.limit,
				y,
				towards: difference.is === "at least" ? "right" : "left",
				label: labelOf(verdict, shown, difference.is),
				hover,
			});
	});
	return [
		{
			is: "points",
			name: `difference, simultaneous ${interval}`,
			ink: "blue",
			shape: "circle",
			size: "large",
			points,
		},
		...onlyLimits("rust", arrows),
		...(labels.length > 0 ? [{ is: "labels" as const, labels }] : []),
	];
}

/** The margin that all rows have in common, mg/g. */
function commonMargin({ verdicts }: Comparison): MaybeKnown<number> {
	const margins = new Set(
		verdicts.map(({ margin }) =>
			margin.is === "value" ? margin.value : "none",
		),
	);
	const [first] = margins;
	return margins.size === 1 && typeof first === "number"
		? known(first)
		: notKnown("the rows have no margin in common");
}

/** The stretch of differences that do not matter, where it is known, and the line of none. */
function marginLayers(margin: MaybeKnown<number>): Layer[] {
	const zone: Layer[] =
		margin.is === "value"
			? [
					{
						is: "zone",
						name: "",
						axis: "x",
						from: -margin.value,
						to: margin.value,
						label: `less than ${roundedTo(margin.value, 0)} ${unit} either way does not matter`,
						ink: "quiet",
					},
				]
			: [];
	return [
		...zone,
		{
			is: "reference line",
			name: "",
			axis: "x",
			at: 0,
			label: "",
			ink: "quiet",
			dash: "solid",
		},
	];
}

/** Why no stretch of differences that do not matter is shaded, where none is. */
function marginNotes(
	{ margin }: Comparison,
	zone: MaybeKnown<number>,
): string[] {
	if (zone.is === "value") return [];
	return margin.is === "percent of the control"
		? [
				`The margin, ${plainNumber(margin.percent)} % of the control, is not the same for all treatments and is not drawn.`,
			]
		: ["No margin was set: how large a difference would matter is not drawn."];
}

/** What the intervals leave out, where they leave something out. */
const scopeNotes: Readonly<Record<Comparison["scope"], readonly string[]>> = {
	"measuring error only": [
		"The intervals cover the measuring error only, not what differs from flask to flask or from soak to soak.",
	],
	"these lots": [
		"One soak a treatment: the verdicts are about these lots, not about the treatments.",
	],
	treatment: [],
};

/**
 * Treated minus control for every treatment: the estimate with its simultaneous interval (or the limit as an arrow), the line of no difference, the margin (where one was set) as a shaded zone, and the word
 * of the verdict at the end of the row. A bar that would make dots of the others is cut off at the edge, with its numbers. Margin and confidence are the comparison's own.
 * @example
 * const comparison = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * figures.differences(comparison).x.label // => "Uptake, treated minus control"
 */
export function differences(comparison: Comparison): Figure {
	requireComparison(comparison, "figures.differences");
	const { verdicts, probe } = comparison;
	const margin = commonMargin(comparison);
	const shown = shownOf(comparison);
	const interval = `${confidenceText(comparison.confidence)} interval`;
	const severalControls = new Set(verdicts.map((v) => v.control)).size > 1;
	const rows = rowsOf(comparison, severalControls);
	const control = severalControls
		? "the control"
		: quoted(verdicts[0]?.control ?? "control");
	return figure({
		title: `Uptake of ${probe}, difference from ${control}`,
		alt: `Difference in uptake of ${probe}, treated minus ${control}, of ${countOf(verdicts.length, "treatment")}, with simultaneous ${interval}s${margin.is === "value" ? `; differences below ${roundedTo(margin.value, 0)} ${unit} do not matter` : ""}. ${rows
			.map(
				(r) =>
					`${rowWords(r.verdict, severalControls)}: ${differenceWords(r.verdict)}, ${r.word}`,
			)
			.join("; ")}.`,
		x: {
			label: "Uptake, treated minus control",
			unit,
			scale: linearOver(shown),
		},
		y: {
			label: "",
			unit: "",
			scale: {
				is: "categories",
				names: rows.map((r) => r.name),
				ends: rows.map((r) => r.word),
			},
		},
		layers: [
			...marginLayers(margin),
			...differenceLayers(rows, interval, shown),
		],
		notes: [
			...scopeNotes[comparison.scope],
			...marginNotes(comparison, margin),
			...(shown === null
				? []
				: ["An arrowhead at the edge: the bar goes on beyond the axis."]),
		],
	});
}
