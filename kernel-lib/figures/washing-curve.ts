import { type Washing, type Washout, washCurve } from "../activation";
import type { Figure, Layer } from "./description";
import { figure } from "./figure";
import { countOf, roundedTo } from "./words";

/** Rinses beyond this many are not drawn. */
const mostDrawn = 40;

const plain = (value: number): string =>
	roundedTo(Number(value.toPrecision(3)), 0);

/** How far the curve is drawn: a rinse beyond the target, where it is reached. */
function lastDrawn({ washout, needed }: Washing): number {
	const done = washout.volumes.length;
	return needed.is === "foretold"
		? Math.min(Math.max(done, needed.total + 1), Math.max(done, mostDrawn))
		: done;
}

function curveLayers(
	washed: Extract<Washout, { is: "fitted" }>,
	last: number,
): Layer[] {
	const done = washed.volumes.length;
	const curve = washCurve(
		washed,
		Array.from({ length: last }, (_, i) => i + 1),
	);
	const line = (from: number, to: number): { x: number; y: number }[] =>
		curve
			.filter((p) => p.rinse >= from && p.rinse <= to)
			.map((p) => ({ x: p.rinse, y: p.value }));
	return [
		{
			is: "band",
			name: "95 % band of the curve",
			ink: "blue",
			points: curve.map((p) => ({ x: p.rinse, low: p.low, high: p.high })),
		},
		{
			is: "line",
			name: "well-mixed rinses, fitted",
			ink: "blue",
			dash: "solid",
			points: line(1, done),
		},
		...(last > done
			? [
					{
						is: "line" as const,
						name: "foretold",
						ink: "blue" as const,
						dash: "dashed" as const,
						points: line(done, last),
					},
				]
			: []),
	];
}

/**
 * Readings of the rinses (bars: k = 2), the washout model with its band as far as it foretells, the water's own reading and the targets. The scale is logarithmic for conductivity, so that a steady washing is a straight
 * line until it nears the water's own.
 *
 * @param washing one of activation.washouts; where no model could be fitted the figure shows the readings and says why there is no curve
 */
export function washingCurve(washing: Washing): Figure {
	const { washout: washed, needed } = washing;
	const conductivity = washed.reading === "conductivity";
	const quantity = conductivity ? "conductivity" : "pH";
	const unit = conductivity ? " µS/cm" : "";
	const fitted = washed.is === "fitted";
	const last = lastDrawn(washing);
	const targets = ("target" in needed ? [needed.target] : [])
		.map((text) => ({
			text,
			at: Number(text.replace(/^pH /, "").replace(/ .*$/, "")),
		}))
		// No place on a logarithmic axis; the sentence says why there is no such target.
		.filter((t) => !conductivity || t.at > 0);
	const layers: Layer[] = [
		...(fitted ? curveLayers(washed, last) : []),
		{
			is: "points",
			name: `${quantity} read`,
			ink: "rust",
			shape: "circle",
			points: washed.points.map((p) => ({
				x: p.rinse,
				y: p.value,
				yInterval: {
					low: conductivity
						? Math.max(p.value - 2 * p.uncertainty, p.value / 2)
						: p.value - 2 * p.uncertainty,
					high: p.value + 2 * p.uncertainty,
				},
				hover: `rinse ${p.rinse}\n${quantity} ${plain(p.value)}${unit}\n${plain(p.poured)} mL poured on so far`,
			})),
		},
		...(fitted && washed.floor > 0
			? [
					{
						is: "reference line" as const,
						name: `the water itself (${washed.floorIs})`,
						axis: "y" as const,
						at: washed.floor,
						label: "",
						ink: "quiet" as const,
						dash: "dotted" as const,
					},
				]
			: []),
		...targets.map(
			(t): Layer => ({
				is: "reference line",
				name: `target: ${t.text}`,
				axis: "y",
				at: t.at,
				label: "",
				ink: "text",
				dash: "dash-dotted",
			}),
		),
	];
	const read = washed.points
		.map((p) => `rinse ${p.rinse}: ${plain(p.value)}${unit}`)
		.join("; ");
	const name = washed.firing.name;
	return figure({
		title: `Washing of ${name}`,
		alt: `${conductivity ? "Conductivity" : "pH"} of ${countOf(washed.points.length, "rinse")} of ${name}. ${read}. ${
			fitted
				? `The model of well-mixed rinses keeps ${plain(washed.retained)} mL of liquor in the char. ${"sentence" in needed ? needed.sentence : ""}`
				: `No curve: ${washed.because}.`
		}`.trim(),
		x: { label: "Rinse", unit: "", scale: { is: "linear", whole: true } },
		y: conductivity
			? {
					label: "Conductivity of the rinse",
					unit: "µS/cm",
					scale: { is: "log" },
				}
			: { label: "pH of the rinse", unit: "", scale: { is: "linear" } },
		layers,
		notes: [
			fitted
				? "Bars: reading error, k = 2. Band: 95 % of the curve; pores lag behind it."
				: `No curve: ${washed.because}.`,
		],
	});
}
