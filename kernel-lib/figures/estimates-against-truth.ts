import type { Figure, Point } from "./description";
import { figure } from "./figure";
import { countOf, roundedInterval, roundedTo } from "./words";

/** What one method made of many simulated trials. */
export interface SimulatedEstimates {
	readonly name: string;
	/** One estimate a trial. */
	readonly estimates: ArrayLike<number>;
	/** Share of trials (fraction of 1) in which the method's own 95 % interval held the true value. */
	readonly covered: number;
}

/** The value below which a share of the sorted numbers lies, by linear interpolation. */
function quantile(sorted: readonly number[], share: number): number {
	const at = share * (sorted.length - 1);
	const below = Math.floor(at);
	const above = Math.min(below + 1, sorted.length - 1);
	return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}

function percent(share: number): string {
	return `${Math.round(100 * share)} %`;
}

/**
 * Estimates of many simulated trials against the value that was put in: the median of each method, a bar over the middle 95 % of its estimates, the truth as a line, and at the end of the row how often the method's own 95 %
 * interval held the truth. A method that is right has its point on the line, a short bar, and 95 % at the end.
 *
 * @param what is estimated, with its unit
 * @throws RangeError for a method without estimates
 */
export function estimatesAgainstTruth(
	methods: readonly SimulatedEstimates[],
	truth: number,
	what: {
		readonly label: string;
		readonly unit: string;
		readonly title: string;
	},
): Figure {
	const rows = methods.map((m, row) => {
		const sorted = Array.from(m.estimates)
			.filter(Number.isFinite)
			.sort((a, b) => a - b);
		if (sorted.length === 0)
			throw new RangeError(
				`"${m.name}" has no estimate that is a finite number; leave the method out.`,
			);
		const middle = quantile(sorted, 0.5);
		const low = quantile(sorted, 0.025);
		const high = quantile(sorted, 0.975);
		const r = roundedInterval(middle, low, high);
		const words = `median ${r.value} ${what.unit}, 95 of 100 trials between ${r.low} and ${r.high} ${what.unit}; its 95 % interval held the truth in ${percent(m.covered)} of trials`;
		const point: Point = {
			x: middle,
			y: row,
			xInterval: { low, high },
			hover: `${m.name}\n${words}`,
		};
		return { name: m.name, words, point, end: percent(m.covered) };
	});
	const trials = Math.max(...methods.map((m) => m.estimates.length));
	return figure({
		title: what.title,
		alt: `${what.title}. ${what.label} in ${countOf(trials, "simulated trial")}; the true value is ${roundedTo(truth, 0)} ${what.unit}. ${rows
			.map((r) => `${r.name}: ${r.words}`)
			.join(". ")}.`,
		x: { label: what.label, unit: what.unit, scale: { is: "linear" } },
		y: {
			label: "",
			unit: "",
			scale: {
				is: "categories",
				names: rows.map((r) => r.name),
				ends: rows.map((r) => r.end),
			},
		},
		layers: [
			{
				is: "reference line",
				name: "",
				axis: "x",
				at: truth,
				label: "true value",
				ink: "text",
				dash: "dashed",
			},
			{
				is: "points",
				name: "median, and the middle 95 % of the trials",
				ink: "blue",
				shape: "circle",
				size: "large",
				points: rows.map((r) => r.point),
			},
		],
		notes: [
			"At the right: in how many trials the method's own 95 % interval held the true value. It should be 95 %.",
		],
	});
}
