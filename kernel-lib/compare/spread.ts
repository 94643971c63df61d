import { grouped } from "../quantity";
import type { AdditiveModel } from "./additive-model";
import type { Observations } from "./observations";
import type { SpreadRule } from "./settings";

/** Each treatment's own variance is drawn to the pooled one as if that had so many degrees of freedom; without limit where all are taken to scatter alike. Our decision: data/simulation/spread-rules.md has what other rules give. */
export const priorDegrees = 1;

/** Share of the pooled variance in that of a treatment with so many degrees of freedom of its own. */
export const pooledShareOf = (
	rule: SpreadRule,
	degreesOfFreedom: number,
): number =>
	rule === "pooled" ? 1 : priorDegrees / (priorDegrees + degreesOfFreedom);

/** How far units of one treatment scatter. */
export interface GroupSpread {
	/** Of its own units alone, (mg/g)^2; 0 where it has too few. */
	readonly ownVariance: number;
	readonly degreesOfFreedom: number;
	/** Share of the pooled variance in the one that is used: 1 where its own units tell nothing. */
	readonly pooledShare: number;
	/** The one that is used, (mg/g)^2. */
	readonly variance: number;
}

/** How far units scatter, in all and in each treatment. */
export interface Spread {
	/** Pooled standard deviation between units, mg/g; 0 where there is nothing to take it from. */
	readonly deviation: number;
	readonly degreesOfFreedom: number;
	/** True where the units agreed better than their own reading errors allow, so that these were taken instead. */
	readonly fromReadings: boolean;
	/** Of treatments whose units gave values. */
	readonly groups: ReadonlyMap<string, GroupSpread>;
}

/** Nothing to take a spread from. */
export const noSpread: Spread = {
	deviation: 0,
	degreesOfFreedom: 0,
	fromReadings: false,
	groups: new Map(),
};

/** Smallest share of a degree of freedom that a treatment's own variance is taken from; below it division would make noise of rounding. */
const leastDegrees = 0.1;

/** The part of the mean squared error of units, of which there are some, that their flasks' readings explain. */
function readingVariance(
	units: AdditiveModel["units"],
	{ errors }: Observations,
): number {
	let sum = 0;
	for (const u of units)
		for (const i of u.members)
			sum += errors.ownVariance[i] / u.members.length ** 2;
	return sum / units.length;
}

/**
 * Standard deviation between units, pooled and of each treatment. It holds the independent reading errors already. Where the units happen to agree better than those errors allow (equal titres, rounded to a drop), the
 * reading errors are the least that is believed. Treatments need not scatter alike: each treatment's variance is its own, drawn to the pooled one.
 *
 * @param used degrees of freedom that a slope, measured from differences between the units of a treatment, has used up
 */
export function spreadOf(
	model: AdditiveModel,
	observations: Observations,
	rule: SpreadRule,
	used: ReadonlyMap<string, number> = new Map(),
): Spread {
	const rowsOf = grouped(
		[...model.units.keys()],
		(row) => model.units[row].treatment,
	);
	const own = model.treatments.map((treatment): OwnSpread => {
		const rows = rowsOf.get(treatment) ?? [];
		const left = rows.reduce((sum, row) => sum + 1 - model.leverages[row], 0);
		const degreesOfFreedom = left - (used.get(treatment) ?? 0);
		return {
			treatment,
			degreesOfFreedom: degreesOfFreedom < leastDegrees ? 0 : degreesOfFreedom,
			squares: rows.reduce((sum, row) => sum + model.residuals[row] ** 2, 0),
			readings: readingVariance(
				rows.map((row) => model.units[row]),
				observations,
			),
		};
	});
	return moderated(
		own,
		{
			degreesOfFreedom:
				model.degreesOfFreedom -
				own.reduce((sum, g) => sum + (used.get(g.treatment) ?? 0), 0),
			readings: readingVariance(model.units, observations),
		},
		rule,
	);
}

/** What the units of one treatment show of their spread. */
export interface OwnSpread {
	readonly treatment: string;
	readonly degreesOfFreedom: number;
	/** Sum of the squared residuals, (mg/g)^2. */
	readonly squares: number;
	/** The least variance of a unit that is believed: what its readings allow. */
	readonly readings: number;
}

/** Each treatment's variance drawn to the pooled one. */
export function moderated(
	own: readonly OwnSpread[],
	all: Pick<OwnSpread, "degreesOfFreedom" | "readings">,
	rule: SpreadRule,
): Spread {
	const { degreesOfFreedom, readings } = all;
	if (degreesOfFreedom < 1) return noSpread;
	const scatter = own.reduce((sum, g) => sum + g.squares, 0) / degreesOfFreedom;
	const pooled = Math.max(scatter, readings);
	return {
		deviation: Math.sqrt(pooled),
		degreesOfFreedom,
		fromReadings: readings > scatter,
		groups: new Map(
			own.map((g): [string, GroupSpread] => {
				const variance =
					g.degreesOfFreedom > 0
						? Math.max(g.squares / g.degreesOfFreedom, g.readings)
						: 0;
				const pooledShare = pooledShareOf(rule, g.degreesOfFreedom);
				return [
					g.treatment,
					{
						ownVariance: variance,
						degreesOfFreedom: g.degreesOfFreedom,
						pooledShare,
						variance: pooledShare * pooled + (1 - pooledShare) * variance,
					},
				];
			}),
		),
	};
}

/** Variance between units of a treatment, (mg/g)^2: the pooled one where none of its units gave a value. */
export function varianceOf(spread: Spread, treatment: string): number {
	return spread.groups.get(treatment)?.variance ?? spread.deviation ** 2;
}

/**
 * What scatter adds to the variance of a weighted sum of units, and how well that is known: it is a sum over the treatments' own variances, which are independent, so that Satterthwaite's formula holds as it stands.
 *
 * @param squares sum of the squared weights of each treatment's units
 */
export function scatterOf(
	spread: Spread,
	squares: ReadonlyMap<string, number>,
): { readonly variance: number; readonly denominator: number } {
	if (spread.degreesOfFreedom === 0) return { variance: 0, denominator: 0 };
	const pooled = spread.deviation ** 2;
	let variance = 0;
	/** Weight of the pooled variance in the sum. */
	let common = 0;
	for (const [treatment, sum] of squares) {
		const group = spread.groups.get(treatment);
		common += sum * (group?.pooledShare ?? 1);
		variance += sum * varianceOf(spread, treatment);
	}
	let denominator = 0;
	/** Weight of what is not pooled. */
	let alone = 0;
	for (const [treatment, g] of spread.groups) {
		if (g.degreesOfFreedom === 0) continue;
		const own = (squares.get(treatment) ?? 0) * (1 - g.pooledShare);
		alone += own;
		const part =
			(own + (common * g.degreesOfFreedom) / spread.degreesOfFreedom) *
			g.ownVariance;
		denominator += part ** 2 / g.degreesOfFreedom;
	}
	// Where nothing but the pooled variance is used, all treatments are taken to scatter alike, and its degrees of freedom are those of all.
	return {
		variance,
		denominator:
			alone > 0 && denominator > 0
				? denominator
				: (common * pooled) ** 2 / spread.degreesOfFreedom,
	};
}
