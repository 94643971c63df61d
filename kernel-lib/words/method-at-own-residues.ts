import {
	type Comparison,
	type ComparisonMethod,
	significanceLevel,
	soaksRecorded,
} from "../compare";
import { listed } from "../quantity";
import {
	allowanceSentences,
	demandSentences,
	deviationSentences,
	intervalSentences,
	orderSentence,
} from "./method-of-both";
import { capital, counted, flasksNamed, roughly } from "./wording";

type OwnResidues = Extract<ComparisonMethod, { readonly is: "own residues" }>;

function unitSentence({ scope, compared }: Comparison): string {
	switch (scope) {
		case "treatment":
			return "Unit: the soak (or firing). Titrations are averaged within the flask and flasks within the soak; each soak counts once, however many flasks it has.";
		case "these lots":
			return `Unit: the flask, because ${soaksRecorded(compared) ? "too few soaks were made to see how one differs from the next" : "soaks are not recorded"}. The verdicts are about these lots of char, not about the treatments.`;
		case "measuring error only":
			return "Unit: the flask. No group is repeated, so that there is no scatter to judge by: only the measuring errors, carried through from the readings, are covered.";
	}
}

/** What the sheet leaves open of its soaks. */
function soakSentences({ scope, compared }: Comparison): string[] {
	if (scope !== "treatment") return [];
	const missing = compared.filter((o) => o.flask.flask.soak === "");
	const batches = new Map<string, Set<string>>();
	for (const { treatment, flask } of compared)
		if (flask.flask.soak !== "") {
			const key = `${flask.flask.soak} of ${treatment}`;
			batches.set(
				key,
				(batches.get(key) ?? new Set()).add(flask.flask.charBatch),
			);
		}
	return [
		...(missing.length > 0
			? [
					`No soak is recorded for ${flasksNamed(missing.map((o) => o.name))}: within a treatment they are taken as one soak.`,
				]
			: []),
		...[...batches]
			.filter(([, found]) => found.size > 1)
			.map(
				([soak, found]) =>
					`Soak ${soak} holds char of several batches (${listed([...found].map((b) => b || "not recorded"))}) and is taken as one soak: if they were several, give them names of their own.`,
			),
	];
}

function blockSentence(
	{ compared }: Comparison,
	{ days }: OwnResidues,
): string {
	if (days.length > 1)
		return `Days are blocks: uptake = treatment + day + scatter, by least squares (${days.map((d) => d || "day not recorded").join(", ")}); a soak whose flasks lie on several days takes the mean of theirs. Differences are adjusted for days, group means are not.`;
	return compared.some((o) => o.flask.flask.day !== "")
		? "All flasks that gave values were measured on one day, so that there are no blocks."
		: "Days are not recorded, so that a difference between days cannot be taken out.";
}

function scatterSentences({ spread, days }: OwnResidues): string[] {
	if (spread.degreesOfFreedom === 0) return [];
	return [
		`Scatter: one pooled standard deviation between units, ${roughly(spread.deviation)} mg/g with ${counted(spread.degreesOfFreedom, "degree")} of freedom${days.length > 1 ? " (units less treatments less days, plus one)" : ""}, taken to be the same in every treatment.`,
		...(spread.fromReadings
			? [
					"The units agree better than their reading errors allow, so that the reading errors were taken for the spread.",
				]
			: []),
		"The scatter holds the independent reading errors already; only errors that several flasks share (standardisation, blanks, calibrations) are added, with their signs, so that what moves treated and control alike cancels.",
	];
}

/** C(n, k) for small numbers. */
function combinations(n: number, k: number): number {
	let c = 1;
	for (let i = 1; i <= k; i++) c = (c * (n - k + i)) / i;
	return c;
}

function rankSentences(
	c: Comparison,
	{ units, simultaneous }: OwnResidues,
): string[] {
	if (c.scope === "measuring error only") return [];
	const count = (t: string): number => units.get(t) ?? 0;
	const pairs = simultaneous.pairs
		.map((pair) => [count(pair.treatment), count(pair.control)])
		.filter(([a, b]) => a > 0 && b > 0);
	if (pairs.length === 0) return [];
	const smallest = pairs.map(([a, b]) => 2 / combinations(a + b, a));
	const best = smallest.indexOf(Math.min(...smallest));
	const p = Math.min(1, smallest[best]);
	if (p * pairs.length <= significanceLevel(c.confidence)) return [];
	return [
		`No rank or permutation test is given: with ${pairs[best][0]} units against ${pairs[best][1]} the smallest p that one can reach is ${roughly(p)}, before adjusting for ${counted(pairs.length, "treatment")}.`,
	];
}

const residueSentence =
	'No isotherm was used. "Higher" is said only where the treated char stands at an equal or lower residue than its control, "lower" only at an equal or higher one (equal: within the expanded measuring uncertainty of the difference, k = 2, or within 5 %); "no difference that matters" only where the residues are within a factor of 1.25 (with 1/n = 0.2 that means 4.6 % of the uptake) or equal within measuring uncertainty. These limits are decisions of this program.';

function boundSentences({ compared }: Comparison): string[] {
	const bounds = compared.filter((o) => o.side !== "value");
	return bounds.length === 0
		? []
		: [
				`${capital(flasksNamed(bounds.map((o) => o.name)))} gave only a bound: bounds stay out of the spread. A verdict of their group is said only if it holds without them and with them at their limit, and only on the side that a bound can prove; a group of bounds alone is set at its limit, less the expanded uncertainty (k = 2) of that limit, against its control with the spread borrowed from the other units.`,
			];
}

/** How treatments were compared at the residues that their flasks happen to have. */
export function ownResidueSentences(
	c: Comparison,
	method: OwnResidues,
): string[] {
	return [
		unitSentence(c),
		...soakSentences(c),
		blockSentence(c, method),
		...scatterSentences(method),
		...intervalSentences(c),
		orderSentence(c),
		residueSentence,
		...boundSentences(c),
		...demandSentences(c),
		...allowanceSentences(c),
		...deviationSentences(c),
		...rankSentences(c, method),
		...(method.spread.degreesOfFreedom > 0
			? [
					"Numbers of replicates are reckoned with the upper 80 % confidence limit of the spread and the margin, never with the difference just observed; the critical value is taken as if the differences were uncorrelated, which can only ask for more.",
				]
			: []),
	];
}
