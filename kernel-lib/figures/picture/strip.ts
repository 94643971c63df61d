import type { FigureDescription, Layer } from "../description";
import { typeSize } from "../look";
import { shortened, textWidth } from "../text";

/** Labels of vertical reference lines and zones, in lines above the plot, so that nothing in it is covered. */
export function strip(
	figure: FigureDescription,
	left: number,
	right: number,
	place: (value: number) => number,
): {
	readonly rows: number;
	readonly at: {
		readonly layer: Layer;
		readonly x: number;
		readonly row: number;
		readonly text: string;
		readonly whole: string;
	}[];
} {
	const size = typeSize.label;
	const wanted = figure.layers
		.flatMap((layer) => {
			if (
				(layer.is !== "reference line" && layer.is !== "zone") ||
				layer.axis !== "x" ||
				layer.label === ""
			)
				return [];
			const middle =
				layer.is === "zone"
					? (place(layer.from) + place(layer.to)) / 2
					: place(layer.at);
			return [{ layer, middle, whole: layer.label }];
		})
		// Lines first, next to the plot: a line that had to reach up to its label would cross those below.
		.sort(
			(a, b) => Number(a.layer.is === "zone") - Number(b.layer.is === "zone"),
		);
	const occupied: { from: number; to: number }[][] = [];
	const at = wanted.map(({ layer, middle, whole }) => {
		const text = shortened(whole, right - left, size);
		const half = textWidth(text, size) / 2;
		const x = Math.min(Math.max(middle, left + half), right - half);
		const from = x - half - 5;
		const to = x + half + 5;
		let row = occupied.findIndex((taken) =>
			taken.every((t) => to <= t.from || from >= t.to),
		);
		if (row < 0) row = occupied.push([]) - 1;
		occupied[row].push({ from, to });
		return { layer, x, row, text, whole };
	});
	return { rows: occupied.length, at };
}
