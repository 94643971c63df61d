import { type Trial, touchedFlasks } from "../bench";
import { listed, quoted } from "../quantity";
import { everyUptake, type FlaskUptake } from "../uptake";
import type { Arrow, Figure, Layer, Point } from "./description";
import { errorBarOf } from "./error-bar";
import { figure } from "./figure";
import { boundArrow, onlyLimits, uptakeBar } from "./flask-marks";
import { flaskWords, ofProbe, residueLabel, uptakeLabel } from "./flask-words";
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
function placeOf(
	u: FlaskUptake,
	touched: ReadonlySet<string>,
): Pick<Point, "x" | "y" | "hover" | "hollow"> {
	return {
		x: u.residue.quantity.in("mg/L"),
		y: u.uptake.quantity.in("mg/g"),
		hover: flaskWords(u),
		hollow: touched.has(u.flask.name),
	};
}

function arrowsOf(
	u: FlaskUptake,
	touched: ReadonlySet<string>,
	shape: Shape,
): Arrow[] {
	const at = { ...placeOf(u, touched), shape };
	return [
		...boundArrow(u.uptake.is, at),
		...(u.residue.is === "at least"
			? [{ ...at, towards: "right" as const, label: "at least" }]
			: []),
	];
}

function treatmentLayers(
	treatment: string,
	index: number,
	uptakes: readonly FlaskUptake[],
	touched: ReadonlySet<string>,
): Layer[] {
	const { ink, shape } = seriesLook(index);
	const own = uptakes.filter((u) => u.flask.treatment === treatment);
	return [
		{
			is: "points",
			name: treatment,
			ink,
			shape,
			points: own.map((u) => ({
				...placeOf(u, touched),
				...residueBar(u),
				...uptakeBar(u),
			})),
		},
		...onlyLimits(
			ink,
			own.flatMap((u) => arrowsOf(u, touched, shape)),
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
	}`;
}

/**
 * Any uptakes of one probe, each at its residue.
 *
 * @param touched names of flasks that a deviation touched
 */
export function uptakesAtResidues(
	uptakes: readonly FlaskUptake[],
	probe: string,
	touched: ReadonlySet<string>,
): Figure {
	const treatments = [...new Set(uptakes.map((u) => u.flask.treatment))];
	return figure({
		title: `Uptake${ofProbe(probe)} and the residue that it stands at`,
		alt: altText(uptakes, treatments, probe),
		x: { label: residueLabel(probe), unit: "mg/L", scale: { is: "linear" } },
		y: {
			label: uptakeLabel(uptakes, probe),
			unit: "mg/g",
			scale: { is: "linear" },
		},
		layers: treatments.flatMap((t, i) =>
			treatmentLayers(t, i, uptakes, touched),
		),
		notes: [
			"Error bars: measuring uncertainty, k = 2.",
			...(uptakes.some((u) => touched.has(u.flask.name))
				? ["Outlined: flasks that a deviation touched."]
				: []),
		],
	});
}

/**
 * Every uptake (mg/g) with the residual concentration (mg/L) that it stands at (bars: measuring uncertainty, k = 2). Uptakes can be compared where they stand at like residues; a flask that ran dry has an arrow up
 * (its uptake is at least this) and a bar down to no residue at all (its residue is at most this). Flasks that a deviation touched are outlines.
 *
 * @throws ProblemError as uptake.uptakes does
 * @example
 * figures.residueAndUptake(dyeTrial).x.label // => "Residual concentration of methylene blue"
 */
export function residueAndUptake(trial: Trial): Figure {
	return uptakesAtResidues(
		everyUptake(trial),
		trial.probe.name,
		touchedFlasks(trial.deviations),
	);
}
