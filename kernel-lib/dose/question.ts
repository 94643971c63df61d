import type { IsothermFit } from "../isotherms";
import {
	coverAt,
	inDigits,
	nonAdsorbable,
	percent,
	roughly,
	uptakeAt,
} from "../isotherms";
import {
	anyNumberOption,
	eitherOption,
	type OptionRule,
	type Problem,
	problem,
	type Quantity,
	quantityOption,
	requireOptions,
	sharedErrors,
	throwProblems,
	wordOption,
} from "../quantity";
import type { OutsideError } from "./from-fits";
import { oneStageDose, type Scheme } from "./stages";

/** How much char takes this water to that residue? */
export interface DoseQuestion {
	/** Concentration of the water as it comes, mg/L; a quantity brings its own uncertainty, and what it shares with the flasks counts once. */
	readonly start: number | Quantity<"massConcentration">;
	/** Residue to be reached, mg/L. */
	readonly target: number;
	/** 1 if not given. */
	readonly stages?: number;
	/** "cross-current" if not given; for one stage all are the same. */
	readonly scheme?: Scheme;
	/** What to do where a residue lies outside those that the flasks showed: "refuse" if not given; "mark" answers and says so. */
	readonly beyond?: "refuse" | "mark";
}

/** Why there is no answer, and which flasks would give one. */
export interface NoDose {
	readonly is: "no dose";
	/** What was fitted: the treatment. */
	readonly name: string;
	readonly start: number;
	readonly target: number;
	readonly scheme: Scheme;
	readonly stageCount: number;
	/** Short stable code, for tests and for looking it up. */
	readonly code:
		| "target-above-start"
		| "one-dose-only"
		| "target-below-background"
		| "no-uptake-at-target"
		| "isotherm-not-defined"
		| "outside-measured-range"
		| "not-determined";
	readonly because: string;
	/** A sentence of its own: which flasks would give an answer, or what else would. */
	readonly wouldTell: string;
}

/** Why there is no answer, and what would give one: "..., so that ... . Flasks ... would." */
export function noDoseText(no: Pick<NoDose, "because" | "wouldTell">): string {
	return `${no.because}. ${no.wouldTell}`;
}

/** The question in plain numbers. */
export interface PlainQuestion {
	readonly start: number;
	readonly target: number;
	readonly stageCount: number;
	readonly scheme: Scheme;
	readonly beyond: "refuse" | "mark";
	/** Errors of the start, as effects on the start itself, mg/L. */
	readonly startErrors: readonly OutsideError[];
}

/** More stages than anybody builds; beyond them rounding would show. */
export const mostStages = 12;
/** Doses that differ by less are one dose. Our decision. */
const sameWithin = 0.05;
/** A curve whose lowest point already reaches this share of the plateau says nothing of what lies below. Our decision, as for the fit. */
const plateauFrom = 0.7;

const concentration: OptionRule = eitherOption(
	anyNumberOption("a number in mg/L"),
	quantityOption("massConcentration"),
);

const questionRules: Readonly<Record<string, OptionRule>> = {
	start: concentration,
	target: anyNumberOption("a number in mg/L"),
	stages: anyNumberOption(),
	scheme: wordOption(
		"cross-current",
		"cross-current, equal doses",
		"counter-current",
	),
	beyond: wordOption("refuse", "mark"),
};

/** @throws ProblemError for numbers that make no question: not finite, not above zero, no whole number of stages */
export function plainQuestion(question: DoseQuestion): PlainQuestion {
	requireOptions(question, questionRules, "doseForTarget", ["start", "target"]);
	const { target, stages = 1, scheme = "cross-current" } = question;
	const start =
		typeof question.start === "number"
			? question.start
			: question.start.in("mg/L");
	throwProblems([
		...aboveZero("start", start),
		...aboveZero("target", target),
		...(Number.isInteger(stages) && stages >= 1 && stages <= mostStages
			? []
			: [
					problem(
						"stages-out-of-range",
						{},
						`${stages} stages`,
						`a whole number from 1 to ${mostStages}`,
						"Give the number of times that water and char meet.",
					),
				]),
	]);
	return {
		start,
		target,
		stageCount: stages,
		scheme,
		beyond: question.beyond ?? "refuse",
		startErrors:
			typeof question.start === "number" ? [] : errorsOf(question.start),
	};
}

export function aboveZero(what: "start" | "target", value: number): Problem[] {
	return Number.isFinite(value) && value > 0
		? []
		: [
				problem(
					"concentration-not-positive",
					{},
					Number.isFinite(value)
						? `a ${what} of ${value} mg/L`
						: `a ${what} that is no number`,
					"a concentration above 0 mg/L",
					what === "target"
						? "No dose takes all away; give the residue that may be left."
						: "Give the concentration of the water as it comes.",
				),
			];
}

function errorsOf(start: Quantity<"massConcentration">): OutsideError[] {
	const { ownVariance, shared } = sharedErrors([start.to("mg/L")]);
	return [
		...(ownVariance[0] > 0
			? [
					{
						key: "start concentration, own readings",
						what: "start concentration",
						effect: Math.sqrt(ownVariance[0]),
						degreesOfFreedom: Number.POSITIVE_INFINITY,
					},
				]
			: []),
		...shared.map(({ input, node, effect }) => ({
			key: input.key,
			what: node.name.meaning || node.name.symbol || "start concentration",
			effect: effect[0],
			degreesOfFreedom: input.degreesOfFreedom,
		})),
	];
}

/** Concentrations (mg/L) that the waters of the flasks would show without char. */
export function startsOf(fit: Pick<IsothermFit, "used">): number[] {
	return fit.used.flatMap((p) =>
		p.balance.is === "known" ? [p.balance.intercept / p.balance.slope] : [],
	);
}

/** Char in each flask, g per litre of its liquid. */
export function dosesOf(fit: Pick<IsothermFit, "used">): number[] {
	return fit.used.flatMap((p) =>
		p.balance.is === "known" ? [1 / p.balance.slope] : [],
	);
}

export function median(values: readonly number[]): number {
	const sorted = [...values].sort((a, b) => a - b);
	const half = Math.floor(sorted.length / 2);
	return sorted.length % 2 === 1
		? sorted[half]
		: (sorted[half - 1] + sorted[half]) / 2;
}

/**
 * Parameters for water of another start: what is not adsorbable is a share of the water, so that it goes with the start. Without such a share, and for plain points, the parameters as they are.
 */
export function thetaFor(
	fit: IsothermFit,
	theta: Float64Array,
	start: number,
): Float64Array {
	const j = fit.isotherm.parameters.findIndex((p) => p.name === nonAdsorbable);
	const starts = startsOf(fit);
	if (j < 0 || starts.length === 0) return theta;
	const scaled = theta.slice();
	scaled[j] *= start / median(starts);
	return scaled;
}

type Why = [code: NoDose["code"], because: string, wouldTell: string];

/** A question without an answer. */
export function noDose(
	fit: IsothermFit,
	q: PlainQuestion,
	...[code, because, wouldTell]: Why
): NoDose {
	return {
		is: "no dose",
		name: fit.points.name,
		start: q.start,
		target: q.target,
		scheme: q.scheme,
		stageCount: q.stageCount,
		code,
		because,
		wouldTell,
	};
}

/** Everything that keeps a question from having an answer, the first of it. Empty where there is one. */
export function whyNoDose(fit: IsothermFit, q: PlainQuestion): NoDose[] {
	const { isotherm, range } = fit;
	const { start, target } = q;
	const theta = thetaFor(fit, fit.theta, start);
	const no = (...why: Why): NoDose[] => [noDose(fit, q, ...why)];
	const mg = (v: number): string => `${inDigits(v, 3)} mg/L`;
	if (target >= start)
		return no(
			"target-above-start",
			`the target of ${mg(target)} is not below the start of ${mg(start)}`,
			"Give a target below the start.",
		);
	if (oneDose(fit))
		return no(
			"one-dose-only",
			`all flasks had nearly the same dose, about ${roughly(median(dosesOf(fit)))} g of char per litre, so that nothing in them says what another dose would leave`,
			`Flasks with a quarter, a half, twice and four times that dose, in the same water, would.`,
		);
	if (!fit.fit.converged.holds)
		return no(
			"not-determined",
			`the isotherm could not be fitted to these flasks (${fit.fit.converged.reason}), so that its numbers mean nothing`,
			`Flasks whose residues differ clearly, from well above to well below ${mg(target)}, would.`,
		);
	// Stages before the last one lie between start and target.
	const highest = q.stageCount === 1 ? target : start;
	if (highest >= isotherm.highestConcentration)
		return no(
			"isotherm-not-defined",
			`${isotherm.name} is not defined at ${mg(highest)}`,
			"No flask would; take another isotherm.",
		);
	const uptake = uptakeAt(isotherm, theta, target);
	const j = isotherm.parameters.findIndex((p) => p.name === nonAdsorbable);
	if (j >= 0 && target <= theta[j])
		return no(
			"target-below-background",
			`about ${mg(theta[j])} of this water is not adsorbable, so that no dose reaches ${mg(target)}`,
			`Flasks with far more char (${roughly(4 * Math.max(...dosesOf(fit)))} g per litre) would show whether that share is really there; to take it away needs something other than this char.`,
		);
	if (!(uptake > 0 && Number.isFinite(uptake)))
		return no(
			"no-uptake-at-target",
			`the fitted curve takes nothing up at ${mg(target)}, so that no dose reaches it`,
			flasksNear(fit, q),
		);
	const below = target < range.low * (1 - 1e-9);
	if (q.beyond === "refuse" && (below || target > range.high * (1 + 1e-9)))
		return no(
			"outside-measured-range",
			`the target of ${mg(target)} lies outside the residues that the flasks showed, ${inDigits(range.low, 3)} to ${mg(range.high)}${below && coverAt(isotherm, theta, range.low) >= plateauFrom ? `; all of them stand on the plateau (the lowest already reaches ${percent(coverAt(isotherm, theta, range.low))} of it), which says nothing of how the curve falls below` : ""}`,
			flasksNear(fit, q),
		);
	return [];
}

function oneDose(fit: IsothermFit): boolean {
	const doses = dosesOf(fit);
	const starts = startsOf(fit);
	const alike = (v: readonly number[]): boolean =>
		Math.max(...v) <= Math.min(...v) * (1 + sameWithin);
	return doses.length > 0 && alike(doses) && alike(starts);
}

/** Flasks whose residue would come near the target, by the curve as far as it goes. */
export function flasksNear(
	fit: IsothermFit,
	{ start, target }: Pick<PlainQuestion, "start" | "target">,
): string {
	const guess = oneStageDose(
		fit.isotherm,
		thetaFor(fit, fit.theta, start),
		start,
		target,
	);
	const most = Math.max(0, ...dosesOf(fit));
	if (Number.isFinite(guess) && guess > 0 && (most === 0 || guess < 50 * most))
		return `Flasks of this water with about ${roughly(guess / 1.5)}, ${roughly(guess)} and ${roughly(1.5 * guess)} g of char per litre would: by the curve as it is they end near ${inDigits(target, 3)} mg/L.`;
	return most > 0
		? `Flasks with two, four and eight times the ${roughly(most)} g of char per litre that was the most so far would show how far the residue falls.`
		: `Flasks with more char, until the residue falls below ${inDigits(target, 3)} mg/L, would.`;
}
