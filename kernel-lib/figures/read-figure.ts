import { z } from "zod";
import { type Checked, type Problem, problem } from "../quantity";
import {
	type FigureDescription,
	figureFormat,
	figureVersion,
} from "./description";
import { figureProblems } from "./figure";
import { dashes, hatches, seriesInks, shapes } from "./look";

const text = z.string();
const number = z.number();
const ink = z.enum([...seriesInks, "text", "quiet"]);
const shape = z.enum([...shapes, "stroke"]);
const interval = z.object({ low: number, high: number });
const place = z.object({ x: number, y: number });
const axis = z.object({
	label: text,
	unit: text,
	scale: z.discriminatedUnion("is", [
		z.object({
			is: z.literal("linear"),
			zero: z.boolean().optional(),
			whole: z.boolean().optional(),
			shown: interval.optional(),
		}),
		z.object({ is: z.literal("log") }),
		z.object({
			is: z.literal("categories"),
			names: z.array(text),
			ends: z.array(text).optional(),
		}),
	]),
});

const layer = z.discriminatedUnion("is", [
	z.object({
		is: z.literal("points"),
		name: text,
		ink,
		shape,
		size: z.enum(["small", "large"]).optional(),
		points: z.array(
			place.extend({
				xInterval: interval.optional(),
				yInterval: interval.optional(),
				hover: text,
				hollow: z.boolean().optional(),
				label: text.optional(),
			}),
		),
	}),
	z.object({
		is: z.literal("arrows"),
		name: text,
		ink,
		arrows: z.array(
			place.extend({
				towards: z.enum(["up", "down", "left", "right"]),
				label: text,
				hover: text,
				shape: shape.optional(),
				hollow: z.boolean().optional(),
			}),
		),
	}),
	z.object({
		is: z.literal("bars"),
		name: text,
		ink,
		hatch: z.enum(hatches),
		along: z.enum(["x", "y"]),
		width: number,
		bars: z.array(
			z.object({
				at: number,
				from: number,
				to: number,
				hover: text,
				label: text.optional(),
				hollow: z.boolean().optional(),
			}),
		),
	}),
	z.object({
		is: z.literal("line"),
		name: text,
		ink,
		dash: z.enum(dashes),
		smooth: z.boolean().optional(),
		points: z.array(place),
	}),
	z.object({
		is: z.literal("band"),
		name: text,
		ink,
		points: z.array(z.object({ x: number, low: number, high: number })),
	}),
	z.object({
		is: z.literal("region"),
		name: text,
		ink,
		points: z.array(place),
	}),
	z.object({
		is: z.literal("reference line"),
		name: text,
		axis: z.enum(["x", "y"]),
		at: number,
		label: text,
		ink,
		dash: z.enum(dashes),
		over: interval.optional(),
	}),
	z.object({
		is: z.literal("zone"),
		name: text,
		axis: z.enum(["x", "y"]),
		from: number,
		to: number,
		label: text,
		ink,
	}),
	z.object({
		is: z.literal("labels"),
		labels: z.array(place.extend({ text })),
	}),
]);

const schema = z.object({
	format: z.literal(figureFormat),
	version: z.literal(figureVersion),
	title: text,
	alt: text,
	x: axis,
	y: axis,
	layers: z.array(layer),
	notes: z.array(text),
});

/** The published schema of the format, as JSON Schema. */
export function figureSchema(): Record<string, unknown> {
	return z.toJSONSchema(schema) as Record<string, unknown>;
}

/** Checks a figure description that came from outside, such as a notebook that somebody else ran. All problems at once. */
export function readFigure(json: unknown): Checked<FigureDescription> {
	const parsed = schema.safeParse(json);
	const problems: Problem[] = parsed.success
		? figureProblems(parsed.data)
		: parsed.error.issues.map((issue) =>
				problem(
					"figure-not-readable",
					{},
					`a figure description whose "${issue.path.join(".")}" is not right`,
					issue.message,
					"Make the notebook's figures again with this version.",
				),
			);
	return parsed.success && problems.length === 0
		? { ok: true, value: parsed.data }
		: { ok: false, problems };
}
