import { describe, expect, test } from "vitest";
import file from "../../data/simulation/designs.json";
import type { Design, DesignedTreatment } from "../../data/simulation/plan.mjs";
import { designsOf, simulate } from "../../data/simulation/simulate.mjs";
import * as bench from "../../kernel-lib/bench/index";
import * as compare from "../../kernel-lib/compare/index";
import * as residue from "../../kernel-lib/residue/index";
import * as solutions from "../../kernel-lib/solutions/index";
import * as uptake from "../../kernel-lib/uptake/index";

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
	const read = bench.runFromRows(sheet);
	const titrants = solutions.concentrations(read);
	const found = residue.residues(read, titrants, residue.reagentBlanks(read));
	const uptakes = uptake.uptakes(found, titrants, uptake.recoveries(found));
	const comparison = compare.compareTreatments(uptakes, {
		margin: compare.marginOf(design.margin),
		deviations: read.deviations,
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
): Record<string, string | number> {
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
		asked: treatment.asked === undefined ? "" : 100 * treatment.asked,
		"false word": percent(said.filter(isFalse).length),
	};
}

const table: Record<string, string | number>[] = [];

describe.each(designsOf(file))("design $name: $title", (design) => {
	let runs: Said[][] = [];
	const treated = design.treatments.filter((t) => t.control !== "");

	test("runs", { timeout: 120_000 }, () => {
		runs = seeds.map((seed) => run(design, seed));
		table.push(...treated.map((t) => rates(design, t, runs)));
		console.table(table.filter((row) => row.design === design.name));
	});

	test("a false higher or lower, for any treatment of a run, in at most 5 runs of 100", () => {
		expect(
			percent(runs.filter((r) => r.some(falseDirection)).length),
		).toBeLessThanOrEqual(5);
	});

	test("a false word of no difference, for any treatment of a run, in at most 5 runs of 100", () => {
		const wrong = runs.filter((r) =>
			r.some((said) => falseSameness(said, design.margin)),
		);
		expect(percent(wrong.length)).toBeLessThanOrEqual(5);
	});

	test.each(treated.filter((t) => t.asked !== undefined))(
		"says a right word of $treatment as often as was asked",
		({ treatment, asked }) => {
			const row = table.find(
				(r) => r.design === design.name && r.treatment === treatment,
			);
			expect(row?.right).toBeGreaterThanOrEqual(100 * (asked ?? 1));
		},
	);
});
