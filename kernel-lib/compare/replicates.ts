import { largestSharedInput } from "./contrast-errors";
import type { Differences, Ground } from "./differences";
import type { Judgement } from "./judgement";
import { mostUnits, spreadToReckonWith, unitsThatDecide } from "./planning";
import type { SpreadRule } from "./settings";
import type { Replicates } from "./verdict";
import type { Interval } from "./word";

/** What the number of replicates is worked out from, in mg/g. */
export interface PlanningGround extends Ground {
	readonly differences: Differences;
	readonly confidence: number;
	readonly rule: SpreadRule;
	/** Spread between units that the user states, for trials that show none; 0 where none is stated. */
	readonly statedSpread: number;
}

function reckonedSpread({ spread, statedSpread }: PlanningGround): number {
	return spread.degreesOfFreedom > 0
		? spreadToReckonWith(spread.deviation, spread.degreesOfFreedom)
		: statedSpread;
}

function tooMany(
	g: PlanningGround,
	index: number,
	deviation: number,
): Replicates {
	const { errors } = g.differences.family[index];
	const largest = largestSharedInput(errors, g.observations);
	return {
		is: "not given",
		why:
			errors.sharedVariance > (2 * deviation ** 2) / mostUnits
				? { is: "shared error", of: largest.what, effect: largest.effect }
				: { is: "too many", most: mostUnits },
	};
}

/** So small a part of the margin is nothing to speak of. Our decision. */
export const leastOfMargin = 0.01;

/** Width that the slopes which were not measured add to the interval of a judged pair, mg/g. */
function slopesWidth(
	{ pair, difference, allowance, margin }: Judgement,
	{ byTreatment }: Differences,
): number {
	const middle = byTreatment.get(pair.treatment);
	if (
		difference.is !== "interval" ||
		middle?.is !== "interval" ||
		margin.is === "not known"
	)
		return 0;
	const width = ({ low, high }: Interval): number => high - low;
	const added =
		width(difference.interval) -
		allowance.low -
		allowance.high -
		width(middle.interval);
	return added > leastOfMargin * margin.value ? added : 0;
}

const noSpread: Replicates = { is: "not given", why: { is: "no spread" } };

/** Why no number can be given whatever the spread is: there is no margin, or the claim leaves some difference open however many units there are. */
export function withoutNumber({ margin }: Judgement): Replicates {
	return {
		is: "not given",
		why:
			margin.is === "not known"
				? { is: "no margin", because: margin.because }
				: { is: "claim" },
	};
}

/** For each judged pair what would tell. The difference just observed plays no part in the number. */
export function replicatesFor(
	judgements: readonly Judgement[],
	g: PlanningGround,
): Replicates[] {
	const deviation = reckonedSpread(g);
	const known = g.spread.degreesOfFreedom > 0 || deviation > 0;
	const fewest = unitsThatDecide({
		pairs: g.differences.family.map((f) => f.pair),
		days: g.unitModel.model.days.length,
		deviation,
		sharedVariances: g.differences.family.map((f) => f.errors.sharedVariance),
		confidence: g.confidence,
		spread: g.rule,
	});
	return judgements.map((j): Replicates => {
		if (!known && g.unitModel.scope === "measuring error only") return noSpread;
		if (j.word !== "cannot tell") return { is: "enough" };
		if (j.obstacles.length > 0 || j.difference.is !== "interval")
			return { is: "not given", why: { is: "other obstacle" } };
		if (!known) return noSpread;
		const { index } = j.difference;
		if (j.margin.is === "not known" || j.ground.claim !== "difference")
			return withoutNumber(j);
		const n = fewest(index, j.margin.value);
		if (!Number.isFinite(n)) return tooMany(g, index, deviation);
		const slopes = slopesWidth(j, g.differences);
		return {
			is:
				g.unitModel.scope === "treatment" && slopes === 0
					? "number"
					: "at least",
			units: n,
			from: { is: "spread between units", spread: deviation, slopes },
		};
	});
}
