import { grouped } from "../../quantity";
import { studentTQuantile } from "../../stats";
import type { Comparison } from "../verdict";
import {
	type Component,
	type LevelName,
	repetitionOf,
	type Scatter,
} from "./components";

/** How many titrations each flask of each soak of one treatment had. */
type Repeats = readonly (readonly number[])[];

/** Repetitions that can be added. */
export const repetitions = ["soak", "flask", "titration"] as const;
export type Repetition = (typeof repetitions)[number];

/** What one repetition more would do to the half-width of a difference, as the scatter was seen: the part of it that is left. */
export interface OneMore {
	readonly of: Repetition;
	readonly leaves: number;
}

export interface PairScatter {
	readonly treatment: string;
	/** Share of each level that is known in the variance that scatter gives the difference. */
	readonly shares: ReadonlyMap<LevelName, number>;
	/** The best first. */
	readonly oneMore: readonly OneMore[];
}

const mean = (list: readonly number[]): number =>
	list.reduce((a, b) => a + b, 0) / list.length;

/** The part of each level's variance that is in the mean of a treatment whose soaks count alike. */
function weightOf(level: LevelName, repeats: Repeats): number {
	const soaks = repeats.length;
	switch (level) {
		case "soak":
			return 1 / soaks;
		case "flask":
			return mean(repeats.map((f) => 1 / f.length)) / soaks;
		case "titration":
			return (
				mean(repeats.map((f) => mean(f.map((n) => 1 / n)) / f.length)) / soaks
			);
		default:
			return 0;
	}
}

/** The same with one more of something everywhere, made like those that there are. */
function withOneMore(what: Repetition, repeats: Repeats): Repeats {
	switch (what) {
		case "soak":
			return repeats;
		case "flask":
			return repeats.map((f) => [...f, Math.round(mean(f))]);
		case "titration":
			return repeats.map((f) => f.map((n) => n + 1));
	}
}

/** What batches put into a difference: the comparison does not take them off, so that they cancel only where both sides have the same. */
function batchWeight(
	{ flasks }: Scatter,
	pair: { readonly treatment: string; readonly control: string },
): number {
	const shares = new Map<string, number>();
	for (const [treatment, sign] of [
		[pair.treatment, 1],
		[pair.control, -1],
	] as const) {
		const soaks = grouped(
			flasks.filter((o) => o.treatment === treatment),
			(o) => o.flask.flask.soak,
		);
		for (const own of soaks.values())
			for (const o of own) {
				const { charBatch } = o.flask.flask;
				const share = sign / soaks.size / own.length;
				shares.set(charBatch, (shares.get(charBatch) ?? 0) + share);
			}
	}
	return [...shares.values()].reduce((sum, s) => sum + s * s, 0);
}

const varianceOf = (c: Component | undefined): number =>
	c === undefined || c.is === "not known" ? 0 : Math.max(0, c.estimate);

const isKnown = (
	{ components }: Scatter,
	name: LevelName,
): Component | undefined =>
	components.find((c) => c.name === name && c.is !== "not known");

function pairScatter(
	c: Comparison,
	scatter: Scatter,
	pair: { readonly treatment: string; readonly control: string },
): PairScatter | null {
	const sides = [pair.treatment, pair.control].map((t) =>
		repetitionOf(scatter.flasks, t),
	);
	const variance = (level: LevelName, of: readonly Repeats[]): number =>
		varianceOf(isKnown(scatter, level)) *
		of.reduce((sum, r) => sum + weightOf(level, r), 0);
	const parts = new Map<LevelName, number>([
		[
			"batch",
			varianceOf(isKnown(scatter, "batch")) * batchWeight(scatter, pair),
		],
		...repetitions.map((l) => [l, variance(l, sides)] as const),
	]);
	const total = [...parts.values()].reduce((a, b) => a + b, 0);
	if (!(total > 0)) return null;
	const replicated = total - (parts.get("batch") ?? 0);
	const df = c.degreesOfFreedom;
	const groups = c.groups.length;
	const quantile = (degrees: number): number =>
		studentTQuantile((1 + c.confidence) / 2, degrees);
	const leaves = (what: Repetition): number => {
		if (what !== "soak") {
			const others = sides.map((r) => withOneMore(what, r));
			const after = repetitions.reduce((s, l) => s + variance(l, others), 0);
			return Math.sqrt((total - replicated + after) / total);
		}
		const after = sides.reduce((sum, r) => {
			const own = repetitions.reduce((s, l) => s + variance(l, [r]), 0);
			return sum + (own * r.length) / (r.length + 1);
		}, 0);
		return (
			(Math.sqrt((total - replicated + after) / total) *
				quantile(df + groups)) /
			quantile(df)
		);
	};
	return {
		treatment: pair.treatment,
		shares: new Map([...parts].map(([level, part]) => [level, part / total])),
		// What nothing tells from the level around it cannot be promised to shrink.
		oneMore: repetitions
			.filter((what) => what === "soak" || isKnown(scatter, what))
			.map((of) => ({ of, leaves: leaves(of) }))
			.sort((a, b) => a.leaves - b.leaves),
	};
}

/**
 * How the scatter of each difference is made up; of treatments in several soaks only, with every level down to the soak known, since without a second soak nothing else is worth repeating. Not on isotherms, where a flask counts by
 * its place on the curve.
 */
export function scatterOfPairs(
	c: Comparison,
	scatter: Scatter,
): readonly PairScatter[] {
	if (c.at.is === "isotherms") return [];
	if (c.scope !== "treatment" || !isKnown(scatter, "soak")) return [];
	return c.verdicts.flatMap((v) => {
		if (v.difference.is !== "estimate") return [];
		const own = pairScatter(c, scatter, v);
		return own === null ? [] : [own];
	});
}
