import type { Firing } from "../bench";
import { type Fit, fit as fitCurve, type Limit } from "../fit";
import {
	known,
	type MaybeKnown,
	type NotKnown,
	notKnown,
	type Quantity,
	quoted,
} from "../quantity";
import { studentTQuantile } from "../stats";
import { agentNamed } from "./agents";
import { confidence } from "./confidence";
import {
	type Floor,
	floorOf,
	pointsOf,
	refusalOf,
	type WashPoint,
	type WashReading,
} from "./rinse-readings";
import {
	retainedLimits,
	scaleOf,
	type WashScale,
	washModel,
} from "./washout-model";

/** The readings of one washing, whether a model could be fitted to them or not. */
interface WashReadings {
	readonly firing: Firing;
	readonly reading: WashReading;
	readonly unit: "µS/cm" | "pH";
	readonly points: readonly WashPoint[];
	/** Volumes of all rinses, mL, whether read or not. */
	readonly volumes: readonly number[];
	/** Volume of each rinse still to come, mL. */
	readonly nextVolume: number;
}

/** The washout model fitted to the readings of one firing. */
export interface FittedWashout extends WashReadings {
	readonly is: "fitted";
	/** Of every interval here. */
	readonly confidence: number;
	/** What the rinses tend to: the water's own conductivity or pH. */
	readonly floor: number;
	readonly floorIs: Floor["is"];
	/** Liquor that the char keeps between rinses, mL, as the decrease shows it. */
	readonly retained: number;
	/** 95 % interval of `retained`, mL; the readings may set no upper limit. */
	readonly retainedInterval: {
		readonly low: number;
		readonly high: MaybeKnown<number>;
	};
	readonly fit: Fit;
	/** Whether the readings bend away from the model, slower and slower: then what it predicts is a lower limit. */
	readonly slowsDown: boolean;
	readonly cautions: readonly string[];
}

/** The end of an interval of a logarithm, as a volume in mL; one that is too large for a number is no limit either. */
function upperLimit(high: Limit): MaybeKnown<number> {
	const volume =
		high.kind === "open" ? Number.POSITIVE_INFINITY : Math.exp(high.value);
	return Number.isFinite(volume)
		? known(volume)
		: notKnown("the readings set no upper limit");
}

/** Readings that cannot carry the model. */
export type UnfittedWashout = WashReadings & NotKnown;

export type Washout = FittedWashout | UnfittedWashout;

/** Start values: the line through ln(excess) against the number of the rinse. */
function startOf(
	points: readonly WashPoint[],
	scale: WashScale,
	floor: number,
	typical: number,
): MaybeKnown<{ readonly lnStart: number; readonly lnRetained: number }> {
	const usable = points.flatMap((p) => {
		const excess = scale.excess(p.value, floor);
		return excess > 0 ? [{ n: p.rinse, y: Math.log(excess) }] : [];
	});
	if (usable.length < 2)
		return notKnown("fewer than two readings lie beyond the water's own");
	const [first, last] = [usable[0], usable[usable.length - 1]];
	const fall = (first.y - last.y) / (last.n - first.n) / scale.order;
	if (!(fall > 0)) return notKnown("the readings do not fall");
	return known({
		lnStart: first.y + scale.order * fall * first.n,
		lnRetained: Math.log(typical / Math.expm1(Math.max(fall, 1e-3))),
	});
}

/** Readings from which on a slowing washing is looked for: two are left to show the scatter about its curve (a choice of this library, no source). */
const readingsForBend = 5;

/** A reading so many times the reference solution's is beyond it (a choice of this library, no source). */
const beyondReference = 1.05;

function fitWashout(
	readings: WashReadings,
	floor: Floor,
	scale: WashScale,
): MaybeKnown<Fit> {
	const { firing, reading, points, volumes, nextVolume } = readings;
	const start = startOf(points, scale, floor.value, volumes[0]);
	if (start.is === "not known")
		return notKnown(
			`the ${reading} does not fall towards the water's own from rinse to rinse`,
		);
	const { lnStart, lnRetained } = start.value;
	const limits = retainedLimits(volumes, nextVolume);
	const fitted = fitCurve(
		washModel(scale, volumes, nextVolume, floor.value, {
			is: floor.is === "fitted" ? "ln floor" : "none",
		}),
		{
			x: points.map((p) => p.rinse),
			y: points.map((p) => scale.toScale(p.value)),
			unitX: "rinse",
			name: `washing of ${quoted(firing.name)}`,
		},
		{
			start: {
				"ln start": lnStart,
				"ln retained": Math.min(
					Math.max(lnRetained, limits.least),
					limits.most,
				),
				...(floor.is === "fitted" ? { "ln floor": Math.log(floor.value) } : {}),
			},
		},
	);
	return fitted.converged.holds
		? known(fitted)
		: notKnown(
				`the washout model finds no best fit: ${fitted.converged.reason}`,
			);
}

/**
 * Fits the washout of one firing to its readings of conductivity or pH. Readings scatter alike in ln(conductivity) and in pH; the scatter about the curve gives the errors
 * (Student's t), not the stated reading errors. The floor is the water's own conductivity where it was read, fitted where it was not and at least five rinses were, else 0; for pH the
 * water's own, else 7. Model: common practice (well-mixed rinses), derived in `washModel`.
 *
 * @param nextVolume volume of each rinse still to come; that of the last one by default
 * @returns "not known" with the reason where the readings cannot carry the model
 */
export function washout(
	firing: Firing,
	reading: WashReading = "conductivity",
	nextVolume?: Quantity<"volume">,
): Washout {
	const volumes = firing.rinses.map((r) => r.volume.in("mL"));
	const points = pointsOf(firing, reading, volumes);
	const readings: WashReadings = {
		firing,
		reading,
		unit: reading === "pH" ? "pH" : "µS/cm",
		points,
		volumes,
		nextVolume: nextVolume?.in("mL") ?? volumes[volumes.length - 1] ?? 0,
	};
	const unfitted = (because: string): Washout => ({
		...readings,
		...notKnown(because),
	});
	const floor = floorOf(firing, reading, points);
	const refusal = refusalOf(points, reading, floor);
	if (refusal !== "") return unfitted(refusal);
	const agent = agentNamed(firing.agent);
	const scale = scaleOf(
		reading,
		points[0].value > floor.value ? 1 : -1,
		agent.is === "known" ? agent.agent.order : 1,
	);
	const found = fitWashout(readings, floor, scale);
	if (found.is === "not known") return unfitted(found.because);
	const fit = found.value;
	const { interval } = fit.parameters[1];
	if (interval.is === "not known")
		return unfitted(`the washout model has no errors: ${interval.because}`);
	const { low, high } = interval.value;
	const slowsDown = bendsUp(fit, readings, scale, floor);
	return {
		...readings,
		is: "fitted",
		confidence,
		floor: floor.is === "fitted" ? Math.exp(fit.theta[2]) : floor.value,
		floorIs: floor.is,
		retained: Math.exp(fit.theta[1]),
		retainedInterval: {
			low: low.kind === "open" ? 0 : Math.exp(low.value),
			high: upperLimit(high),
		},
		fit,
		slowsDown,
		cautions: [
			...(slowsDown ? [slowing] : []),
			...cautionsOf(firing, reading, floor, points),
		],
	};
}

/**
 * Whether the washing slows down from rinse to rinse: ln(excess) against the number of the rinse bends upwards, by a quadratic term added to the model, beyond its one-sided 97.5 % limit
 * (Student's t from the scatter about that curve). Needs readings left over to show the scatter, and a floor that is not itself fitted.
 */
function bendsUp(
	all: Fit,
	{ points, volumes, nextVolume }: WashReadings,
	scale: WashScale,
	floor: Floor,
): boolean {
	if (points.length < readingsForBend || floor.is === "fitted") return false;
	const found = fitCurve(
		washModel(scale, volumes, nextVolume, floor.value, {
			is: "bend",
			middle: (points[0].rinse + points[points.length - 1].rinse) / 2,
		}),
		{
			x: points.map((p) => p.rinse),
			y: points.map((p) => scale.toScale(p.value)),
		},
		{
			start: { "ln start": all.theta[0], "ln retained": all.theta[1], bend: 0 },
		},
	);
	const { value, standardError } = found.parameters[2];
	if (!found.converged.holds || standardError.is === "not known") return false;
	const limit = studentTQuantile((1 + confidence) / 2, found.degreesOfFreedom);
	return value > limit * standardError.value;
}

const poresLag =
	"The model takes every rinse as wholly mixed with the liquor in the char. Agent deep in the pores comes out later than that, so the last rinses fall more slowly than the first: let the char stand in the water, and read again after a night.";

const slowing =
	"The washing slows down from rinse to rinse, more than its scatter explains: the pores are giving up agent late. Take the rinses still needed and the agent left as lower limits only.";

function cautionsOf(
	firing: Firing,
	reading: WashReading,
	floor: Floor,
	points: readonly WashPoint[],
): string[] {
	const beyond =
		reading === "conductivity" && firing.reference.recorded
			? points.filter(
					(p) =>
						firing.reference.recorded &&
						p.asRead >
							beyondReference * firing.reference.value.conductivity.in("µS/cm"),
				)
			: [];
	const agent = agentNamed(firing.agent);
	return [
		poresLag,
		...(agent.is === "known" && agent.agent.washingCaution !== ""
			? [agent.agent.washingCaution]
			: []),
		...(floor.is === "assumed"
			? [
					reading === "pH"
						? "The pH of the rinse water is not recorded: 7 is assumed."
						: "The conductivity of the rinse water is not recorded and too few rinses were read to fit it: none is assumed, so that the end of the washing looks nearer than it may be.",
				]
			: []),
		...(reading === "pH"
			? [
					"Between pH 5.5 and 8 the carbon dioxide of the air governs the pH of weak washings: take conductivity there.",
				]
			: []),
		...(beyond.length > 0
			? [
					`Rinse ${beyond.map((p) => p.rinse).join(", ")} was read above the reference solution: beyond it conductivity rises less than strength, so that its agent is underestimated. Dilute it before reading.`,
				]
			: []),
	];
}
