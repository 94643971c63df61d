/** A figure on a page: a still picture that is always there, and the interactive form for readers whose browser runs scripts. */
import {
	type FigureDescription,
	figureSvg,
	type NarrowLayout,
	narrowLayout,
	plotlyFigure,
} from "../../figures";
import { escapeHtml } from "../../quantity";

export interface Chart {
	readonly html: string;
	/** What the page's script draws. */
	readonly data: {
		readonly alt: string;
		readonly light: unknown;
		readonly dark: unknown;
		readonly narrow: NarrowLayout;
	};
}

const wide = 760;
const narrow = 360;

function address(svg: string): string {
	return `data:image/svg+xml;base64,${Buffer.from(svg, "utf8").toString("base64")}`;
}

/** The picture alone. It is an image, not markup: whatever a notebook holds, nothing in it can run. */
export function stillMarkup(description: FigureDescription): string {
	const still = (width: number): string =>
		address(figureSvg(description, { width, theme: "auto" }));
	return `<picture class="still"><source media="(max-width: 540px)" srcset="${still(narrow)}"><img src="${still(wide)}" alt="${escapeHtml(description.alt)}"></picture>`;
}

/** The still picture, and what the page's script puts in its place. */
export function chartOf(description: FigureDescription): Chart {
	// The still picture has its notes in it; the interactive form has no place for them.
	const notes =
		description.notes.length === 0
			? ""
			: `<figcaption class="live" hidden>${description.notes.map(escapeHtml).join("<br>")}</figcaption>`;
	return {
		html: `<figure class="chart">${stillMarkup(description)}${notes}</figure>`,
		data: {
			alt: description.alt,
			light: plotlyFigure(description, "light"),
			dark: plotlyFigure(description, "dark"),
			narrow: narrowLayout(description),
		},
	};
}
