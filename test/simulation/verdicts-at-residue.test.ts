import { describe, expect, test } from "vitest";
import file from "../../data/simulation/residue-designs.json";
import {
	type ResidueDesign,
	residueDesignsOf,
	simulateAtResidue,
} from "../../data/simulation/residue-trial.mjs";
import * as bench from "../../kernel-lib/bench/index";
import * as compare from "../../kernel-lib/compare/index";
import {
	holdDirections,
	holdSameness,
	percent,
	type Said,
	shareOfWords,
} from "./said";
import { hold, note, seedsOf, trialsOf } from "./trials";

const seeds = seedsOf(trialsOf(file.trials, 10));
const patience = 600_000;

/** Also whether the simultaneous interval holds the true difference, and how wide it is. */
interface SaidAtResidue extends Said {
	readonly holds: boolean;
	readonly width: number;
}

function run(design: ResidueDesign, seed: number): SaidAtResidue[] {
	const { truth, ...sheet } = simulateAtResidue(design, seed);
	const comparison = compare.compareOnIsotherms(
		compare.portionsOf(bench.trialFromRows(sheet)),
		{
			residue: compare.residueOf(design.residue),
			margin: compare.marginOf(design.margin),
		},
	);
	expect(comparison.scope).toBe("these lots");
	return truth.map(({ treatment, difference }) => {
		const verdict = comparison.verdicts.find((v) => v.treatment === treatment);
		const d = verdict?.difference;
		if (verdict === undefined || d?.is !== "estimate")
			throw new Error(
				`${design.name}, run ${seed}: ${verdict?.word ?? treatment}`,
			);
		return {
			treatment,
			word: verdict.word,
			trueDifference: difference,
			holds: d.low <= difference && difference <= d.high,
			width: d.high - d.low,
		};
	});
}

describe.each(residueDesignsOf(file).map((design) => ({ ...design, design })))(
	"design $name: $about",
	({ design }) => {
		const limits = {
			simulation: "verdicts at a stated residue",
			design: design.name,
			asked: file.trials,
			most: file.asked.falseWord,
		};
		let runs: SaidAtResidue[][] = [];
		const of = (treatment: string): SaidAtResidue[] =>
			runs.flatMap((r) => r.filter((s) => s.treatment === treatment));
		const treated = design.chars.filter((c) => c.control !== "");

		test(
			`${seeds.length} trials are read, fitted and judged`,
			() => {
				runs = seeds.map((seed) => run(design, seed));
				expect(runs.length).toBe(seeds.length);
				for (const { name } of treated)
					note("verdicts-at-residue", {
						design: design.name,
						treatment: name,
						"true difference": Number(of(name)[0].trueDifference.toFixed(1)),
						...shareOfWords(of(name)),
						"half-width": Number(
							(
								of(name).reduce((sum, s) => sum + s.width, 0) /
								(2 * seeds.length)
							).toFixed(1),
						),
						"all intervals hold": percent(
							runs.filter((r) => r.every((s) => s.holds)).length / runs.length,
						),
					});
			},
			patience,
		);

		test("a false higher or lower, for any treatment of a trial, in at most 5 trials of 100", () => {
			holdDirections(limits, runs);
		});

		test("a false word of no difference, for any treatment of a trial, in at most 5 trials of 100", () => {
			holdSameness(limits, runs, design.margin);
		});

		test.each(Object.entries(design.asked))(
			"of %s the right word at least as often as was asked",
			(treatment, { words, share }) => {
				hold({
					simulation: limits.simulation,
					design: design.name,
					what: `the right word of ${treatment}`,
					hits: of(treatment).filter((s) => words.includes(s.word)).length,
					trials: runs.length,
					asked: file.trials,
					least: share,
				});
			},
		);
	},
);
