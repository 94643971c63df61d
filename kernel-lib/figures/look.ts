/**
 * The one look of all figures. A figure says what a thing is (an ink, a shape, a dash, a hatch); what that looks like is said here and nowhere else.
 *
 * The seven inks were searched for under these conditions, which the tests check again: at least 3:1 against the paper of their theme, told apart with
 * normal sight and with each of the three common kinds of colour blindness, and seven different greys in black-and-white print. Shape, dash and hatch always go with them, so
 * that colour alone never carries a meaning.
 */
export const seriesInks = [
	"blue",
	"rust",
	"teal",
	"ochre",
	"plum",
	"maroon",
	"violet",
] as const;

/** What a mark is drawn with: one of the seven, the colour of the text, or a quiet grey. */
export type Ink = (typeof seriesInks)[number] | "text" | "quiet";

export const shapes = [
	"circle",
	"square",
	"triangle",
	"diamond",
	"cross",
	"star",
] as const;
/** The shapes of series, and a plain upright stroke that hides little of what it stands on. */
export type Shape = (typeof shapes)[number] | "stroke";

export const dashes = ["solid", "dashed", "dotted", "dash-dotted"] as const;
export type Dash = (typeof dashes)[number];

export const hatches = [
	"plain",
	"rising",
	"falling",
	"level",
	"crossed",
] as const;
export type Hatch = (typeof hatches)[number];

/** What tells one series from the next, by its place in the list: the periods differ, so that the combination repeats late. */
export interface SeriesLook {
	readonly ink: Ink;
	readonly shape: Shape;
	readonly dash: Dash;
	readonly hatch: Hatch;
}

export function seriesLook(index: number): SeriesLook {
	return {
		ink: seriesInks[index % seriesInks.length],
		shape: shapes[index % shapes.length],
		dash: dashes[index % dashes.length],
		hatch: hatches[index % hatches.length],
	};
}

export type ThemeName = "light" | "dark";

/** A colour for every ink, for the paper behind them and for grid lines. */
export type Theme = Readonly<Record<Ink | "paper" | "grid", string>>;

export const themes: Readonly<Record<ThemeName, Theme>> = {
	light: {
		paper: "#ffffff",
		grid: "#dfe3e5",
		text: "#1b2125",
		quiet: "#5b656b",
		blue: "#2c35b5",
		rust: "#a84e0d",
		teal: "#348e80",
		ochre: "#ad8e18",
		plum: "#734873",
		maroon: "#691c1e",
		violet: "#330d72",
	},
	dark: {
		paper: "#14181b",
		grid: "#323a3f",
		text: "#e8ecee",
		quiet: "#a3aeb4",
		blue: "#97bbff",
		rust: "#c55c0c",
		teal: "#a4fde0",
		ochre: "#e3d930",
		plum: "#8b4ea1",
		maroon: "#e58d8e",
		violet: "#957af7",
	},
};

/** Faces with the same widths on the common systems, so that the width table of `text.ts` holds. */
export const fontFamily = "Arial, Helvetica, 'Liberation Sans', sans-serif";

/** Type sizes in px. */
export const typeSize = {
	title: 16,
	axis: 12.5,
	tick: 12,
	legend: 12.5,
	label: 12,
	note: 11.5,
} as const;

/** Line height as a multiple of the type size. */
export const leading = 1.25;

/** Lengths in px. */
export const spacing = {
	edge: 12,
	gap: 8,
	/** Between tick label and plot. */
	tick: 6,
	/** How far a bound's arrow reaches from its limit. */
	arrow: 24,
	arrowHead: 7,
	cap: 3.5,
} as const;

export const stroke = { thin: 1, line: 1.8, strong: 2.4 } as const;

/** Symbol areas in square px. */
export const symbolArea = { small: 46, large: 120 } as const;

export const dashArray: Readonly<Record<Dash, string>> = {
	solid: "",
	dashed: "7 4",
	dotted: "1.5 3.5",
	"dash-dotted": "8 3 1.5 3",
};

/** How strongly an area is filled. */
export const fillOpacity = { zone: 0.13, band: 0.22, region: 0.18 } as const;
