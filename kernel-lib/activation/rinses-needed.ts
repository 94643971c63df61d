import type { Quantity } from "../quantity";
import { type FittedWashout, targetNumber, washCurve } from "./washout";

/** How many rinses a target takes. Counts are of whole rinses; 95 % interval of the model's curve, so that pores that lag come on top. */
export type RinsesNeeded =
	| {
			readonly is: "foretold";
			readonly target: string;
			/** Rinses from the first one on. */
			readonly total: number;
			readonly totalLow: number;
			/** Infinity where the upper edge of the curve's band never reaches the target, or the washing slows down. */
			readonly totalHigh: number;
			readonly done: number;
			/** Rinses still to come, of `volume` each; 0 where the target is reached. */
			readonly more: number;
			readonly moreLow: number;
			readonly moreHigh: number;
			/** mL */
			readonly volume: number;
			readonly sentence: string;
	  }
	| {
			readonly is: "refused";
			readonly target: string;
			readonly because: string;
			readonly sentence: string;
	  };

/** Rinses beyond this many are called "more than". */
const most = 300;

function counted(n: number): string {
	return `${n} rinse${n === 1 ? "" : "s"}`;
}

/**
 * Rinses that bring the fitted curve to a target, counted from the first, and those still to come. The interval is where the curve's 95 % band crosses the target
 * (inverse prediction), in whole rinses.
 *
 * @param target conductivity or pH, whichever the washing was fitted to
 * @throws RangeError where the target is of the other kind
 */
export function rinsesNeeded(
	washed: FittedWashout,
	target: Quantity<"conductivity"> | Quantity<"pH">,
): RinsesNeeded {
	const aim = targetNumber(washed, target);
	const words =
		washed.reading === "pH"
			? `pH ${aim}`
			: `${Number(aim.toPrecision(6))} µS/cm`;
	const refused = (because: string): RinsesNeeded => ({
		is: "refused",
		target: words,
		because,
		sentence: `Washing of ${washed.firing.name} to ${words}: cannot be foretold; ${because}.`,
	});
	if (washed.reading === "conductivity" && !(aim > 0))
		return refused(
			`no water conducts so little, not even the purest (0.055 µS/cm at 25 °C). Set a target above what the rinse water itself reads${washed.floorIs === "measured" ? `, ${Number(washed.floor.toPrecision(3))} µS/cm` : ""}`,
		);
	const [start] = washCurve(washed, [0]);
	const falling = start.value > washed.floor;
	const past = (value: number): boolean =>
		falling ? value <= aim : value >= aim;
	if (past(washed.floor) === false || aim === washed.floor)
		return refused(
			`the rinse water itself stands at ${washed.reading === "pH" ? `pH ${Number(washed.floor.toPrecision(3))}` : `${Number(washed.floor.toPrecision(3))} µS/cm`}, so no number of rinses gets there`,
		);
	const done = washed.volumes.length;
	const curve = washCurve(
		washed,
		Array.from({ length: done + most + 1 }, (_, n) => n),
	);
	const first = (edge: (p: (typeof curve)[number]) => number): number => {
		const at = curve.findIndex((p) => past(edge(p)));
		return at < 0 ? Number.POSITIVE_INFINITY : at;
	};
	const total = first((p) => p.value);
	if (!Number.isFinite(total))
		return refused(
			`at the rate fitted it would take more than ${most} further rinses`,
		);
	// Band edges are not monotonic at the far end; the first crossing of the near edge and of the far edge bound the count.
	const near = first((p) => (falling ? p.low : p.high));
	const far = first((p) => (falling ? p.high : p.low));
	const [totalLow, totalHigh] = [
		Math.min(near, total),
		washed.slowsDown ? Number.POSITIVE_INFINITY : Math.max(far, total),
	];
	const more = Math.max(0, total - done);
	const moreLow = Math.max(0, totalLow - done);
	const moreHigh = Math.max(0, totalHigh - done);
	const interval =
		moreHigh === moreLow
			? ""
			: Number.isFinite(moreHigh)
				? ` (${moreLow} to ${moreHigh})`
				: washed.slowsDown
					? " or more: the washing slows down from rinse to rinse"
					: ` (${moreLow} or more: the readings set no upper limit)`;
	const volume = Number(washed.nextVolume.toPrecision(4));
	const sentence =
		more === 0 && moreHigh === 0
			? `Washing of ${washed.firing.name} to ${words}: reached; the curve crossed it at rinse ${total} of ${done}.`
			: `Washing of ${washed.firing.name} to ${words}: ${counted(more)} of ${volume} mL still needed${interval}, ${counted(total)} in all.`;
	return {
		is: "foretold",
		target: words,
		total,
		totalLow,
		totalHigh,
		done,
		more,
		moreLow,
		moreHigh,
		volume: washed.nextVolume,
		sentence,
	};
}
