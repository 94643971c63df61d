import { plainNumber, quoted, requireResult } from "../quantity";
import type * as temperature from "../temperature";
import type { Figure, Layer, Point } from "./description";
import { vanTHoffKind } from "./doors";
import { errorBar } from "./error-bar";
import { figure } from "./figure";
import { countOf, roundedInterval, roundedTo } from "./words";

/** Places along the line where its band is worked out. */
const bandPlaces = 24;

function enthalpyWords(v: temperature.VanTHoff): string {
	const { value, low, high } = v.enthalpy;
	if (low.is === "not known" || high.is === "not known")
		return `enthalpy ${roundedTo(value, 0)} kJ/mol, without an interval`;
	const r = roundedInterval(value, low.value, high.value);
	return `enthalpy ${r.value} kJ/mol (${r.low} to ${r.high})`;
}

/** The line as it is drawn: across 1000/T in 1/K, upwards ln K. */
interface Drawn {
	/** Ends of the line, somewhat beyond the points. */
	readonly ends: readonly [number, number];
	readonly on: (x: number) => number;
}

function drawnOf({ steps, line, centre }: temperature.VanTHoff): Drawn {
	const places = steps.map((s) => 1000 / s.kelvin);
	const [low, high] = [Math.min(...places), Math.max(...places)];
	const beyond = 0.08 * (high - low);
	return {
		ends: [low - beyond, high + beyond],
		on: (x) => line.intercept + line.slope * (x / 1000 - centre),
	};
}

function bandLayers(
	{ line, centre }: temperature.VanTHoff,
	{ ends, on }: Drawn,
): Layer[] {
	const { own } = line;
	if (own.is === "not known") return [];
	const { intercept, covariance, slope } = own.value;
	return [
		{
			is: "band",
			name: "own errors of the line, two standard errors",
			ink: "blue",
			points: Array.from({ length: bandPlaces + 1 }, (_, i) => {
				const x = ends[0] + ((ends[1] - ends[0]) * i) / bandPlaces;
				const d = x / 1000 - centre;
				const variance = intercept + 2 * d * covariance + d * d * slope;
				const { low, high } = errorBar(on(x), Math.sqrt(Math.max(0, variance)));
				return { x, low, high };
			}),
		},
	];
}

function celsius(kelvin: number): string {
	return `${plainNumber(Number((kelvin - 273.15).toFixed(1)))} °C`;
}

function stepPoint(s: temperature.TemperatureStep): Point {
	const y = Math.log(s.constant.value);
	return {
		x: 1000 / s.kelvin,
		y,
		yInterval: errorBar(y, s.ownError),
		hover: `${celsius(s.kelvin)}\nK ${Number(s.constant.value.toPrecision(3))}\nown standard error ${(100 * s.ownError).toFixed(1)} %`,
		label: celsius(s.kelvin),
	};
}

/**
 * ln K against 1000/T with the line; bars: 95 % of each constant's own errors, and the shared ones move all points together.
 * @example
 * const fits = isotherms.isothermPoints(temperatureTrial).map((p) => isotherms.fitIsotherm(isotherms.langmuir, p));
 * const steps = temperature.temperatureSteps(temperature.temperatureSeries(fits), { molarMass: 253.8 });
 * figures.vanTHoffLine(temperature.vanTHoff(steps)).y.label // => "ln K, K dimensionless"
 */
export function vanTHoffLine(v: temperature.VanTHoff): Figure {
	requireResult(v, vanTHoffKind, "figures.vanTHoffLine");
	const drawn = drawnOf(v);
	const title = `van 't Hoff line${v.name === "" ? "" : `, ${quoted(v.name)}`}`;
	const constants = v.steps.map(
		(s) =>
			`${roundedTo(Math.log(s.constant.value), 0.01)} at ${roundedTo(s.kelvin, 0.1)} K`,
	);
	return figure({
		title,
		alt: `${title}. Logarithm of the dimensionless constant at ${countOf(v.steps.length, "temperature")}: ${constants.join(", ")}. The slope gives an ${enthalpyWords(v)}.`,
		x: { label: "1000 / temperature", unit: "1/K", scale: { is: "linear" } },
		y: { label: "ln K, K dimensionless", unit: "", scale: { is: "linear" } },
		layers: [
			...bandLayers(v, drawn),
			{
				is: "line",
				name: "fitted line",
				ink: "blue",
				dash: v.line.own.is === "value" ? "solid" : "dotted",
				points: drawn.ends.map((x) => ({ x, y: drawn.on(x) })),
			},
			{
				is: "points",
				name: "isotherm at one temperature",
				ink: "rust",
				shape: "square",
				points: v.steps.map(stepPoint),
			},
		],
		notes: [
			`${v.made}.`,
			"What all temperatures share (the titrant, the calibrations) is not in the bars: it moves all points up or down together and turns the line little.",
			...(v.line.own.is === "not known"
				? ["Two temperatures always lie on a line: no interval."]
				: []),
		],
	});
}
