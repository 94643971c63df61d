import { describe, expect, test } from "vitest";
import file from "../../data/simulation/designs.json";
import type { Design, DesignedTreatment } from "../../data/simulation/plan.mjs";
import { designsOf, simulate } from "../../data/simulation/simulate.mjs";
import * as bench from "../../kernel-lib/bench/index";
import * as compare from "../../kernel-lib/compare/index";
import {
	falseDirection,
	falseSameness,
	holdDirections,
	holdSameness,
	percent,
	type Said,
	shareOfWords,
} from "./said";
import { hold, note, seedsOf, trialsOf } from "./trials";

/** Trials of each design: 300 were asked for before the analysis existed. */
const asked = 300;
const seeds = seedsOf(trialsOf(asked, 15));

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

/** One line of the page: how often each word was said of a treatment, in percent of the trials. */
function rates(
	design: Design,
	treatment: DesignedTreatment,
	said: readonly Said[],
): Record<string, string | number> {
	const isFalse = (s: Said) =>
		falseDirection(s) || falseSameness(s, design.margin);
	return {
		design: design.name,
		treatment: treatment.treatment,
		...shareOfWords(said),
		right: percent(right(design, treatment, said) / said.length),
		asked:
			treatment.asked === undefined ? "" : Math.round(100 * treatment.asked),
		"false word": percent(said.filter(isFalse).length / said.length),
	};
}

/** How often a word was among those that are right of the treatment, and true. */
function right(
	design: Design,
	treatment: DesignedTreatment,
	said: readonly Said[],
): number {
	return said.filter(
		(s) =>
			treatment.right?.includes(s.word) &&
			!falseDirection(s) &&
			!falseSameness(s, design.margin),
	).length;
}

describe.each(designsOf(file).map((design) => ({ design, ...design })))(
	"design $name, $title",
	({ design }) => {
		const treated = design.treatments.filter((t) => t.control !== "");
		const limits = {
			simulation: "verdicts",
			design: design.name,
			asked,
			most: 0.05,
		};
		let runs: Said[][] = [];
		const of = ({ treatment }: DesignedTreatment): Said[] =>
			runs.flatMap((r) => r.filter((s) => s.treatment === treatment));

		test(`${seeds.length} trials are read, analysed and judged`, {
			timeout: 600_000,
		}, () => {
			runs = seeds.map((seed) => run(design, seed));
			for (const t of treated) {
				expect(of(t).length).toBe(seeds.length);
				note("verdict-rates", rates(design, t, of(t)));
			}
		});

		test("a false higher or lower, for any treatment of a trial, in at most 5 trials of 100", () => {
			holdDirections(limits, runs);
		});

		test("a false word of no difference, for any treatment of a trial, in at most 5 trials of 100", () => {
			holdSameness(limits, runs, design.margin);
		});

		test.each(treated.filter((t) => t.asked !== undefined))(
			"a right word of $treatment at least as often as was asked ($asked)",
			(treatment) => {
				hold({
					simulation: "verdicts",
					design: design.name,
					what: `a right word of ${treatment.treatment}`,
					hits: right(design, treatment, of(treatment)),
					trials: runs.length,
					asked,
					least: treatment.asked ?? 1,
				});
			},
		);
	},
);
