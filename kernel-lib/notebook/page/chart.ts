/** A figure on a page: a still picture that is always there, and on a screen that is wide enough the interactive form, laid out alike, for readers whose browser runs scripts. */
import { type FigureDescription, figureSvg, plotlyFigure } from "../../figures";
import { escapeHtml } from "../../quantity";
import { flasksDrawn, flasksMarkup } from "./figure-links";

export interface Chart {
	readonly html: string;
	/** What the page's script draws. */
	readonly data: {
		readonly alt: string;
		readonly light: unknown;
		readonly dark: unknown;
		/** Address of each flask that is drawn, by its name: where a press on its point leads. */
		readonly flasks: Readonly<Record<string, string>>;
	};
}

/** Width of the picture for a phone, px. */
const narrow = 360;

function address(svg: string): string {
	return `data:image/svg+xml;base64,${Buffer.from(svg, "utf8").toString("base64")}`;
}

/**
 * The picture alone. It is an image, not markup: whatever a notebook holds, nothing in it can run.
 * @param size of the picture on a wide screen, px, and of its plot on any; as usual if not given
 */
export function stillMarkup(
	description: FigureDescription,
	{ width, plotHeight }: { width?: number; plotHeight?: number } = {},
): string {
	const still = address(figureSvg(description, { width, plotHeight }));
	const small = address(figureSvg(description, { width: narrow, plotHeight }));
	return `<picture class="still"><source media="(max-width: 599.98px)" srcset="${small}"><img src="${still}" alt="${escapeHtml(description.alt)}"></picture>`;
}

/** The still picture, and what the page's script puts in its place. */
export function chartOf(
	description: FigureDescription,
	addressOf: (flask: string) => string,
): Chart {
	const flasks = flasksDrawn(description, addressOf);
	// The still picture has its notes in it; the interactive form has no place for them.
	const notes =
		description.notes.length === 0
			? ""
			: `<figcaption class="live">${description.notes.map(escapeHtml).join("<br>")}</figcaption>`;
	return {
		html: `<figure class="chart">${stillMarkup(description)}${notes}</figure>${flasksMarkup(flasks)}`,
		data: {
			alt: description.alt,
			light: plotlyFigure(description, "light"),
			dark: plotlyFigure(description, "dark"),
			flasks: Object.fromEntries(flasks),
		},
	};
}
