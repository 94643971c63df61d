import type * as doses from "../dose";
import { aboutTexts } from "../dose";
import { commonConfidence, confidenceText } from "../isotherms";
import type { MixtureDose } from "../mixtures";
import {
	objectOption,
	quoted,
	requireOptions,
	requireResults,
	textOption,
} from "../quantity";
import type { Figure, Interval, Layer, Point } from "./description";
import { answerKind, removalKind } from "./doors";
import { figure } from "./figure";
import { seriesLook } from "./look";
import { startsAlike } from "./same-start";
import { countOf, roundedTo } from "./words";

export interface DoseForTargetOptions {
	/** What stays at any dose, as `dose.naturalBackground` finds it; drawn where it is shown. */
	readonly background?: doses.NaturalBackground;
	readonly title?: string;
}

type Answer = doses.DoseAnswer | MixtureDose;

/** What is left is drawn on a logarithmic axis where the target is a smaller share of the start: on a plain one it would lie close to the axis. Our decision. */
const logarithmicBelow = 0.2;

function leftAt(removal: number, start: number): number {
	return start * (1 - Math.max(0, Math.min(100, removal)) / 100);
}

/** Flasks that started from another strength are not drawn beside the curve. */
function flasksOf(curve: doses.RemovalCurve): readonly doses.RemovalPoint[] {
	const { flasks } = curve as Partial<doses.RemovalByBalance>;
	return (flasks ?? []).filter((f) => startsAlike(f, curve.start));
}

function flaskLayers(
	flasks: readonly doses.RemovalPoint[],
	drawable: (residue: number) => boolean,
): Layer[] {
	const words = (f: doses.RemovalPoint): string =>
		`flask ${f.flask}\n${roundedTo(f.dose, 0)} g of char per litre\n${f.is === "reading" ? "" : "at most "}${roundedTo(f.residue, 0)} mg/L left`;
	const shown = flasks.filter((f) => drawable(f.residue));
	const read = shown.filter((f) => f.is === "reading");
	const dry = shown.filter((f) => f.is !== "reading");
	const layers: Layer[] = [
		{
			is: "points",
			name: "flask",
			ink: "text",
			shape: "circle",
			points: read.map((f) => ({ x: f.dose, y: f.residue, hover: words(f) })),
		},
		{
			is: "arrows",
			name: "only a limit",
			ink: "text",
			arrows: dry.map((f) => ({
				x: f.dose,
				y: f.residue,
				towards: "down" as const,
				label: "at most",
				hover: words(f),
				shape: "circle" as const,
			})),
		},
	];
	return layers.filter(
		(l) =>
			(l.is === "points" ? l.points : l.is === "arrows" ? l.arrows : [])
				.length > 0,
	);
}

function curveLayers(
	curve: doses.RemovalCurve,
	index: number,
	named: boolean,
	drawable: (residue: number) => boolean,
): Layer[] {
	const { ink, dash } = seriesLook(index);
	const at = curve.at.filter((a) => drawable(a.residue));
	const place = (a: doses.RemovalAt): { x: number; y: number } => ({
		x: a.dose,
		y: a.residue,
	});
	const inside = at.filter((a) => !a.extrapolating);
	const band = inside.flatMap((a) =>
		a.low.is === "value" && a.high.is === "value"
			? [
					{
						x: a.dose,
						low: leftAt(a.high.value, curve.start),
						high: leftAt(a.low.value, curve.start),
					},
				]
			: [],
	);
	const layers: Layer[] = [
		{ is: "band", name: "", ink, points: band.filter((b) => drawable(b.low)) },
		{ is: "line", name: "", ink, dash: "dotted", points: at.map(place) },
		{
			is: "line",
			name: named ? curve.name : "",
			ink,
			dash,
			points: inside.map(place),
		},
	];
	return layers.filter((l) => "points" in l && l.points.length > 1);
}

function intervalOf({ low, high }: doses.FromFits): Interval | null {
	return low.is === "value" && high.is === "value"
		? { low: low.value, high: high.value }
		: null;
}

/** "4.1 g/L (3.9 to 4.3)", with the digits of the sentence above it. */
function doseText(dose: doses.FromFits): string {
	const { value, low, high } = aboutTexts(dose, 1);
	return dose.low.is === "value"
		? `${value} g/L (${low} to ${high})`
		: `${value} g/L`;
}

/**
 * Where a curve meets the target: the dose with its interval, and the way down.
 * @param name of the curve where there are several, else ""
 */
function crossingLayers(
	answer: Answer,
	index: number,
	floor: number,
	name: string,
): Layer[] {
	if (answer.is === "no dose") return [];
	const { dose, target } = answer;
	const interval = intervalOf(dose);
	const { ink } = seriesLook(index);
	const point: Point = {
		x: dose.value,
		y: target,
		hover: `${doseText(dose)} leaves ${roundedTo(target, 0)} mg/L`,
		label:
			name === ""
				? doseText(dose)
				: `${name}: ${aboutTexts(dose, 1).value} g/L`,
		...(interval === null ? {} : { xInterval: interval }),
	};
	return [
		{
			is: "reference line",
			name: "",
			axis: "x",
			at: dose.value,
			label: "",
			ink,
			dash: "dashed",
			over: { low: floor, high: target },
		},
		{
			is: "points",
			name: "",
			ink: name === "" ? "maroon" : ink,
			shape: "diamond",
			size: "large",
			points: [point],
		},
	];
}

function levelLine(at: number, label: string, ink: "text" | "quiet"): Layer {
	return {
		is: "reference line",
		name: "",
		axis: "y",
		at,
		label,
		ink,
		dash: ink === "text" ? "dashed" : "dotted",
	};
}

function stayingLine(
	background: doses.NaturalBackground | undefined,
	start: number,
): Layer[] {
	if (background?.is !== "shown") return [];
	const stays = background.share * start;
	return [
		levelLine(
			stays,
			`${roundedTo(stays, stays)} mg/L stays at any dose`,
			"quiet",
		),
	];
}

function answerWords(answer: Answer, curve: doses.RemovalCurve): string {
	const target = `${roundedTo(answer.target, 0)} mg/L`;
	return `${quoted(curve.name)}: ${answer.is === "no dose" ? `no dose for ${target}` : `${target} with ${doseText(answer.dose)}`}`;
}

const rules = {
	background: objectOption("what dose.naturalBackground returns"),
	title: textOption,
};

/**
 * What is left of a solute against the dose of char, with the target as a line, the dose that reaches it with its interval, and what stays at any dose. Without a dose the curve and the target still show why.
 *
 * @param answers doses for one target
 * @param curves the curve of each answer, in the same order; their flasks are drawn
 * @throws ProblemError for options that it does not have, and for curves of different confidence
 * @example
 * const [points] = isotherms.isothermPoints(doseTrial);
 * const fit = isotherms.fitIsotherm(isotherms.freundlich, points);
 * const answer = dose.doseForTarget(fit, { start: 250, target: 25 });
 * figures.doseForTarget([answer], [dose.removalCurve(fit, { start: 250 })]).y.unit // => "mg/L"
 */
export function doseForTarget(
	answers: readonly Answer[],
	curves: readonly doses.RemovalCurve[],
	options: DoseForTargetOptions = {},
): Figure {
	requireResults(answers, answerKind, "figures.doseForTarget");
	requireResults(curves, removalKind, "figures.doseForTarget");
	requireOptions(options, rules, "figures.doseForTarget");
	const { background, title = "What is left, against the dose of char" } =
		options;
	const target = answers[0]?.target ?? 0;
	const start = curves[0]?.start ?? 0;
	const log = target < logarithmicBelow * start;
	const drawable = (residue: number): boolean => !log || residue > 0;
	const several = curves.length > 1;
	const flasks = curves.flatMap(flasksOf);
	const confidence = commonConfidence(curves, "figures.doseForTarget");
	const staying = stayingLine(background, start);
	const drawnAt = curves.flatMap((c) => c.at.map((a) => a.residue));
	const floor = log ? Math.min(target, ...drawnAt.filter(drawable)) : 0;
	const dotted = curves.some((c) => c.at.some((a) => a.extrapolating));
	return figure({
		title,
		alt: `${title}. ${countOf(flasks.length, "flask")}; the water starts from ${roundedTo(start, 0)} mg/L and is to keep ${roundedTo(target, 0)} mg/L. ${answers.flatMap((a, i) => (curves[i] === undefined ? [] : [answerWords(a, curves[i])])).join("; ")}.${staying.map((l) => (l.is === "reference line" ? ` ${l.label}.` : "")).join("")}`,
		x: {
			label: "Char per litre of water",
			unit: "g/L",
			scale: { is: "linear", zero: true },
		},
		y: {
			label: "Left in the water",
			unit: "mg/L",
			scale: log ? { is: "log" } : { is: "linear", zero: true },
		},
		layers: [
			levelLine(target, `target ${roundedTo(target, 0)} mg/L`, "text"),
			...staying,
			...curves.flatMap((c, i) => curveLayers(c, i, several, drawable)),
			...flaskLayers(flasks, drawable),
			...answers.flatMap((a, i) =>
				crossingLayers(a, i, floor, several ? (curves[i]?.name ?? "") : ""),
			),
		],
		notes: [
			`${several ? "Bar" : "Bar and brackets"}: ${confidenceText(confidence)} interval of what the curve gives.${dotted ? " Dotted: beyond what the flasks showed." : ""}`,
		],
	});
}
