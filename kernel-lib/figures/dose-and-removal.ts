import type * as doses from "../dose";
import type { Arrow, Figure, Layer, Point } from "./description";
import { figure } from "./figure";
import { seriesLook } from "./look";
import { countOf, listed, roundedInterval, roundedTo } from "./words";

export interface DoseAndRemovalOptions {
	/** Doses for targets, marked on their curve with their intervals. */
	readonly answers?: readonly doses.DoseAnswer[];
	readonly title?: string;
}

/** Flasks whose start differs by more from that of the curve do not belong to it. Our decision. */
const sameStartWithin = 0.05;

function percent(value: number): string {
	return `${roundedTo(value, value > 99 ? 0.01 : 0.1)} %`;
}

function flaskLayers(
	points: readonly doses.RemovalPoint[],
	start: number,
): { layers: Layer[]; strangers: string[] } {
	const strange = (p: doses.RemovalPoint): boolean =>
		start > 0 && Math.abs(p.start / start - 1) > sameStartWithin;
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

/**
 * Removal against dose: the flasks as they were, the curve that the fitted isotherm and the mass balance predict for them (with its band; not a curve of its own), and doses for targets with their intervals. Several curves, such as a solute alone and beside another,
 * are told apart by colour and dash; where a curve leaves what was measured it is drawn thin and dotted.
 *
 * @param curves the first one is that of the flasks
 */
export function doseAndRemoval(
	curves: readonly doses.RemovalCurve[],
	points: readonly doses.RemovalPoint[] = [],
	options: DoseAndRemovalOptions = {},
): Figure {
	const answers = (options.answers ?? []).flatMap((a) =>
		a.is === "dose" && a.stageCount === 1 ? [a] : [],
	);
	const start = curves[0]?.start ?? 0;
	const { layers: flasks, strangers } = flaskLayers(points, start);
	const bands = curves.flatMap((curve, i): Layer[] => {
		const band = curve.at.flatMap((a) =>
			a.low.is === "value" && a.high.is === "value"
				? [
						{
							x: a.dose,
							low: Math.max(0, Math.min(100, a.low.value)),
							high: Math.max(0, Math.min(100, a.high.value)),
						},
					]
				: [],
		);
		return band.length > 1
			? [{ is: "band", name: curve.name, ink: seriesLook(i).ink, points: band }]
			: [];
	});
	const lines = curves.flatMap((curve, i): Layer[] => {
		const look = seriesLook(i);
		const place = (a: doses.RemovalAt): { x: number; y: number } => ({
			x: a.dose,
			y: a.removal,
		});
		const inside = curve.at.filter((a) => !a.extrapolating).map(place);
		return [
			{
				is: "line",
				name: "",
				ink: look.ink,
				dash: "dotted",
				points: curve.at.map(place),
			},
			...(inside.length > 1
				? [
						{
							is: "line" as const,
							name: curve.name,
							ink: look.ink,
							dash: look.dash,
							points: inside,
						},
					]
				: []),
		];
	});
	const marks: Layer[] =
		answers.length === 0
			? []
			: [
					{
						is: "points",
						name: "dose for a target",
						ink: "maroon",
						shape: "diamond",
						size: "large",
						points: answers.map((a) => ({
							x: a.dose.value,
							y: 100 * (1 - a.target / a.start),
							hover: answerWords(a),
							label: `${roundedTo(a.target, 0)} mg/L`,
							...(a.dose.low.is === "value" && a.dose.high.is === "value"
								? {
										xInterval: {
											low: a.dose.low.value,
											high: a.dose.high.value,
										},
									}
								: {}),
						})),
					},
				];
	const outside = curves.some((c) => c.at.some((a) => a.extrapolating));
	const title = options.title ?? "Removal against dose of char";
	return figure({
		title,
		alt: `${title}. ${countOf(points.length, "flask")}, ${countOf(curves.length, "curve")}${start > 0 ? `, for water that starts from ${roundedTo(start, 0)} mg/L` : ""}. ${curves
			.map((c) => {
				const first = c.at[0];
				const last = c.at[c.at.length - 1];
				return `${c.name}: from ${percent(first.removal)} at ${roundedTo(first.dose, 0)} g/L to ${percent(last.removal)} at ${roundedTo(last.dose, 0)} g/L`;
			})
			.join("; ")}.${
			answers.length === 0
				? ""
				: ` Doses for targets: ${listed(answers.map(answerWords))}.`
		}`,
		x: { label: "Char per litre of water", unit: "g/L", scale: { is: "log" } },
		y: { label: "Removal", unit: "%", scale: { is: "linear", zero: true } },
		layers: [...bands, ...lines, ...flasks, ...marks].filter(
			(l) => l.is !== "points" || l.points.length > 0,
		),
		notes: [
			...(curves.some((c) => c.from === "balance")
				? [
						"The curve is the fitted isotherm met with the mass balance; it was not fitted to the removals.",
					]
				: []),
			...(bands.length > 0
				? [
						`Shaded: ${Math.round(100 * curves[0].confidence)} % confidence band of the curve; a single flask scatters more widely.`,
					]
				: []),
			...(curves.some((c) => c.from === "mixture")
				? [
						"The curve of the mixture is predicted from each solute alone; no flask of the mixture is behind it.",
					]
				: []),
			...(outside
				? ["Dotted: beyond the residues that the flasks showed."]
				: []),
			...(strangers.length > 0
				? [
						`Outlined: started from another concentration, the curve is not theirs (${listed(strangers.map((f) => `flask ${f}`))}).`,
					]
				: []),
		],
	});
}
