import type { IsothermFit, StraightLine } from "../isotherms";
import { listed } from "../quantity";
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
import { seriesLook } from "./look";
import { countOf, roundedTo, sentence } from "./words";

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
 * The straight-line forms of one isotherm drawn back where the data live, uptake against residue, beside the curve that was fitted to the data as they are. Each form is a straight line only on its own axes; here one
 * sees what it does to the points. Forms that give no isotherm at all (a negative plateau) are named below.
 */
export function straightLineForms(
	lines: readonly StraightLine[],
	fit: IsothermFit,
): Figure {
	const { isotherm, points } = fit;
	const range = drawnRange([fit], "linear");
	const places = residuePlaces(range.low, range.high, "linear");
	const own = lines.filter((l) => l.form.isotherm.name === isotherm.name);
	const drawn = own.filter((l) => l.makesSense);
	const lost = own.filter((l) => !l.makesSense);
	const layers: Layer[] = [
		{
			is: "line",
			name: "fitted to the data as they are",
			ink: seriesLook(0).ink,
			dash: seriesLook(0).dash,
			points: curvePoints(isotherm, fit.theta, places),
		},
		...drawn.map((l, i): Layer => {
			const { ink, dash } = seriesLook(1 + i);
			return {
				is: "line",
				name: l.form.name,
				ink,
				dash,
				points: curvePoints(isotherm, l.theta, places),
			};
		}),
		...pointLayers(points, { ink: "text", shape: "circle" }, "flask", "linear"),
	];
	const title = `${isotherm.name} by straight-line forms, drawn where the data live`;
	const leftOut = own[0]?.leftOut ?? [];
	return figure({
		title,
		alt: `${title}. Fitted to the data as they are: ${parameterWords(isotherm.parameters, fit.theta)}. ${sentence(countOf(own.length, "straight-line form"))}: ${own
			.map((l) =>
				l.makesSense
					? `${l.form.name}, ${parameterWords(isotherm.parameters, l.theta)}`
					: `${l.form.name} gives no isotherm`,
			)
			.join("; ")}.`,
		x: residueAxis([points], "linear"),
		y: uptakeAxis([points], "linear"),
		layers,
		notes: [
			...(lost.length > 0
				? [
						`Not drawn, because a parameter came out negative: ${listed(lost.map((l) => l.form.name))}.`,
					]
				: []),
			...(leftOut.length > 0
				? [
						`Has no place on a straight line: ${listed(leftOut.map((f) => `flask ${f}`))}.`,
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
