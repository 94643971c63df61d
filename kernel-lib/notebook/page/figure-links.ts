/** From the points of a figure to their flasks: what a reader sees on pointing at one names its flask in a line of its own. */
import type { FigureDescription, Layer } from "../../figures";
import { escapeHtml } from "../../quantity";

function hoversOf(layer: Layer): readonly string[] {
	switch (layer.is) {
		case "points":
			return layer.points.map((p) => p.hover);
		case "arrows":
			return layer.arrows.map((a) => a.hover);
		case "bars":
			return layer.bars.map((b) => b.hover);
		default:
			return [];
	}
}

/** The name behind "flask", whole or as far as a comma, whichever the page knows. */
function flaskIn(
	hover: string,
	addressOf: (flask: string) => string,
): readonly (readonly [name: string, address: string])[] {
	const line = hover.split("\n").find((l) => l.startsWith("flask "));
	const whole = line?.slice("flask ".length) ?? "";
	const name = [whole, whole.replace(/, .*$/, "")].find(
		(n) => n !== "" && addressOf(n) !== "",
	);
	return name === undefined ? [] : [[name, addressOf(name)]];
}

/** Address of every flask that a figure draws, by its name. */
export function flasksDrawn(
	{ layers }: FigureDescription,
	addressOf: (flask: string) => string,
): ReadonlyMap<string, string> {
	return new Map(
		layers.flatMap(hoversOf).flatMap((hover) => flaskIn(hover, addressOf)),
	);
}

/** The flasks of a figure as links, for whoever cannot press a point. */
export function flasksMarkup(flasks: ReadonlyMap<string, string>): string {
	if (flasks.size === 0) return "";
	const links = [...flasks].map(
		([name, address]) =>
			`<li><a href="${address}">flask ${escapeHtml(name)}</a></li>`,
	);
	return `<details class="screen-only"><summary>The ${flasks.size} flasks of this figure</summary><ul class="cells">${links.join("")}</ul></details>`;
}
