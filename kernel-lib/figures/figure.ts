import {
	jupyterDisplay,
	type Problem,
	problem,
	throwProblems,
} from "../quantity";
import { figureBundle } from "./bundle";
import {
	type Figure,
	type FigureDescription,
	figureFormat,
	figureVersion,
	type Interval,
	type Layer,
} from "./description";
import { axisValues } from "./layer-values";

/** Largest and smallest size of a number that an axis takes; what a bench gives lies far inside. */
const largest = 1e100;

function layerName(layer: Layer): string {
	return "name" in layer && layer.name !== ""
		? `the ${layer.is} "${layer.name}"`
		: `the ${layer.is}`;
}

function intervals(layer: Layer): Interval[] {
	if (layer.is === "points")
		return layer.points.flatMap((p) => [
			...(p.xInterval ? [p.xInterval] : []),
			...(p.yInterval ? [p.yInterval] : []),
		]);
	if (layer.is === "band") return [...layer.points];
	return layer.is === "reference line" && layer.over ? [layer.over] : [];
}

/** Everything that keeps a description from being drawn: numbers that are not finite, zero or less on a log axis, places outside the categories, intervals upside down. */
export function figureProblems(description: FigureDescription): Problem[] {
	const problems: Problem[] = [];
	const complain = (code: string, found: string, expected: string): void => {
		problems.push(
			problem(
				code,
				{},
				`${found} in the figure "${description.title}"`,
				expected,
				"Look at the results that the figure was made from.",
			),
		);
	};
	for (const layer of description.layers) {
		for (const axis of ["x", "y"] as const) {
			const { label, scale } = description[axis];
			const { placed, ends } = axisValues(layer, axis);
			const where = `in ${layerName(layer)} on the ${axis} axis${label === "" ? "" : ` (${label})`}`;
			for (const value of [...placed, ...ends]) {
				if (!Number.isFinite(value))
					complain(
						"figure-number-not-finite",
						`${value} ${where}`,
						"a finite number",
					);
				else if (Math.abs(value) > largest)
					complain(
						"figure-number-too-large",
						`${value} ${where}`,
						`a number between ${-largest} and ${largest}`,
					);
				else if (
					scale.is === "categories" &&
					(value < -0.5 || value > scale.names.length - 0.5)
				)
					complain(
						"figure-no-such-category",
						`position ${value} ${where}`,
						`one of the ${scale.names.length} categories (0 is the first)`,
					);
			}
			if (scale.is !== "log") continue;
			for (const value of placed)
				if (value < 1 / largest)
					complain(
						"figure-log-of-nothing",
						`${value} ${where}`,
						"a number above 0, because the axis is logarithmic",
					);
		}
		for (const { low, high } of intervals(layer))
			if (low > high)
				complain(
					"figure-interval-upside-down",
					`an interval from ${low} to ${high} in ${layerName(layer)}`,
					"the low end first",
				);
		if (
			layer.is === "bars" &&
			!(layer.width > 0 && Number.isFinite(layer.width))
		)
			complain(
				"figure-bar-without-width",
				`bars of width ${layer.width} in ${layerName(layer)}`,
				"a width above 0",
			);
	}
	return problems;
}

/**
 * Makes a figure that shows itself in a notebook.
 *
 * @throws ProblemError listing every number that cannot be drawn
 */
export function figure(
	description: Omit<FigureDescription, "format" | "version">,
): Figure {
	const plain: FigureDescription = {
		format: figureFormat,
		version: figureVersion,
		title: description.title,
		alt: description.alt,
		x: description.x,
		y: description.y,
		layers: description.layers,
		notes: description.notes,
	};
	throwProblems(figureProblems(plain));
	const shown = { ...plain };
	// Not enumerable, so that the figure stays plain data wherever it is copied, compared or written.
	Object.defineProperties(shown, {
		[jupyterDisplay]: { value: () => figureBundle(plain) },
		[Symbol.for("nodejs.util.inspect.custom")]: { value: () => plain.alt },
	});
	return shown as Figure;
}
