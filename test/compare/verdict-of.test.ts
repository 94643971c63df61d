/** What a verdict takes from which way of handling the deviations. */
import { expect, test } from "vitest";
import type { Judgement } from "../../kernel-lib/compare/judgement";
import {
	type Observation,
	observationsOf,
} from "../../kernel-lib/compare/observations";
import type { Replicates } from "../../kernel-lib/compare/verdict";
import { verdictsOf } from "../../kernel-lib/compare/verdict-of";
import { flasks, group } from "./fixtures";

const judgement = (treatment: string, word: Judgement["word"]): Judgement =>
	({
		pair: { treatment, control: "water" },
		difference: {
			is: "interval",
			estimate: 5,
			interval: { low: 1, high: 9 },
			oneSided: { low: 2, high: 8 },
			errors: { variance: 4, degreesOfFreedom: 3 },
			reckoned: { is: "interval" },
			index: treatment === "steam" ? 1 : 0,
		},
		allowance: { low: 1, high: 2 },
		numbersSay: "higher",
		word,
		otherwise: "lower",
		margin: { is: "value", value: 7 },
		ground: { claim: "difference" },
		exceedsMargin: true,
		obstacles: [`obstacle of ${treatment}`],
		audited: [`audit of ${treatment}`],
		residues: { is: "unknown" },
	}) as unknown as Judgement;

const way = (...words: Judgement["word"][]) => ({
	observations: { list: [] as readonly Observation[] },
	judgements: [judgement("ash", words[0]), judgement("steam", words[1])],
});
const replicates = [
	{ is: "enough" },
	{ is: "not given" },
] as unknown as Replicates[];
const units: Readonly<Record<string, number>> = { ash: 2, steam: 4, water: 3 };

const verdictsFrom = (main = way("higher", "cannot tell")) =>
	verdictsOf(
		{
			main,
			kept: way("lower", "higher"),
			leftOut: way("no difference that matters", "lower"),
		},
		(t) => units[t],
		replicates,
		[0.01, 0.02],
	);

test("the word and all that stands behind it from the way that the sheet decides, pair by pair", () => {
	const verdicts = verdictsFrom();
	expect(verdicts.map((v) => [v.treatment, v.control, v.word])).toEqual([
		["ash", "water", "higher"],
		["steam", "water", "cannot tell"],
	]);
	expect(verdicts[1]).toMatchObject({
		numbersSay: "higher",
		otherwise: "lower",
		margin: { is: "value", value: 7 },
		ground: { claim: "difference" },
		exceedsMargin: true,
		obstacles: ["obstacle of steam"],
		audited: ["audit of steam"],
		soakAllowance: { low: 1, high: 2 },
		residues: { is: "unknown" },
	});
});

test("the words of the other ways beside it", () => {
	const verdicts = verdictsFrom();
	expect(verdicts.map((v) => v.withDeviations)).toEqual(["lower", "higher"]);
	expect(verdicts.map((v) => v.withoutDeviations)).toEqual([
		"no difference that matters",
		"lower",
	]);
});

test("units of both sides, replicates in order, p by the place in the family", () => {
	const verdicts = verdictsFrom();
	expect(verdicts.map((v) => v.units)).toEqual([
		{ treated: 2, control: 3 },
		{ treated: 4, control: 3 },
	]);
	expect(verdicts.map((v) => v.replicates)).toEqual(replicates);
	expect(
		verdicts.map((v) =>
			v.difference.is === "estimate" ? v.difference.adjustedP : "",
		),
	).toEqual([0.01, 0.02]);
});

test("a reckoning only where there is a difference to reckon", () => {
	expect(verdictsFrom().map((v) => v.reckoned.is)).not.toContain("nothing");
	const main = way("higher", "cannot tell");
	const missing = {
		...main.judgements[0],
		difference: { is: "missing", why: "no control" },
	} as Judgement;
	const [none] = verdictsFrom({
		...main,
		judgements: [missing, main.judgements[1]],
	});
	expect(none.difference.is).toBe("not available");
	expect(none.reckoned).toEqual({ is: "nothing" });
});

test("no reckoning of a limit that is in doubt", () => {
	const main = way("cannot tell", "cannot tell");
	const bound = {
		...main.judgements[0],
		difference: {
			is: "one-sided",
			side: "at least",
			flasks: ["ash1"],
			without: { low: 3, high: 9 },
			atLimit: { low: 4, high: 9 },
			reckoned: { without: "without", atLimit: "at the limit" },
		},
	} as unknown as Judgement;
	const of = (contradiction: string) =>
		verdictsFrom({
			observations: {
				list: observationsOf(
					flasks(group("ash", "water", [100], { contradiction })),
				).list,
			},
			judgements: [bound, main.judgements[1]],
		})[0].reckoned;
	expect(of("")).toEqual({ is: "at least", limit: "without" });
	expect(of("less than nothing was left")).toEqual({ is: "nothing" });
});
