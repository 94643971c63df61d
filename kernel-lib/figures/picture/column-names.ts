import type { Axis } from "../description";
import { leading, typeSize } from "../look";
import { textWidth, wordsFit, wrapped } from "../text";
import { type PlacedText, plainText, stacked } from "./placed-text";

/** Names under a category x axis: level where their words fit the width of a category, else turned. */
export function columnNames(
	axis: Axis,
	band: number,
	place: (value: number) => number,
	top: number,
): { readonly texts: PlacedText[]; readonly bottom: number } {
	if (axis.scale.is !== "categories") return { texts: [], bottom: top };
	const size = typeSize.tick;
	const step = size * leading;
	const names = axis.scale.names;
	const room = band - 6;
	const level = names.map((n) => wrapped(n, room, size, false, 5));
	const texts: PlacedText[] = [];
	if (
		// Wide categories hold any name, if need be with a word broken.
		band >= 110 ||
		names.every((n, i) => wordsFit(n, room, size) && level[i].length <= 4)
	) {
		let bottom = top;
		level.forEach((lines, i) => {
			const block = stacked(lines, place(i), top, {
				anchor: "middle",
				role: "category",
				whole: names[i],
			});
			texts.push(...block.texts);
			bottom = Math.max(bottom, block.bottom);
		});
		return { texts, bottom };
	}
	const most = Math.max(1, Math.min(3, Math.floor(room / step)));
	const longest = 130;
	let bottom = top;
	names.forEach((n, i) => {
		const lines = wrapped(n, longest, size, false, most);
		lines.forEach((line, j) => {
			texts.push(
				plainText(
					place(i) + (j - (lines.length - 1) / 2) * step + 0.3 * size,
					top,
					line,
					{ anchor: "end", turned: true, role: "category", whole: n },
				),
			);
			bottom = Math.max(bottom, top + textWidth(line, size));
		});
	});
	return { texts, bottom };
}
