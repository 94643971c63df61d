import { type Comparison, requireComparison } from "../compare";
import type { DoseAnswer } from "../dose";
import {
	commonConfidence,
	confidenceText,
	fitKind,
	type IsothermFit,
	type IsothermPoints,
	requireAlike,
	uptakeAt,
	uptakeAtResidue,
} from "../isotherms";
import {
	listed,
	numberOption,
	objectOption,
	problem,
	quoted,
	requireOptions,
	requireResults,
	textOption,
	throwProblems,
	wordOption,
	yesNoOption,
} from "../quantity";
import type { Figure, Layer } from "./description";
import {
	bracketLayers,
	comparedResidue,
	differencesInWords,
} from "./difference-brackets";
import { errorBarShare } from "./error-bar";
import { figure } from "./figure";
import { ofProbe } from "./flask-words";
import {
	curvePoints,
	drawnRange,
	pointLayers,
	residueAxis,
	residuePlaces,
	uptakeAxis,
} from "./isotherm-marks";
import { isothermResiduals } from "./isotherm-residuals";
import { type SeriesLook, seriesLook } from "./look";
import { stageSteps } from "./stages";
import { countOf, roundedInterval, roundedTo } from "./words";

export interface IsothermFigureOptions {
	/** Both axes; linear if not given. */
	readonly scale?: "linear" | "log";
	/** Draws each flask's mass balance: whatever its titre, the flask lies somewhere on this line, and it should lie where the line meets the curve. Linear axes only. */
	readonly balanceLines?: boolean;
	/** A residue (mg/L) at which treatments are compared; marked, and read off in the alt text. */
	readonly atResidue?: number;
	/** The comparison of the treatments: its residue is marked, with a bracket of each difference. */
	readonly comparison?: Comparison;
	readonly title?: string;
	/** In place of the curves what they leave over, in standard deviations, against the residue. Goes with no other option. */
	readonly residuals?: boolean;
	/** A dose, as `dose.doseForTarget` answers from this fit: its stages stepped off between the isotherm and the mass balances. For one fit; goes with no other option. */
	readonly stages?: DoseAnswer;
}

/** Largest uptake (as a multiple of the highest point or curve) up to which a band is drawn: a band without end would flatten everything else. */
const bandReach = 1.5;

/** A band at fewer places than its curve: each costs the propagation of all shared errors. */
const bandEvery = 3;

function parametersInWords(fit: IsothermFit): string {
	return fit.parameters
		.map((p) => {
			const unit = p.unit === "" ? "" : ` ${p.unit}`;
			return p.standardError.is === "value"
				? `${p.name} ${roundedTo(p.value, p.standardError.value)}${unit} (standard error ${roundedTo(p.standardError.value, p.standardError.value)})`
				: `${p.name} ${roundedTo(p.value, 0)}${unit} (no standard error)`;
		})
		.join(", ");
}

function bandOf(
	{ fit, look, points: curve }: Curve,
	name: string,
	ceiling: number,
): { readonly layer: Layer[]; readonly cut: boolean } {
	const inside = curve
		.map((p) => p.x)
		.filter(
			(c, i) =>
				(i % bandEvery === 0 || i === curve.length - 1) &&
				c < fit.isotherm.highestConcentration,
		);
	let cut = false;
	const points = uptakeAtResidue(fit, ...inside).flatMap((at) => {
		if (at.low.is === "not known" || at.high.is === "not known") return [];
		if (at.high.value > ceiling) cut = true;
		return [
			{
				x: at.residue,
				low: Math.min(Math.max(0, at.low.value), ceiling),
				high: Math.min(Math.max(0, at.high.value), ceiling),
			},
		];
	});
	return points.length > 1
		? { layer: [{ is: "band", name, ink: look.ink, points }], cut }
		: { layer: [], cut };
}

/** The stretch of a flask's balance line that lies on the figure. */
function balanceLayers(
	fits: readonly IsothermFit[],
	high: number,
	ceiling: number,
): Layer[] {
	const lines = fits
		.flatMap((f) => f.used)
		.flatMap((p) => (p.balance.is === "known" ? [p.balance] : []));
	const seen = new Set<string>();
	return lines.flatMap(({ intercept, slope }): Layer[] => {
		const key = `${intercept} ${slope}`;
		if (seen.has(key) || !(intercept > 0)) return [];
		seen.add(key);
		const from = Math.max(0, (intercept - ceiling) / slope);
		const to = Math.min(high, intercept / slope);
		return from >= to
			? []
			: [
					{
						is: "line",
						name: "mass balance of a flask",
						ink: "quiet",
						dash: "dotted",
						points: [
							{ x: from, y: intercept - slope * from },
							{ x: to, y: intercept - slope * to },
						],
					},
				];
	});
}

function residueWords(fit: IsothermFit, residue: number): string {
	const [at] = uptakeAtResidue(fit, residue);
	const where = `at ${roundedTo(residue, 0)} mg/L`;
	const outside = at.extrapolating ? ", outside the measured range" : "";
	if (at.low.is === "not known" || at.high.is === "not known")
		return `${where} ${roundedTo(at.uptake, 0)} mg/g (no interval)${outside}`;
	const r = roundedInterval(at.uptake, at.low.value, at.high.value);
	return `${where} ${r.value} mg/g (${r.low} to ${r.high})${outside}`;
}

/** Fits, how they are called, and the curve of each. */
interface Drawn {
	readonly fits: readonly IsothermFit[];
	readonly sets: readonly IsothermPoints[];
	/** True where all fits are of one isotherm. */
	readonly oneIsotherm: boolean;
	readonly scale: "linear" | "log";
	readonly curves: readonly Curve[];
	/** The highest uptake of any point or curve, mg/g. */
	readonly highest: number;
}

interface Curve {
	readonly fit: IsothermFit;
	readonly look: SeriesLook;
	readonly points: readonly { readonly x: number; readonly y: number }[];
}

function curveOf(
	fit: IsothermFit,
	index: number,
	scale: "linear" | "log",
): Curve {
	const { low, high } = drawnRange([fit], scale);
	const places = residuePlaces(low, high, scale);
	return {
		fit,
		look: seriesLook(index),
		points: curvePoints(fit.isotherm, fit.theta, places),
	};
}

function drawnOf(fits: readonly IsothermFit[], scale: "linear" | "log"): Drawn {
	const sets = [...new Set(fits.map((f) => f.points))];
	const curves = fits.map((fit, i) => curveOf(fit, i, scale));
	return {
		fits,
		sets,
		oneIsotherm: new Set(fits.map((f) => f.isotherm.name)).size === 1,
		scale,
		curves,
		highest: Math.max(
			0,
			...curves.flatMap((c) => c.points.map((p) => p.y)),
			...sets.flatMap((s) => s.points.map((p) => p.uptake)),
		),
	};
}

/** What tells a fit from the others. */
function nameOf(fit: IsothermFit, { sets, oneIsotherm }: Drawn): string {
	if (sets.length === 1) return fit.isotherm.name;
	return oneIsotherm
		? fit.points.name
		: `${fit.points.name}, ${fit.isotherm.name}`;
}

/** The same in a sentence. */
function saidOf(fit: IsothermFit, { sets, oneIsotherm }: Drawn): string {
	if (sets.length === 1) return fit.isotherm.name;
	const treatment = quoted(fit.points.name);
	return oneIsotherm ? treatment : `${treatment}, ${fit.isotherm.name}`;
}

/** One curve a treatment shares its entry in the key with its points. */
function pointsName(set: IsothermPoints, drawn: Drawn): string {
	if (drawn.sets.length === 1) return "flask";
	const own = drawn.fits.filter((f) => f.points === set);
	return own.length === 1 ? nameOf(own[0], drawn) : set.name;
}

function pointsLayers(drawn: Drawn): Layer[] {
	const { sets, fits, scale } = drawn;
	return sets.flatMap((set) => {
		const look: Pick<SeriesLook, "ink" | "shape"> =
			sets.length === 1
				? { ink: "text", shape: "circle" }
				: seriesLook(fits.findIndex((f) => f.points === set));
		return pointLayers(set, look, pointsName(set, drawn), scale);
	});
}

function residueLine(atResidue: number | undefined): Layer[] {
	return atResidue === undefined
		? []
		: [
				{
					is: "reference line",
					name: "",
					axis: "x",
					at: atResidue,
					label: `compared at ${roundedTo(atResidue, 0)} mg/L`,
					ink: "quiet",
					dash: "dashed",
				},
			];
}

function titleOf({ fits, sets, oneIsotherm }: Drawn): string {
	const kind =
		oneIsotherm && fits.length > 0
			? `${fits[0].isotherm.name} isotherm`
			: "Isotherms";
	const all = `${kind}${ofProbe(sets[0]?.probe ?? "")}`;
	return sets.length === 1 && sets[0].name !== ""
		? `${all}, ${quoted(sets[0].name)}`
		: all;
}

function fitWords(fit: IsothermFit, atResidue: number | undefined): string {
	const { low, high } = fit.range;
	const at = (residue: number): string =>
		`${roundedTo(uptakeAt(fit.isotherm, fit.theta, residue), 0)} mg/g at ${roundedTo(residue, 0)} mg/L`;
	return `the curve goes from ${at(low)} to ${at(high)}; ${parametersInWords(fit)}${
		atResidue === undefined ? "" : `; ${residueWords(fit, atResidue)}`
	}`;
}

function altText(
	drawn: Drawn,
	title: string,
	atResidue: number | undefined,
): string {
	const { fits, sets } = drawn;
	const flasks = countOf(
		sets.reduce((n, s) => n + s.points.length, 0),
		"flask",
	);
	const treatments =
		sets.length > 1 ? ` in ${countOf(sets.length, "treatment")}` : "";
	const dry = sets.flatMap((s) =>
		s.points.filter((p) => p.is === "below detection").map((p) => p.flask),
	);
	return `${title}. Uptake${ofProbe(sets[0]?.probe ?? "")} against residual concentration, ${flasks}${treatments}, ${countOf(fits.length, "fitted curve")}. ${fits
		.map((f) => `${saidOf(f, drawn)}: ${fitWords(f, atResidue)}`)
		.join(". ")}.${
		dry.length === 0
			? ""
			: ` Ran dry, so only a limit: ${listed(dry.map((f) => `flask ${f}`))}.`
	}`;
}

function notesOn(
	{ fits, sets }: Drawn,
	bands: readonly { readonly layer: Layer[]; readonly cut: boolean }[],
): string[] {
	const confidence = commonConfidence(fits, "figures.isotherms");
	const flaskErrors = sets.some((s) =>
		s.points.some((p) => p.own.uptake > 0 || p.own.concentration > 0),
	);
	const leftOut = sets.flatMap((s) =>
		s.leftOut.map((l) => `flask ${l.flask} (${l.because})`),
	);
	return [
		bands.some((b) => b.layer.length > 0)
			? `Shaded: ${confidenceText(confidence)} confidence band of the curve, shared errors included; single flasks scatter more widely.`
			: "No band: these data give the curve no error.",
		...(bands.some((b) => b.cut)
			? [
					"A band is cut off where it leaves the figure: there the data do not determine the curve.",
				]
			: []),
		...(flaskErrors
			? [`Error bars: the flask's own reading errors, ${errorBarShare}.`]
			: []),
		...(leftOut.length > 0 ? [`Not in the fit: ${listed(leftOut)}.`] : []),
	];
}

const isothermRules = {
	scale: wordOption("linear", "log"),
	balanceLines: yesNoOption,
	atResidue: numberOption(0, Number.POSITIVE_INFINITY),
	comparison: objectOption(
		"a comparison, as compare.compareTreatments(trial, options) returns it",
	),
	title: textOption,
	residuals: yesNoOption,
	stages: objectOption("the answer of dose.doseForTarget(fit, question)"),
};

/** Residuals and stages are figures of their own: what else was asked for would not be in them. */
function requireAlone(
	fits: readonly IsothermFit[],
	options: IsothermFigureOptions,
): void {
	const given = Object.entries(options)
		.filter(([, value]) => value !== undefined && value !== false)
		.map(([name]) => name);
	const alone = given.filter((n) => n === "residuals" || n === "stages");
	const where = { call: "figures.isotherms" };
	throwProblems([
		...(alone.length > 0 && given.length > 1
			? [
					problem(
						"option-alone",
						where,
						`the options ${listed(given)} together`,
						`${alone[0]} without another option`,
						"Draw a figure of each.",
					),
				]
			: []),
		...(options.stages !== undefined && fits.length !== 1
			? [
					problem(
						"stages-of-one-fit",
						where,
						`${fits.length} fits and the stages of one dose`,
						"the one fit that the dose was taken from",
						"Give this fit alone: figures.isotherms([fit], { stages: answer }).",
					),
				]
			: []),
	]);
}

/**
 * Uptake against residue with the fitted curves, each as far as its flasks were read: confidence band of the curve (shared errors in it), points with the flask's own errors (95 %), flasks that ran dry as arrows.
 * Treatments are distinguished by colour, shape and dash; several isotherms for one treatment by colour and dash. Or, where asked for, the residuals of the fits, or the stages of a dose.
 *
 * @param fits of one or several treatments, of one or several isotherms, with one confidence
 * @throws ProblemError for options that it does not have, and for fits of different confidence, of two probes or of two trials; for residuals or stages beside other options, stages of several fits or of an answer without a dose
 * @example
 * const [points] = isotherms.isothermPoints(isothermTrial);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * figures.isotherms([fit]).x.label // => "Residual concentration of iodine, as I₂"
 * figures.isotherms([fit], { residuals: true }).y.unit // => "standard deviations"
 * const stages = dose.doseForTarget(fit, { start: 2000, target: 500, beyond: "mark" });
 * figures.isotherms([fit], { stages: stages }).layers.length // => 3
 */
export function isotherms(
	fits: readonly IsothermFit[],
	options: IsothermFigureOptions = {},
): Figure {
	requireResults(fits, fitKind, "figures.isotherms");
	requireAlike(
		fits.map((f) => f.points),
		"figures.isotherms",
	);
	requireOptions(options, isothermRules, "figures.isotherms");
	requireAlone(fits, options);
	if (options.residuals) return isothermResiduals(...fits);
	if (options.stages !== undefined) return stageSteps(options.stages, fits[0]);
	const { scale = "linear", balanceLines = false, comparison } = options;
	if (comparison !== undefined)
		requireComparison(comparison, "figures.isotherms");
	const atResidue =
		comparison === undefined ? options.atResidue : comparedResidue(comparison);
	const drawn = drawnOf(fits, scale);
	const { curves, highest, sets } = drawn;
	const bands = curves.map((c) =>
		bandOf(c, nameOf(c.fit, drawn), bandReach * highest),
	);
	const widest = Math.max(
		0,
		...curves.flatMap((c) => c.points.map((p) => p.x)),
	);
	const title = options.title ?? titleOf(drawn);
	return figure({
		title,
		alt: `${altText(drawn, title, atResidue)}${comparison === undefined ? "" : differencesInWords(comparison)}`,
		x: residueAxis(sets, scale),
		y: uptakeAxis(sets, scale),
		layers: [
			...(balanceLines && scale === "linear"
				? balanceLayers(fits, widest, 1.05 * highest)
				: []),
			...bands.flatMap((b) => b.layer),
			...curves.map(
				({ fit, look: { ink, dash }, points }): Layer => ({
					is: "line",
					name: nameOf(fit, drawn),
					ink,
					dash,
					points,
				}),
			),
			...pointsLayers(drawn),
			...residueLine(atResidue),
			...(comparison === undefined
				? []
				: bracketLayers(comparison, fits, widest)),
		],
		notes: notesOn(drawn, bands),
	});
}
