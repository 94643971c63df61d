import {
	problem,
	quoted,
	type Table,
	table,
	throwProblems,
	type WithTable,
	withTable,
} from "../../quantity";
import { freundlich, type Isotherm, langmuir } from "../catalogue/index";
import { line } from "../catalogue/start-values";
import { requirePoints } from "../doors";
import type { IsothermPoints } from "../points";
import { inDigits } from "../words";

/** A way of bending an isotherm's points onto a straight line. */
export interface StraightLineForm {
	readonly name: string;
	readonly isotherm: Isotherm;
	/** Axes of the straight line, in words. */
	readonly across: string;
	readonly up: string;
	/** What the bending does to the errors. */
	readonly distorts: string;
	readonly transform: (c: number, q: number) => readonly [number, number];
	/** What of the line the plateau is read from. */
	readonly plateauFrom: "1/slope" | "1/intercept" | "intercept" | "nothing";
	/** Parameters of the isotherm from intercept and slope. */
	readonly parameters: (intercept: number, slope: number) => readonly number[];
}

/** The forms that are still drawn; each is exact for points without errors, and each gives another answer for points with them. */
export const straightLineForms: readonly StraightLineForm[] = [
	{
		name: "C/q against C",
		isotherm: langmuir,
		across: "C",
		up: "C/q",
		plateauFrom: "1/slope",
		distorts:
			"C stands on both axes, so that the points look straighter than they are; low points count for little.",
		transform: (c, q) => [c, c / q],
		parameters: (intercept, slope) => [1 / slope, slope / intercept],
	},
	{
		name: "1/q against 1/C",
		isotherm: langmuir,
		across: "1/C",
		up: "1/q",
		plateauFrom: "1/intercept",
		distorts:
			"The smallest q, whose relative error is the largest, decide the line; the points near the plateau crowd at the origin.",
		transform: (c, q) => [1 / c, 1 / q],
		parameters: (intercept, slope) => [1 / intercept, intercept / slope],
	},
	{
		name: "q against q/C",
		isotherm: langmuir,
		across: "q/C",
		up: "q",
		plateauFrom: "intercept",
		distorts: "q stands on both axes: an error of q moves a point along both.",
		transform: (c, q) => [q / c, q],
		parameters: (intercept, slope) => [intercept, -1 / slope],
	},
	{
		name: "ln q against ln C",
		isotherm: freundlich,
		across: "ln C",
		up: "ln q",
		plateauFrom: "nothing",
		distorts:
			"Right if the relative error of q is the same at all points, and wrong in the measure in which it is not.",
		transform: (c, q) => [Math.log(c), Math.log(q)],
		parameters: (intercept, slope) => [Math.exp(intercept), slope],
	},
];

/** One straight-line form applied to points. */
export interface StraightLine {
	readonly form: StraightLineForm;
	/** Parameters of the isotherm as this form gives them; they may make no sense. */
	readonly theta: Float64Array;
	readonly intercept: number;
	readonly slope: number;
	/** The points on the axes of the straight line. */
	readonly across: Float64Array;
	readonly up: Float64Array;
	/** Points with a residue or an uptake that is not above zero have no place on it. */
	readonly leftOut: readonly string[];
	/** False where an isotherm with these parameters does not exist (a negative plateau or affinity). */
	readonly makesSense: boolean;
}

/**
 * Every straight-line form by unweighted least squares, as it is done by hand, for teaching: the real fit stands beside it; shown as a table, a row for each form. Points that ran dry cannot be used.
 *
 * @throws ProblemError for fewer than two points above zero
 * @example
 * // C/q = 1/(100 x 0.1) + C/100
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * isotherms.straightLines(points)[0].slope // => 0.01
 */
export function straightLines(
	points: IsothermPoints,
): WithTable<readonly StraightLine[]> {
	requirePoints(points, "straightLines");
	const usable = points.points.filter(
		(p) => p.is === "reading" && p.concentration > 0 && p.uptake > 0,
	);
	throwProblems(
		usable.length >= 2
			? []
			: [
					problem(
						"too-few-points",
						{ call: quoted(points.name) },
						`${usable.length === 0 ? "no point" : "one point"} with residue and uptake above zero`,
						"two or more, for a straight line",
						"Add flasks with a measurable residue at other doses.",
					),
				],
	);
	const leftOut = points.points
		.filter((p) => !usable.includes(p))
		.map((p) => p.flask);
	const lines = straightLineForms.map((form): StraightLine => {
		const bent = usable.map((p) => form.transform(p.concentration, p.uptake));
		const across = Float64Array.from(bent, (b) => b[0]);
		const up = Float64Array.from(bent, (b) => b[1]);
		const { a: intercept, b: slope } = line(across, up);
		const theta = Float64Array.from(form.parameters(intercept, slope));
		return {
			form,
			theta,
			intercept,
			slope,
			across,
			up,
			leftOut,
			makesSense: theta.every((v) => Number.isFinite(v) && v > 0),
		};
	});
	return withTable(lines, straightLineTable);
}

/** What each form makes of the same points. */
function straightLineTable(lines: readonly StraightLine[]): Table {
	return table(
		"The same points on straight lines",
		["isotherm", "form", "parameters", "what the form does to the errors"],
		lines.map((l) => [
			l.form.isotherm.name,
			l.form.name,
			l.makesSense
				? l.form.isotherm.parameters
						.map(
							(p, j) =>
								`${p.name} = ${inDigits(l.theta[j], 4)}${p.unit === "" ? "" : ` ${p.unit}`}`,
						)
						.join(", ")
				: "no isotherm: a parameter came out negative",
			l.form.distorts,
		]),
		lines[0]?.leftOut.length > 0
			? [`No place on a straight line: ${lines[0].leftOut.join(", ")}.`]
			: [],
	);
}
