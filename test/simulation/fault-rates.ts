/** Rates over the trials of a design with a fault, and what is asked of them. */
import file from "../../data/simulation/fault-designs.json";
import type { FaultDesign } from "../../data/simulation/fault-plan.mjs";
import type { FaultOutcome, FaultSaid } from "./fault-runs";
import { highestShare, lowestShare } from "./limits";
import { falseDirection, falseSameness, percent, words } from "./said";

type Runs = readonly FaultOutcome[];

const share = <T>(list: readonly T[], so: (x: T) => boolean): number =>
	list.filter(so).length / list.length;

export const isFalse = {
	direction: (s: FaultSaid): boolean =>
		(s.word === "higher" || s.word === "lower") &&
		falseDirection({ ...s, word: s.word }),
	sameness: (s: FaultSaid, margin: number): boolean =>
		s.word === "no difference that matters" &&
		falseSameness({ ...s, word: s.word }, margin),
};

/** What the heads of sheets without a fault say as well does not count as telling. */
const ofEveryHead =
	/\. This is about char batch [^.;]*|(than|from|against) its control|differs from its control/g;

/** More than "cannot tell" is said only with what it rests on. */
function modest(design: FaultDesign, s: FaultSaid): boolean {
	if (s.word === "cannot tell" || s.word === "refused") return true;
	const head = s.head.replace(ofEveryHead, "").toLowerCase();
	return design.told.some((t) => head.includes(t.toLowerCase()));
}

/** Trials of which at least one interval or bound is known, and in how many of these all hold. */
export function coverageOf(runs: Runs): { known: number; share: number } {
	const known = runs.filter((r) => r.said.some((s) => s.holds !== null));
	return {
		known: known.length,
		share: share(known, (r) => r.said.every((s) => s.holds !== false)),
	};
}

/** One thing that is asked of a design: a share, with its limits. */
export interface AskedRate {
	readonly what: string;
	readonly hits: number;
	readonly trials: number;
	readonly least?: number;
	readonly most?: number;
}

const rate = (
	what: string,
	trials: number,
	found: number,
	limits: { least?: number; most?: number },
): AskedRate => ({ what, hits: Math.round(found * trials), trials, ...limits });

/** Of the textbook route, with the words in our order: "no difference that matters" goes before "higher". */
const clearOnly = (
	runs: Runs,
	treatment: string,
): { direction: number; same: number } => {
	const own = runs.flatMap((r) =>
		r.textbook.filter((t) => t.treatment === treatment),
	);
	return {
		direction: share(own, (t) => t.dunnett !== "" && !t.same),
		same: share(own, (t) => t.same),
	};
};

function powerAsked(
	design: FaultDesign,
	runs: Runs,
	{ treatment }: { treatment: string },
): AskedRate[] {
	const plain = clearOnly(runs, treatment);
	const own = runs.flatMap((r) =>
		r.said.filter((s) => s.treatment === treatment),
	);
	const { direction, sameness } = file.asked.power;
	return design.benign
		? [
				rate(
					`${treatment}: higher or lower, against Dunnett`,
					runs.length,
					share(own, (s) => s.word === "higher" || s.word === "lower"),
					{ least: Math.max(0, plain.direction - direction) },
				),
				rate(
					`${treatment}: no difference, against two one-sided tests`,
					runs.length,
					share(own, (s) => s.word === "no difference that matters"),
					{ least: Math.max(0, plain.same - sameness) },
				),
			]
		: [];
}

/** All that fault-designs.json asks of a design. */
export function askedRates(design: FaultDesign, runs: Runs): AskedRate[] {
	const n = runs.length;
	const treated = design.treatments.filter((t) => t.difference !== undefined);
	const ofAll = design.enough
		? [
				rate(
					'a false "higher" or "lower"',
					n,
					share(runs, (r) => r.said.some(isFalse.direction)),
					{ most: file.asked.falseDirection },
				),
				rate(
					'a false "no difference that matters"',
					n,
					share(runs, (r) =>
						r.said.some((s) => isFalse.sameness(s, design.margin)),
					),
					{ most: file.asked.falseSameness },
				),
			]
		: [
				rate(
					"cannot tell, or says what it rests on",
					n,
					share(runs, (r) => r.said.every((s) => modest(design, s))),
					{ least: file.asked.said },
				),
			];
	const { known, share: holding } = coverageOf(runs);
	return [
		...ofAll,
		...(design.coverage === null || known === 0
			? []
			: [rate("all intervals hold", known, holding, design.coverage)]),
		...treated.flatMap((t) => {
			const own = runs.flatMap((r) =>
				r.said.filter((s) => s.treatment === t.treatment),
			);
			const right = (s: FaultSaid): boolean =>
				s.word === "refused" || (t.right ?? []).includes(s.word);
			return [
				...(t.asked === undefined || !design.enough
					? []
					: [
							rate(`a right word of ${t.treatment}`, n, share(own, right), {
								least: t.asked,
							}),
						]),
				...powerAsked(design, runs, t),
			];
		}),
	];
}

/** "NOT" where something is missed by more than chance explains in so many trials, "not" where by less. */
function markOf(rates: readonly AskedRate[]): string {
	const missed = rates.filter(
		({ hits, trials, least = 0, most = 1 }) =>
			hits / trials < least || hits / trials > most,
	);
	const beyondChance = missed.some(
		({ hits, trials, least, most }) =>
			(least !== undefined && hits / trials < lowestShare(least, trials)) ||
			(most !== undefined && hits / trials > highestShare(most, trials)),
	);
	return missed.length === 0 ? "" : beyondChance ? "NOT" : "not";
}

/** Lines of the page: one for each treatment; what is about the whole trial stands in the first. */
export function rowsOf(
	design: FaultDesign,
	runs: Runs,
	from: number,
): Record<string, string | number>[] {
	const coverage = coverageOf(runs);
	const asked = markOf(askedRates(design, runs));
	const treated = design.treatments.filter((t) => t.difference !== undefined);
	return treated.map(({ treatment, difference }, i) => {
		const own = runs.flatMap((r) =>
			r.said.filter((s) => s.treatment === treatment),
		);
		const plain = runs.flatMap((r) =>
			r.textbook.filter((t) => t.treatment === treatment),
		);
		const widths = own.flatMap((s) => s.halfWidth ?? []);
		const first = (text: string | number): string | number =>
			i === 0 ? text : "";
		const ofPlain = (so: (t: (typeof plain)[number]) => boolean) =>
			plain.length === 0 ? "" : percent(share(plain, so));
		return {
			design: `${String(design.fault).padStart(2, "0")} ${design.name}`,
			seeds: first(`${from}-${from + runs.length - 1}`),
			enough: first(design.enough ? "yes" : "no"),
			treatment,
			truth: difference ?? 0,
			margin: design.margin,
			...Object.fromEntries(
				words.map((w) => [w, percent(share(own, (s) => s.word === w))]),
			),
			refused: percent(
				share(own, (s) => s.word === "refused" || s.word === "not judged"),
			),
			"false word": percent(
				share(
					own,
					(s) => isFalse.direction(s) || isFalse.sameness(s, design.margin),
				),
			),
			"half-width":
				widths.length === 0
					? ""
					: Number(
							(widths.reduce((a, b) => a + b, 0) / widths.length).toFixed(1),
						),
			"all hold": first(coverage.known === 0 ? "" : percent(coverage.share)),
			modest: first(
				design.enough
					? ""
					: percent(share(runs, (r) => r.said.every((s) => modest(design, s)))),
			),
			"Dunnett higher": ofPlain((t) => t.dunnett === "higher"),
			"Dunnett lower": ofPlain((t) => t.dunnett === "lower"),
			"one-sided tests: same": ofPlain((t) => t.same),
			asked: first(asked),
		};
	});
}

/** Mean half-width of the intervals of a design's trials, mg/g. */
export function meanHalfWidth(runs: Runs): number {
	const widths = runs.flatMap((r) => r.said.flatMap((s) => s.halfWidth ?? []));
	return widths.reduce((a, b) => a + b, 0) / widths.length;
}
