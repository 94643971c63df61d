import { type Ink, typeSize } from "../look";
import { textWidth, wrapped } from "../text";
import { type Box, overlap, type PlacedText, textBox } from "./placed-text";

/** A text that belongs to something in the plot, with the places where it may stand, best first. */
export interface LabelWish {
	readonly text: string;
	readonly ink: Ink;
	readonly places: readonly {
		readonly x: number;
		readonly y: number;
		readonly anchor: "start" | "middle" | "end";
	}[];
	/** A label that is not needed is left out rather than set over a mark; one that is covers as few as it can. */
	readonly needed: boolean;
}

/** Places right, left, above and below of something at (x, y) that reaches `reach` px around it, then those between them. */
export function around(
	x: number,
	y: number,
	reach: number,
): LabelWish["places"] {
	const middle = 0.35 * typeSize.label;
	return [
		{ x: x + reach, y: y + middle, anchor: "start" },
		{ x: x - reach, y: y + middle, anchor: "end" },
		{ x, y: y - reach, anchor: "middle" },
		{ x, y: y + reach + 0.8 * typeSize.label, anchor: "middle" },
	];
}

/** The same, and the four places between them, near and farther off: for labels that may stand anywhere near their mark. */
export function anywhereAround(
	x: number,
	y: number,
	reach: number,
): LabelWish["places"] {
	const corners = (out: number): LabelWish["places"] => {
		const up = y - out;
		const down = y + out + 0.8 * typeSize.label;
		return [
			{ x: x + out, y: down, anchor: "start" },
			{ x: x - out, y: up, anchor: "end" },
			{ x: x + out, y: up, anchor: "start" },
			{ x: x - out, y: down, anchor: "end" },
		];
	};
	return [
		...around(x, y, reach),
		...corners(0.6 * reach),
		...[7, 18].flatMap((farther) => [
			...around(x, y, reach + farther),
			...corners(0.6 * reach + farther),
		]),
	];
}

/** Sets each label where it covers no other text and, if it can be, no mark. In the order of the list; labels that find no place are left out. */
export function placeLabels(
	wishes: readonly LabelWish[],
	plot: Box,
	taken: readonly Box[],
	marks: readonly Box[],
): PlacedText[] {
	const texts: Box[] = [...taken];
	const placed: PlacedText[] = [];
	for (const wish of wishes) {
		const text = wrapped(
			wish.text,
			plot.right - plot.left,
			typeSize.label,
			false,
			1,
		)[0];
		if (!text) continue;
		const candidates = wish.places
			.map(
				(p): PlacedText => ({
					...p,
					text,
					size: typeSize.label,
					bold: false,
					ink: wish.ink,
					turned: false,
					role: "label",
					whole: wish.text,
				}),
			)
			.map((t) => ({ text: t, box: textBox(t) }))
			.filter(
				({ box }) =>
					box.left >= plot.left &&
					box.right <= plot.right &&
					box.top >= plot.top &&
					box.bottom <= plot.bottom &&
					!texts.some((b) => overlap(b, box)),
			);
		const covered = candidates.map(
			({ box }) => marks.filter((b) => overlap(b, box)).length,
		);
		const fewest = Math.min(...covered);
		if (candidates.length === 0 || (fewest > 0 && !wish.needed)) continue;
		const best = candidates[covered.indexOf(fewest)];
		texts.push(best.box);
		placed.push(best.text);
	}
	return placed;
}

export function labelWidth(text: string): number {
	return textWidth(text, typeSize.label);
}
