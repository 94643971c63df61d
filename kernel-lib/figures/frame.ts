import {
	axisTitle,
	isBare,
	placeOnAxis,
	spanOf,
	type Tick,
	ticksOf,
} from "./axes";
import type { Axis, FigureDescription, Interval, Layer } from "./description";
import { type Ink, leading, spacing, typeSize } from "./look";
import { shortened, textWidth, wordsFit, wrapped } from "./text";

/** A piece of text with its place: `x`, `y` are where its baseline begins, ends or has its middle. */
export interface PlacedText {
	readonly x: number;
	readonly y: number;
	readonly text: string;
	readonly size: number;
	readonly anchor: "start" | "middle" | "end";
	readonly bold: boolean;
	readonly ink: Ink;
	/** Turned to read from below. */
	readonly turned: boolean;
	/** What the text is, for those who style or test the picture. */
	readonly role: string;
	/** The whole text, where `text` had to be shortened. */
	readonly whole: string;
}

export interface Box {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

export interface AxisFrame {
	readonly axis: Axis;
	readonly span: Interval;
	readonly ticks: readonly Tick[];
	/** From axis units to px. */
	readonly place: (value: number) => number;
	/** px per unit on a category axis; 0 on others. */
	readonly band: number;
}

/** One line of the key: all layers of one name, such as a curve with its band and its points. */
export interface KeyEntry {
	readonly layers: readonly Layer[];
	readonly name: string;
	/** Middle of the glyph. */
	readonly x: number;
	readonly y: number;
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

export function textBox(t: PlacedText): Box {
	const width = textWidth(t.text, t.size, t.bold);
	const before =
		t.anchor === "start" ? 0 : t.anchor === "end" ? width : width / 2;
	const up = 0.8 * t.size;
	const down = 0.24 * t.size;
	return t.turned
		? {
				left: t.x - up,
				right: t.x + down,
				top: t.y + before - width,
				bottom: t.y + before,
			}
		: {
				left: t.x - before,
				right: t.x - before + width,
				top: t.y - up,
				bottom: t.y + down,
			};
}

export function overlap(a: Box, b: Box): boolean {
	return (
		a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
	);
}

const glyphWidth = 22;

/** Height of a plot with nothing in it, px. */
const bareHeight = 90;

/** More ticks than this say no more, however wide the figure is. */
const mostTicks = 11;

function plainText(
	x: number,
	y: number,
	text: string,
	more: Partial<PlacedText>,
): PlacedText {
	return {
		x,
		y,
		text,
		size: typeSize.tick,
		anchor: "start",
		bold: false,
		ink: "text",
		turned: false,
		role: "note",
		whole: text,
		...more,
	};
}

/** Lines under one another; the first baseline lies one line below `top`. */
function stacked(
	lines: readonly string[],
	x: number,
	top: number,
	more: Partial<PlacedText>,
): { readonly texts: PlacedText[]; readonly bottom: number } {
	const size = more.size ?? typeSize.tick;
	const step = size * leading;
	return {
		texts: lines.map((line, i) =>
			plainText(x, top + i * step + 0.82 * size, line, more),
		),
		bottom: top + lines.length * step,
	};
}

function isEmpty(layer: Layer): boolean {
	return (
		("points" in layer && layer.points.length === 0) ||
		(layer.is === "arrows" && layer.arrows.length === 0) ||
		(layer.is === "bars" && layer.bars.length === 0)
	);
}

/** The layers that stand in the key, by name; those without anything in them have no place there. */
export function keyLayers(figure: FigureDescription): Map<string, Layer[]> {
	const named = new Map<string, Layer[]>();
	for (const layer of figure.layers) {
		if (!("name" in layer) || layer.name === "" || isEmpty(layer)) continue;
		named.set(layer.name, [...(named.get(layer.name) ?? []), layer]);
	}
	return named;
}

function keyRows(
	figure: FigureDescription,
	width: number,
	top: number,
): {
	readonly key: KeyEntry[];
	readonly texts: PlacedText[];
	readonly bottom: number;
} {
	const size = typeSize.legend;
	const rowHeight = 20;
	const key: KeyEntry[] = [];
	const texts: PlacedText[] = [];
	let x = spacing.edge;
	let y = top;
	for (const [whole, layers] of keyLayers(figure)) {
		const name = shortened(
			whole,
			width - 2 * spacing.edge - glyphWidth - 6,
			size,
		);
		const needed = glyphWidth + 6 + textWidth(name, size);
		if (x > spacing.edge && x + needed > width - spacing.edge) {
			x = spacing.edge;
			y += rowHeight;
		}
		key.push({ layers, name, x: x + glyphWidth / 2, y: y + rowHeight / 2 });
		texts.push(
			plainText(x + glyphWidth + 6, y + rowHeight / 2 + 0.35 * size, name, {
				size,
				role: "key",
				whole,
			}),
		);
		x += needed + 18;
	}
	return {
		key,
		texts,
		bottom: key.length === 0 ? top : y + rowHeight + spacing.gap / 2,
	};
}

/** How the names of a category y axis are set: beside the rows, or above them where they would take too much of the width. */
interface Rows {
	readonly above: boolean;
	readonly names: readonly (readonly string[])[];
	readonly ends: readonly (readonly string[])[];
	readonly left: number;
	readonly right: number;
	readonly height: number;
	/** Height of the names above a row's marks; 0 where they stand beside. */
	readonly head: number;
}

function rowsOf(axis: Axis, width: number): Rows {
	const names = axis.scale.is === "categories" ? axis.scale.names : [];
	const ends = axis.scale.is === "categories" ? (axis.scale.ends ?? []) : [];
	const size = typeSize.tick;
	const inner = width - 2 * spacing.edge;
	const widest = (lines: readonly (readonly string[])[], bold: boolean) =>
		Math.max(0, ...lines.flat().map((l) => textWidth(l, size, bold)));
	const marks = Math.min(38, Math.max(20, 420 / Math.max(1, names.length)));
	const most = Math.min(0.34 * inner, 230);
	const endMost = Math.min(0.24 * inner, 170);
	const beside = names.map((n) => wrapped(n, most, size, false, 4));
	const endsBeside = ends.map((e) => wrapped(e, endMost, size, true, 3));
	const fits =
		names.every((n, i) => wordsFit(n, most, size) && beside[i].length <= 3) &&
		ends.every((e) => wordsFit(e, endMost / 1.06, size)) &&
		(width >= 520 || ends.length === 0);
	if (fits) {
		const lines = Math.max(
			1,
			...[...beside, ...endsBeside].map((l) => l.length),
		);
		return {
			above: false,
			names: beside,
			ends: endsBeside,
			left: widest(beside, false) + spacing.gap,
			right: ends.length === 0 ? 0 : widest(endsBeside, true) + spacing.gap,
			height: Math.max(marks, lines * size * leading + 6),
			head: 0,
		};
	}
	const nameMost = ends.length === 0 ? inner : 0.56 * inner;
	const above = names.map((n) => wrapped(n, nameMost, size, false, 3));
	const endsAbove = ends.map((e) => wrapped(e, 0.4 * inner, size, true, 3));
	const lines = Math.max(1, ...[...above, ...endsAbove].map((l) => l.length));
	const head = lines * size * leading + 4;
	return {
		above: true,
		names: above,
		ends: endsAbove,
		left: 0,
		right: 0,
		height: head + Math.max(20, Math.min(26, marks)),
		head,
	};
}

/** Names under a category x axis: level where their words fit the width of a category, else turned. */
function columnNames(
	axis: Axis,
	band: number,
	place: (value: number) => number,
	top: number,
): { readonly texts: PlacedText[]; readonly bottom: number } {
	if (axis.scale.is !== "categories") return { texts: [], bottom: top };
	const size = typeSize.tick;
	const step = size * leading;
	const names = axis.scale.names;
	const room = band - 6;
	const level = names.map((n) => wrapped(n, room, size, false, 5));
	const texts: PlacedText[] = [];
	if (
		// Wide categories hold any name, if need be with a word broken.
		band >= 110 ||
		names.every((n, i) => wordsFit(n, room, size) && level[i].length <= 4)
	) {
		let bottom = top;
		level.forEach((lines, i) => {
			const block = stacked(lines, place(i), top, {
				anchor: "middle",
				role: "category",
				whole: names[i],
			});
			texts.push(...block.texts);
			bottom = Math.max(bottom, block.bottom);
		});
		return { texts, bottom };
	}
	const most = Math.max(1, Math.min(3, Math.floor(room / step)));
	const longest = 130;
	let bottom = top;
	names.forEach((n, i) => {
		const lines = wrapped(n, longest, size, false, most);
		lines.forEach((line, j) => {
			texts.push(
				plainText(
					place(i) + (j - (lines.length - 1) / 2) * step + 0.3 * size,
					top,
					line,
					{ anchor: "end", turned: true, role: "category", whole: n },
				),
			);
			bottom = Math.max(bottom, top + textWidth(line, size));
		});
	});
	return { texts, bottom };
}

/** Labels of vertical reference lines and zones, in lines above the plot, so that nothing in it is covered. */
function strip(
	figure: FigureDescription,
	left: number,
	right: number,
	place: (value: number) => number,
): {
	readonly rows: number;
	readonly at: {
		readonly layer: Layer;
		readonly x: number;
		readonly row: number;
		readonly text: string;
		readonly whole: string;
	}[];
} {
	const size = typeSize.label;
	const wanted = figure.layers
		.flatMap((layer) => {
			if (
				(layer.is !== "reference line" && layer.is !== "zone") ||
				layer.axis !== "x" ||
				layer.label === ""
			)
				return [];
			const middle =
				layer.is === "zone"
					? (place(layer.from) + place(layer.to)) / 2
					: place(layer.at);
			return [{ layer, middle, whole: layer.label }];
		})
		// Lines first, next to the plot: a line that had to reach up to its label would cross those below.
		.sort(
			(a, b) => Number(a.layer.is === "zone") - Number(b.layer.is === "zone"),
		);
	const occupied: { from: number; to: number }[][] = [];
	const at = wanted.map(({ layer, middle, whole }) => {
		const text = shortened(whole, right - left, size);
		const half = textWidth(text, size) / 2;
		const x = Math.min(Math.max(middle, left + half), right - half);
		const from = x - half - 5;
		const to = x + half + 5;
		let row = occupied.findIndex((taken) =>
			taken.every((t) => to <= t.from || from >= t.to),
		);
		if (row < 0) row = occupied.push([]) - 1;
		occupied[row].push({ from, to });
		return { layer, x, row, text, whole };
	});
	return { rows: occupied.length, at };
}

/** Ticks whose texts leave each other room. */
export function spacedTicks(
	ticks: readonly Tick[],
	place: (value: number) => number,
	least: number,
	most: number,
): Tick[] {
	const kept: Tick[] = [];
	let end = least;
	for (const tick of ticks) {
		const half = textWidth(tick.text, typeSize.tick) / 2;
		const x = place(tick.at);
		if (x - half < end || x + half > most) continue;
		kept.push(tick);
		end = x + half + 8;
	}
	return kept;
}

/** Lays out a figure for a width in px: title, key, axes and their texts, notes. The height follows. */
export function frameOf(figure: FigureDescription, width: number): Frame {
	const { edge, gap } = spacing;
	const inner = width - 2 * edge;
	const texts: PlacedText[] = [];
	const put = (
		lines: readonly string[],
		x: number,
		top: number,
		more: Partial<PlacedText>,
	): number => {
		const block = stacked(lines, x, top, more);
		texts.push(...block.texts);
		return block.bottom;
	};

	let top = put(
		wrapped(figure.title, inner, typeSize.title, true, 6),
		edge,
		edge,
		{ size: typeSize.title, bold: true, role: "title", whole: figure.title },
	);
	top += gap / 2;
	const key = keyRows(figure, width, top);
	texts.push(...key.texts);
	top = key.bottom;
	const yTitle = axisTitle(figure.y);
	if (yTitle !== "")
		top =
			put(wrapped(yTitle, inner, typeSize.axis, false, 3), edge, top, {
				size: typeSize.axis,
				ink: "quiet",
				role: "y title",
				whole: yTitle,
			}) + gap;

	// Across: the y axis says how much room its texts take.
	const yScale = figure.y.scale;
	const rows = rowsOf(figure.y, width);
	const byRows = yScale.is === "categories";
	const plotHeight = byRows
		? rows.height * Math.max(1, yScale.names.length)
		: isBare(figure, "y")
			? bareHeight
			: Math.min(420, Math.max(250, 0.56 * inner));
	const ySpan = spanOf(figure, "y", plotHeight);
	const yTicks = isBare(figure, "y")
		? []
		: ticksOf(
				yScale,
				ySpan,
				Math.round(plotHeight / (yScale.is === "log" ? 30 : 48)),
			);
	const left =
		edge +
		(byRows
			? rows.left
			: Math.max(0, ...yTicks.map((t) => textWidth(t.text, typeSize.tick))) +
				spacing.tick);
	const right = width - edge - rows.right - (byRows && rows.above ? 0 : 2);
	const xSpan = spanOf(figure, "x", right - left);
	const xScale = figure.x.scale;
	const columns =
		xScale.is === "categories" ? Math.max(1, xScale.names.length) : 0;
	const placeX = (value: number): number =>
		left + placeOnAxis(xScale, xSpan, value) * (right - left);
	const xTicks = spacedTicks(
		isBare(figure, "x")
			? []
			: ticksOf(
					xScale,
					xSpan,
					Math.min(mostTicks, Math.max(3, Math.round((right - left) / 64))),
				),
		placeX,
		0,
		width,
	);

	// Down: labels of vertical references, plot, x axis, notes.
	const above = strip(figure, left, right, placeX);
	const stripHeight = above.rows === 0 ? 0 : above.rows * 16 + 4;
	const plot: Box = {
		left,
		right,
		top: top + stripHeight,
		bottom: top + stripHeight + plotHeight,
	};
	const stripTops = new Map<Layer, number>();
	for (const label of above.at) {
		const baseline = plot.top - 7 - 16 * label.row;
		stripTops.set(label.layer, label.row === 0 ? 0 : plot.top - baseline - 3);
		texts.push(
			plainText(label.x, baseline, label.text, {
				anchor: "middle",
				size: typeSize.label,
				ink: "quiet",
				role: "reference",
				whole: label.whole,
			}),
		);
	}
	const markHeight = rows.height - rows.head;
	const placeY = (value: number): number => {
		if (!byRows)
			return (
				plot.bottom -
				placeOnAxis(yScale, ySpan, value) * (plot.bottom - plot.top)
			);
		const row = Math.min(
			Math.max(0, Math.round(value)),
			Math.max(0, yScale.names.length - 1),
		);
		return (
			plot.top +
			row * rows.height +
			rows.head +
			(Math.min(0.5, Math.max(-0.5, value - row)) + 0.5) * markHeight
		);
	};
	const rowTops: number[] = [];
	if (byRows) {
		const step = typeSize.tick * leading;
		yScale.names.forEach((whole, i) => {
			const rowTop = plot.top + i * rows.height;
			if (rows.above) rowTops.push(rowTop);
			const blockTop = (lines: readonly string[]): number =>
				rows.above
					? rowTop + rows.head - lines.length * step - 1
					: rowTop + (rows.height - lines.length * step) / 2 + 1.5;
			put(
				rows.names[i],
				rows.above ? plot.left : left - gap,
				blockTop(rows.names[i]),
				{ anchor: rows.above ? "start" : "end", role: "category", whole },
			);
			if (i >= rows.ends.length) return;
			put(
				rows.ends[i],
				rows.above ? plot.right : plot.right + gap,
				blockTop(rows.ends[i]),
				{
					anchor: rows.above ? "end" : "start",
					bold: true,
					role: "row end",
					whole: yScale.ends?.[i] ?? "",
				},
			);
		});
	} else
		for (const tick of yTicks)
			texts.push(
				plainText(
					left - spacing.tick,
					placeY(tick.at) + 0.35 * typeSize.tick,
					tick.text,
					{ anchor: "end", role: "y tick" },
				),
			);

	let bottom = plot.bottom + spacing.tick;
	if (columns > 0) {
		const names = columnNames(
			figure.x,
			(right - left) / columns,
			placeX,
			bottom,
		);
		texts.push(...names.texts);
		bottom = names.bottom;
	} else {
		for (const tick of xTicks)
			texts.push(
				plainText(placeX(tick.at), bottom + 0.85 * typeSize.tick, tick.text, {
					anchor: "middle",
					role: "x tick",
				}),
			);
		bottom += typeSize.tick * leading;
	}
	const xTitle = axisTitle(figure.x);
	if (xTitle !== "")
		bottom = put(
			wrapped(xTitle, inner, typeSize.axis, false, 3),
			width / 2,
			bottom + 4,
			{
				size: typeSize.axis,
				ink: "quiet",
				anchor: "middle",
				role: "x title",
				whole: xTitle,
			},
		);
	for (const note of figure.notes)
		bottom = put(wrapped(note, inner, typeSize.note), edge, bottom + 6, {
			size: typeSize.note,
			ink: "quiet",
			role: "note",
			whole: note,
		});

	return {
		width,
		height: Math.ceil(bottom + edge),
		plot,
		x: {
			axis: figure.x,
			span: xSpan,
			ticks: xTicks,
			place: placeX,
			band: columns > 0 ? (right - left) / columns : 0,
		},
		y: {
			axis: figure.y,
			span: ySpan,
			ticks: yTicks,
			place: placeY,
			band: byRows ? markHeight : 0,
		},
		key: key.key,
		texts,
		rowTops,
		stripTops,
	};
}
