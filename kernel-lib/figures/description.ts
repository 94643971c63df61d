import type { jupyterDisplay } from "../quantity";
import type { Dash, Hatch, Ink, Shape } from "./look";

/** Ends of an error bar or of a stretch of an axis, in axis units; low <= high. */
export interface Interval {
	readonly low: number;
	readonly high: number;
}

/**
 * How an axis is laid out. On a `categories` axis position 0 is the first name, 1 the second; places beside the middle are fractions (-0.5 to 0.5 around each).
 * `ends` are short texts at the far end of each row (categories on the y axis only), such as a verdict.
 */
export type Scale =
	/**
	 * `zero`: reaches to 0. `whole`: counts something, so that only whole numbers are marked. `shown`: the stretch that the axis is about; it reaches no farther, whatever is drawn, and
	 * what lies beyond stands at its edge with an arrowhead outwards.
	 */
	| {
			readonly is: "linear";
			readonly zero?: boolean;
			readonly whole?: boolean;
			readonly shown?: Interval;
	  }
	| { readonly is: "log" }
	| {
			readonly is: "categories";
			readonly names: readonly string[];
			readonly ends?: readonly string[];
	  };

export interface Axis {
	/** What the axis shows; "" for names that speak for themselves. */
	readonly label: string;
	/** "" where there is none. */
	readonly unit: string;
	readonly scale: Scale;
}

export interface Point {
	readonly x: number;
	readonly y: number;
	/** Error bars. */
	readonly xInterval?: Interval;
	readonly yInterval?: Interval;
	/** What a reader sees on pointing at it; lines are separated by a line feed. */
	readonly hover: string;
	/** Drawn as an outline, e.g. where a deviation touched the flask. */
	readonly hollow?: boolean;
	/** A short text beside the point. */
	readonly label?: string;
}

export type Direction = "up" | "down" | "left" | "right";

/** A limit instead of a value: the arrow starts at the limit and points to where the value may be. */
export interface Arrow {
	readonly x: number;
	readonly y: number;
	readonly towards: Direction;
	/** Usually "at least" or "at most". */
	readonly label: string;
	readonly hover: string;
	/** Mark at the limit itself; a plain stroke where left out. */
	readonly shape?: Shape;
	readonly hollow?: boolean;
}

export interface Bar {
	/** Position on the axis that the bars stand on. */
	readonly at: number;
	/** Ends along the other axis; parts of a stack follow one another. */
	readonly from: number;
	readonly to: number;
	readonly hover: string;
	/** A short text at the end of the bar. */
	readonly label?: string;
	/** Drawn as an outline, e.g. where a deviation leaves the flask out. */
	readonly hollow?: boolean;
}

/** One thing that is drawn. `name` is its entry in the key; "" for none. */
export type Layer =
	| {
			readonly is: "points";
			readonly name: string;
			readonly ink: Ink;
			readonly shape: Shape;
			readonly size?: "small" | "large";
			readonly points: readonly Point[];
	  }
	| {
			readonly is: "arrows";
			readonly name: string;
			readonly ink: Ink;
			readonly arrows: readonly Arrow[];
	  }
	| {
			readonly is: "bars";
			readonly name: string;
			readonly ink: Ink;
			readonly hatch: Hatch;
			/** The axis that the bars stretch along. */
			readonly along: "x" | "y";
			/** Thickness in units of the other axis; 1 fills a category. */
			readonly width: number;
			readonly bars: readonly Bar[];
	  }
	| {
			readonly is: "line";
			readonly name: string;
			readonly ink: Ink;
			readonly dash: Dash;
			/** Rounded between the points (which must then ascend in x) without overshooting them. */
			readonly smooth?: boolean;
			readonly points: readonly { readonly x: number; readonly y: number }[];
	  }
	| {
			/** Between two curves of one x, such as a confidence band. */
			readonly is: "band";
			readonly name: string;
			readonly ink: Ink;
			readonly points: readonly {
				readonly x: number;
				readonly low: number;
				readonly high: number;
			}[];
	  }
	| {
			/** A closed outline, such as a joint confidence region. */
			readonly is: "region";
			readonly name: string;
			readonly ink: Ink;
			readonly points: readonly { readonly x: number; readonly y: number }[];
	  }
	| {
			/** A straight line at one position of an axis, over the whole figure or over a stretch of the other axis. */
			readonly is: "reference line";
			readonly name: string;
			readonly axis: "x" | "y";
			readonly at: number;
			/** Text at the line itself; "" for none. */
			readonly label: string;
			readonly ink: Ink;
			readonly dash: Dash;
			readonly over?: Interval;
	  }
	| {
			/** A shaded stretch of an axis. */
			readonly is: "zone";
			readonly name: string;
			readonly axis: "x" | "y";
			readonly from: number;
			readonly to: number;
			readonly label: string;
			readonly ink: Ink;
	  }
	| {
			readonly is: "labels";
			readonly labels: readonly {
				readonly x: number;
				readonly y: number;
				readonly text: string;
			}[];
	  };

export const figureFormat = "charledger figure";
export const figureVersion = 1;

/** What a figure shows, without a word on how it is drawn: plain JSON that both back-ends (static SVG, interactive Plotly) read. */
export interface FigureDescription {
	readonly format: typeof figureFormat;
	readonly version: typeof figureVersion;
	readonly title: string;
	/** The figure in words, written from its data, for those who do not see it. */
	readonly alt: string;
	readonly x: Axis;
	readonly y: Axis;
	readonly layers: readonly Layer[];
	/** Short remarks under the figure. */
	readonly notes: readonly string[];
}

/** A figure that shows itself in a notebook. */
export interface Figure extends FigureDescription {
	/** MIME bundle: the description, HTML with the static picture, the SVG, and the alt text. */
	[jupyterDisplay](): Record<string, unknown>;
}
