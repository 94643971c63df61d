import { tickStep } from "d3-array";
import { scaleLinear } from "d3-scale";
import { fixed, powerOfTen } from "../quantity";
import type { Axis, FigureDescription, Interval, Scale } from "./description";
import { axisValues } from "./layer-values";
import { spacing, typeSize } from "./look";
import { textWidth } from "./text";

/** Values nearer to one another than this part of their size are drawn as one. */
const finest = 1e-9;

/** Room at either end of an axis, as a part of its length. */
const margin = 0.05;

/** Room in px beyond the tip of an arrow or for a text at the end of a bar. */
const labelRoom = 48;

export function axisTitle(axis: Axis): string {
	return axis.unit === "" ? axis.label : `${axis.label} (${axis.unit})`;
}

/** A number as it stands at an axis whose steps are `step`: as many decimals as the step needs, powers of ten where the number is very large or very small. */
export function axisNumber(value: number, step: number): string {
	const size = Math.abs(value);
	const stepExponent = Math.floor(Math.log10(step) + 1e-9);
	if (size === 0 || size < step * 1e-6) return "0";
	if (size < 1e6 && stepExponent >= -5)
		return fixed(value, Math.max(0, -stepExponent));
	const exponent = Math.floor(Math.log10(size) + 1e-12);
	const decimals = Math.min(15, Math.max(0, exponent - stepExponent));
	const mantissa = fixed(value / 10 ** exponent, decimals);
	return mantissa === "1"
		? powerOfTen(exponent)
		: `${mantissa}×${powerOfTen(exponent)}`;
}

function smallest(values: readonly number[]): number {
	return values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
}

function greatest(values: readonly number[]): number {
	return values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
}

/** Room in px that arrows and texts need beyond a value, at the low and the high end of an axis. */
function reaches(
	figure: FigureDescription,
	axis: "x" | "y",
): { readonly at: number; readonly low: number; readonly high: number }[] {
	const ahead = axis === "x" ? "right" : "up";
	const behind = axis === "x" ? "left" : "down";
	// An arrow along x has its label beyond its tip, one along y above or below it.
	const reach = (label: string): number =>
		spacing.arrow +
		(label === ""
			? 10
			: axis === "x"
				? 14 + textWidth(label, typeSize.label)
				: 12 + typeSize.label);
	return figure.layers.flatMap((layer) => {
		if (layer.is === "arrows")
			return layer.arrows.map((a) => ({
				at: a[axis],
				low: a.towards === behind ? reach(a.label) : 0,
				high: a.towards === ahead ? reach(a.label) : 0,
			}));
		if (layer.is === "bars" && layer.along === axis)
			return layer.bars
				.filter((b) => (b.label ?? "") !== "")
				.map((b) => ({ at: b.to, low: 0, high: labelRoom }));
		return [];
	});
}

function linearSpan(
	figure: FigureDescription,
	axis: "x" | "y",
	pixels: number,
	{ zero = false, shown }: Extract<Scale, { is: "linear" }>,
): Interval {
	const values = shown
		? [shown.low, shown.high]
		: figure.layers.flatMap((layer) => {
				const { placed, ends } = axisValues(layer, axis);
				return [...placed, ...ends];
			});
	if (values.length === 0) return { low: 0, high: 1 };
	let low = smallest(values);
	let high = greatest(values);
	// An axis whose values lie near 0 anyway begins there: lengths are then honest.
	const fromZero = low >= 0 && (zero || low < 0.3 * high);
	const toZero = high <= 0 && (zero || high > 0.3 * low);
	if (fromZero) low = 0;
	if (toZero) high = 0;
	const size = Math.max(Math.abs(low), Math.abs(high));
	if (high - low <= size * finest || high - low < 1e-99) {
		const half = size < 1e-99 ? 1 : size * 0.1;
		return { low: low - half, high: high + half };
	}
	const span = high - low;
	let below = fromZero && !toZero ? 0 : margin * span;
	let above = toZero && !fromZero ? 0 : margin * span;
	for (const reach of reaches(figure, axis)) {
		const unit = span / Math.max(60, pixels - reach.low - reach.high);
		const at = Math.min(high, Math.max(low, reach.at));
		below = Math.max(
			below,
			reach.low === 0 ? 0 : low - (at - reach.low * unit),
		);
		above = Math.max(
			above,
			reach.high === 0 ? 0 : at + reach.high * unit - high,
		);
	}
	return { low: low - below, high: high + above };
}

function logSpan(
	figure: FigureDescription,
	axis: "x" | "y",
	pixels: number,
): Interval {
	const placed = figure.layers.flatMap((l) => axisValues(l, axis).placed);
	// An error bar that reaches 0 is cut off at the foot of the axis; it cannot stretch a log axis without end.
	const ends = figure.layers
		.flatMap((l) => axisValues(l, axis).ends)
		.filter((v) => v > (placed.length > 0 ? smallest(placed) / 10 : 1e-99));
	const values = [...placed, ...ends];
	if (values.length === 0) return { low: 1, high: 10 };
	const low = Math.log10(smallest(values));
	const high = Math.log10(greatest(values));
	const room = Math.max(0.05, margin * (high - low));
	const span = high - low + 2 * room;
	let below = room;
	let above = room;
	for (const reach of reaches(figure, axis)) {
		if (!(reach.at > 0)) continue;
		const unit = span / Math.max(60, pixels - reach.low - reach.high);
		const at = Math.log10(reach.at);
		if (reach.low > 0) below = Math.max(below, low - (at - reach.low * unit));
		if (reach.high > 0) above = Math.max(above, at + reach.high * unit - high);
	}
	// Far inside what a double holds, however many decades an arrow's room takes.
	return {
		low: 10 ** Math.max(-200, low - below),
		high: 10 ** Math.min(200, high + above),
	};
}

/**
 * From where to where an axis reaches: all that is drawn, error bars and the room for arrows included. In axis units.
 *
 * @param pixels length of the axis in px
 */
export function spanOf(
	figure: FigureDescription,
	axis: "x" | "y",
	pixels: number,
): Interval {
	const scale: Scale = figure[axis].scale;
	if (scale.is === "categories")
		return { low: -0.5, high: Math.max(1, scale.names.length) - 0.5 };
	return scale.is === "log"
		? logSpan(figure, axis, pixels)
		: linearSpan(figure, axis, pixels, scale);
}

export interface Tick {
	readonly at: number;
	readonly text: string;
}

function roundTicks(span: Interval, count: number): Tick[] {
	const step = tickStep(span.low, span.high, count);
	return scaleLinear()
		.domain([span.low, span.high])
		.ticks(count)
		.map((v) => ({ at: v, text: axisNumber(v, step) }));
}

/** Every whole number: asked for only where round numbers would lie closer together. */
function wholeTicks(span: Interval): Tick[] {
	const first = Math.ceil(span.low);
	const count = Math.max(0, Math.floor(span.high) - first + 1);
	return Array.from({ length: count }, (_, i) => ({
		at: first + i,
		text: axisNumber(first + i, 1),
	}));
}

/** True where a figure has nothing on an axis, so that numbers along it would mean nothing. */
export function isBare(figure: FigureDescription, axis: "x" | "y"): boolean {
	return figure.layers.every((layer) => {
		const { placed, ends } = axisValues(layer, axis);
		return placed.length + ends.length === 0;
	});
}

/** Round numbers along a linear or log axis, about `count` of them. Category axes have names, not ticks. */
export function ticksOf(scale: Scale, span: Interval, count: number): Tick[] {
	if (scale.is === "categories") return [];
	if (scale.is === "linear") {
		const ticks = roundTicks(span, Math.max(2, count));
		return scale.whole && ticks.some((t) => !Number.isInteger(t.at))
			? wholeTicks(span)
			: ticks;
	}
	return logTicks(span, count);
}

/** What stands in each decade, from sparse to dense. */
const decadeMarks: readonly (readonly number[])[] = [
	[1],
	[1, 3],
	[1, 2, 5],
	[1, 2, 3, 5, 7],
	[1, 2, 3, 4, 5, 6, 7, 8, 9],
];

/** The densest of the usual marks of a decade that are not too many; round numbers as on a linear axis where even all of them are hardly any. */
function logTicks(span: Interval, count: number): Tick[] {
	const first = Math.floor(Math.log10(span.low) - 1e-9);
	const last = Math.ceil(Math.log10(span.high) + 1e-9);
	const most = Math.max(3, count);
	const every = Math.max(1, Math.ceil((last - first) / most));
	const marked = (marks: readonly number[]): Tick[] => {
		const ticks: Tick[] = [];
		for (
			let exponent = Math.ceil(first / every) * every;
			exponent <= last;
			exponent += every
		)
			for (const mark of marks) {
				// Read as it is written, so that 0.03 is 0.03 and not its neighbour.
				const at = Number(`${mark}e${exponent}`);
				if (at >= span.low && at <= span.high)
					ticks.push({ at, text: axisNumber(at, at) });
			}
		return ticks;
	};
	if (every > 1) return marked(decadeMarks[0]);
	const fitting = decadeMarks.map(marked).filter((t) => t.length <= most);
	const ticks = fitting.at(-1) ?? marked(decadeMarks[0]);
	return ticks.length >= 3
		? ticks
		: roundTicks(span, most).filter((t) => t.at > 0);
}

/** On which side of an axis a value lies beyond it; 0 for one that is on it. */
export function beyond({ low, high }: Interval, value: number): -1 | 0 | 1 {
	return value < low ? -1 : value > high ? 1 : 0;
}

/** Where a value lies between the ends of its axis: 0 at the low one, 1 at the high one; what lies beyond is held at the end. */
export function placeOnAxis(
	scale: Scale,
	span: Interval,
	value: number,
): number {
	const part =
		scale.is === "log"
			? value > 0
				? (Math.log(value) - Math.log(span.low)) /
					(Math.log(span.high) - Math.log(span.low))
				: 0
			: (value - span.low) / (span.high - span.low);
	return Math.min(1, Math.max(0, part));
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
