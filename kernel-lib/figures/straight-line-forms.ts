import type { IsothermFit, StraightLine } from "../curves";
import type { Axis, Figure, Layer } from "./description";
import { figure } from "./figure";
import {
	curvePoints,
	drawnRange,
	pointLayers,
	residueAxis,
	residuePlaces,
	uptakeAxis,
} from "./isotherm-marks";
import { dashes, seriesLook } from "./look";
import { countOf, listed, roundedTo, sentence } from "./words";

function parameterWords(
	parameters: readonly { readonly name: string; readonly unit: string }[],
	theta: Float64Array,
): string {
	return parameters
		.map(
			(p, j) =>
				`${p.name} ${roundedTo(theta[j], 0)}${p.unit === "" ? "" : ` ${p.unit}`}`,
		)
		.join(", ");
}

/**
 * Straight-line forms drawn back where the data live, uptake against residue, beside the curves that were fitted to the data as they are. Each form is a straight line only on its own axes; here one sees what it does to the
 * points. Forms that give no isotherm at all (a negative plateau) are named below.
 *
 * @param lines of the same points as the fits
 * @param fits real fits of one treatment, usually one of each isotherm that has a straight-line form
 */
export function straightLineForms(
	lines: readonly StraightLine[],
	fits: readonly IsothermFit[],
): Figure {
	const sets = [...new Set(fits.map((f) => f.points))];
	const range = drawnRange(fits, "linear");
	const places = residuePlaces(range.low, range.high, "linear");
	const drawn = lines.filter((l) => l.makesSense);
	const lost = lines.filter((l) => !l.makesSense);
	const layers: Layer[] = [
		...fits.map((fit, i): Layer => {
			const look = seriesLook(i);
			return {
				is: "line",
				name: `${fit.isotherm.name}, fitted to the data as they are`,
				ink: look.ink,
				dash: "solid",
				points: curvePoints(fit.isotherm, fit.theta, places),
			};
		}),
		...drawn.map((l, i): Layer => {
			const look = seriesLook(fits.length + i);
			return {
				is: "line",
				name: `${l.form.isotherm.name} by ${l.form.name}`,
				ink: look.ink,
				// Solid is for the real fits.
				dash: dashes[1 + (i % (dashes.length - 1))],
				points: curvePoints(l.form.isotherm, l.theta, places),
			};
		}),
		...sets.flatMap((set) =>
			pointLayers(set, { ink: "text", shape: "circle" }, "flask", "linear"),
		),
	];
	const title = "Straight-line forms, drawn where the data live";
	return figure({
		title,
		alt: `${title}. ${fits
			.map(
				(f) =>
					`${f.isotherm.name} fitted to the data as they are: ${parameterWords(f.isotherm.parameters, f.theta)}`,
			)
			.join(
				"; ",
			)}. ${sentence(countOf(lines.length, "straight-line form"))}: ${lines
			.map((l) =>
				l.makesSense
					? `${l.form.isotherm.name} by ${l.form.name}, ${parameterWords(l.form.isotherm.parameters, l.theta)}`
					: `${l.form.isotherm.name} by ${l.form.name} gives no isotherm`,
			)
			.join("; ")}.`,
		x: residueAxis(sets, "linear"),
		y: uptakeAxis(sets, "linear"),
		layers,
		notes: [
			...(lost.length > 0
				? [
						`Not drawn, because a parameter came out negative: ${listed(lost.map((l) => l.form.name))}.`,
					]
				: []),
			...(lines[0] && lines[0].leftOut.length > 0
				? [
						`Has no place on a straight line: ${listed(lines[0].leftOut.map((f) => `flask ${f}`))}.`,
					]
				: []),
		],
	});
}

/** Units of what stands on straight axes, with C in mg/L and q in mg/g; a logarithm has none but says what it was taken of. */
const straightUnits: Readonly<Record<string, string>> = {
	C: "mg/L",
	"1/C": "L/mg",
	"C/q": "g/L",
	q: "mg/g",
	"1/q": "g/mg",
	"q/C": "L/g",
	"ln C": "C in mg/L",
	"ln q": "q in mg/g",
};

function straightAxis(label: string): Axis {
	return {
		label,
		unit: straightUnits[label] ?? "",
		scale: { is: "linear" },
	};
}

/** One straight-line form on its own axes, as it is drawn by hand: the points and the line of least squares through them. */
export function straightLineAxes(line: StraightLine): Figure {
	const { form, across, up, intercept, slope } = line;
	const x = Array.from(across);
	const ends = [Math.min(...x), Math.max(...x)];
	const title = `${form.isotherm.name} as a straight line: ${form.name}`;
	return figure({
		title,
		alt: `${title}. ${sentence(countOf(x.length, "point"))}; ${form.up} rises from ${roundedTo(Math.min(...up), 0)} to ${roundedTo(Math.max(...up), 0)}; intercept ${roundedTo(intercept, 0)}, slope ${roundedTo(slope, 0)}.`,
		x: straightAxis(form.across),
		y: straightAxis(form.up),
		layers: [
			{
				is: "line",
				name: "least squares",
				ink: "blue",
				dash: "solid",
				points: ends.map((at) => ({ x: at, y: intercept + slope * at })),
			},
			{
				is: "points",
				name: "flask",
				ink: "text",
				shape: "circle",
				points: x.map((at, i) => ({
					x: at,
					y: up[i],
					hover: `${form.across} = ${roundedTo(at, 0)}\n${form.up} = ${roundedTo(up[i], 0)}`,
				})),
			},
		],
		notes: [],
	});
}
