import {
	type SymbolType,
	symbol,
	symbolCircle,
	symbolCross,
	symbolDiamond,
	symbolSquare,
	symbolStar,
	symbolTriangle,
} from "d3-shape";
import { type Hatch, type Ink, type Shape, stroke } from "../look";
import { xmlText } from "../text";
import { hatchLines } from "./hatch-lines";
import type { Paint } from "./paint";
import type { Box } from "./placed-text";

const upright: SymbolType = {
	draw(context) {
		context.rect(-1.4, -10, 2.8, 20);
	},
};

const symbols: Readonly<Record<Shape, SymbolType>> = {
	stroke: upright,
	circle: symbolCircle,
	square: symbolSquare,
	triangle: symbolTriangle,
	diamond: symbolDiamond,
	cross: symbolCross,
	star: symbolStar,
};

/** A length in the picture: two decimals, never an exponent. */
export function px(value: number): string {
	return String(Math.round(value * 100) / 100 + 0);
}

export function tip(hover: string): string {
	return hover === "" ? "" : `<title>${xmlText(hover)}</title>`;
}

export function lineFrom(
	x1: number,
	y1: number,
	x2: number,
	y2: number,
	attributes: string,
): string {
	return `<line x1="${px(x1)}" y1="${px(y1)}" x2="${px(x2)}" y2="${px(y2)}"${attributes}/>`;
}

/** Bands of paper over a bar, so that it can be told from its neighbour without colour. */
export function hatching(paint: Paint, hatch: Hatch, box: Box): string {
	const path = hatchLines(hatch, box)
		.map(([x1, y1, x2, y2]) => `M${px(x1)} ${px(y1)}L${px(x2)} ${px(y2)}`)
		.join("");
	return path === ""
		? ""
		: `<path d="${path}" fill="none"${paint.stroke("paper")} stroke-width="1.6" stroke-opacity="0.85"/>`;
}

/** A symbol with a rim of paper, so that symbols which touch stay apart; or its outline. */
export function symbolMark(
	paint: Paint,
	shape: Shape,
	ink: Ink,
	hollow: boolean,
	size: number,
): string {
	const d = symbol(symbols[shape], size)() ?? "";
	return hollow
		? `<path d="${d}"${paint.both("paper", ink)} stroke-width="${stroke.line}"/>`
		: `<path d="${d}"${paint.both(ink, "paper")} stroke-width="0.8"/>`;
}
