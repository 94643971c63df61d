import { largestSharedInput } from "./contrast-errors";
import type { Differences } from "./differences";
import type { Judgement } from "./judgement";
import type { Observations } from "./observations";
import { mostUnits, spreadToReckonWith, unitsThatDecide } from "./planning";
import type { Footing } from "./scope";
import type { Spread } from "./spread";
import type { Replicates } from "./verdict";
import { percent, roughly } from "./words";

/** What the number of replicates is worked out from, in mg/g. */
export interface PlanningGround {
	readonly observations: Observations;
	readonly footing: Footing;
	readonly spread: Spread;
	readonly differences: Differences;
	readonly margin: number;
	readonly alpha: number;
	/** Spread between units that the user states, for trials that show none; 0 where none is stated. */
	readonly statedSpread: number;
}

function reckonedSpread(g: PlanningGround): number {
	if (g.spread.degreesOfFreedom > 0 && g.spread.deviation === 0) return 0;
	return g.spread.degreesOfFreedom > 0
		? spreadToReckonWith(g.spread.deviation, g.spread.degreesOfFreedom)
		: g.statedSpread;
}

function tooMany(g: PlanningGround, index: number, deviation: number): string {
	const { errors } = g.differences.family[index];
	const largest = largestSharedInput(errors, g.observations);
	return errors.sharedVariance > (2 * deviation ** 2) / mostUnits
		? `No number of replicates helps: the shared error of "${largest.what}" (${roughly(largest.effect)} mg/g in this difference) must shrink first.`
		: `More than ${mostUnits} of each treatment would be needed: the spread must shrink first, or the margin be wider.`;
}

function because(g: PlanningGround, deviation: number): string {
	const spread = roughly(deviation);
	const rule = `with so many the whole ${percent(1 - g.alpha)} interval is no wider than the margin, so that it decides whatever the difference is`;
	switch (g.footing.scope) {
		case "treatment":
			return `Reckoned with a spread between soaks of ${spread} mg/g (upper 80 % limit of the one seen): ${rule}.`;
		case "these lots":
			return `So many flasks of each lot would settle it for these lots, reckoned with a spread between flasks of ${spread} mg/g (upper 80 % limit of the one seen); to speak of the treatment at least as many soaks are needed, since soaks differ more than flasks of one soak.`;
		case "measuring error only":
			return `Reckoned with the stated spread of ${spread} mg/g: ${rule}. A spread that was not seen may be larger.`;
	}
}

const noSpread =
	"This trial shows no spread, and none was stated: without a spread the number of replicates cannot be told.";

/** For each judged pair what would tell. The difference just observed plays no part in the number. */
export function replicatesFor(
	judgements: readonly Judgement[],
	g: PlanningGround,
): Replicates[] {
	const open = (j: Judgement): boolean =>
		j.word === "cannot tell" &&
		j.obstacles.length === 0 &&
		j.difference.is === "interval";
	const deviation = reckonedSpread(g);
	const known = g.spread.degreesOfFreedom > 0 || deviation > 0;
	const units =
		judgements.some(open) && known
			? unitsThatDecide({
					pairs: g.differences.family.map((f) => f.pair),
					days: g.footing.model.days.length,
					deviation,
					sharedVariances: g.differences.family.map(
						(f) => f.errors.sharedVariance,
					),
					margin: g.margin,
					alpha: g.alpha,
				})
			: [];
	return judgements.map((j): Replicates => {
		if (!known && g.footing.scope === "measuring error only")
			return { is: "not given", because: noSpread };
		if (j.word !== "cannot tell") return { is: "enough" };
		if (!open(j) || j.difference.is !== "interval")
			return {
				is: "not given",
				because: `More replicates would not help: ${j.obstacles[0]?.headline ?? "nothing is known of the difference"}.`,
			};
		if (!known) return { is: "not given", because: noSpread };
		const { index } = j.difference;
		const n = units[index];
		if (!Number.isFinite(n))
			return { is: "not given", because: tooMany(g, index, deviation) };
		return {
			is: g.footing.scope === "treatment" ? "number" : "at least",
			units: n,
			because: because(g, deviation),
		};
	});
}
