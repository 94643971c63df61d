import type { FigureDescription } from "./description";
import { figureSvg } from "./picture/svg";
import { xmlText } from "./text";

/** Type under which a figure's description travels in a notebook. */
export const figureMimeType = "application/vnd.charledger.figure+json";

/** Width of the picture for a phone, px. */
const narrow = 360;

function dataAddress(svg: string): string {
	return `data:image/svg+xml;base64,${Buffer.from(svg, "utf8").toString("base64")}`;
}

/** The static picture as HTML, in a wrapper that an interactive figure can take the place of. No scripts. */
export function figureHtml(description: FigureDescription): string {
	const picture = dataAddress(figureSvg(description));
	const small = dataAddress(figureSvg(description, { width: narrow }));
	return `<div class="charledger-figure"><picture><source media="(max-width: 599.98px)" srcset="${small}"><img src="${picture}" alt="${xmlText(description.alt)}" style="max-width:100%;height:auto"></picture></div>`;
}

/** Every form of one figure, so that each front end finds one that it can show. */
export function figureBundle(
	description: FigureDescription,
): Record<string, unknown> {
	return {
		[figureMimeType]: description,
		"text/html": figureHtml(description),
		"image/svg+xml": figureSvg(description),
		"text/plain": description.alt,
	};
}
