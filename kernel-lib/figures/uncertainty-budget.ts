import type { Figure } from "./description";
import { figure } from "./figure";
import { countOf } from "./words";

function percent(share: number): string {
	const text = (100 * share).toFixed(Math.abs(share) < 0.0995 ? 1 : 0);
	return `${text.replace("-", "−")} %`;
}

/**
 * Which input the uncertainty of a result comes from: one bar for each, largest first.
 *
 * @param rows share of the variance as a fraction of 1; correlated inputs may have negative ones
 * @param title what the budget is of, e.g. "Uptake of flask 4: where its uncertainty comes from"
 */
export function budgetBars(
	rows: readonly { readonly name: string; readonly share: number }[],
	title: string,
): Figure {
	const sorted = [...rows].sort((a, b) => b.share - a.share);
	return figure({
		title,
		alt: `${title}. Share of the variance of ${countOf(sorted.length, "input")}, largest first. ${sorted
			.map((r) => `${r.name}: ${percent(r.share)}`)
			.join("; ")}.`,
		x: {
			label: "Share of the variance",
			unit: "%",
			scale: { is: "linear", zero: true },
		},
		y: {
			label: "",
			unit: "",
			scale: { is: "categories", names: sorted.map((r) => r.name) },
		},
		layers: [
			{
				is: "bars",
				name: "",
				ink: "blue",
				hatch: "plain",
				along: "x",
				width: 0.62,
				bars: sorted.map((r, at) => ({
					at,
					from: 0,
					to: 100 * r.share,
					hover: `${r.name}\n${percent(r.share)} of the variance`,
					label: percent(r.share),
				})),
			},
		],
		notes: [],
	});
}
