import {
	type Isotherm,
	type IsothermFit,
	type IsothermPoint,
	type IsothermPoints,
	uptakeAt,
} from "../isotherms";
import type { Arrow, Axis, Layer, Point } from "./description";
import { flaskWords, uptakeLabel } from "./flask-words";
import type { SeriesLook } from "./look";
import { roundedTo } from "./words";

/** How many places of a curve are worked out; the picture joins them by straight strokes. */
const curvePlaces = 120;

/** The axis of residues: of iodine where flasks stand behind the points, plain for typed-in numbers. */
export function residueAxis(
	points: readonly IsothermPoints[],
	scale: "linear" | "log",
): Axis {
	const known = points.every((p) => p.flasks.length > 0);
	return {
		label: known
			? "Residual concentration of iodine, as I₂"
			: "Residual concentration",
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
		label: flasks.length > 0 ? uptakeLabel(flasks) : "Uptake",
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

/** k = 2; nothing where no error is known. */
function errorBar(
	value: number,
	variance: number,
): { low: number; high: number } | null {
	const reach = 2 * Math.sqrt(variance);
	return reach > 0 ? { low: value - reach, high: value + reach } : null;
}

/** The points of one treatment: error bars from the errors that are the flask's own, k = 2; a flask that ran dry as an arrow up, with a bar down to no residue at all. */
export function pointLayers(
	of: IsothermPoints,
	look: Pick<SeriesLook, "ink" | "shape">,
	name: string,
	scale: "linear" | "log",
): Layer[] {
	const drawable = of.points.filter(
		(p) => scale === "linear" || (p.concentration > 0 && p.uptake > 0),
	);
	const points: Point[] = [];
	const arrows: Arrow[] = [];
	for (const p of drawable) {
		const at = { x: p.concentration, y: p.uptake, hover: pointWords(p, of) };
		if (p.is === "below detection") {
			points.push({ ...at, xInterval: { low: 0, high: p.concentration } });
			arrows.push({
				...at,
				towards: "up",
				label: "at least",
				shape: look.shape,
			});
			continue;
		}
		const across = errorBar(p.concentration, p.own.concentration);
		const up = errorBar(p.uptake, p.own.uptake);
		points.push({
			...at,
			...(across ? { xInterval: across } : {}),
			...(up ? { yInterval: up } : {}),
		});
	}
	return [
		{ is: "points", name, ink: look.ink, shape: look.shape, points },
		...(arrows.length > 0
			? [
					{
						is: "arrows" as const,
						name: "only a limit",
						ink: look.ink,
						arrows,
					},
				]
			: []),
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
