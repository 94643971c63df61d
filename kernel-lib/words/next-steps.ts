import {
	apartByDesign,
	type Comparison,
	type Repetition,
	requireComparison,
	scatterOfPairs,
	scatterOfTrial,
	type TreatmentVerdict,
} from "../compare";
import { fixed, grouped, listed, quoted, type Table, table } from "../quantity";
import { dangersNamedIn, whyNot } from "../substances";
import {
	ammoniaFirst,
	ammoniaInAny,
	contradictionsTold,
	soakTexts,
} from "../uptake";
import { obstacleDose, obstacleRemedy } from "./obstacle-words";
import { replicatesReason, slopesReason } from "./replicates-words";
import { verdictReasons } from "./verdict-reasons";
import { verdictSentence } from "./verdict-sentence";
import { capital, counted } from "./wording";

/** Dose that would make a treatment and its control comparable, in words; "" where they are. */
export function comparableDose({ obstacles }: TreatmentVerdict): string {
	return [...new Set(obstacles.map(obstacleDose))]
		.filter((dose) => dose !== "")
		.join(" ");
}

function stepsFor(c: Comparison, v: TreatmentVerdict): [string, string][] {
	const dose = comparableDose(v);
	const [reason] = verdictReasons(c, v);
	const steps: [string, string][] = [];
	if (dose !== "") steps.push([dose, verdictSentence(c, v)]);
	if (v.replicates.is === "number" || v.replicates.is === "at least")
		steps.push([
			`Make ${v.replicates.is === "at least" ? "at least " : ""}${counted(v.replicates.units, "soak")} (or firings) of each treatment and of the control${slopesReason(v) === "" ? "" : `, the flasks of each with two doses, one at least ${apartByDesign} times the other`}.`,
			replicatesReason(c, v),
		]);
	if (v.withDeviations !== v.withoutDeviations)
		steps.push(["Repeat the flasks that a deviation touched.", reason]);
	else if (
		v.word === "cannot tell" &&
		v.replicates.is === "not given" &&
		dose === "" &&
		reason !== undefined
	)
		steps.push(remedyStep(c, v, reason));
	return steps;
}

/** What would mend all that stands in the way, with why; where nothing by itself would, why alone. */
function remedyStep(
	c: Comparison,
	v: TreatmentVerdict,
	reason: string,
): [string, string] {
	const remedies = [...new Set(v.obstacles.map(obstacleRemedy))];
	return remedies.length === 0 || remedies.includes("")
		? [reason, replicatesReason(c, v)]
		: [remedies.join(" "), reason];
}

const oneMore: Readonly<Record<Repetition, string>> = {
	soak: "one more soak of each treatment",
	flask: "one more flask in each soak",
	titration: "one more titration of each flask",
};

/** Which repetition narrows a difference most, where numbers of soaks would tell. */
function repetitionSteps(c: Comparison): string[][] {
	const open = c.verdicts.filter(
		(v) =>
			c.scope === "treatment" &&
			v.word === "cannot tell" &&
			(v.replicates.is === "number" || v.replicates.is === "at least"),
	);
	const scatter = open.length === 0 ? null : scatterOfTrial(c);
	if (scatter === null) return [];
	const pairs = scatterOfPairs(c, scatter).filter(
		(p) =>
			p.oneMore.length > 1 && open.some((v) => v.treatment === p.treatment),
	);
	return [...grouped(pairs, (p) => p.oneMore[0].of)].map(([of, own]) => [
		listed(own.map((p) => p.treatment)),
		`Of single repetitions, ${oneMore[of as Repetition]} narrows the difference most.`,
		`Of the half-width it would leave ${own
			.map(
				(p) =>
					`${p.oneMore.map((m) => `${fixed(100 * m.leaves, 0)} % (${oneMore[m.of]})`).join(", ")}${own.length > 1 ? ` for ${quoted(p.treatment)}` : ""}`,
			)
			.join("; ")}, were the scatter as it was seen.`,
	]);
}

/** A treatment whose char may hold ammonia is not dosed at all, whatever else would tell. */
function ammoniaSteps({ flasks }: Comparison): string[][] {
	const concerned = flasks.filter((u) => ammoniaInAny([u]) === "named");
	return [...new Set(concerned.map((u) => u.flask.treatment))].map(
		(treatment) => [
			treatment,
			capital(`${ammoniaFirst}.`),
			"The sheet names ammonia, or what gives it off, among what its char was treated with.",
		],
	);
}

/** What the char of a treatment must not meet is told instead of advice to make more of it. */
function forbiddenSteps({ trial, flasks }: Comparison): string[][] {
	const told = flasks.flatMap(({ flask }) => {
		const named = soakTexts(trial, flask).flatMap(dangersNamedIn);
		const because = whyNot(
			"char",
			named.map((n) => n.dangers),
		);
		return because === "" ? [] : [[flask.treatment, because] as const];
	});
	return [...new Map(told)].map(([treatment, because]) => [
		treatment,
		"Make no more of it before someone who knows its dangers has looked at how.",
		`Must not be done: ${because}`,
	]);
}

/**
 * What would tell where the word is "cannot tell", and which flasks to dose again, each with its reason.
 * @example
 * words.nextSteps(compare.compareTreatments(trial, { margin: compare.marginOf(25) })).title // => "What to do next"
 */
export function nextSteps(comparison: Comparison): Table {
	requireComparison(comparison, "words.nextSteps");
	const forbidden = forbiddenSteps(comparison);
	const rows = [...forbidden, ...ammoniaSteps(comparison)];
	for (const v of comparison.verdicts)
		for (const [what, why] of stepsFor(comparison, v))
			rows.push([v.treatment, what, why]);
	rows.push(...repetitionSteps(comparison));
	for (const why of contradictionsTold(comparison.flasks))
		rows.push(["numbers", "Find out first what is wrong with them.", why]);
	for (const u of comparison.flasks)
		if (u.nextDose !== "")
			rows.push([
				`flask ${u.flask.name}`,
				capital(u.nextDose),
				u.uptake.is === "value" ? "" : capital(u.uptake.because),
			]);
	if (comparison.scope !== "treatment")
		rows.push([
			"all treatments",
			`Make every ${forbidden.length > 0 ? "other " : ""}treatment, and its control, in several soaks or firings of their own.`,
			comparison.scope === "these lots"
				? "The verdicts are about these lots only: how one soak differs from the next was not seen."
				: "Only the measuring error is covered: no scatter from flask to flask could be judged.",
		]);
	return table(
		"What to do next",
		["concerns", "what to do", "why"],
		rows.length > 0
			? rows
			: [["all treatments", "Nothing more is needed for these verdicts.", ""]],
	);
}
