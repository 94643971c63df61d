import { describe, expect, test } from "vitest";
import file from "../../data/simulation/designs.json";
import type { Design, DesignedTreatment } from "../../data/simulation/plan.mjs";
import { designsOf, simulate } from "../../data/simulation/simulate.mjs";
import * as bench from "../../kernel-lib/bench/index";
import * as compare from "../../kernel-lib/compare/index";

/** Runs of each design. */
const seeds = Array.from({ length: 300 }, (_, i) => i + 1);

const words = [
	"higher",
	"lower",
	"no difference that matters",
	"cannot tell",
] as const;

/** What a run said of one treatment, and the true difference of what it spoke about (mg/g, at the same residue). */
interface Said {
	readonly treatment: string;
	readonly word: compare.VerdictWord;
	readonly trueDifference: number;
}

function run(design: Design, seed: number): Said[] {
	const { truth, ...sheet } = simulate(design, seed);
	const comparison = compare.compareTreatments(bench.trialFromRows(sheet), {
		margin: compare.marginOf(design.margin),
	});
	expect(comparison.scope).toBe(design.scope);
	return comparison.verdicts.map(({ treatment, word }) => {
		const true_ = truth.treatments.find((t) => t.treatment === treatment);
		const trueDifference =
			design.scope === "these lots"
				? true_?.differenceOfTheseLots
				: true_?.differenceAtSameResidue;
		if (trueDifference === undefined)
			throw new Error(`${treatment} has no true difference`);
		return { treatment, word, trueDifference };
	});
}

const falseDirection = ({ word, trueDifference }: Said): boolean =>
	(word === "higher" && trueDifference <= 0) ||
	(word === "lower" && trueDifference >= 0);

const falseSameness = (said: Said, margin: number): boolean =>
	said.word === "no difference that matters" &&
	Math.abs(said.trueDifference) > margin;

const percent = (count: number): number =>
	Number(((100 * count) / seeds.length).toFixed(1));

/** One line of the table: how often each word was said of a treatment, in percent of the runs. */
function rates(
	design: Design,
	treatment: DesignedTreatment,
	runs: readonly Said[][],
): Row {
	const said = runs.flatMap((r) =>
		r.filter((s) => s.treatment === treatment.treatment),
	);
	expect(said.length).toBe(seeds.length);
	const isFalse = (s: Said) =>
		falseDirection(s) || falseSameness(s, design.margin);
	return {
		design: design.name,
		treatment: treatment.treatment,
		...Object.fromEntries(
			words.map((word) => [
				word,
				percent(said.filter((s) => s.word === word).length),
			]),
		),
		right: percent(
			said.filter((s) => treatment.right?.includes(s.word) && !isFalse(s))
				.length,
		),
		asked:
			treatment.asked === undefined ? "" : Math.round(100 * treatment.asked),
		"false word": percent(said.filter(isFalse).length),
	};
}

type Row = Record<string, string | number>;

/** How often a word was false for any treatment of a run, in percent of the runs. */
function falseRates(design: Design, runs: readonly Said[][]): Row {
	expect(runs.length).toBe(seeds.length);
	return {
		design: design.name,
		"false higher or lower": percent(
			runs.filter((r) => r.some(falseDirection)).length,
		),
		"false no difference": percent(
			runs.filter((r) => r.some((said) => falseSameness(said, design.margin)))
				.length,
		),
	};
}

describe.each(designsOf(file).map((design) => ({ design, ...design })))(
	"design $name, $title",
	({ design }) => {
		const treated = design.treatments.filter((t) => t.control !== "");
		let runs: Said[][] = [];

		test(`${seeds.length} runs are read, analysed and judged`, {
			timeout: 300_000,
		}, () => {
			runs = seeds.map((seed) => run(design, seed));
			console.table(treated.map((t) => rates(design, t, runs)));
			console.table([falseRates(design, runs)]);
		});

		test("a false higher or lower, for any treatment of a run, in at most 5 runs of 100", () => {
			expect(
				falseRates(design, runs)["false higher or lower"],
			).toBeLessThanOrEqual(5);
		});

		test("a false word of no difference, for any treatment of a run, in at most 5 runs of 100", () => {
			expect(
				falseRates(design, runs)["false no difference"],
			).toBeLessThanOrEqual(5);
		});

		test.each(treated.filter((t) => t.asked !== undefined))(
			"a right word of $treatment at least as often as was asked ($asked)",
			(treatment) => {
				expect(rates(design, treatment, runs).right).toBeGreaterThanOrEqual(
					100 * (treatment.asked ?? 1),
				);
			},
		);
	},
);
