import { isUsable, type Trial } from "../bench";
import { listed, quoted } from "../quantity";
import { everyUptake, type FlaskUptake } from "../uptake";
import type { Arrow, Figure, Interval, Layer, Point } from "./description";
import { errorBarOf, errorBarShare } from "./error-bar";
import { figure } from "./figure";
import {
	boundArrow,
	linearOver,
	onlyLimits,
	shownStretch,
	uptakeBar,
} from "./flask-marks";
import {
	flaskWords,
	leftOutNotes,
	leftOutText,
	ofProbe,
	residueLabel,
	uptakeLabel,
} from "./flask-words";
import { type Shape, seriesLook } from "./look";
import { countOf, roundedTo } from "./words";

function range(
	flasks: readonly FlaskUptake[],
	value: (u: FlaskUptake) => number,
): string {
	const all = flasks.map(value);
	const low = roundedTo(Math.min(...all), 0);
	const high = roundedTo(Math.max(...all), 0);
	return low === high ? low : `${low} to ${high}`;
}

/** Error bar along the residue; "at most" is the whole stretch down to 0, since a concentration is not negative. */
function residueBar({ residue }: FlaskUptake): Pick<Point, "xInterval"> {
	const c = residue.quantity.to("mg/L");
	if (residue.is === "value") return { xInterval: errorBarOf(c) };
	return residue.is === "at most"
		? { xInterval: { low: Math.min(0, c.value), high: c.value } }
		: {};
}

/** Where a flask stands, and what a reader sees on pointing at it. */
function placeOf(u: FlaskUptake): Pick<Point, "x" | "y"> & {
	readonly hover: string;
	readonly hollow: boolean;
} {
	return {
		x: u.residue.quantity.in("mg/L"),
		y: u.uptake.quantity.in("mg/g"),
		hover: flaskWords(u),
		hollow: !isUsable(u.flask),
	};
}

/** True for a flask of which uptake or residue is only a limit. */
function isLimit(u: FlaskUptake): boolean {
	return u.uptake.is !== "value" || u.residue.is !== "value";
}

/** The stretches of residues and of uptakes that the figure is about; null for all that is drawn. */
interface Shown {
	readonly x: Interval | null;
	readonly y: Interval | null;
}

function shownOf(uptakes: readonly FlaskUptake[]): Shown {
	const values = uptakes.filter((u) => !isLimit(u));
	const limits = uptakes.filter(isLimit).map(placeOf);
	const ends = (which: "x" | "y"): number[] =>
		values.flatMap((u) => {
			const bar =
				which === "x" ? residueBar(u).xInterval : uptakeBar(u).yInterval;
			return bar ? [bar.low, bar.high] : [placeOf(u)[which]];
		});
	const stretch = (which: "x" | "y"): Interval | null =>
		shownStretch(
			ends(which),
			limits.map((l) => l[which]),
		);
	return { x: stretch("x"), y: stretch("y") };
}

/** True for a flask that has no place on the axes. */
function isBeyond(u: FlaskUptake, shown: Shown): boolean {
	const at = placeOf(u);
	return (["x", "y"] as const).some((which) => {
		const stretch = shown[which];
		return (
			stretch !== null && (at[which] < stretch.low || at[which] > stretch.high)
		);
	});
}

/** "at least", with the numbers where the limit has no place on the axes. */
function limitLabel(u: FlaskUptake, shown: Shown): string {
	const { x, y } = placeOf(u);
	return isBeyond(u, shown)
		? `${u.uptake.is} ${roundedTo(y, 0)} mg/g at a residue of ${u.residue.is === "value" ? "" : `${u.residue.is} `}${roundedTo(x, 0)} mg/L`
		: u.uptake.is;
}

function arrowsOf(u: FlaskUptake, shape: Shape, shown: Shown): Arrow[] {
	const at = { ...placeOf(u), shape };
	const label = limitLabel(u, shown);
	// Read above its line: two arrows at one flask, each of which says what it is about.
	return u.residue.is === "at least"
		? [
				...boundArrow(u.uptake.is, at, `uptake ${label}`),
				{ ...at, towards: "right", label: "residue at least" },
			]
		: boundArrow(u.uptake.is, at, label);
}

function treatmentLayers(
	treatment: string,
	index: number,
	uptakes: readonly FlaskUptake[],
	shown: Shown,
): Layer[] {
	const { ink, shape } = seriesLook(index);
	const own = uptakes.filter((u) => u.flask.treatment === treatment);
	return [
		{
			is: "points",
			name: treatment,
			ink,
			shape,
			// A limit at the edge is an arrow alone.
			points: own
				.filter((u) => u.uptake.is === "value" || !isBeyond(u, shown))
				.map((u) => ({
					...placeOf(u),
					...residueBar(u),
					...uptakeBar(u),
				})),
		},
		...onlyLimits(
			ink,
			own.flatMap((u) => arrowsOf(u, shape, shown)),
		),
	];
}

function altText(
	uptakes: readonly FlaskUptake[],
	treatments: readonly string[],
	probe: string,
): string {
	const ranges = treatments.map((t) => {
		const flasks = uptakes.filter((u) => u.flask.treatment === t);
		return `${quoted(t)}: uptake ${range(flasks, (u) => u.uptake.quantity.in("mg/g"))} mg/g at a residue of ${range(flasks, (u) => u.residue.quantity.in("mg/L"))} mg/L`;
	});
	const bounds = uptakes
		.filter((u) => u.uptake.is !== "value")
		.map(
			(u) =>
				`flask ${u.flask.name} (uptake ${u.uptake.is} ${roundedTo(u.uptake.quantity.in("mg/g"), 0)} mg/g)`,
		);
	return `Uptake${ofProbe(probe)} against residual concentration, ${countOf(uptakes.length, "flask")} in ${countOf(treatments.length, "treatment")}. ${ranges.join("; ")}.${
		bounds.length === 0 ? "" : ` Only a limit: ${listed(bounds)}.`
	}${leftOutText(uptakes)}`;
}

/** Any uptakes of one probe, each at its residue. */
export function uptakesAtResidues(
	uptakes: readonly FlaskUptake[],
	probe: string,
): Figure {
	const shown = shownOf(uptakes);
	const treatments = [...new Set(uptakes.map((u) => u.flask.treatment))];
	return figure({
		title: `Uptake${ofProbe(probe)} and the residue that it stands at`,
		alt: altText(uptakes, treatments, probe),
		x: { label: residueLabel(probe), unit: "mg/L", scale: linearOver(shown.x) },
		y: {
			label: uptakeLabel(uptakes, probe),
			unit: "mg/g",
			scale: linearOver(shown.y),
		},
		layers: treatments.flatMap((t, i) => treatmentLayers(t, i, uptakes, shown)),
		notes: [
			`Error bars: measuring uncertainty, ${errorBarShare}.`,
			...leftOutNotes(uptakes),
		],
	});
}

/**
 * Every uptake (mg/g) with the residual concentration (mg/L) that it stands at (bars: measuring uncertainty, 95 %). Uptakes can be compared where they stand at like residues; a flask that ran dry has an arrow up
 * (its uptake is at least this) and a bar down to no residue at all (its residue is at most this). A limit that lies far from all else stands at the edge, with its numbers. Flasks that a deviation leaves out are outlines.
 *
 * @throws ProblemError as uptake.uptakes does
 * @example
 * figures.residueAndUptake(dyeTrial).x.label // => "Residual concentration of methylene blue"
 */
export function residueAndUptake(trial: Trial): Figure {
	return uptakesAtResidues(everyUptake(trial), trial.probe.name);
}
