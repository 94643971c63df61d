import {
	type Isotherm,
	type IsothermFit,
	type IsothermPoint,
	type IsothermPoints,
	uptakeAt,
} from "../isotherms";
import type { Axis, Layer, Point } from "./description";
import { errorBar } from "./error-bar";
import { onlyLimits } from "./flask-marks";
import { flaskWords, ofProbe, residueLabel, uptakeLabel } from "./flask-words";
import type { SeriesLook } from "./look";
import { roundedTo } from "./words";

/** How many places of a curve are worked out; the picture joins them by straight strokes. */
const curvePlaces = 120;

/** The one probe of all points; "" where they have several, or numbers were typed in without its name. */
function probeOf(points: readonly IsothermPoints[]): string {
	const probes = new Set(points.map((p) => p.probe));
	const [probe = ""] = probes;
	return probes.size === 1 ? probe : "";
}

export function residueAxis(
	points: readonly IsothermPoints[],
	scale: "linear" | "log",
): Axis {
	return {
		label: residueLabel(probeOf(points)),
		unit: "mg/L",
		scale: scale === "log" ? { is: "log" } : { is: "linear", zero: true },
	};
}

export function uptakeAxis(
	points: readonly IsothermPoints[],
	scale: "linear" | "log",
): Axis {
	const flasks = points.flatMap((p) => p.flasks);
	return {
		label:
			flasks.length > 0
				? uptakeLabel(flasks, probeOf(points))
				: `Uptake${ofProbe(probeOf(points))}`,
		unit: "mg/g",
		scale: scale === "log" ? { is: "log" } : { is: "linear", zero: true },
	};
}

/** What a reader sees on pointing at a point. */
export function pointWords(point: IsothermPoint, of: IsothermPoints): string {
	const flask = of.flasks.find((u) => u.flask.name === point.flask);
	if (flask) return flaskWords(flask);
	const at = `residue ${roundedTo(point.concentration, 0)} mg/L`;
	const uptake = `${roundedTo(point.uptake, 0)} mg/g`;
	return point.is === "reading"
		? `${of.name}\nflask ${point.flask}\nuptake ${uptake}\n${at}`
		: `${of.name}\nflask ${point.flask}\nuptake at least ${uptake}\nat most ${at}`;
}

/** Error bars from the errors that are the flask's own, 95 %; a flask that ran dry has one down to no residue at all. */
function barsOf(p: IsothermPoint): Pick<Point, "xInterval" | "yInterval"> {
	if (p.is === "below detection")
		return { xInterval: { low: 0, high: p.concentration } };
	const { concentration, uptake } = p.own;
	return {
		...(concentration > 0
			? { xInterval: errorBar(p.concentration, Math.sqrt(concentration)) }
			: {}),
		...(uptake > 0 ? { yInterval: errorBar(p.uptake, Math.sqrt(uptake)) } : {}),
	};
}

/** The points of one treatment, a flask that ran dry with an arrow up. */
export function pointLayers(
	of: IsothermPoints,
	{ ink, shape }: Pick<SeriesLook, "ink" | "shape">,
	name: string,
	scale: "linear" | "log",
): Layer[] {
	const drawable = of.points.filter(
		(p) => scale === "linear" || (p.concentration > 0 && p.uptake > 0),
	);
	const placeOf = (p: IsothermPoint): Point => ({
		x: p.concentration,
		y: p.uptake,
		hover: pointWords(p, of),
	});
	return [
		{
			is: "points",
			name,
			ink,
			shape,
			points: drawable.map((p) => ({ ...placeOf(p), ...barsOf(p) })),
		},
		...onlyLimits(
			ink,
			drawable
				.filter((p) => p.is === "below detection")
				.map((p) => ({
					...placeOf(p),
					towards: "up",
					label: "at least",
					shape,
				})),
		),
	];
}

/** Places along the residues from `low` to `high`: evenly on a linear axis (from near 0), evenly in the logarithm on a log axis. */
export function residuePlaces(
	low: number,
	high: number,
	scale: "linear" | "log",
): number[] {
	return Array.from({ length: curvePlaces + 1 }, (_, i) => {
		const part = i / curvePlaces;
		return scale === "log"
			? low * (high / low) ** part
			: // Closer together near 0, where the curve bends.
				Math.max(high * 1e-4, high * part ** 2);
	});
}

/** The smallest and the largest residue that a curve is drawn between: as far as flasks were read or ran dry; on a linear axis from 0. */
export function drawnRange(
	fits: readonly IsothermFit[],
	scale: "linear" | "log",
): { low: number; high: number } {
	const seen = fits
		.flatMap((f) => f.used.map((p) => p.concentration))
		.filter((c) => c > 0);
	const high = Math.max(...seen, ...fits.map((f) => f.range.high));
	return { low: scale === "log" ? Math.min(...seen, high) : 0, high };
}

/** A curve at those places where it is defined and above zero. */
export function curvePoints(
	isotherm: Isotherm,
	theta: Float64Array,
	places: readonly number[],
): { x: number; y: number }[] {
	return places
		.filter((c) => c < isotherm.highestConcentration)
		.map((x) => ({ x, y: uptakeAt(isotherm, theta, x) }))
		.filter(({ y }) => Number.isFinite(y) && y > 0);
}
