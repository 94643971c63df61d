import { axisTitle, isBare, placeOnAxis, spanOf, ticksOf } from "./axes";
import type { Arrow, Axis, FigureDescription, Layer } from "./description";
import { keyLayers, spacedTicks } from "./frame";
import {
	type Dash,
	fillOpacity,
	fontFamily,
	type Hatch,
	type Ink,
	type Shape,
	spacing,
	stroke,
	type Theme,
	type ThemeName,
	themes,
	typeSize,
} from "./look";
import { textWidth, wrapped } from "./text";

/** What `Plotly.newPlot(element, data, layout, config)` takes. Plain JSON. */
export interface PlotlyFigure {
	readonly data: readonly Readonly<Record<string, unknown>>[];
	readonly layout: Readonly<Record<string, unknown>>;
	readonly config: Readonly<Record<string, unknown>>;
}

type Json = Record<string, unknown>;

/** Lengths of the axes in px for which ranges are worked out; the figure itself fits its place, and a long key takes some of its height. */
const nominal = { x: 600, y: 280 } as const;

/** Length of the x axis on a phone, px. */
const narrowest = 290;

const height = 480;

const plotlySymbols: Readonly<Record<Shape, string>> = {
	circle: "circle",
	square: "square",
	triangle: "triangle-up",
	diamond: "diamond",
	cross: "cross",
	star: "star",
	stroke: "line-ns",
};

const plotlyDashes: Readonly<Record<Dash, string>> = {
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

function plotlyLines(lines: readonly string[]): string {
	return lines.map(plotlyText).join("<br>");
}

function transparent(colour: string, opacity: number): string {
	const channel = (i: number): number =>
		Number.parseInt(colour.slice(i, i + 2), 16);
	return `rgba(${channel(1)},${channel(3)},${channel(5)},${opacity})`;
}

/** Where annotations stand on an axis: Plotly wants the logarithm there, and only there. */
function annotated(axis: Axis, value: number): number {
	return axis.scale.is === "log" ? Math.log10(value) : value;
}

function plotlyAxis(
	figure: FigureDescription,
	which: "x" | "y",
	theme: Theme,
): Json {
	const axis = figure[which];
	const span = spanOf(figure, which, nominal[which]);
	const title = axisTitle(axis);
	const common: Json = {
		title: {
			text: plotlyLines(
				wrapped(title, which === "x" ? 560 : nominal.y, typeSize.axis),
			),
			font: { size: typeSize.axis, color: theme.quiet },
		},
		tickfont: { size: typeSize.tick, color: theme.text },
		linecolor: theme.quiet,
		showline: true,
		zeroline: false,
		automargin: true,
		fixedrange: false,
	};
	if (axis.scale.is === "categories") {
		const { names } = axis.scale;
		return {
			...common,
			type: "linear",
			showgrid: false,
			tickmode: "array",
			tickvals: names.map((_, i) => i),
			ticktext: names.map((n) =>
				plotlyLines(
					wrapped(n, which === "x" ? 90 : 190, typeSize.tick, false, 4),
				),
			),
			// The first category is on top.
			range: which === "x" ? [span.low, span.high] : [span.high, span.low],
		};
	}
	const all = ticksOf(axis.scale, span, 9);
	// A figure on a phone has the same ticks: Plotly would turn those that run into one another.
	const ticks =
		which === "y"
			? all
			: spacedTicks(
					all,
					(value) => placeOnAxis(axis.scale, span, value) * narrowest,
					-typeSize.tick,
					narrowest + typeSize.tick,
				);
	return axis.scale.is === "log"
		? {
				...common,
				type: "log",
				gridcolor: theme.grid,
				tickmode: "array",
				tickvals: ticks.map((t) => t.at),
				ticktext: ticks.map((t) => t.text),
				range: [Math.log10(span.low), Math.log10(span.high)],
			}
		: {
				...common,
				type: "linear",
				gridcolor: theme.grid,
				range: [span.low, span.high],
				...(isBare(figure, which)
					? { tickmode: "array", tickvals: [], ticktext: [] }
					: {}),
				...(axis.scale.whole
					? {
							tickmode: "array",
							tickvals: ticks.map((t) => t.at),
							ticktext: ticks.map((t) => t.text),
						}
					: {}),
			};
}

function errorBars(
	values: readonly number[],
	intervals: readonly ({ low: number; high: number } | undefined)[],
	colour: string,
	thickness: number,
): Json {
	return {
		type: "data",
		symmetric: false,
		array: values.map((v, i) => Math.max(0, (intervals[i]?.high ?? v) - v)),
		arrayminus: values.map((v, i) => Math.max(0, v - (intervals[i]?.low ?? v))),
		color: colour,
		thickness,
		width: 4,
	};
}

function key(name: string): Json {
	return {
		name: plotlyLines(wrapped(name, 260, typeSize.legend, false, 4)),
		showlegend: name !== "",
	};
}

function hovers(texts: readonly string[]): Json {
	return { hovertext: texts.map(plotlyText), hoverinfo: "text" };
}

function labelledMarks(marks: readonly { readonly label?: string }[]): boolean {
	return marks.some((m) => (m.label ?? "") !== "");
}

/** Short texts beside marks; nothing where no mark has one. */
function labels(
	marks: readonly { readonly label?: string }[],
	position: string,
	theme: Theme,
): Json {
	return labelledMarks(marks)
		? {
				text: marks.map((m) => plotlyText(m.label ?? "")),
				textposition: position,
				textfont: { size: typeSize.label, color: theme.text },
				cliponaxis: false,
			}
		: {};
}

function hatching(hatch: Hatch, theme: Theme): Json {
	return {
		shape: plotlyHatches[hatch],
		fillmode: "overlay",
		fgcolor: theme.paper,
		size: 8,
		solidity: 0.2,
	};
}

function symbolOf(shape: Shape, hollow: boolean): string {
	return hollow || shape === "stroke"
		? `${plotlySymbols[shape]}-open`
		: plotlySymbols[shape];
}

/** The traces of a layer; reference lines, zones and texts are no traces. */
function traces(layer: Layer, theme: Theme): Json[] {
	switch (layer.is) {
		case "points": {
			const colour = theme[layer.ink];
			const large = layer.size === "large";
			const thickness = large ? stroke.strong : stroke.thin;
			const x = layer.points.map((p) => p.x);
			const y = layer.points.map((p) => p.y);
			const xs = layer.points.map((p) => p.xInterval);
			const ys = layer.points.map((p) => p.yInterval);
			return [
				{
					type: "scatter",
					mode: labelledMarks(layer.points) ? "markers+text" : "markers",
					...key(layer.name),
					x,
					y,
					...(xs.some((i) => i)
						? { error_x: errorBars(x, xs, colour, thickness) }
						: {}),
					...(ys.some((i) => i)
						? { error_y: errorBars(y, ys, colour, thickness) }
						: {}),
					...hovers(layer.points.map((p) => p.hover)),
					// Off the error bars, and under a curve that rises.
					...labels(layer.points, "bottom right", theme),
					marker: {
						color: colour,
						size: large ? 13 : 8.5,
						symbol: layer.points.map((p) =>
							symbolOf(layer.shape, p.hollow ?? false),
						),
						line: {
							color: colour,
							width: layer.shape === "stroke" ? stroke.strong : 1.4,
						},
					},
				},
			];
		}
		case "arrows":
			return [
				{
					type: "scatter",
					mode: "markers",
					...key(layer.name),
					showlegend: false,
					x: layer.arrows.map((a) => a.x),
					y: layer.arrows.map((a) => a.y),
					...hovers(layer.arrows.map((a) => a.hover)),
					marker: {
						color: theme[layer.ink],
						size: 8.5,
						symbol: layer.arrows.map((a) =>
							a.shape
								? symbolOf(a.shape, a.hollow ?? false)
								: a.towards === "up" || a.towards === "down"
									? "line-ew"
									: "line-ns",
						),
						line: { color: theme[layer.ink], width: stroke.strong },
					},
				},
				...(layer.name === "" ? [] : [arrowKey(layer, theme)]),
			];
		case "bars": {
			const at = layer.bars.map((b) => b.at);
			const length = layer.bars.map((b) => b.to - b.from);
			return [
				{
					type: "bar",
					...key(layer.name),
					orientation: layer.along === "x" ? "h" : "v",
					...(layer.along === "x"
						? { x: length, y: at }
						: { x: at, y: length }),
					base: layer.bars.map((b) => b.from),
					width: layer.width,
					...hovers(layer.bars.map((b) => b.hover)),
					...labels(layer.bars, "outside", theme),
					marker: {
						color: theme[layer.ink],
						line: { color: theme.paper, width: 0.8 },
						...(layer.hatch === "plain"
							? {}
							: { pattern: hatching(layer.hatch, theme) }),
					},
				},
			];
		}
		case "line":
			return [
				{
					type: "scatter",
					mode: "lines",
					...key(layer.name),
					x: layer.points.map((p) => p.x),
					y: layer.points.map((p) => p.y),
					hoverinfo: "skip",
					line: {
						color: theme[layer.ink],
						width: stroke.line,
						dash: plotlyDashes[layer.dash],
						shape: layer.smooth ? "spline" : "linear",
					},
				},
			];
		case "band": {
			const back = [...layer.points].reverse();
			return [
				outline(
					layer.name,
					[...layer.points.map((p) => p.x), ...back.map((p) => p.x)],
					[...layer.points.map((p) => p.high), ...back.map((p) => p.low)],
					transparent(theme[layer.ink], fillOpacity.band),
					"rgba(0,0,0,0)",
				),
			];
		}
		case "region":
			return [
				outline(
					layer.name,
					layer.points.map((p) => p.x),
					layer.points.map((p) => p.y),
					transparent(theme[layer.ink], fillOpacity.region),
					theme[layer.ink],
				),
			];
		default:
			return [];
	}
}

/** Arrows are annotations, which have no place in the key: a trace without points stands for them there. */
function arrowKey(layer: Extract<Layer, { is: "arrows" }>, theme: Theme): Json {
	return {
		type: "scatter",
		mode: "markers",
		...key(layer.name),
		x: [null],
		y: [null],
		hoverinfo: "skip",
		marker: {
			color: theme[layer.ink],
			size: 12,
			symbol: `arrow-${layer.arrows[0]?.towards ?? "up"}`,
		},
	};
}

/**
 * A curve that shares its name with points, or with a band, has one entry in the key that shows line and symbol together: Plotly's own entries show one trace each.
 */
function sharedKeys(figure: FigureDescription, theme: Theme): Json[] {
	return [...keyLayers(figure)].flatMap(([name, layers]): Json[] => {
		const curve = layers.find((l) => l.is === "line");
		const marks = layers.find((l) => l.is === "points");
		if (curve?.is !== "line" || layers.length === 1) return [];
		return [
			{
				type: "scatter",
				mode: marks ? "lines+markers" : "lines",
				...key(name),
				x: [null],
				y: [null],
				hoverinfo: "skip",
				line: {
					color: theme[curve.ink],
					width: stroke.line,
					dash: plotlyDashes[curve.dash],
				},
				...(marks?.is === "points"
					? {
							marker: {
								color: theme[marks.ink],
								size: 8.5,
								symbol: symbolOf(marks.shape, false),
							},
						}
					: {}),
			},
		];
	});
}

function outline(
	name: string,
	x: readonly number[],
	y: readonly number[],
	fill: string,
	edge: string,
): Json {
	return {
		type: "scatter",
		mode: "lines",
		...key(name),
		x,
		y,
		fill: "toself",
		fillcolor: fill,
		line: { color: edge, width: stroke.thin },
		hoverinfo: "skip",
	};
}

/** Straight lines and shaded stretches. */
function plotlyShapes(layer: Layer, theme: Theme): Json[] {
	if (layer.is !== "reference line" && layer.is !== "zone") return [];
	const other = layer.axis === "x" ? "y" : "x";
	const whole = layer.is === "zone" || !layer.over;
	const over =
		layer.is === "reference line" && layer.over
			? [layer.over.low, layer.over.high]
			: [0, 1];
	const ends =
		layer.is === "zone" ? [layer.from, layer.to] : [layer.at, layer.at];
	return [
		{
			type: layer.is === "zone" ? "rect" : "line",
			layer: "below",
			...key(layer.name),
			[`${layer.axis}ref`]: layer.axis,
			[`${other}ref`]: whole ? `${other} domain` : other,
			[`${layer.axis}0`]: ends[0],
			[`${layer.axis}1`]: ends[1],
			[`${other}0`]: over[0],
			[`${other}1`]: over[1],
			...(layer.is === "zone"
				? {
						fillcolor: transparent(theme[layer.ink], fillOpacity.zone),
						line: { color: theme[layer.ink], width: 0.6, dash: "dot" },
					}
				: {
						line: {
							color: theme[layer.ink],
							width: stroke.line,
							dash: plotlyDashes[layer.dash],
						},
					}),
		},
	];
}

const arrowOffsets: Readonly<
	Record<Arrow["towards"], readonly [number, number]>
> = { up: [0, 1], down: [0, -1], left: [-1, 0], right: [1, 0] };

/** An arrow whose tail is at the limit: Plotly's arrows end at their point, so the whole is shifted by its own length. */
function arrowAnnotation(
	figure: FigureDescription,
	arrow: Arrow,
	ink: Ink,
	theme: Theme,
): Json {
	const [dx, dy] = arrowOffsets[arrow.towards];
	return {
		x: annotated(figure.x, arrow.x),
		y: annotated(figure.y, arrow.y),
		xref: "x",
		yref: "y",
		text: "",
		showarrow: true,
		ax: 0 - dx * spacing.arrow,
		ay: dy * spacing.arrow,
		xshift: dx * spacing.arrow,
		yshift: dy * spacing.arrow,
		arrowhead: 2,
		arrowsize: 1.1,
		arrowwidth: stroke.line,
		arrowcolor: theme[ink],
	};
}

function note(text: string, theme: Theme, place: Json): Json {
	return {
		text: plotlyText(text),
		showarrow: false,
		font: { size: typeSize.label, color: theme.text },
		...place,
	};
}

/** Where a value lies on its axis, in px of the nominal figure. */
function nominalPlace(
	figure: FigureDescription,
	which: "x" | "y",
	value: number,
): number {
	const { scale } = figure[which];
	const span = spanOf(figure, which, nominal[which]);
	return nominal[which] * placeOnAxis(scale, span, value);
}

/** True where an arrow before this one points the same way from nearly the same place and says the same: once is enough. */
function saidBefore(figure: FigureDescription, arrow: Arrow): boolean {
	const all = figure.layers.flatMap((l) => (l.is === "arrows" ? l.arrows : []));
	return all
		.slice(0, all.indexOf(arrow))
		.some(
			(a) =>
				a.label === arrow.label &&
				a.towards === arrow.towards &&
				(["x", "y"] as const).every(
					(which) =>
						Math.abs(
							nominalPlace(figure, which, a[which]) -
								nominalPlace(figure, which, arrow[which]),
						) < 14,
				),
		);
}

/** Beyond the tip; beside the shaft where the label would run over the y axis. */
function arrowLabelPlace(figure: FigureDescription, arrow: Arrow): Json {
	const [dx, dy] = arrowOffsets[arrow.towards];
	const place = {
		x: annotated(figure.x, arrow.x),
		y: annotated(figure.y, arrow.y),
		yanchor: "middle",
	};
	const half = textWidth(arrow.label, typeSize.label) / 2;
	return dx === 0 && nominalPlace(figure, "x", arrow.x) < half
		? {
				...place,
				xshift: 8,
				yshift: (dy * spacing.arrow) / 2,
				xanchor: "left",
			}
		: {
				...place,
				xshift: dx * (spacing.arrow + 4),
				yshift: dy * (spacing.arrow + 9),
				xanchor: dx > 0 ? "left" : dx < 0 ? "right" : "center",
			};
}

function annotations(
	figure: FigureDescription,
	layer: Layer,
	theme: Theme,
): Json[] {
	switch (layer.is) {
		case "arrows":
			return layer.arrows.flatMap((a) => {
				const arrow = arrowAnnotation(figure, a, layer.ink, theme);
				return a.label === "" || saidBefore(figure, a)
					? [arrow]
					: [arrow, note(a.label, theme, arrowLabelPlace(figure, a))];
			});
		case "reference line": {
			if (layer.label === "") return [];
			return [
				layer.axis === "x"
					? note(layer.label, theme, {
							x: annotated(figure.x, layer.at),
							y: 1,
							yref: "y domain",
							yanchor: "bottom",
						})
					: note(layer.label, theme, {
							x: layer.over ? annotated(figure.x, layer.over.high) : 1,
							xref: layer.over ? "x" : "x domain",
							xanchor: "right",
							y: annotated(figure.y, layer.at),
							yanchor: "bottom",
						}),
			];
		}
		case "zone": {
			if (layer.label === "") return [];
			return [
				layer.axis === "x"
					? note(layer.label, theme, {
							x:
								(annotated(figure.x, layer.from) +
									annotated(figure.x, layer.to)) /
								2,
							y: 1,
							yref: "y domain",
							yanchor: "bottom",
							// Lines have the row below.
							yshift: labelled(figure, "reference line") ? 16 : 0,
						})
					: note(layer.label, theme, {
							x: 1,
							xref: "x domain",
							xanchor: "right",
							y: annotated(figure.y, Math.max(layer.from, layer.to)),
							yanchor: "top",
						}),
			];
		}
		case "labels":
			return layer.labels.map((l) =>
				note(l.text, theme, {
					x: annotated(figure.x, l.x),
					y: annotated(figure.y, l.y),
					xanchor: "left",
					xshift: 6,
				}),
			);
		default:
			return [];
	}
}

/** Texts at the far end of the rows of a category y axis. */
function rowEnds(figure: FigureDescription, theme: Theme): Json[] {
	const { scale } = figure.y;
	if (scale.is !== "categories") return [];
	return (scale.ends ?? []).map((text, i) => ({
		text: `<b>${plotlyLines(wrapped(text, 150, typeSize.tick, true, 3))}</b>`,
		showarrow: false,
		font: { size: typeSize.tick, color: theme.text },
		align: "left",
		x: 1,
		xref: "x domain",
		xanchor: "left",
		xshift: spacing.gap,
		y: i,
		yref: "y",
	}));
}

/** True where zones or lines along x carry labels, which stand above the plot. */
function labelled(
	figure: FigureDescription,
	is: "zone" | "reference line",
): boolean {
	return figure.layers.some(
		(l) => l.is === is && l.axis === "x" && l.label !== "",
	);
}

/** Lines of labels above the plot: zones, and reference lines over them. */
function labelLines(figure: FigureDescription): number {
	return (
		Number(labelled(figure, "zone")) +
		Number(labelled(figure, "reference line"))
	);
}

function endRoom(figure: FigureDescription): number {
	const { scale } = figure.y;
	if (scale.is !== "categories") return 0;
	return Math.max(
		0,
		...(scale.ends ?? [])
			.flatMap((text) => wrapped(text, 150, typeSize.tick, true, 3))
			.map((line) => textWidth(line, typeSize.tick, true) + spacing.gap),
	);
}

function plotlyHeight(figure: FigureDescription): number {
	const { scale } = figure.y;
	const rows = scale.is === "categories" ? scale.names.length : 0;
	return rows > 0
		? Math.max(280, 160 + rows * Math.min(40, Math.max(22, 420 / rows)))
		: height;
}

/** Room above the plot: title, and the labels of lines and zones. */
function topMargin(figure: FigureDescription, titleLines: number): number {
	return 36 + 20 * titleLines + 20 * labelLines(figure);
}

function titleText(lines: readonly string[]): string {
	return `<b>${plotlyLines(lines)}</b>`;
}

/** What of the layout is otherwise on a screen as narrow as a phone's: texts in shorter lines, and room for a key of which every entry takes a line. */
export interface NarrowLayout {
	readonly title: string;
	readonly xTitle: string;
	readonly yTitle: string;
	readonly marginTop: number;
	readonly height: number;
}

export function narrowLayout(figure: FigureDescription): NarrowLayout {
	const title = wrapped(figure.title, narrowest + 30, typeSize.title, true, 6);
	const axis = (which: "x" | "y"): string =>
		plotlyLines(wrapped(axisTitle(figure[which]), 200, typeSize.axis));
	const keys = keyLayers(figure).size;
	return {
		title: titleText(title),
		xTitle: axis("x"),
		yTitle: axis("y"),
		marginTop: topMargin(figure, title.length),
		height: plotlyHeight(figure) + 22 * Math.max(0, keys - 2),
	};
}

/**
 * The interactive form of a figure, for Plotly's basic build (scatter and bar traces, shapes, annotations). The numbers are those of the description; every text is made
 * harmless, and mathematics and hover templates are not interpreted.
 */
export function plotlyFigure(
	figure: FigureDescription,
	theme: ThemeName = "light",
): PlotlyFigure {
	const colours = themes[theme];
	const named = new Set<string>();
	const data = [
		...sharedKeys(figure, colours),
		...figure.layers.flatMap((layer) => traces(layer, colours)),
	];
	const shapes = figure.layers.flatMap((l) => plotlyShapes(l, colours));
	const inKey = new Set(
		[...keyLayers(figure).keys()].map((name) => String(key(name).name)),
	);
	for (const trace of [...data, ...shapes]) {
		// One entry in the key for a name that several layers share.
		const name = String(trace.name);
		if (trace.showlegend && (named.has(name) || !inKey.has(name)))
			trace.showlegend = false;
		if (name !== "") trace.legendgroup = name;
		if (trace.showlegend) named.add(name);
	}
	// Without what has nothing in it, and without what stands for a name in the key only and is not needed there.
	const drawn = data.filter((t) => {
		const x = t.x as readonly unknown[];
		return x.length > 0 && (t.showlegend === true || x[0] !== null);
	});
	const titleLines = wrapped(figure.title, 640, typeSize.title, true, 4);
	return {
		data: drawn,
		layout: {
			title: {
				text: titleText(titleLines),
				x: 0,
				xref: "container",
				xanchor: "left",
				pad: { l: spacing.edge, t: spacing.edge },
				y: 1,
				yref: "container",
				yanchor: "top",
				font: { size: typeSize.title, color: colours.text },
			},
			font: { family: fontFamily, size: typeSize.tick, color: colours.text },
			paper_bgcolor: colours.paper,
			plot_bgcolor: colours.paper,
			height: plotlyHeight(figure),
			margin: {
				l: 60,
				r: 20 + endRoom(figure),
				t: topMargin(figure, titleLines.length),
				b: 60,
			},
			xaxis: plotlyAxis(figure, "x", colours),
			yaxis: plotlyAxis(figure, "y", colours),
			// without bars the key would be one that Plotly does not know what to do with
			...(figure.layers.some((l) => l.is === "bars")
				? { barmode: "overlay" }
				: {}),
			hovermode: "closest",
			hoverlabel: {
				align: "left",
				bgcolor: colours.paper,
				bordercolor: colours.quiet,
				font: { family: fontFamily, size: typeSize.tick, color: colours.text },
			},
			...(named.size === 0
				? { showlegend: false }
				: {
						showlegend: true,
						legend: {
							orientation: "h",
							x: 0,
							xanchor: "left",
							y: 0,
							yref: "container",
							yanchor: "bottom",
							font: { size: typeSize.legend, color: colours.text },
						},
					}),
			shapes,
			annotations: [
				...figure.layers.flatMap((l) => annotations(figure, l, colours)),
				...rowEnds(figure, colours),
			],
		},
		config: {
			responsive: true,
			displaylogo: false,
			typesetMath: false,
			modeBarButtonsToRemove: ["select2d", "lasso2d", "autoScale2d"],
		},
	};
}
