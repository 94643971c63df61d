import { dot, type Rows, semidefiniteFactor } from "../linear";
import { type CurveOnDays, curveOnDays, daysOf } from "./curve-days";
import type { CurveEstimate } from "./curve-estimate";
import { share, type Told, type Treatments, toldBy } from "./days-told";
import { fewReadingsFactor } from "./few-readings";
import type { SpreadRule } from "./settings";
import { soakSpreadOf } from "./soak-estimates";
import type { Spread } from "./spread";

/** A day and what multiplied all uptakes of it, the flasks of all days having 1 on average. */
export interface DayFactor {
	readonly day: string;
	readonly factor: number;
}

export type Estimates = ReadonlyMap<string, readonly CurveEstimate[]>;

/** Uptakes on the curves of treatments, or of their soaks, free of what their days did. */
export interface FreedOfDays {
	/** Empty where no treatment stood on several days, or none is recorded. */
	readonly factors: readonly DayFactor[];
	readonly estimates: Estimates;
	readonly soakSpread: Spread;
}

/** Rounds in which the days and the spread of soaks are brought into line, and the change of the spread that ends them. */
const mostRounds = 100;
const settled = 1e-8;

/** Degrees of freedom that a curve's scatter is taken from at least: with so few an interval is so wide that nothing follows from it. Our decision. */
const leastDegrees = 0.5;

/** What days leave of a curve's degrees of freedom. */
export const degreesLeft = (before: number, taken: number): number =>
	Math.max(leastDegrees, before - taken);

/** Uptakes are not divided by less: a day that seems to do more leaves the rest to the errors of the days. Our decision. */
const leastFactor = 0.2;

/** What the uptakes of a day are divided by. */
export const divisorFor = (factor: number): number =>
	Math.max(leastFactor, factor);

/**
 * A day multiplies all uptakes of its flasks by one factor, common to all curves: a curve that begins at zero cannot be shifted. The factors are found together with the curves, by least squares to first order: by how flasks of one curve
 * differ from day to day beside it, and, where each soak has a curve, by how the soaks of a treatment differ, each with the weight of its scatter (generalised least squares; the spread of soaks from what days leave of it, over the
 * degrees of freedom that they leave: Harville 1977, J. Am. Stat. Assoc. 72, 320; from memory). What stays unknown of them is an error that all curves share, and cancels where both sides of a difference stood on the days alike.
 *
 * @param residue of the comparison, mg/L
 */
export function freedOfDays(
	estimates: Estimates,
	residue: number,
	rule: SpreadRule,
): FreedOfDays {
	const days = daysOf(estimates);
	let soakSpread = soakSpreadOf(estimates, rule);
	if (days.count === 0) return { factors: [], estimates, soakSpread };
	const treatments = [...estimates].map(
		([t, own]) => [t, own.map((e) => curveOnDays(e, residue, days))] as const,
	);
	let told = toldBy(treatments, soakSpread, days.count);
	for (let round = 0; round < mostRounds; round++) {
		const before = soakSpread.deviation;
		soakSpread = soakSpreadOf(
			uptakesFreed(treatments, told),
			rule,
			new Map([...told.between].map(([t, q]) => [t, share(q, told.inverse)])),
		);
		// Where days leave nothing to take a spread from, none is made up of what they took.
		if (soakSpread.degreesOfFreedom === 0) break;
		told = toldBy(treatments, soakSpread, days.count);
		if (Math.abs(soakSpread.deviation - before) <= settled * before) break;
	}
	return {
		factors: days.names.map((day) => ({
			day,
			factor: 1 + dot(days.shares(day), told.numbers),
		})),
		estimates: withErrorsOfDays(treatments, told, soakSpread),
		soakSpread,
	};
}

function uptakesFreed(treatments: Treatments, { numbers }: Told): Estimates {
	return new Map(
		treatments.map(([t, own]) => [
			t,
			own.map(({ estimate, followed }) => ({
				...estimate,
				uptake: estimate.uptake - dot(followed, numbers),
			})),
		]),
	);
}

/** Degrees of freedom behind the covariance of the numbers, by the parts that curves and soaks have in it. */
function degreesBehind(
	treatments: Treatments,
	{ inverse, between }: Told,
	soakSpread: Spread,
): number {
	const curves = treatments.flatMap(([, own]) => own);
	const ofCurves =
		curves.reduce((sum, c) => sum + share(c.information, inverse), 0) /
		inverse.length;
	const ofSoaks =
		soakSpread.degreesOfFreedom > 0
			? [...between.values()].reduce((sum, q) => sum + share(q, inverse), 0) /
				inverse.length
			: 0;
	const about = curves.reduce(
		(sum, { estimate }) => sum + estimate.degreesOfFreedom,
		0,
	);
	// Where soaks agree better than the scatter about their curves allows, that scatter was taken for their spread.
	const ofSpread = soakSpread.fromReadings
		? about
		: soakSpread.degreesOfFreedom;
	const below =
		ofCurves ** 2 / about + (ofSoaks > 0 ? ofSoaks ** 2 / ofSpread : 0);
	return below > 0 ? 1 / below : Number.POSITIVE_INFINITY;
}

/** The curves' uptakes free of the days, with the errors of these, and with what the days take off (or add to) other shared errors: a blank that is off on one day looks like that day. */
function withErrorsOfDays(
	treatments: Treatments,
	told: Told,
	soakSpread: Spread,
): Estimates {
	const { inverse, numbers } = told;
	const factor = factorOf(inverse);
	const times = fewReadingsFactor(degreesBehind(treatments, told, soakSpread));
	const keys = new Set(
		treatments.flatMap(([, own]) =>
			own.flatMap((c) => [...c.estimate.shared.keys()]),
		),
	);
	const feigned = [...keys].map((key) => ({
		key,
		numbers: told.feigned(
			(c) => c.towardsOf(key),
			(c) => c.estimate.shared.get(key) ?? 0,
		),
	}));
	const freed = ({ estimate, followed, information }: CurveOnDays) => {
		const shared = new Map(
			feigned.map((f) => [
				f.key,
				(estimate.shared.get(f.key) ?? 0) - dot(followed, f.numbers),
			]),
		);
		numbers.forEach((_, j) => {
			shared.set(
				`days, ${j + 1}`,
				times *
					followed.reduce((sum, h, i) => sum + h * (factor[i][j] ?? 0), 0),
			);
		});
		const before = estimate.degreesOfFreedom;
		const left = degreesLeft(before, share(information, inverse));
		return {
			...estimate,
			uptake: estimate.uptake - dot(followed, numbers),
			scatterVariance:
				estimate.scatterVariance *
				(Number.isFinite(before) ? before / left : 1),
			degreesOfFreedom: left,
			shared,
		};
	};
	return new Map(treatments.map(([t, own]) => [t, own.map(freed)]));
}

/** Independent errors that make up the covariance, as columns. */
function factorOf(covariance: readonly Float64Array[]): Rows {
	const found = semidefiniteFactor(covariance);
	if (found.is === "factor") return found.factor;
	throw new Error("a covariance of days that is none");
}
