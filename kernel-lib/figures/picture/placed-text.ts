import { type Ink, leading, typeSize } from "../look";
import { textWidth } from "../text";

/** A piece of text with its place: `x`, `y` are where its baseline begins, ends or has its middle. */
export interface PlacedText {
	readonly x: number;
	readonly y: number;
	readonly text: string;
	readonly size: number;
	readonly anchor: "start" | "middle" | "end";
	readonly bold: boolean;
	readonly ink: Ink;
	/** Turned to read from below. */
	readonly turned: boolean;
	/** What the text is, for those who style or test the picture. */
	readonly role: string;
	/** The whole text, where `text` had to be shortened. */
	readonly whole: string;
}

export interface Box {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

export function textBox(t: PlacedText): Box {
	const width = textWidth(t.text, t.size, t.bold);
	const before =
		t.anchor === "start" ? 0 : t.anchor === "end" ? width : width / 2;
	const up = 0.8 * t.size;
	const down = 0.24 * t.size;
	return t.turned
		? {
				left: t.x - up,
				right: t.x + down,
				top: t.y + before - width,
				bottom: t.y + before,
			}
		: {
				left: t.x - before,
				right: t.x - before + width,
				top: t.y - up,
				bottom: t.y + down,
			};
}

export function overlap(a: Box, b: Box): boolean {
	return (
		a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
	);
}

export function plainText(
	x: number,
	y: number,
	text: string,
	more: Partial<PlacedText>,
): PlacedText {
	return {
		x,
		y,
		text,
		size: typeSize.tick,
		anchor: "start",
		bold: false,
		ink: "text",
		turned: false,
		role: "note",
		whole: text,
		...more,
	};
}

/** Lines under one another; the first baseline lies one line below `top`. */
export function stacked(
	lines: readonly string[],
	x: number,
	top: number,
	more: Partial<PlacedText>,
): { readonly texts: PlacedText[]; readonly bottom: number } {
	const size = more.size ?? typeSize.tick;
	const step = size * leading;
	return {
		texts: lines.map((line, i) =>
			plainText(x, top + i * step + 0.82 * size, line, more),
		),
		bottom: top + lines.length * step,
	};
}
