import {
	type Dash,
	type Hatch,
	type Shape,
	type Theme,
	typeSize,
} from "../look";
import { wrapped } from "../text";

export type Json = Record<string, unknown>;

const plotlySymbols: Readonly<Record<Shape, string>> = {
	circle: "circle",
	square: "square",
	triangle: "triangle-up",
	diamond: "diamond",
	cross: "cross",
	star: "star",
	stroke: "line-ns",
};

export const plotlyDashes: Readonly<Record<Dash, string>> = {
	solid: "solid",
	dashed: "dash",
	dotted: "dot",
	"dash-dotted": "dashdot",
};

const plotlyHatches: Readonly<Record<Hatch, string>> = {
	plain: "",
	rising: "/",
	falling: "\\",
	level: "-",
	crossed: "+",
};

/** Text that Plotly shows as it stands: it would read tags in it otherwise. Line feeds become its line breaks. */
export function plotlyText(text: string): string {
	return text
		.replaceAll("&", "&amp;")
		.replaceAll("<", "&lt;")
		.replaceAll(">", "&gt;")
		.replaceAll("\n", "<br>");
}

export function plotlyLines(lines: readonly string[]): string {
	return lines.map(plotlyText).join("<br>");
}

export function transparent(colour: string, opacity: number): string {
	const channel = (i: number): number =>
		Number.parseInt(colour.slice(i, i + 2), 16);
	return `rgba(${channel(1)},${channel(3)},${channel(5)},${opacity})`;
}

export function key(name: string): Json {
	return {
		name: plotlyLines(wrapped(name, 260, typeSize.legend, false, 4)),
		showlegend: name !== "",
	};
}

export function hatching(hatch: Hatch, theme: Theme): Json {
	return {
		shape: plotlyHatches[hatch],
		fillmode: "overlay",
		fgcolor: theme.paper,
		size: 8,
		solidity: 0.2,
	};
}

export function symbolOf(shape: Shape, hollow: boolean): string {
	return hollow || shape === "stroke"
		? `${plotlySymbols[shape]}-open`
		: plotlySymbols[shape];
}

/** Widest line of the name of a row and of what stands at its end, px: with both, a figure on a phone still has a plot between them. */
export const widestName = 130;
export const widestEnd = 110;
