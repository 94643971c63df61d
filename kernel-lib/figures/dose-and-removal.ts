import type * as doses from "../dose";
import { commonConfidence, confidenceText } from "../isotherms";
import {
	listed,
	listOption,
	objectOption,
	quoted,
	requireOptions,
	requireResults,
	textOption,
} from "../quantity";
import type { Arrow, Figure, Layer, Point } from "./description";
import { removalKind, removalPointKind } from "./doors";
import { figure } from "./figure";
import { seriesLook } from "./look";
import { startsAlike } from "./same-start";
import { countOf, roundedInterval, roundedTo } from "./words";

export interface DoseAndRemovalOptions {
	/** Doses for targets, marked on their curve with their intervals. */
	readonly answers?: readonly doses.DoseAnswer[];
	readonly title?: string;
}

function percent(value: number): string {
	return `${roundedTo(value, value > 99 ? 0.01 : 0.1)} %`;
}

function flaskLayers(
	points: readonly doses.RemovalPoint[],
	start: number,
): { layers: Layer[]; strangers: string[] } {
	const strange = (p: doses.RemovalPoint): boolean => !startsAlike(p, start);
	const words = (p: doses.RemovalPoint): string =>
		`flask ${p.flask}\n${roundedTo(p.dose, 0)} g of char per litre\nremoval ${p.is === "reading" ? "" : "at least "}${percent(p.removal)}\nresidue ${p.is === "reading" ? "" : "at most "}${roundedTo(p.residue, 0)} of ${roundedTo(p.start, 0)} mg/L`;
	const read: Point[] = points
		.filter((p) => p.is === "reading")
		.map((p) => ({
			x: p.dose,
			y: p.removal,
			yInterval: { low: p.low, high: Math.max(p.high, p.low) },
			hover: words(p),
			hollow: strange(p),
		}));
	const dry: Arrow[] = points
		.filter((p) => p.is !== "reading")
		.map((p) => ({
			x: p.dose,
			y: p.removal,
			towards: "up",
			label: "at least",
			hover: words(p),
			shape: "circle",
			hollow: strange(p),
		}));
	return {
		layers: [
			{
				is: "points",
				name: "flask",
				ink: "text",
				shape: "circle",
				points: read,
			},
			...(dry.length > 0
				? [
						{
							is: "arrows" as const,
							name: "only a limit",
							ink: "text" as const,
							arrows: dry,
						},
					]
				: []),
		],
		strangers: points.filter(strange).map((p) => p.flask),
	};
}

function answerWords(a: doses.DoseForTarget): string {
	const { low, high, value } = a.dose;
	const r =
		low.is === "value" && high.is === "value"
			? roundedInterval(value, low.value, high.value)
			: { value: roundedTo(value, 0), low: "", high: "" };
	return `${roundedTo(a.target, 0)} mg/L with ${r.value} g/L${r.low === "" ? "" : ` (${r.low} to ${r.high})`}`;
}

/** The doses of single stages among the answers: others have no place on a curve. */
function singleDoses(
	answers: readonly doses.DoseAnswer[],
): doses.DoseForTarget[] {
	return answers.flatMap((a) =>
		a.is === "dose" && a.stageCount === 1 ? [a] : [],
	);
}

function bandLayers(curves: readonly doses.RemovalCurve[]): Layer[] {
	const held = (percent: number): number => Math.max(0, Math.min(100, percent));
	return curves.flatMap((curve, i): Layer[] => {
		const points = curve.at.flatMap((a) =>
			a.low.is === "value" && a.high.is === "value"
				? [{ x: a.dose, low: held(a.low.value), high: held(a.high.value) }]
				: [],
		);
		return points.length > 1
			? [{ is: "band", name: curve.name, ink: seriesLook(i).ink, points }]
			: [];
	});
}

/** Each curve dotted all along, and drawn over that where flasks were read. */
function curveLayers(curves: readonly doses.RemovalCurve[]): Layer[] {
	const place = (a: doses.RemovalAt): { x: number; y: number } => ({
		x: a.dose,
		y: a.removal,
	});
	return curves.flatMap((curve, i): Layer[] => {
		const { ink, dash } = seriesLook(i);
		const inside = curve.at.filter((a) => !a.extrapolating).map(place);
		return [
			{
				is: "line",
				name: "",
				ink,
				dash: "dotted",
				points: curve.at.map(place),
			},
			...(inside.length > 1
				? [{ is: "line" as const, name: curve.name, ink, dash, points: inside }]
				: []),
		];
	});
}

function answerLayers(answers: readonly doses.DoseForTarget[]): Layer[] {
	const points = answers.map(
		(a): Point => ({
			x: a.dose.value,
			y: 100 * (1 - a.target / a.start),
			hover: answerWords(a),
			label: `${roundedTo(a.target, 0)} mg/L`,
			...(a.dose.low.is === "value" && a.dose.high.is === "value"
				? { xInterval: { low: a.dose.low.value, high: a.dose.high.value } }
				: {}),
		}),
	);
	return points.length === 0
		? []
		: [
				{
					is: "points",
					name: "dose for a target",
					ink: "maroon",
					shape: "diamond",
					size: "large",
					points,
				},
			];
}

function curveWords({ name, at }: doses.RemovalCurve): string {
	const words = (a: doses.RemovalAt): string =>
		`${percent(a.removal)} at ${roundedTo(a.dose, 0)} g/L`;
	return `${quoted(name)}: from ${words(at[0])} to ${words(at[at.length - 1])}`;
}

function altText(
	title: string,
	curves: readonly doses.RemovalCurve[],
	flaskCount: number,
	answers: readonly doses.DoseForTarget[],
): string {
	const start = curves[0]?.start ?? 0;
	return `${title}. ${countOf(flaskCount, "flask")}, ${countOf(curves.length, "curve")}${start > 0 ? `, for water that starts from ${roundedTo(start, 0)} mg/L` : ""}. ${curves.map(curveWords).join("; ")}.${
		answers.length === 0
			? ""
			: ` Doses for targets: ${listed(answers.map(answerWords))}.`
	}`;
}

function notesOn(
	curves: readonly doses.RemovalCurve[],
	hasBand: boolean,
	strangers: readonly string[],
): string[] {
	const said: readonly (readonly [boolean, string])[] = [
		[
			curves.some((c) => c.from === "balance"),
			"The curve is the fitted isotherm met with the mass balance; it was not fitted to the removals.",
		],
		[
			hasBand,
			`Shaded: ${confidenceText(commonConfidence(curves, "figures.doseAndRemoval"))} confidence band of the curve; a single flask scatters more widely.`,
		],
		[
			curves.some((c) => c.from === "mixture"),
			"The curve of the mixture is predicted from each solute alone; no flask of the mixture is behind it.",
		],
		[
			curves.some((c) => c.at.some((a) => a.extrapolating)),
			"Dotted: beyond the residues that the flasks showed.",
		],
		[
			strangers.length > 0,
			`Outlined: started from another concentration, the curve is not theirs (${listed(strangers.map((f) => `flask ${f}`))}).`,
		],
	];
	return said.filter(([applies]) => applies).map(([, text]) => text);
}

/**
 * Removal against dose: the flasks as they were, the curve that the fitted isotherm and the mass balance predict for them (with its band; not a curve of its own), and doses for targets with their intervals. Several curves, such as a solute alone and beside another,
 * are distinguished by colour and dash; where a curve leaves what was measured it is drawn thin and dotted.
 *
 * @param curves the first one is that of the flasks
 * @throws ProblemError for options that it does not have, and for curves of different confidence
 * @example
 * const [points] = isotherms.isothermPoints(doseTrial);
 * const fit = isotherms.fitIsotherm(isotherms.freundlich, points);
 * const curve = dose.removalCurve(fit);
 * figures.doseAndRemoval([curve], curve.flasks).y.unit // => "%"
 */
export function doseAndRemoval(
	curves: readonly doses.RemovalCurve[],
	points: readonly doses.RemovalPoint[] = [],
	options: DoseAndRemovalOptions = {},
): Figure {
	requireResults(curves, removalKind, "figures.doseAndRemoval");
	requireResults(points, removalPointKind, "figures.doseAndRemoval");
	requireOptions(
		options,
		{
			answers: listOption(objectOption("an answer of dose.doseForTarget")),
			title: textOption,
		},
		"figures.doseAndRemoval",
	);
	const { title = "Removal against dose of char" } = options;
	const answers = singleDoses(options.answers ?? []);
	const { layers: flasks, strangers } = flaskLayers(
		points,
		curves[0]?.start ?? 0,
	);
	const bands = bandLayers(curves);
	return figure({
		title,
		alt: altText(title, curves, points.length, answers),
		x: { label: "Char per litre of water", unit: "g/L", scale: { is: "log" } },
		y: { label: "Removal", unit: "%", scale: { is: "linear", zero: true } },
		layers: [
			...bands,
			...curveLayers(curves),
			...flasks,
			...answerLayers(answers),
		].filter((l) => l.is !== "points" || l.points.length > 0),
		notes: notesOn(curves, bands.length > 0, strangers),
	});
}
