import { budget, type Quantity, requireOptions, textOption } from "../quantity";
import type { Figure } from "./description";
import { figure } from "./figure";
import { countOf } from "./words";

export interface UncertaintyBudgetOptions {
	readonly title?: string;
}

function percent(share: number): string {
	const text = (100 * share).toFixed(Math.abs(share) < 0.0995 ? 1 : 0);
	return `${text.replace("-", "−")} %`;
}

/**
 * Shares of a variance as bars, largest first.
 *
 * @param rows share of the variance as a fraction of 1; correlated inputs may have negative ones
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

/**
 * Which input the uncertainty of a result comes from: a bar for each, largest first, as a share of the variance in %; by first order (JCGM 100:2008, clause 5).
 *
 * @throws ProblemError for options that it does not have
 * @example
 * const exactly = quantity.input("volume", 25, "mL", quantity.exact, {});
 * const mass = quantity.input("mass", 0.5, "g", quantity.normal(0.001), {});
 * figures.uncertaintyBudget(quantity.per(mass, exactly), { title: "Solution" }).title // => "Solution"
 */
export function uncertaintyBudget(
	quantity: Quantity,
	options: UncertaintyBudgetOptions = {},
): Figure {
	const { rows } = budget(quantity);
	const { meaning } = quantity.name;
	requireOptions(options, { title: textOption }, "figures.uncertaintyBudget");
	const {
		title = `Where the uncertainty${meaning === "" ? "" : ` of ${meaning}`} comes from`,
	} = options;
	return budgetBars(
		rows.map((r) => ({
			name: r.meaning === "" ? r.symbol : r.meaning,
			share: r.share,
		})),
		title,
	);
}
