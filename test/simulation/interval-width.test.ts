/** Where the width of an interval goes, and what would buy it back: good trials judged under other assumptions, and with other things recorded. */
import { describe, expect, test } from "vitest";
import faults from "../../data/simulation/fault-designs.json";
import type { FaultDesign } from "../../data/simulation/fault-plan.mjs";
import { faultDesignsOf } from "../../data/simulation/fault-trial.mjs";
import file from "../../data/simulation/width-variations.json";
import type { CompareOptions } from "../../kernel-lib/compare/index";
import { coverageOf, isFalse } from "./fault-rates";
import { type FaultOutcome, faultOutcome } from "./fault-runs";
import { percent } from "./said";
import type { Textbook } from "./textbook";
import { hold, note, seedsOf, trialsOf } from "./trials";

interface Variation {
	readonly name: string;
	/** Something that no sheet shows, so that what follows need not be true. */
	readonly assumes?: boolean;
	readonly measuresSlope?: boolean;
	readonly compare?: CompareOptions;
	readonly residue?: number;
	readonly all?: object;
	readonly bench?: object;
}

const count = trialsOf(Number(process.env.SEEDS ?? file.trials), 1);
const seeds = seedsOf(count);
/** The ordinary tests see that every variation of the first design is analysed. */
const designs = file.designs.slice(0, count > 1 ? undefined : 1);
/** What is asked is held over trials enough to say anything. */
const enough = 25;

const named = (name: string) =>
	faults.designs.find(
		(d) => d.name === name,
	) as (typeof faults.designs)[number];

/** A design with what a variation changes; its name, and with it what chance does, stays. */
function varied(name: string, { residue, all, bench }: Variation): FaultDesign {
	const design = named(name);
	return faultDesignsOf({
		...faults,
		designs: [
			{
				...design,
				residue: residue ?? design.residue,
				all: { ...design.all, ...all },
				bench: { ...design.bench, ...bench },
			},
		],
	})[0];
}

const share = <T>(list: readonly T[], so: (x: T) => boolean): number =>
	list.filter(so).length / list.length;

const saidOf = (runs: readonly FaultOutcome[], treatment: string) =>
	runs.flatMap((r) => r.said.filter((s) => s.treatment === treatment));

type Route = "textbook" | "textbookAtResidue";

/** Share of the trials of which the textbook says so of a treatment. */
const by = (
	route: Route,
	runs: readonly FaultOutcome[],
	treatment: string,
	so: (t: Textbook) => boolean,
): number =>
	share(
		runs.flatMap((r) => r[route].filter((t) => t.treatment === treatment)),
		so,
	);

const sameBy = (
	runs: readonly FaultOutcome[],
	route: Route,
	treatment: string,
): number => by(route, runs, treatment, (t) => t.same);

const dunnettBy = (runs: readonly FaultOutcome[], treatment: string): number =>
	by("textbook", runs, treatment, (t) => t.dunnett !== "");

const same = "no difference that matters";

function rowOf(
	design: FaultDesign,
	{ name }: Variation,
	runs: readonly FaultOutcome[],
): Record<string, string | number> {
	const rounded = (x: number): number => Number(x.toFixed(1));
	const treated = design.treatments.filter((t) => t.difference !== undefined);
	return {
		design: design.name,
		variation: name,
		...Object.fromEntries(
			treated.flatMap(({ treatment, difference }) => {
				const own = saidOf(runs, treatment);
				const widths = own.flatMap((s) => s.halfWidth ?? []);
				const half = widths.reduce((a, b) => a + b, 0) / widths.length;
				const so = (word: string): number =>
					percent(share(own, (s) => s.word === word));
				return [
					[`+${difference}: half-width`, rounded(half)],
					...(difference === 30 ? [] : [[`+${difference}: same`, so(same)]]),
					...(difference === 0
						? []
						: [
								[`+${difference}: higher`, so("higher")],
								[
									`+${difference}: zero left out`,
									percent(share(own, (s) => s.clear)),
								],
								[
									`+${difference}: zero left out by Dunnett as dosed`,
									percent(dunnettBy(runs, treatment)),
								],
							]),
					...(difference === 15
						? [
								[
									"+15: same at this residue by the textbook",
									percent(sameBy(runs, "textbookAtResidue", treatment)),
								],
								[
									"+15: same as dosed by the textbook",
									percent(sameBy(runs, "textbook", treatment)),
								],
							]
						: []),
				];
			}),
		),
		"false word": percent(
			share(runs, (r) =>
				r.said.some(
					(s) => isFalse.direction(s) || isFalse.sameness(s, design.margin),
				),
			),
		),
		"all hold": percent(coverageOf(runs).share),
	};
}

/** What is held of a variation that assumes nothing. */
function heldOf(
	design: FaultDesign,
	variation: Variation,
	runs: readonly FaultOutcome[],
) {
	const of = {
		simulation: "what the width buys",
		design: `${design.name}, ${variation.name}`,
		trials: runs.length,
		asked: file.trials,
	};
	const rate = (so: (r: FaultOutcome) => boolean): number =>
		runs.filter(so).length;
	hold({
		...of,
		what: 'a false "higher" or "lower"',
		hits: rate((r) => r.said.some(isFalse.direction)),
		most: faults.asked.falseDirection,
	});
	hold({
		...of,
		what: 'a false "no difference that matters"',
		hits: rate((r) => r.said.some((s) => isFalse.sameness(s, design.margin))),
		most: faults.asked.falseSameness,
	});
	hold({
		...of,
		what: "all intervals hold",
		hits: rate((r) => r.said.every((s) => s.holds !== false)),
		least: file.asked.coverage,
	});
	if (variation.measuresSlope !== true) return;
	for (const { treatment, difference } of design.treatments)
		if (difference !== undefined && difference < design.margin)
			hold({
				...of,
				what: `${treatment}: no difference, against two one-sided tests at the residue`,
				hits: saidOf(runs, treatment).filter((s) => s.word === same).length,
				least: Math.max(
					0,
					sameBy(runs, "textbookAtResidue", treatment) - file.asked.below,
				),
			});
}

describe.each(designs)("%s", (name) => {
	test.each(file.variations as Variation[])("$name", (variation) => {
		const design = varied(name, variation);
		const runs = seeds.map((seed) =>
			faultOutcome(design, seed, variation.compare),
		);
		for (const { said } of runs)
			expect(said.map((s) => s.halfWidth)).not.toContain(null);
		note("interval-width", rowOf(design, variation, runs));
		if (count >= enough && variation.assumes !== true)
			heldOf(design, variation, runs);
	});
});
