import { describe, expect, test } from "vitest";
import file from "../../data/simulation/residue-designs.json";
import {
	type ResidueDesign,
	residueDesignsOf,
	simulateAtResidue,
} from "../../data/simulation/residue-trial.mjs";
import * as bench from "../../kernel-lib/bench/index";
import * as compare from "../../kernel-lib/compare/index";

const seeds = Array.from({ length: file.trials }, (_, i) => i + 1);
const patience = 600_000;

const words = [
	"higher",
	"lower",
	"no difference that matters",
	"cannot tell",
] as const;

/** What a run said of one treatment, the true difference (mg/g at the stated residue), and whether its simultaneous interval holds it. */
interface Said {
	readonly treatment: string;
	readonly word: compare.VerdictWord;
	readonly trueDifference: number;
	readonly holds: boolean;
	readonly width: number;
}

function run(design: ResidueDesign, seed: number): Said[] {
	const { truth, ...sheet } = simulateAtResidue(design, seed);
	const comparison = compare.compareAtStatedResidue(
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
				`${design.name}, run ${seed}: ${verdict?.sentence ?? treatment}`,
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

const falseDirection = ({ word, trueDifference }: Said): boolean =>
	(word === "higher" && trueDifference <= 0) ||
	(word === "lower" && trueDifference >= 0);

function share(runs: readonly Said[][], of: (said: Said[]) => boolean): number {
	expect(runs.length).toBe(seeds.length);
	return runs.filter(of).length / runs.length;
}

const percent = (x: number): number => Number((100 * x).toFixed(1));

describe.each(residueDesignsOf(file).map((design) => ({ ...design, design })))(
	"design $name: $about",
	({ design }) => {
		let runs: Said[][] = [];
		const of = (treatment: string): Said[] =>
			runs.flatMap((r) => r.filter((s) => s.treatment === treatment));
		const treated = design.chars.filter((c) => c.control !== "");

		test(
			`${seeds.length} runs are read, fitted and judged`,
			() => {
				runs = seeds.map((seed) => run(design, seed));
				console.table(
					treated.map(({ name }) => ({
						design: design.name,
						treatment: name,
						"true difference": Number(of(name)[0].trueDifference.toFixed(1)),
						...Object.fromEntries(
							words.map((word) => [
								word,
								percent(
									of(name).filter((s) => s.word === word).length / seeds.length,
								),
							]),
						),
						"half-width": Number(
							(
								of(name).reduce((sum, s) => sum + s.width, 0) /
								(2 * seeds.length)
							).toFixed(1),
						),
					})),
				);
				console.table([
					{
						design: design.name,
						"false higher or lower": percent(
							share(runs, (r) => r.some(falseDirection)),
						),
						"false no difference": percent(
							share(runs, (r) => r.some((s) => falseSameness(s, design))),
						),
						"all intervals hold": percent(
							share(runs, (r) => r.every((s) => s.holds)),
						),
					},
				]);
			},
			patience,
		);

		test("a false higher or lower, for any treatment of a run, in at most 5 runs of 100", () => {
			expect(share(runs, (r) => r.some(falseDirection))).toBeLessThanOrEqual(
				file.asked.falseWord,
			);
		});

		test("a false word of no difference, for any treatment of a run, in at most 5 runs of 100", () => {
			expect(
				share(runs, (r) => r.some((s) => falseSameness(s, design))),
			).toBeLessThanOrEqual(file.asked.falseWord);
		});

		test.each(Object.entries(design.asked))(
			"of %s the right word at least as often as was asked",
			(treatment, asked) => {
				const right = of(treatment).filter((s) => asked.words.includes(s.word));
				expect(right.length / seeds.length).toBeGreaterThanOrEqual(asked.share);
			},
		);
	},
);

function falseSameness(said: Said, { margin }: ResidueDesign): boolean {
	return (
		said.word === "no difference that matters" &&
		Math.abs(said.trueDifference) > margin
	);
}
