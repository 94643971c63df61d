import type * as temperature from "../temperature";
import type { Figure, Layer } from "./description";
import { figure } from "./figure";
import { countOf, roundedInterval, roundedTo } from "./words";

function enthalpyWords(v: temperature.VanTHoff): string {
	const { value, low, high } = v.enthalpy;
	if (low.is === "not known" || high.is === "not known")
		return `enthalpy ${roundedTo(value, 0)} kJ/mol, without an interval`;
	const r = roundedInterval(value, low.value, high.value);
	return `enthalpy ${r.value} kJ/mol (${r.low} to ${r.high})`;
}

/** ln K against 1000/T with the line; bars are two standard errors of each constant's own, and the shared ones move all points together. */
export function vanTHoffLine(v: temperature.VanTHoff): Figure {
	const places = v.steps.map((s) => 1000 / s.kelvin);
	const [low, high] = [Math.min(...places), Math.max(...places)];
	const margin = 0.08 * (high - low);
	const on = (x: number): number =>
		v.line.intercept + v.line.slope * (x / 1000 - v.centre);
	const ends = [low - margin, high + margin];
	const own = v.line.own;
	const band: Layer[] =
		own.is === "value"
			? [
					{
						is: "band",
						name: "own errors of the line, two standard errors",
						ink: "blue",
						points: Array.from({ length: 25 }, (_, i) => {
							const x = ends[0] + ((ends[1] - ends[0]) * i) / 24;
							const d = x / 1000 - v.centre;
							const error = Math.sqrt(
								Math.max(
									0,
									own.value.intercept +
										2 * d * own.value.covariance +
										d * d * own.value.slope,
								),
							);
							return { x, low: on(x) - 2 * error, high: on(x) + 2 * error };
						}),
					},
				]
			: [];
	const title = `van 't Hoff line${v.name === "" ? "" : `, ${v.name}`}`;
	const celsius = (kelvin: number): string =>
		`${Number((kelvin - 273.15).toFixed(1))} °C`;
	return figure({
		title,
		alt: `${title}. Logarithm of the dimensionless constant at ${countOf(v.steps.length, "temperature")}: ${v.steps
			.map(
				(s) =>
					`${roundedTo(Math.log(s.constant.value), 0.01)} at ${roundedTo(s.kelvin, 0.1)} K`,
			)
			.join(", ")}. The slope gives an ${enthalpyWords(v)}.`,
		x: { label: "1000 / temperature", unit: "1/K", scale: { is: "linear" } },
		y: { label: "ln K, K dimensionless", unit: "", scale: { is: "linear" } },
		layers: [
			...band,
			{
				is: "line",
				name: "fitted line",
				ink: "blue",
				dash: v.line.own.is === "value" ? "solid" : "dotted",
				points: ends.map((x) => ({ x, y: on(x) })),
			},
			{
				is: "points",
				name: "isotherm at one temperature",
				ink: "rust",
				shape: "square",
				points: v.steps.map((s, i) => {
					const y = Math.log(s.constant.value);
					return {
						x: places[i],
						y,
						yInterval: { low: y - 2 * s.ownError, high: y + 2 * s.ownError },
						hover: `${celsius(s.kelvin)}\nK ${Number(s.constant.value.toPrecision(3))}\nown standard error ${(100 * s.ownError).toFixed(1)} %`,
						label: celsius(s.kelvin),
					};
				}),
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
