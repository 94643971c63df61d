import type { FigureDescription, Layer } from "../description";
import { keyLayers } from "../key-layers";
import { spacing, typeSize } from "../look";
import { shortened, textWidth } from "../text";
import { type PlacedText, plainText } from "./placed-text";

/** One line of the key: all layers of one name, such as a curve with its band and its points. */
export interface KeyEntry {
	readonly layers: readonly Layer[];
	readonly name: string;
	/** Middle of the glyph. */
	readonly x: number;
	readonly y: number;
}

const glyphWidth = 22;

/** The key, in as many lines as its entries need. */
export function keyRows(
	figure: FigureDescription,
	width: number,
	top: number,
): {
	readonly key: KeyEntry[];
	readonly texts: PlacedText[];
	readonly bottom: number;
} {
	const size = typeSize.legend;
	const rowHeight = 20;
	const key: KeyEntry[] = [];
	const texts: PlacedText[] = [];
	let x = spacing.edge;
	let y = top;
	for (const [whole, layers] of keyLayers(figure)) {
		const name = shortened(
			whole,
			width - 2 * spacing.edge - glyphWidth - 6,
			size,
		);
		const needed = glyphWidth + 6 + textWidth(name, size);
		if (x > spacing.edge && x + needed > width - spacing.edge) {
			x = spacing.edge;
			y += rowHeight;
		}
		key.push({ layers, name, x: x + glyphWidth / 2, y: y + rowHeight / 2 });
		texts.push(
			plainText(x + glyphWidth + 6, y + rowHeight / 2 + 0.35 * size, name, {
				size,
				role: "key",
				whole,
			}),
		);
		x += needed + 18;
	}
	return {
		key,
		texts,
		bottom: key.length === 0 ? top : y + rowHeight + spacing.gap / 2,
	};
}
