import {
	countOption,
	numberOption,
	problem,
	quoted,
	requireOptions,
	type Table,
	textOption,
	throwProblems,
} from "../../quantity";
import { createRandom, noteSeed, type Random } from "../../stats";
import { meet } from "../balance-line";
import { langmuir } from "../catalogue/index";
import { requirePoints } from "../doors";
import { confidenceOption, usualConfidence } from "../intervals";
import { fitIsotherm } from "../isotherm-fit";
import type { IsothermPoint, IsothermPoints } from "../points";
import { type Plateau, plateauOfFit, plateauOfLine } from "./plateau";
import { type Repeats, wayOf } from "./repeated-ways";
import { repeatsTable } from "./repeats-words";
import { straightLines } from "./straight-lines";

export interface RepeatOptions {
	/** How often the trial is repeated; 500 if not given. */
	readonly trials?: number;
	/** The same seed gives the same chance. */
	readonly seed?: string;
	/** Reading errors as multiples of those of the sheet; 1 if not given. */
	readonly readingErrors?: number;
	/** Only so many flasks, those with the least residue; all if not given. */
	readonly weakest?: number;
	/** How often each flask stands in a repeat; once if not given. */
	readonly times?: number;
	/** What the intervals are asked to hold; 0.95 if not given. */
	readonly confidence?: number;
}

/** A trial repeated in the computer with a char whose true values are known. */
export interface TrialRepeats extends Repeats {
	readonly kind: "trial repeats";
	/** The first of the repeats, to be drawn. */
	readonly first: IsothermPoints;
	readonly table: Table;
}

const asTheyAre = "fitted curve";

/** A repeat reads no residue below this, mg/L: a burette shows no less. Our decision. */
const leastReading = 1;
/** Digits of the true values. */
const digitsOfTruth = 2;

/**
 * Repeats a trial with a char whose isotherm is known, and reads the plateau off in every way: by the fit to the data as they are, and by each straight-line form of Langmuir's isotherm with its textbook interval. The true values are
 * those of the Langmuir fit to the points, to two digits. Each flask keeps its dose and its mass; its residue is where isotherm and balance line meet, plus a reading error of the size that the sheet states; its uptake follows from
 * the balance. Nothing else errs.
 *
 * @throws ProblemError for points without mass balance or fewer than three that were read
 * @example
 * const points = isotherms.isothermPoints(isothermTrial, "fired twice");
 * isotherms.repeatTrial(points, { trials: 2 }).truth.plateau // => 380
 */
export function repeatTrial(
	points: IsothermPoints,
	options: RepeatOptions = {},
): TrialRepeats {
	requirePoints(points, "repeatTrial");
	requireOptions(options, repeatRules, "repeatTrial");
	const { trials = 500, seed = "straight lines", readingErrors = 1 } = options;
	const { confidence = usualConfidence } = options;
	const flasks = flasksOf(points, options);
	const [plateau, affinity] = fitIsotherm(langmuir, points).theta;
	const truth = {
		plateau: Number(plateau.toPrecision(digitsOfTruth)),
		affinity: Number(affinity.toPrecision(digitsOfTruth)),
	};
	const residues = residuesOf(flasks, truth);
	noteSeed("trials repeated in the computer", seed);
	const random = createRandom(seed);
	const repeats = Array.from({ length: trials }, () =>
		repeatOf(points, flasks, residues, readingErrors, random),
	);
	const found = repeats.map((repeat) => plateausOf(repeat, confidence));
	const ways = found[0].map(({ name }, k) =>
		wayOf(
			name,
			found.map((plateaus) => plateaus[k].plateau),
			truth.plateau,
			confidence,
		),
	);
	const result = {
		truth,
		trials,
		flasks: flasksInWords(options),
		confidence,
		ways,
	};
	return {
		kind: "trial repeats",
		...result,
		first: repeats[0],
		table: repeatsTable(result),
	};
}

const repeatRules = {
	trials: countOption(1),
	seed: textOption,
	readingErrors: numberOption(0, Number.POSITIVE_INFINITY),
	weakest: countOption(3),
	times: countOption(1),
	confidence: confidenceOption,
};

function flasksInWords({ weakest, times = 1 }: RepeatOptions): string {
	if (weakest === undefined && times === 1) return "of the trial";
	const which =
		weakest === undefined ? "all flasks" : `the ${weakest} weakest flasks`;
	return `with ${which}${times === 1 ? "" : `, each ${times} times`}`;
}

/** The flasks of a repeat: those that were read, all of them or the weakest, each as often as asked. */
function flasksOf(
	points: IsothermPoints,
	{ weakest, times = 1 }: RepeatOptions,
): IsothermPoint[] {
	const read = points.points.filter((p) => p.is === "reading");
	const known = read.filter((p) => p.balance.is === "known");
	throwProblems(
		known.length === read.length && read.length >= 3
			? []
			: [
					problem(
						"no-trial-to-repeat",
						{ call: quoted(points.name) },
						`${known.length} points with a residue and a mass balance among ${points.points.length}`,
						"three flasks or more, each with its mass balance",
						"Take the points of a bench sheet with many doses; typed-in points have no balance to repeat.",
					),
				],
	);
	const chosen =
		weakest === undefined
			? read
			: [...read]
					.sort((a, b) => a.concentration - b.concentration)
					.slice(0, weakest);
	return Array.from({ length: times }, () => chosen).flat();
}

function residuesOf(
	flasks: readonly IsothermPoint[],
	truth: TrialRepeats["truth"],
): Float64Array {
	const lines = flasks.flatMap((p) =>
		p.balance.is === "known" ? [p.balance] : [],
	);
	const out = new Float64Array(flasks.length);
	meet(
		langmuir,
		Float64Array.of(truth.plateau, truth.affinity),
		{
			intercept: lines.map((l) => l.intercept),
			slope: lines.map((l) => l.slope),
			near: flasks.map((p) => p.concentration),
		},
		out,
	);
	return out;
}

function repeatOf(
	points: IsothermPoints,
	flasks: readonly IsothermPoint[],
	residues: Float64Array,
	readingErrors: number,
	random: Random,
): IsothermPoints {
	return {
		...points,
		points: flasks.map((p, i) => {
			const error =
				readingErrors * Math.sqrt(p.own.concentration) * random.normal();
			const concentration = Math.max(leastReading, residues[i] + error);
			return p.balance.is === "known"
				? {
						...p,
						concentration,
						uptake: p.balance.intercept - p.balance.slope * concentration,
					}
				: p;
		}),
		shared: [],
		flasks: [],
		leftOut: [],
	};
}

/** The plateau of one repeat in every way. */
function plateausOf(
	repeat: IsothermPoints,
	confidence: number,
): { readonly name: string; readonly plateau: Plateau }[] {
	return [
		{ name: asTheyAre, plateau: plateauOfFit(repeat, confidence) },
		...straightLines(repeat)
			.filter((line) => line.form.isotherm === langmuir)
			.map((line) => ({
				name: line.form.name,
				plateau: plateauOfLine(line, confidence),
			})),
	];
}
