import {
	area,
	curveLinear,
	curveMonotoneX,
	line,
	type SymbolType,
	symbol,
	symbolCircle,
	symbolCross,
	symbolDiamond,
	symbolSquare,
	symbolStar,
	symbolTriangle,
} from "d3-shape";
import type { Arrow, Direction, Layer, Point } from "./description";
import type { AxisFrame, Box, Frame, KeyEntry } from "./frame";
import {
	anywhereAround,
	around,
	type LabelWish,
	labelWidth,
} from "./free-labels";
import { hatchLines } from "./hatch-lines";
import {
	dashArray,
	fillOpacity,
	type Hatch,
	type Ink,
	type Shape,
	spacing,
	stroke,
	symbolArea,
	typeSize,
} from "./look";
import type { Paint } from "./paint";
import { xmlText } from "./text";

/** What a layer puts into the picture: its marks, the labels it would like, and the boxes that labels should keep off. */
export interface Drawn {
	readonly svg: string;
	readonly wishes: readonly LabelWish[];
	readonly boxes: readonly Box[];
}

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

function tip(hover: string): string {
	return hover === "" ? "" : `<title>${xmlText(hover)}</title>`;
}

function lineFrom(
	x1: number,
	y1: number,
	x2: number,
	y2: number,
	attributes: string,
): string {
	return `<line x1="${px(x1)}" y1="${px(y1)}" x2="${px(x2)}" y2="${px(y2)}"${attributes}/>`;
}

/** Bands of paper over a bar, so that it can be told from its neighbour without colour. */
function hatching(paint: Paint, hatch: Hatch, box: Box): string {
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

function errorBar(
	axis: AxisFrame,
	along: "x" | "y",
	across: number,
	low: number,
	high: number,
	width: number,
	look: string,
): string {
	const a = axis.place(low);
	const b = axis.place(high);
	const cap = spacing.cap + width - 1;
	const all = `${look} stroke-width="${width}"`;
	const drawn =
		along === "y"
			? [
					lineFrom(across, a, across, b, all),
					lineFrom(across - cap, a, across + cap, a, all),
					lineFrom(across - cap, b, across + cap, b, all),
				]
			: [
					lineFrom(a, across, b, across, all),
					lineFrom(a, across - cap, a, across + cap, all),
					lineFrom(b, across - cap, b, across + cap, all),
				];
	return drawn.join("");
}

function pointMark(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "points" }>,
	p: Point,
): { svg: string; boxes: Box[]; wish: LabelWish[] } {
	const x = frame.x.place(p.x);
	const y = frame.y.place(p.y);
	const large = layer.size === "large";
	const width = large ? stroke.strong : stroke.thin;
	const look = paint.stroke(layer.ink);
	const bars = [
		p.xInterval
			? errorBar(
					frame.x,
					"x",
					y,
					p.xInterval.low,
					p.xInterval.high,
					width,
					look,
				)
			: "",
		p.yInterval
			? errorBar(
					frame.y,
					"y",
					x,
					p.yInterval.low,
					p.yInterval.high,
					width,
					look,
				)
			: "",
	].join("");
	const mark = symbolMark(
		paint,
		layer.shape,
		layer.ink,
		p.hollow ?? false,
		large ? symbolArea.large : symbolArea.small,
	);
	const reach = large ? 8 : 6;
	const cap = spacing.cap + 1;
	const xs = p.xInterval
		? [frame.x.place(p.xInterval.low), frame.x.place(p.xInterval.high)]
		: [];
	const ys = p.yInterval
		? [frame.y.place(p.yInterval.low), frame.y.place(p.yInterval.high)]
		: [];
	return {
		svg: `<g class="mark point">${tip(p.hover)}${bars}<g transform="translate(${px(x)} ${px(y)})">${mark}</g></g>`,
		// Symbol and error bars apart: a label may stand in the corner between two bars.
		boxes: [
			{
				left: x - reach,
				right: x + reach,
				top: y - reach,
				bottom: y + reach,
			},
			...(xs.length === 0
				? []
				: [
						{
							left: Math.min(...xs),
							right: Math.max(...xs),
							top: y - cap,
							bottom: y + cap,
						},
					]),
			...(ys.length === 0
				? []
				: [
						{
							left: x - cap,
							right: x + cap,
							top: Math.min(...ys),
							bottom: Math.max(...ys),
						},
					]),
		],
		wish:
			(p.label ?? "") === ""
				? []
				: [
						{
							text: p.label ?? "",
							ink: "text",
							places: anywhereAround(x, y, reach + 2),
							needed: false,
						},
					],
	};
}

const steps: Readonly<Record<Direction, readonly [number, number]>> = {
	up: [0, -1],
	down: [0, 1],
	left: [-1, 0],
	right: [1, 0],
};

/** An arrow of fixed length from (x, y), with a plain stroke or a symbol at its foot. */
export function arrowMark(
	paint: Paint,
	x: number,
	y: number,
	arrow: Pick<Arrow, "towards" | "shape" | "hollow">,
	ink: Ink,
	length: number,
): string {
	const [dx, dy] = steps[arrow.towards];
	const tipX = x + dx * length;
	const tipY = y + dy * length;
	const head = spacing.arrowHead;
	const side = head * 0.6;
	const neckX = tipX - dx * head;
	const neckY = tipY - dy * head;
	const look = paint.stroke(ink);
	const points = [
		[tipX, tipY],
		[neckX - dy * side, neckY + dx * side],
		[neckX + dy * side, neckY - dx * side],
	]
		.map(([a, b]) => `${px(a)},${px(b)}`)
		.join(" ");
	const foot = arrow.shape
		? `<g transform="translate(${px(x)} ${px(y)})">${symbolMark(paint, arrow.shape, ink, arrow.hollow ?? false, symbolArea.small)}</g>`
		: lineFrom(
				x + dy * 5,
				y + dx * 5,
				x - dy * 5,
				y - dx * 5,
				`${look} stroke-width="${stroke.strong}"`,
			);
	return `${lineFrom(x, y, neckX, neckY, `${look} stroke-width="${stroke.line}"`)}<polygon points="${points}"${paint.fill(ink)}/>${foot}`;
}

function drawArrows(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "arrows" }>,
): Drawn {
	const svg: string[] = [];
	const wishes: LabelWish[] = [];
	const boxes: Box[] = [];
	for (const a of layer.arrows) {
		const x = frame.x.place(a.x);
		const y = frame.y.place(a.y);
		const [dx, dy] = steps[a.towards];
		svg.push(
			`<g class="mark arrow arrow-${a.towards}">${tip(a.hover)}${arrowMark(paint, x, y, a, layer.ink, spacing.arrow)}</g>`,
		);
		const tipX = x + dx * spacing.arrow;
		const tipY = y + dy * spacing.arrow;
		boxes.push({
			left: Math.min(x, tipX) - 5,
			right: Math.max(x, tipX) + 5,
			top: Math.min(y, tipY) - 5,
			bottom: Math.max(y, tipY) + 5,
		});
		wishes.push({
			text: a.label,
			ink: "text",
			places:
				dx === 0
					? [
							...[0, 8, 16].map((further) => ({
								x,
								y:
									dy < 0
										? tipY - 4 - further
										: tipY + 4 + 0.8 * typeSize.label + further,
								anchor: "middle" as const,
							})),
							...around(x, (y + tipY) / 2, 8).slice(0, 2),
							...around(x, tipY, 6).slice(0, 2),
						]
					: [
							...around(tipX, tipY, 5).slice(dx > 0 ? 0 : 1, dx > 0 ? 1 : 2),
							...around((x + tipX) / 2, y, 8).slice(2),
						],
			needed: true,
		});
	}
	return { svg: svg.join(""), wishes, boxes };
}

function drawBars(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "bars" }>,
): Drawn {
	const along = frame[layer.along];
	const across = frame[layer.along === "x" ? "y" : "x"];
	const svg: string[] = [];
	const wishes: LabelWish[] = [];
	const boxes: Box[] = [];
	for (const bar of layer.bars) {
		const ends = [along.place(bar.from), along.place(bar.to)].sort(
			(a, b) => a - b,
		);
		const sides = [
			across.place(bar.at - layer.width / 2),
			across.place(bar.at + layer.width / 2),
		].sort((a, b) => a - b);
		const box: Box =
			layer.along === "x"
				? { left: ends[0], right: ends[1], top: sides[0], bottom: sides[1] }
				: { left: sides[0], right: sides[1], top: ends[0], bottom: ends[1] };
		const place = `x="${px(box.left)}" y="${px(box.top)}" width="${px(box.right - box.left)}" height="${px(box.bottom - box.top)}"`;
		svg.push(
			`<g class="mark bar">${tip(bar.hover)}<rect ${place}${paint.fill(layer.ink)}/>${hatching(paint, layer.hatch, box)}<rect ${place} fill="none"${paint.stroke("paper")} stroke-width="0.8"/></g>`,
		);
		boxes.push(box);
		if ((bar.label ?? "") !== "")
			wishes.push({
				text: bar.label ?? "",
				ink: "text",
				places:
					layer.along === "x"
						? around(along.place(bar.to), (box.top + box.bottom) / 2, 5).slice(
								bar.to >= bar.from ? 0 : 1,
								bar.to >= bar.from ? 1 : 2,
							)
						: around((box.left + box.right) / 2, along.place(bar.to), 4).slice(
								bar.to >= bar.from ? 2 : 3,
							),
				needed: true,
			});
	}
	return { svg: svg.join(""), wishes, boxes };
}

function drawReference(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "reference line" }>,
): Drawn {
	const { plot } = frame;
	const look = `${paint.stroke(layer.ink)} stroke-width="${stroke.line}"${paint.dash(dashArray[layer.dash])}`;
	const at = frame[layer.axis].place(layer.at);
	if (layer.axis === "x") {
		const from = layer.over ? frame.y.place(layer.over.low) : plot.bottom;
		const to = layer.over ? frame.y.place(layer.over.high) : plot.top;
		const up = frame.stripTops.get(layer) ?? 0;
		return {
			svg: `<g class="reference">${lineFrom(at, Math.max(from, to), at, Math.min(from, to) - up, look)}</g>`,
			wishes: [],
			boxes: [],
		};
	}
	const from = layer.over ? frame.x.place(layer.over.low) : plot.left;
	const to = layer.over ? frame.x.place(layer.over.high) : plot.right;
	const width = labelWidth(layer.label);
	const right = Math.min(plot.right - 2, Math.max(to - 2, from + width + 2));
	const places: { x: number; y: number; anchor: "start" | "middle" | "end" }[] =
		[];
	for (const y of [at - 5, at + 5 + 0.8 * typeSize.label]) {
		places.push({ x: right, y, anchor: "end" });
		for (let part = 0; part <= 1; part += 0.125)
			places.push({
				x: from + 2 + part * Math.max(0, right - width - from - 2),
				y,
				anchor: "start",
			});
	}
	return {
		svg: `<g class="reference">${lineFrom(from, at, to, at, look)}</g>`,
		wishes:
			layer.label === ""
				? []
				: [{ text: layer.label, ink: "text", places, needed: true }],
		boxes: [{ left: from, right: to, top: at - 2, bottom: at + 2 }],
	};
}

function drawZone(
	frame: Frame,
	paint: Paint,
	layer: Extract<Layer, { is: "zone" }>,
): Drawn {
	const { plot } = frame;
	const ends = [
		frame[layer.axis].place(layer.from),
		frame[layer.axis].place(layer.to),
	].sort((a, b) => a - b);
	const box: Box =
		layer.axis === "x"
			? { left: ends[0], right: ends[1], top: plot.top, bottom: plot.bottom }
			: { left: plot.left, right: plot.right, top: ends[0], bottom: ends[1] };
	const edge = `${paint.stroke(layer.ink)} stroke-width="${stroke.thin}"${paint.dash("2 3")}`;
	const edges =
		layer.axis === "x"
			? lineFrom(ends[0], box.top, ends[0], box.bottom, edge) +
				lineFrom(ends[1], box.top, ends[1], box.bottom, edge)
			: lineFrom(box.left, ends[0], box.right, ends[0], edge) +
				lineFrom(box.left, ends[1], box.right, ends[1], edge);
	const inside = [ends[0] + 4 + 0.8 * typeSize.label, ends[1] - 4];
	return {
		svg: `<g class="zone"><rect x="${px(box.left)}" y="${px(box.top)}" width="${px(box.right - box.left)}" height="${px(box.bottom - box.top)}"${paint.fill(layer.ink)} fill-opacity="${fillOpacity.zone}"/>${edges}</g>`,
		wishes:
			layer.axis === "x" || layer.label === ""
				? []
				: [
						{
							text: layer.label,
							ink: "text",
							places: inside.flatMap((y) => [
								{ x: plot.right - 4, y, anchor: "end" as const },
								{ x: plot.left + 4, y, anchor: "start" as const },
								{
									x: (plot.left + plot.right) / 2,
									y,
									anchor: "middle" as const,
								},
							]),
							needed: true,
						},
					],
		boxes: [],
	};
}

/** Small boxes along a curve, so that labels keep off it: no farther apart than their own width, however long the strokes between the points are. */
function along(
	points: readonly { readonly x: number; readonly y: number }[],
	frame: Frame,
): Box[] {
	const placed = points.map((p) => ({
		x: frame.x.place(p.x),
		y: frame.y.place(p.y),
	}));
	return placed.flatMap((to, i) => {
		const from = placed[Math.max(0, i - 1)];
		const parts = Math.max(
			1,
			Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 6),
		);
		return Array.from({ length: parts }, (_, k) => {
			const x = from.x + ((k + 1) / parts) * (to.x - from.x);
			const y = from.y + ((k + 1) / parts) * (to.y - from.y);
			return { left: x - 3, right: x + 3, top: y - 3, bottom: y + 3 };
		});
	});
}

export function drawLayer(frame: Frame, paint: Paint, layer: Layer): Drawn {
	switch (layer.is) {
		case "points": {
			const marks = layer.points.map((p) => pointMark(frame, paint, layer, p));
			return {
				svg: marks.map((m) => m.svg).join(""),
				wishes: marks.flatMap((m) => m.wish),
				boxes: marks.flatMap((m) => m.boxes),
			};
		}
		case "arrows":
			return drawArrows(frame, paint, layer);
		case "bars":
			return drawBars(frame, paint, layer);
		case "reference line":
			return drawReference(frame, paint, layer);
		case "zone":
			return drawZone(frame, paint, layer);
		case "line": {
			const path = line<{ x: number; y: number }>()
				.x((p) => frame.x.place(p.x))
				.y((p) => frame.y.place(p.y))
				.curve(layer.smooth ? curveMonotoneX : curveLinear)
				.digits(2)([...layer.points]);
			return {
				svg: `<g class="mark line"><path d="${path ?? ""}" fill="none"${paint.stroke(layer.ink)} stroke-width="${stroke.line}" stroke-linejoin="round"${paint.dash(dashArray[layer.dash])}/></g>`,
				wishes: [],
				boxes: along(layer.points, frame),
			};
		}
		case "band": {
			const path = area<{ x: number; low: number; high: number }>()
				.x((p) => frame.x.place(p.x))
				.y0((p) => frame.y.place(p.low))
				.y1((p) => frame.y.place(p.high))
				.digits(2)([...layer.points]);
			return {
				svg: `<g class="mark band"><path d="${path ?? ""}"${paint.fill(layer.ink)} fill-opacity="${fillOpacity.band}"/></g>`,
				wishes: [],
				boxes: [],
			};
		}
		case "region": {
			const path = line<{ x: number; y: number }>()
				.x((p) => frame.x.place(p.x))
				.y((p) => frame.y.place(p.y))
				.digits(2)([...layer.points]);
			return {
				svg: `<g class="mark region"><path d="${path ?? ""}${path ? "Z" : ""}"${paint.both(layer.ink, layer.ink)} fill-opacity="${fillOpacity.region}" stroke-width="${stroke.thin}"/></g>`,
				wishes: [],
				boxes: [],
			};
		}
		case "labels":
			return {
				svg: "",
				wishes: layer.labels.map((l) => ({
					text: l.text,
					ink: "text" as const,
					places: around(frame.x.place(l.x), frame.y.place(l.y), 6),
					needed: true,
				})),
				boxes: [],
			};
	}
}

/** What lies over what in a sign of the key. */
const keyDepth = (layer: Layer): number =>
	layer.is === "points" || layer.is === "arrows"
		? 2
		: layer.is === "line" || layer.is === "reference line"
			? 1
			: 0;

/** The sign of a name in the key: everything that has this name, each kind of mark once. */
export function keyGlyph(paint: Paint, { layers, x, y }: KeyEntry): string {
	const kinds = new Map<Layer["is"], Layer>();
	for (const layer of layers)
		if (!kinds.has(layer.is)) kinds.set(layer.is, layer);
	return [...kinds.values()]
		.sort((a, b) => keyDepth(a) - keyDepth(b))
		.map((layer) => layerGlyph(paint, layer, commonInk(layers, layer), x, y))
		.join("");
}

/** The layer's ink; that of the text where layers of one kind and name differ, since the name is then about all of them. */
function commonInk(layers: readonly Layer[], layer: Layer): Ink {
	const inks = new Set(
		layers.flatMap((l) => (l.is === layer.is && "ink" in l ? [l.ink] : [])),
	);
	const [ink] = inks;
	return inks.size === 1 ? ink : "text";
}

function layerGlyph(
	paint: Paint,
	layer: Layer,
	ink: Ink,
	x: number,
	y: number,
): string {
	switch (layer.is) {
		case "points":
			return `<g transform="translate(${px(x)} ${px(y)})">${symbolMark(
				paint,
				layer.shape,
				ink,
				layer.points.length > 0 && layer.points.every((p) => p.hollow ?? false),
				layer.size === "large" ? symbolArea.large : symbolArea.small,
			)}</g>`;
		case "arrows": {
			const towards = layer.arrows[0]?.towards ?? "up";
			const [dx, dy] = steps[towards];
			return arrowMark(paint, x - dx * 8, y - dy * 8, { towards }, ink, 17);
		}
		case "bars": {
			const place = `x="${px(x - 9)}" y="${px(y - 6)}" width="18" height="12"`;
			return `<rect ${place}${paint.fill(ink)}/>${hatching(paint, layer.hatch, { left: x - 9, right: x + 9, top: y - 6, bottom: y + 6 })}`;
		}
		case "line":
		case "reference line":
			return lineFrom(
				x - 11,
				y,
				x + 11,
				y,
				`${paint.stroke(ink)} stroke-width="${stroke.line}"${paint.dash(dashArray[layer.dash])}`,
			);
		case "zone":
		case "band":
		case "region":
			return `<rect x="${px(x - 10)}" y="${px(y - 5)}" width="20" height="10"${paint.both(ink, ink)} fill-opacity="${fillOpacity.band}" stroke-width="0.6"/>`;
		default:
			return "";
	}
}
