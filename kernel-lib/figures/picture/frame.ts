import {
	axisTitle,
	isBare,
	placeOnAxis,
	spacedTicks,
	spanOf,
	type Tick,
	ticksOf,
} from "../axes";
import type { Axis, FigureDescription, Interval, Layer } from "../description";
import { leading, spacing, typeSize } from "../look";
import { textWidth, wrapped } from "../text";
import { columnNames } from "./column-names";
import { type KeyEntry, keyRows } from "./key";
import { type Box, type PlacedText, plainText, stacked } from "./placed-text";
import { type Rows, rowsOf } from "./rows";
import { strip } from "./strip";

export interface AxisFrame {
	readonly axis: Axis;
	readonly span: Interval;
	readonly ticks: readonly Tick[];
	/** From axis units to px. */
	readonly place: (value: number) => number;
	/** px per unit on a category axis; 0 on others. */
	readonly band: number;
}

/** Where everything around the data lies. */
export interface Frame {
	readonly width: number;
	readonly height: number;
	readonly plot: Box;
	readonly x: AxisFrame;
	readonly y: AxisFrame;
	readonly key: readonly KeyEntry[];
	readonly texts: readonly PlacedText[];
	/** Top of each row of a category y axis, where the rows carry their names above them; else empty. */
	readonly rowTops: readonly number[];
	/** How high the line of each labelled x reference reaches above the plot. */
	readonly stripTops: ReadonlyMap<Layer, number>;
}

/** Texts under one another, and where they end. */
interface Block {
	readonly texts: readonly PlacedText[];
	readonly bottom: number;
}

/** Height of a plot with nothing in it, px. */
const bareHeight = 90;

/** More ticks than this say no more, however wide the figure is. */
const mostTicks = 11;

/** Height of a line of labels above the plot, px. */
const stripLine = 16;

/** Left free at the right of the title, where the interactive form has its two buttons, px. */
const toolRoom = 56;

/** Title, key and the name of the y axis, which all stand above the plot. */
function headOf(
	figure: FigureDescription,
	width: number,
): Block & { readonly key: readonly KeyEntry[] } {
	const { edge, gap } = spacing;
	const inner = width - 2 * edge;
	const title = stacked(
		wrapped(figure.title, inner - toolRoom, typeSize.title, true, 6),
		edge,
		edge,
		{ size: typeSize.title, bold: true, role: "title", whole: figure.title },
	);
	const key = keyRows(figure, width, title.bottom + gap / 2);
	const above = [...title.texts, ...key.texts];
	const whole = axisTitle(figure.y);
	if (whole === "") return { texts: above, bottom: key.bottom, key: key.key };
	const yTitle = stacked(
		wrapped(whole, inner, typeSize.axis, false, 3),
		edge,
		key.bottom,
		{ size: typeSize.axis, ink: "quiet", role: "y title", whole },
	);
	return {
		texts: [...above, ...yTitle.texts],
		bottom: yTitle.bottom + gap,
		key: key.key,
	};
}

/** The y axis before its place in the picture is known. */
interface Upright {
	readonly rows: Rows;
	readonly span: Interval;
	readonly ticks: readonly Tick[];
	readonly height: number;
	/** Room that its texts take left and right of the plot. */
	readonly left: number;
	readonly right: number;
}

/** Height of the plot where none is asked for, px. */
function usualHeight(width: number): number {
	return Math.min(420, Math.max(250, 0.56 * (width - 2 * spacing.edge)));
}

function uprightOf(
	figure: FigureDescription,
	width: number,
	plotHeight: number,
): Upright {
	const { scale } = figure.y;
	const rows = rowsOf(figure.y, width);
	const bare = isBare(figure, "y");
	if (scale.is === "categories") {
		const height = rows.height * Math.max(1, scale.names.length);
		return {
			rows,
			span: spanOf(figure, "y", height),
			ticks: [],
			height,
			left: rows.left,
			right: rows.right + (rows.above ? 0 : 2),
		};
	}
	const height = bare ? bareHeight : plotHeight;
	const span = spanOf(figure, "y", height);
	const ticks = bare
		? []
		: ticksOf(scale, span, Math.round(height / (scale.is === "log" ? 30 : 48)));
	return {
		rows,
		span,
		ticks,
		height,
		left:
			Math.max(0, ...ticks.map((t) => textWidth(t.text, typeSize.tick))) +
			spacing.tick,
		right: rows.right + 2,
	};
}

function xFrame(
	figure: FigureDescription,
	left: number,
	right: number,
	width: number,
): AxisFrame {
	const { scale } = figure.x;
	const span = spanOf(figure, "x", right - left);
	const place = (value: number): number =>
		left + placeOnAxis(scale, span, value) * (right - left);
	const ticks = isBare(figure, "x")
		? []
		: ticksOf(
				scale,
				span,
				Math.min(mostTicks, Math.max(3, Math.round((right - left) / 64))),
			);
	return {
		axis: figure.x,
		span,
		ticks: spacedTicks(ticks, place, 0, width),
		place,
		band:
			scale.is === "categories"
				? (right - left) / Math.max(1, scale.names.length)
				: 0,
	};
}

function yFrame(
	figure: FigureDescription,
	{ rows, span, ticks }: Upright,
	plot: Box,
): AxisFrame {
	const { scale } = figure.y;
	if (scale.is !== "categories")
		return {
			axis: figure.y,
			span,
			ticks,
			place: (value) =>
				plot.bottom -
				placeOnAxis(scale, span, value) * (plot.bottom - plot.top),
			band: 0,
		};
	const markHeight = rows.height - rows.head;
	const last = Math.max(0, scale.names.length - 1);
	return {
		axis: figure.y,
		span,
		ticks,
		place: (value) => {
			const row = Math.min(Math.max(0, Math.round(value)), last);
			return (
				plot.top +
				row * rows.height +
				rows.head +
				(Math.min(0.5, Math.max(-0.5, value - row)) + 0.5) * markHeight
			);
		},
		band: markHeight,
	};
}

/** Labels of the vertical references, and how high their lines reach above the plot. */
function stripTexts(
	labels: ReturnType<typeof strip>["at"],
	plot: Box,
): { readonly texts: PlacedText[]; readonly tops: Map<Layer, number> } {
	const tops = new Map<Layer, number>();
	const texts = labels.map((label) => {
		const baseline = plot.top - 7 - stripLine * label.row;
		tops.set(label.layer, label.row === 0 ? 0 : plot.top - baseline - 3);
		return plainText(label.x, baseline, label.text, {
			anchor: "middle",
			size: typeSize.label,
			ink: "quiet",
			role: "reference",
			whole: label.whole,
		});
	});
	return { texts, tops };
}

/** Names and ends of the rows of a category y axis, beside the rows or above them. */
function rowTexts(
	figure: FigureDescription,
	rows: Rows,
	plot: Box,
): { readonly texts: PlacedText[]; readonly tops: number[] } {
	const { scale } = figure.y;
	if (scale.is !== "categories") return { texts: [], tops: [] };
	const step = typeSize.tick * leading;
	const { above } = rows;
	const tops = scale.names.map((_, i) => plot.top + i * rows.height);
	const blockTop = (lines: readonly string[], rowTop: number): number =>
		above
			? rowTop + rows.head - lines.length * step - 1
			: rowTop + (rows.height - lines.length * step) / 2 + 1.5;
	const texts = scale.names.flatMap((whole, i) => {
		const name = stacked(
			rows.names[i],
			above ? plot.left : plot.left - spacing.gap,
			blockTop(rows.names[i], tops[i]),
			{ anchor: above ? "start" : "end", role: "category", whole },
		);
		if (i >= rows.ends.length) return name.texts;
		const end = stacked(
			rows.ends[i],
			above ? plot.right : plot.right + spacing.gap,
			blockTop(rows.ends[i], tops[i]),
			{
				anchor: above ? "end" : "start",
				bold: true,
				role: "row end",
				whole: scale.ends?.[i] ?? "",
			},
		);
		return [...name.texts, ...end.texts];
	});
	return { texts, tops: above ? tops : [] };
}

function yTickTexts({ ticks, place }: AxisFrame, plot: Box): PlacedText[] {
	return ticks.map((tick) =>
		plainText(
			plot.left - spacing.tick,
			place(tick.at) + 0.35 * typeSize.tick,
			tick.text,
			{ anchor: "end", role: "y tick" },
		),
	);
}

function xTickTexts({ ticks, place }: AxisFrame, top: number): Block {
	return {
		texts: ticks.map((tick) =>
			plainText(place(tick.at), top + 0.85 * typeSize.tick, tick.text, {
				anchor: "middle",
				role: "x tick",
			}),
		),
		bottom: top + typeSize.tick * leading,
	};
}

/** Ticks or names of the x axis, its title, and the notes. */
function footOf(
	figure: FigureDescription,
	x: AxisFrame,
	plot: Box,
	width: number,
): Block {
	const { edge, tick } = spacing;
	const inner = width - 2 * edge;
	const top = plot.bottom + tick;
	const axis =
		x.band > 0
			? columnNames(figure.x, x.band, x.place, top)
			: xTickTexts(x, top);
	const texts = [...axis.texts];
	let { bottom } = axis;
	const put = (block: Block): void => {
		texts.push(...block.texts);
		bottom = block.bottom;
	};
	const whole = axisTitle(figure.x);
	if (whole !== "")
		put(
			stacked(
				wrapped(whole, inner, typeSize.axis, false, 3),
				width / 2,
				bottom + 4,
				{
					size: typeSize.axis,
					ink: "quiet",
					anchor: "middle",
					role: "x title",
					whole,
				},
			),
		);
	for (const note of figure.notes)
		put(
			stacked(wrapped(note, inner, typeSize.note), edge, bottom + 6, {
				size: typeSize.note,
				ink: "quiet",
				role: "note",
				whole: note,
			}),
		);
	return { texts, bottom };
}

/** Lays out a figure for a width in px: title, key, axes and their texts, notes. The height follows; rows of categories keep theirs whatever plot height is asked for. */
export function frameOf(
	figure: FigureDescription,
	width: number,
	plotHeight = usualHeight(width),
): Frame {
	const head = headOf(figure, width);
	const upright = uprightOf(figure, width, plotHeight);
	const left = spacing.edge + upright.left;
	const right = width - spacing.edge - upright.right;
	const x = xFrame(figure, left, right, width);
	const labels = strip(figure, left, right, x.place);
	const top =
		head.bottom + (labels.rows === 0 ? 0 : labels.rows * stripLine + 4);
	const plot: Box = { left, right, top, bottom: top + upright.height };
	const above = stripTexts(labels.at, plot);
	const y = yFrame(figure, upright, plot);
	const rows = rowTexts(figure, upright.rows, plot);
	const foot = footOf(figure, x, plot, width);
	return {
		width,
		height: Math.ceil(foot.bottom + spacing.edge),
		plot,
		x,
		y,
		key: head.key,
		texts: [
			...head.texts,
			...above.texts,
			...rows.texts,
			...yTickTexts(y, plot),
			...foot.texts,
		],
		rowTops: rows.tops,
		stripTops: above.tops,
	};
}
