import {
	known,
	type MaybeKnown,
	type NotKnown,
	notKnown,
	type Quantity,
	quoted,
} from "../quantity";
import { targetNumber, type WashCurvePoint, washCurve } from "./wash-curve";
import type { FittedWashout } from "./washout";

/** How many rinses a target takes. Counts are of whole rinses; 95 % interval of the model's curve, so that pores that lag come on top. */
export type RinsesNeeded =
	| {
			readonly is: "foretold";
			readonly target: string;
			/** Rinses from the first one on. */
			readonly total: number;
			readonly totalLow: number;
			/** Not known where the upper edge of the curve's band never reaches the target, or the washing slows down. */
			readonly totalHigh: MaybeKnown<number>;
			readonly done: number;
			/** Rinses still to come, of `volume` each; 0 where the target is reached. */
			readonly more: number;
			readonly moreLow: number;
			readonly moreHigh: MaybeKnown<number>;
			/** mL */
			readonly volume: number;
			readonly sentence: string;
	  }
	| (NotKnown & { readonly target: string; readonly sentence: string });

/** Rinses beyond this many are called "more than" (a choice of this library, no source). */
const most = 300;

function counted(n: number): string {
	return `${n} rinse${n === 1 ? "" : "s"}`;
}

/** A conductivity (µS/cm) or a pH in words. */
function readingText(washed: FittedWashout, value: number): string {
	return washed.reading === "pH" ? `pH ${value}` : `${value} µS/cm`;
}

const three = (x: number): number => Number(x.toPrecision(3));

/** Why no number of rinses reaches a target; "" where one may. */
function unreachable(washed: FittedWashout, aim: number): string {
	const floor = readingText(washed, three(washed.floor));
	if (washed.reading === "conductivity" && !(aim > 0))
		return `no water conducts so little, not even the purest (0.055 µS/cm at 25 °C). Set a target above what the rinse water itself reads${washed.floorIs === "measured" ? `, ${floor}` : ""}`;
	return isPast(washed, aim)(washed.floor) && aim !== washed.floor
		? ""
		: `the rinse water itself stands at ${floor}, so no number of rinses gets there`;
}

/** Whether a reading has reached the target, from the side that the washing comes from. */
function isPast(
	washed: FittedWashout,
	aim: number,
): (value: number) => boolean {
	const [start] = washCurve(washed, [0]);
	return start.value > washed.floor
		? (value) => value <= aim
		: (value) => value >= aim;
}

/** The first rinse at which the curve, or an edge of its band, has reached the target. */
function crossings(
	washed: FittedWashout,
	aim: number,
): {
	readonly best: MaybeKnown<number>;
	readonly edges: readonly MaybeKnown<number>[];
} {
	const past = isPast(washed, aim);
	const curve = washCurve(
		washed,
		Array.from({ length: washed.volumes.length + most + 1 }, (_, n) => n),
	);
	const first = (edge: (p: WashCurvePoint) => number): MaybeKnown<number> => {
		const at = curve.findIndex((p) => past(edge(p)));
		return at < 0
			? notKnown(
					`at the rate fitted it would take more than ${most} further rinses`,
				)
			: known(at);
	};
	const best = first((p) => p.value);
	return { best, edges: [first((p) => p.low), first((p) => p.high)] };
}

/** 95 % interval of a count of rinses. */
interface Count {
	readonly best: number;
	readonly low: number;
	readonly high: MaybeKnown<number>;
}

/** The count from the first rinse on. Edges of a band are not monotonic at the far end; the first crossings of the two edges bound the count. */
function totalOf(washed: FittedWashout, aim: number): MaybeKnown<Count> {
	const { best, edges } = crossings(washed, aim);
	if (best.is === "not known") return best;
	const reached = edges.flatMap((e) => (e.is === "value" ? [e.value] : []));
	return known({
		best: best.value,
		low: Math.min(best.value, ...reached),
		high: washed.slowsDown
			? notKnown("the washing slows down from rinse to rinse")
			: reached.length < edges.length
				? notKnown("the readings set no upper limit")
				: known(Math.max(best.value, ...reached)),
	});
}

function intervalText({ low, high }: Count, slowsDown: boolean): string {
	if (high.is === "value")
		return high.value === low ? "" : ` (${low} to ${high.value})`;
	return slowsDown
		? " or more: the washing slows down from rinse to rinse"
		: ` (${low} or more: the readings set no upper limit)`;
}

/**
 * Rinses that bring the fitted curve to a target, counted from the first, and those still to come. The interval is where the curve's 95 % band crosses the target
 * (inverse prediction), in whole rinses.
 *
 * @param target conductivity or pH, whichever the washing was fitted to
 */
export function rinsesNeeded(
	washed: FittedWashout,
	target: Quantity<"conductivity"> | Quantity<"pH">,
): RinsesNeeded {
	const aim = targetNumber(washed, target);
	const words = readingText(
		washed,
		washed.reading === "pH" ? aim : Number(aim.toPrecision(6)),
	);
	const head = `Washing of ${quoted(washed.firing.name)} to ${words}:`;
	const none = (because: string): RinsesNeeded => ({
		...notKnown(because),
		target: words,
		sentence: `${head} cannot be foretold; ${because}.`,
	});
	const because = unreachable(washed, aim);
	if (because !== "") return none(because);
	const whole = totalOf(washed, aim);
	if (whole.is === "not known") return none(whole.because);
	const total = whole.value;
	const done = washed.volumes.length;
	const still = (n: number): number => Math.max(0, n - done);
	const more: Count = {
		best: still(total.best),
		low: still(total.low),
		high:
			total.high.is === "value" ? known(still(total.high.value)) : total.high,
	};
	const reached =
		more.best === 0 && more.high.is === "value" && more.high.value === 0;
	return {
		is: "foretold",
		target: words,
		total: total.best,
		totalLow: total.low,
		totalHigh: total.high,
		done,
		more: more.best,
		moreLow: more.low,
		moreHigh: more.high,
		volume: washed.nextVolume,
		sentence: reached
			? `${head} reached; the curve crossed it at rinse ${total.best} of ${done}.`
			: `${head} ${counted(more.best)} of ${Number(washed.nextVolume.toPrecision(4))} mL still needed${intervalText(more, washed.slowsDown)}, ${counted(total.best)} in all.`,
	};
}
