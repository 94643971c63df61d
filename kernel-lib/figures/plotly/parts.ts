import {
	type Dash,
	dashArray,
	type Hatch,
	type Shape,
	stroke,
	symbolArea,
	type Theme,
	typeSize,
} from "../look";
import { shortened } from "../text";

export type Json = Record<string, unknown>;

/** Plotly's name of each shape, and its size for an area of 1 square px: each is as large as in the static picture. */
const plotlySymbols: Readonly<
	Record<Shape, { readonly name: string; readonly size: number }>
> = {
	circle: { name: "circle", size: 1.128 },
	square: { name: "square", size: 1 },
	triangle: { name: "triangle-up", size: 1.519 },
	diamond: { name: "diamond-tall", size: 1.329 },
	cross: { name: "cross", size: 1.118 },
	star: { name: "star", size: 1.348 },
	stroke: { name: "line-ns", size: 2.1 },
};

/** A dash as in the static picture. */
export function plotlyDash(dash: Dash): string {
	return dash === "solid"
		? "solid"
		: dashArray[dash]
				.split(" ")
				.map((length) => `${length}px`)
				.join(",");
}

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

export function transparent(colour: string, opacity: number): string {
	const channel = (i: number): number =>
		Number.parseInt(colour.slice(i, i + 2), 16);
	return `rgba(${channel(1)},${channel(3)},${channel(5)},${opacity})`;
}

/** The name of a layer as the key shows it. */
export function keyName(name: string): string {
	return plotlyText(shortened(name, 560, typeSize.legend));
}

/** What belongs to a name of the key without standing in it. */
export function ofName(name: string): Json {
	return {
		name: keyName(name),
		showlegend: false,
		...(name === "" ? {} : { legendgroup: keyName(name) }),
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

/** Symbols as in the static picture: filled with a rim of paper, or paper with a rim of ink. */
export function markerOf(
	{ shape, ink, size = "small" }: MarkLook,
	hollow: readonly boolean[],
	theme: Theme,
): Json {
	const { name, size: scale } = plotlySymbols[shape];
	const [colour, paper] = [theme[ink], theme.paper];
	return {
		symbol: name,
		size: Math.round(scale * Math.sqrt(symbolArea[size]) * 100) / 100,
		color: hollow.map((h) => (h ? paper : colour)),
		line: {
			color: hollow.map((h) => (h || shape === "stroke" ? colour : paper)),
			width: hollow.map((h) =>
				shape === "stroke" ? 2.8 : h ? stroke.line : 0.8,
			),
		},
	};
}

export interface MarkLook {
	readonly shape: Shape;
	readonly ink: keyof Theme;
	readonly size?: "small" | "large";
}
