import {
	jupyterDisplay,
	listed,
	type Problem,
	problem,
	requireArgument,
	requireList,
	requireResult,
	requireResults,
	requireText,
	throwProblems,
	wordOption,
} from "../quantity";
import { figureBundle } from "./bundle";
import {
	type Axis,
	type Figure,
	type FigureDescription,
	figureFormat,
	figureVersion,
	type Interval,
	type Layer,
	type Scale,
} from "./description";
import { axisKind, descriptionKind } from "./doors";
import { axisValues } from "./layer-values";
import { thinned } from "./thinned";

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

/** A fault of a number: code, what was found, what was expected. */
interface Fault {
	readonly code: string;
	readonly found: string;
	readonly expected: string;
}

function valueFault(value: number, scale: Scale): Fault | null {
	if (!Number.isFinite(value))
		return {
			code: "figure-number-not-finite",
			found: `${value}`,
			expected: "a finite number",
		};
	if (Math.abs(value) > largest)
		return {
			code: "figure-number-too-large",
			found: `${value}`,
			expected: `a number between ${-largest} and ${largest}`,
		};
	return scale.is === "categories" &&
		(value < -0.5 || value > scale.names.length - 0.5)
		? {
				code: "figure-no-such-category",
				found: `position ${value}`,
				expected: `one of the ${scale.names.length} categories (0 is the first)`,
			}
		: null;
}

/** Faults of the numbers of one layer along one axis. */
function axisFaults(layer: Layer, which: "x" | "y", axis: Axis): Fault[] {
	const { label, scale } = axis;
	const { placed, ends } = axisValues(layer, which);
	const where = `in ${layerName(layer)} on the ${which} axis${label === "" ? "" : ` (${label})`}`;
	const faults = [...placed, ...ends].flatMap(
		(v) => valueFault(v, scale) ?? [],
	);
	const logarithms =
		scale.is === "log"
			? placed
					.filter((v) => v < 1 / largest)
					.map((v) => ({
						code: "figure-log-of-nothing",
						found: `${v}`,
						expected: "a number above 0, because the axis is logarithmic",
					}))
			: [];
	return [...faults, ...logarithms].map((f) => ({
		...f,
		found: `${f.found} ${where}`,
	}));
}

/** Faults of what a layer is made of: intervals upside down, bars without width. */
function shapeFaults(layer: Layer): Fault[] {
	const upsideDown = intervals(layer)
		.filter(({ low, high }) => low > high)
		.map(({ low, high }) => ({
			code: "figure-interval-upside-down",
			found: `an interval from ${low} to ${high} in ${layerName(layer)}`,
			expected: "the low end first",
		}));
	return layer.is === "bars" &&
		!(layer.width > 0 && Number.isFinite(layer.width))
		? [
				...upsideDown,
				{
					code: "figure-bar-without-width",
					found: `bars of width ${layer.width} in ${layerName(layer)}`,
					expected: "a width above 0",
				},
			]
		: upsideDown;
}

/** Everything that keeps a description from being drawn: numbers that are not finite, zero or less on a log axis, places outside the categories, intervals upside down. */
export function figureProblems(description: FigureDescription): Problem[] {
	const { title, x, y } = description;
	return description.layers
		.flatMap((layer) => [
			...axisFaults(layer, "x", x),
			...axisFaults(layer, "y", y),
			...shapeFaults(layer),
		])
		.map(({ code, found, expected }) =>
			problem(
				code,
				{},
				`${found} in the figure "${title}"`,
				expected,
				"Look at the results that the figure was made from.",
			),
		);
}

/** What each kind of layer draws, by the name of its list; none for a layer that is one thing by itself. */
const drawn: Readonly<Record<Layer["is"], readonly string[]>> = {
	points: ["points"],
	arrows: ["arrows"],
	bars: ["bars"],
	line: ["points"],
	band: ["points"],
	region: ["points"],
	"reference line": [],
	zone: [],
	labels: ["labels"],
};

function requireLayer(layer: unknown, of: string): void {
	const kinds = Object.keys(drawn);
	requireResult(
		layer,
		{
			parts: ["is"],
			expected: `a layer: { is, ... }, is one of ${listed(kinds)}`,
		},
		of,
	);
	const { is } = layer as Layer;
	requireArgument(is, wordOption(...kinds), of);
	for (const name of drawn[is])
		requireResults(
			(layer as Readonly<Record<string, unknown>>)[name],
			{ parts: [], expected: `one of the ${name} of the layer` },
			of,
		);
}

/**
 * A figure of your own: axes, and layers (points, lines, bars, bands, arrows, reference lines, zones, labels) that say what is drawn and not how. It shows itself in a notebook.
 *
 * @throws ProblemError listing every number that cannot be drawn
 * @example
 * const points = [1, 2, 3].map((x) => ({ x, y: x * x, hover: "" }));
 * const layers: figures.Layer[] = [{ is: "points", name: "read", ink: "blue", shape: "circle", points }];
 * const x: figures.Axis = { label: "Time", unit: "h", scale: { is: "linear" } };
 * const y: figures.Axis = { label: "Conductivity", unit: "µS/cm", scale: { is: "log" } };
 * figures.figure({ title: "Rinsing", alt: "Conductivity rises from 1 to 9.", x, y, layers, notes: [] }).alt // => "Conductivity rises from 1 to 9."
 */
export function figure(
	description: Omit<FigureDescription, "format" | "version">,
): Figure {
	requireResult(description, descriptionKind, "figures.figure");
	const called = `the figure "${description.title}"`;
	requireText(description.title, "a title in quotes", "figures.figure");
	requireResult(description.x, axisKind, called);
	requireResult(description.y, axisKind, called);
	requireList(description.layers, "a layer", called);
	requireList(description.notes, "a sentence below the figure", called);
	for (const layer of description.layers) requireLayer(layer, called);
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
	const { layers, notes } = thinned(plain.layers);
	const drawn: FigureDescription = {
		...plain,
		layers,
		notes: [...plain.notes, ...notes],
	};
	const shown = { ...drawn };
	// Not enumerable, so that the figure stays plain data wherever it is copied, compared or written.
	Object.defineProperties(shown, {
		[jupyterDisplay]: { value: () => figureBundle(drawn) },
		[Symbol.for("nodejs.util.inspect.custom")]: { value: () => plain.alt },
	});
	return shown as Figure;
}
