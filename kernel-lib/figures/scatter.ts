import type { DataFrame } from "../bench";
import {
	didYouMean,
	type Problem,
	problem,
	requireOptions,
	requireResult,
	textOption,
	throwProblems,
} from "../quantity";
import type { Figure, Point } from "./description";
import { frameKind } from "./doors";
import { figure } from "./figure";
import { seriesLook } from "./look";
import { countOf, sentence } from "./words";

export interface ScatterOptions {
	/** Column across, by its name. */
	readonly x: string;
	/** Column upwards. */
	readonly y: string;
	/** Column whose entries get a mark of their own each; not given: one mark for all. */
	readonly by?: string;
	readonly title?: string;
}

const rules = {
	x: textOption,
	y: textOption,
	by: textOption,
	title: textOption,
};

function columnProblems(
	frame: DataFrame,
	{ x, y, by }: ScatterOptions,
): Problem[] {
	const missing = [x, y, ...(by === undefined ? [] : [by])].filter(
		(name) => !frame.columns.includes(name),
	);
	if (missing.length > 0)
		return missing.map((name) =>
			problem(
				"column-not-in-frame",
				{ column: String(name) },
				"no such column in the frame",
				"the name of one of its columns",
				didYouMean(String(name), frame.columns),
			),
		);
	return [x, y]
		.filter((name) =>
			(frame[name].values as unknown[]).every((v) => typeof v !== "number"),
		)
		.map((name) =>
			problem(
				"column-without-numbers",
				{ column: name },
				"a column without a number",
				"numbers to draw",
				"Choose a column of numbers, or put the texts under `by`.",
			),
		);
}

/** "uptake (mg/g)" -> label and unit. */
function axisOf(column: string): { label: string; unit: string } {
	const found = /^(.*?)\s*\(([^()]*)\)$/.exec(column);
	return found === null
		? { label: column, unit: "" }
		: { label: found[1], unit: found[2] };
}

/**
 * Two columns of a dataframe against each other, a mark for each group; rows without one of the two numbers are left out and counted in a note.
 *
 * @param frame such as `uptake.uptakeFrame(trial)`, filtered or not
 * @param options names of the columns: `x`, `y`, and `by` for groups
 * @throws ProblemError for columns that the frame does not have or that hold no number
 * @example
 * figures.scatter(uptake.uptakeFrame(trial), { x: "residue (mg/L)", y: "uptake (mg/g)", by: "treatment" }).y.unit // => "mg/g"
 */
export function scatter(frame: DataFrame, options: ScatterOptions): Figure {
	requireResult(frame, frameKind, "figures.scatter");
	requireOptions(options, rules, "figures.scatter", ["x", "y"]);
	throwProblems(columnProblems(frame, options));
	const { x, y, by } = options;
	const column = (name: string): unknown[] => frame[name].values as unknown[];
	const xs = column(x);
	const ys = column(y);
	const groups = by === undefined ? xs.map(() => "") : column(by).map(String);
	const names = [...new Set(groups)];
	const isNumber = (v: unknown): v is number =>
		typeof v === "number" && Number.isFinite(v);
	const pointsOf = (name: string): Point[] =>
		xs.flatMap((vx, i) => {
			const vy = ys[i];
			return groups[i] === name && isNumber(vx) && isNumber(vy)
				? [{ x: vx, y: vy, hover: `${x}: ${vx}\n${y}: ${vy}` }]
				: [];
		});
	const drawn = names.map((name) => ({ name, points: pointsOf(name) }));
	const count = drawn.reduce((n, g) => n + g.points.length, 0);
	const both = `${axisOf(y).label} and ${axisOf(x).label}`;
	// "pH" keeps its small letter.
	const title =
		options.title ?? (/^[a-z]+\b/.test(both) ? sentence(both) : both);
	return figure({
		title,
		alt: `${title}: ${countOf(count, "point")}${by === undefined ? "" : ` in ${countOf(names.length, "group")} by ${by}`}.`,
		x: { ...axisOf(x), scale: { is: "linear" } },
		y: { ...axisOf(y), scale: { is: "linear" } },
		layers: drawn.map(({ name, points }, i) => {
			const { ink, shape } = seriesLook(i);
			return { is: "points", name: name || y, ink, shape, points };
		}),
		notes:
			count < xs.length
				? [
						`${xs.length - count} of ${xs.length} rows have no number in one of the two columns and are not drawn.`,
					]
				: [],
	});
}
