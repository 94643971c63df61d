import {
	listed,
	listOption,
	type OptionRule,
	objectOption,
	type Problem,
	ProblemError,
	problem,
	quoted,
	requireOptions,
	type Table,
	table,
	throwProblems,
	withTable,
} from "../quantity";
import {
	dualSiteLangmuir,
	freundlich,
	henry,
	type Isotherm,
	langmuir,
	redlichPeterson,
	sips,
	temkin,
	toth,
} from "./catalogue/index";
import { requirePoints } from "./doors";
import type { IsothermFit } from "./fit-result";
import {
	fitIsotherm,
	fitWithWeights,
	type IsothermFitOptions,
	methodRules,
} from "./isotherm-fit";
import type { IsothermPoints } from "./points";
import { evidenceText, inDigits, roughly } from "./words";

/** Isotherms of the catalogue that need no constant of the system (no temperature, no solubility). */
export const isothermsWithoutConstants: readonly Isotherm[] = [
	henry,
	langmuir,
	freundlich,
	temkin,
	sips,
	toth,
	redlichPeterson,
	dualSiteLangmuir,
];

/** Akaike weights below this add nothing to an average. Our decision. */
export const leastWeight = 1e-3;
/** An isotherm within this of the best cannot be told from it (Burnham and Anderson 2002, section 2.6; from memory). */
const alike = 2;

export interface RankingOptions
	extends Omit<IsothermFitOptions, "start" | "fixed" | "lower" | "upper"> {
	/** Candidates, chosen before looking at the data; the isotherms of the catalogue that need no constants, if not given. */
	readonly isotherms?: readonly Isotherm[];
}

const rankingRules: Readonly<Record<string, OptionRule>> = {
	isotherms: listOption(
		objectOption("an isotherm, such as isotherms.langmuir"),
	),
	...methodRules,
};

/** An isotherm's place among the candidates. */
export interface RankedIsotherm {
	readonly isotherm: Isotherm;
	readonly fit: IsothermFit;
	readonly aicc: number;
	/** AICc above that of the best. */
	readonly difference: number;
	/** Akaike weight: share of the evidence among these candidates. */
	readonly weight: number;
	/** Weight of the best over this one's. */
	readonly evidenceRatio: number;
}

/** Candidates fitted to the same points with the same weights, best first. */
export interface IsothermRanking {
	readonly kind: "isotherm ranking";
	readonly points: IsothermPoints;
	readonly ranked: readonly RankedIsotherm[];
	/** Candidates that have no place, and why. */
	readonly notRanked: readonly {
		readonly isotherm: Isotherm;
		readonly because: string;
	}[];
	/** What a reader should know before choosing, in plain words. */
	readonly warnings: readonly string[];
	/** One row for each candidate, best first. */
	readonly table: Table;
}

/**
 * Fits several isotherms to the points of one treatment and ranks them by AICc; shown as a table, a row for each candidate. All are judged with the same weights (those of the isotherm that fits best with its own), so that their criteria can be compared.
 *
 * Sources: Burnham and Anderson 2002, Model Selection and Multimodel Inference, sections 2.4 to 2.9; from memory.
 *
 * @throws ProblemError where the points cannot be fitted at all
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190, 390], [51, 74.5, 90.4, 94.6, 97.6]);
 * const ranking = isotherms.rankIsotherms(points, { isotherms: [isotherms.henry, isotherms.langmuir] });
 * ranking.ranked[0].isotherm.name // => "Langmuir"
 */
export function rankIsotherms(
	points: IsothermPoints,
	options: RankingOptions = {},
): IsothermRanking {
	requirePoints(points, "rankIsotherms");
	requireOptions(options, rankingRules, "rankIsotherms");
	const { isotherms = isothermsWithoutConstants, ...fitting } = options;
	throwProblems(candidateProblems(isotherms));
	const first = attempts(isotherms, (i) => fitIsotherm(i, points, fitting));
	const leading = ranked(first.fits)[0];
	const { fits, failed } =
		leading === undefined || leading.fit.method === "uptake on concentration"
			? first
			: attempts(isotherms, (i) =>
					fitWithWeights(i, points, fitting, leading.fit.weights),
				);
	const places = ranked(fits);
	const notRanked = [
		...failed,
		...fits.flatMap((fit) => {
			const because = whyNotRanked(fit);
			return because === "" ? [] : [{ isotherm: fit.isotherm, because }];
		}),
	];
	return withTable(
		{
			kind: "isotherm ranking" as const,
			points,
			ranked: places,
			notRanked,
			warnings: warningsOn(points, places, isotherms),
		},
		rankingTable,
	);
}

function candidateProblems(isotherms: readonly Isotherm[]): Problem[] {
	return isotherms.length > 0
		? []
		: [
				problem(
					"no-isotherms",
					{ call: "rankIsotherms" },
					"no isotherm",
					"two or more to choose among",
					"Leave the option out, or name candidates.",
				),
			];
}

/** Fits what can be fitted; the points that suit none of the candidates are the caller's problem. */
function attempts(
	isotherms: readonly Isotherm[],
	fitted: (isotherm: Isotherm) => IsothermFit,
): {
	fits: IsothermFit[];
	failed: { isotherm: Isotherm; because: string }[];
} {
	const fits: IsothermFit[] = [];
	const failed: { isotherm: Isotherm; because: string }[] = [];
	let last: unknown;
	for (const isotherm of isotherms)
		try {
			fits.push(fitted(isotherm));
		} catch (error) {
			if (!(error instanceof ProblemError)) throw error;
			last = error;
			failed.push({
				isotherm,
				because: error.problems.map((p) => p.found).join("; "),
			});
		}
	if (fits.length === 0) throw last;
	return { fits, failed };
}

/** "" for a fit that has a place. */
function whyNotRanked(fit: IsothermFit): string {
	if (!fit.fit.converged.holds) return fit.fit.converged.reason;
	return fit.aicc.is === "not known" ? fit.aicc.because : "";
}

function ranked(fits: readonly IsothermFit[]): RankedIsotherm[] {
	const judged = fits
		.flatMap((fit) =>
			fit.aicc.is === "value" && whyNotRanked(fit) === ""
				? [{ fit, aicc: fit.aicc.value }]
				: [],
		)
		.sort((a, b) => a.aicc - b.aicc);
	const best = judged[0]?.aicc;
	const total = judged.reduce((s, j) => s + Math.exp((best - j.aicc) / 2), 0);
	return judged.map(({ fit, aicc }) => ({
		isotherm: fit.isotherm,
		fit,
		aicc,
		difference: aicc - best,
		weight: Math.exp((best - aicc) / 2) / total,
		evidenceRatio: Math.exp((aicc - best) / 2),
	}));
}

function warningsOn(
	points: IsothermPoints,
	places: readonly RankedIsotherm[],
	isotherms: readonly Isotherm[],
): string[] {
	const read = points.points.filter((p) => p.is === "reading");
	const most = Math.max(...isotherms.map((i) => i.parameters.length));
	const needed = 2 * most + 2;
	const concentrations = read.map((p) => p.concentration);
	const span = Math.max(...concentrations) / Math.min(...concentrations);
	const [best, ...others] = places;
	const near = others.filter((p) => p.difference < alike);
	const bending = points.shared.length > 0;
	return [
		...(read.length < needed
			? [
					`The ranking rests on ${read.length} points; to judge isotherms of up to ${most} parameters takes ${needed} or more. With few points AICc favours the simplest form whatever the char does.`,
				]
			: []),
		...(span > 0 && span < 5
			? [
					`The residues span a factor of ${roughly(span)} only: most isotherms look alike over so short a range.`,
				]
			: []),
		...(best !== undefined && near.length > 0
			? [
					`${listed([best, ...near].map((p) => p.isotherm.name))} cannot be distinguished by these points; what they agree on can be used, what only one of them says cannot.`,
				]
			: []),
		...(best !== undefined && bending
			? [
					"An error of a titrant bends the points too: a small advantage of one form may be the titrant's doing.",
				]
			: []),
		...(best === undefined
			? ["None of the isotherms could be ranked with these points."]
			: []),
	];
}

function rankingTable({
	points,
	ranked,
	notRanked,
	warnings,
}: Omit<IsothermRanking, "table">): Table {
	return table(
		`Isotherms ranked by AICc, ${quoted(points.name)}`,
		[
			"isotherm",
			"points",
			"free parameters",
			"AICc",
			"above the best",
			"Akaike weight",
			"evidence ratio, the best to it",
			"remark",
		],
		[
			...ranked.map((p) => [
				p.isotherm.name,
				p.fit.used.filter((q) => q.is === "reading").length,
				p.fit.fit.freeParameters,
				inDigits(p.aicc, 4),
				inDigits(p.difference, 3),
				p.weight < leastWeight ? "below 0.001" : p.weight.toFixed(3),
				evidenceText(p.evidenceRatio),
				p.fit.fit.atLimit.holds ? p.fit.fit.atLimit.reason : "",
			]),
			...notRanked.map((n) => [
				n.isotherm.name,
				"",
				n.isotherm.parameters.length,
				"",
				"",
				"",
				"",
				`not ranked: ${n.because}`,
			]),
		],
		[
			...warnings,
			"A weight says how the evidence is shared among these candidates; it does not say that the best of them is right.",
		],
	);
}
