import { type Firing, firingsInUse, isLeftOut, type Trial } from "../bench";
import {
	type MaybeKnown,
	type NotKnown,
	notKnown,
	type Quantity,
	quoted,
	roundedPair,
	type Table,
	withTable,
} from "../quantity";
import {
	type DryingCurve,
	type DryingPoint,
	dryingCurveOf,
} from "./drying-curve";
import { dryingTable } from "./drying-table";
import { type FiringTargets, requireTargets } from "./targets";

/** The rule of the bench: two weighings in a row within so many milligrams. */
export interface BenchRule {
	readonly holds: boolean;
	/** Last weighing but one minus last weighing, g. */
	readonly fall: number;
	readonly within: number;
	readonly sentence: string;
}

/** One drying, judged. */
export interface Drying {
	readonly firing: Firing;
	readonly points: readonly DryingPoint[];
	/** What may be left, g. */
	readonly tolerance: number;
	readonly curve: DryingCurve | NotKnown;
	readonly rule: BenchRule;
	/** From the fitted curve where there is one; else from the bench rule alone. */
	readonly verdict: "dry" | "not dry" | "cannot tell";
	readonly sentence: string;
	/** The weighings beside the fitted approach to constant mass. */
	readonly table: Table;
}

function pointsOf(firing: Firing): DryingPoint[] {
	return firing.drying
		.filter((w) => !isLeftOut(w))
		.map((w) => {
			const mass = w.mass.to("g");
			return {
				hours: w.time.in("h"),
				grams: mass.value,
				uncertainty: mass.standardUncertainty,
			};
		});
}

function ruleOf(points: readonly DryingPoint[], within: number): BenchRule {
	const mg = (g: number): string => `${Number((1000 * g).toPrecision(3))} mg`;
	if (points.length < 2)
		return {
			holds: false,
			fall: 0,
			within,
			sentence:
				"Bench rule (two weighings in a row): fewer than two weighings.",
		};
	const [before, last] = points.slice(-2);
	const fall = before.grams - last.grams;
	const hours = Number((last.hours - before.hours).toPrecision(3));
	const holds = Math.abs(fall) <= within;
	return {
		holds,
		fall,
		within,
		sentence: `Bench rule (two weighings in a row within ${mg(within)}): ${holds ? "holds" : "does not hold"}; ${fall < 0 ? "a gain" : "a loss"} of ${mg(Math.abs(fall))} in the last ${hours} h.${holds ? " The rule cannot see a slow drying: the shorter the time between, the easier it holds." : ""}`,
	};
}

function hoursText(hours: number): string {
	return `${Number(hours.toPrecision(2))} h`;
}

/** The final mass by the curve, with its interval. */
function finalMassText(
	{ finalMass, finalMassInterval: { low, high } }: DryingCurve,
	last: DryingPoint,
): string {
	if (low.is === "not known" || high.is === "not known")
		return `the weighings set no firm final mass (best guess ${roundedPair(finalMass, last.uncertainty || 0.001)[0]} g)`;
	const half = (high.value - low.value) / 2;
	const text = (mass: number): string => roundedPair(mass, half)[0];
	return `predicted final mass ${text(finalMass)} g (95 %: ${text(low.value)} to ${text(high.value)} g)`;
}

function moreHoursText({ moreHours, moreHoursInterval }: DryingCurve): string {
	const best = hoursText(moreHours);
	const { high } = moreHoursInterval;
	if (high.is === "not known") return `${best} (${high.because})`;
	const most = hoursText(high.value);
	return most === best ? best : `${best} (up to ${most})`;
}

function sentenceOf({
	firing,
	curve,
	rule,
	tolerance,
	verdict,
	points,
}: Omit<Drying, "sentence" | "table">): string {
	const head = `Drying of ${quoted(firing.name)}: ${verdict}; `;
	if (curve.is === "not known")
		return `${head}${curve.because}. ${rule.sentence}`;
	const allowed = `${Number((1000 * tolerance).toPrecision(3))} mg`;
	const water =
		verdict === "dry"
			? `no more than the ${allowed} allowed is left in it`
			: verdict === "not dry"
				? `more than the ${allowed} allowed is still in it`
				: `whether more than the ${allowed} allowed is left in it cannot be told`;
	const hours =
		verdict === "dry"
			? ""
			: ` Best guess of the time still needed: ${moreHoursText(curve)}.`;
	return `${head}${finalMassText(curve, points[points.length - 1])}, ${water}.${hours} ${rule.sentence}`;
}

/** From the curve where there is one: dry where the water left is surely within the tolerance, not dry where it is surely beyond it. */
function verdictOf(
	curve: Drying["curve"],
	rule: BenchRule,
	tolerance: number,
	weighings: number,
): Drying["verdict"] {
	if (curve.is === "not known")
		return weighings >= 2 && !rule.holds && rule.fall > 0
			? "not dry"
			: "cannot tell";
	const { low, high } = curve.remainingInterval;
	const isAtMost = (end: MaybeKnown<number>, otherwise: boolean): boolean =>
		end.is === "value" ? end.value <= tolerance : otherwise;
	if (isAtMost(high, false)) return "dry";
	return isAtMost(low, true) ? "cannot tell" : "not dry";
}

/** Part of the last weighing that may still be water, where no tolerance is given (common practice, no source). */
const usualTolerance = 0.001;

/**
 * Is it dry yet? The approach to constant mass fitted to the weighings, the final mass with its 95 % interval (profile; the wider of what the scatter and what the balance give), the hours still
 * needed, and beside them the rule of the bench.
 */
export function drying(
	firing: Firing,
	{
		water,
		agreement,
	}: {
		readonly water?: Quantity<"mass">;
		readonly agreement?: Quantity<"mass">;
	} = {},
): Drying {
	const points = pointsOf(firing);
	const last = points.length === 0 ? 0 : points[points.length - 1].grams;
	const tolerance = water?.in("g") ?? last * usualTolerance;
	const rule = ruleOf(points, agreement?.in("g") ?? tolerance);
	const curve =
		points.length === 0
			? notKnown(
					firing.drying.length === 0
						? "no weighing of a drying is recorded"
						: "every weighing of the drying is left out",
				)
			: dryingCurveOf(points, tolerance);
	const verdict = verdictOf(curve, rule, tolerance, points.length);
	const judged = { firing, points, tolerance, curve, rule, verdict };
	return withTable({ ...judged, sentence: sentenceOf(judged) }, dryingTable);
}

/**
 * Is it dry yet? For every firing whose drying was weighed: the approach to constant mass fitted to the weighings (masses in g, times in h), the final mass with its 95 % interval, the hours still needed, and beside them
 * the rule of the bench, two weighings in a row that agree. Each is shown as a table, a row a weighing.
 *
 * @param targets.water water that may be left; 0.1 % of the last weighing by default (common practice, no source)
 * @param targets.agreement two weighings in a row must agree within this; as much as `water` by default
 * @throws ProblemError where the trial has no firing, and for a target that it does not know
 * @example
 * const water = quantity.input("mass", 15, "mg", quantity.exact);
 * activation.dryings(kilnTrial, { water }).map((d) => d.verdict) // => ["dry", "not dry", "not dry"]
 */
export function dryings(
	trial: Trial,
	targets: FiringTargets = {},
): readonly Drying[] {
	requireTargets(targets, "dryings");
	return firingsInUse(trial)
		.filter((firing) => firing.drying.length > 0)
		.map((firing) => drying(firing, targets));
}
