import type { Firing, Recorded, Rinse } from "../bench";
import {
	defineModel,
	type Fit,
	fit as fitCurve,
	type Model,
	predict,
} from "../fit";
import type { Quantity } from "../quantity";
import { studentTQuantile } from "../stats";
import { agentNamed } from "./agents";

/** What was read on the rinses. */
export type WashReading = "conductivity" | "pH";

/** One reading of a rinse, as it ran off. */
export interface WashPoint {
	readonly rinse: number;
	/** Volume of rinse water up to and with this rinse, mL. */
	readonly poured: number;
	/** µS/cm before any dilution, or pH. */
	readonly value: number;
	/** Standard uncertainty of the reading, in the same unit. */
	readonly uncertainty: number;
	/** What the meter showed, diluted or not. */
	readonly asRead: number;
}

interface Washing {
	readonly firing: Firing;
	readonly reading: WashReading;
	readonly unit: "µS/cm" | "pH";
	readonly points: readonly WashPoint[];
	/** Volumes of all rinses, mL, whether read or not. */
	readonly volumes: readonly number[];
	/** Volume of each rinse still to come, mL. */
	readonly nextVolume: number;
}

/** The washout model fitted to the readings of one run. */
export interface FittedWashout extends Washing {
	readonly is: "fitted";
	/** What the rinses tend to: the water's own conductivity or pH. */
	readonly floor: number;
	readonly floorIs: "measured" | "fitted" | "assumed";
	/** Liquor that the char keeps between rinses, mL, as the decrease shows it. */
	readonly retained: number;
	/** 95 % interval of `retained`, mL; the high end is Infinity where the readings set none. */
	readonly retainedInterval: { readonly low: number; readonly high: number };
	readonly fit: Fit;
	/** Whether the readings bend away from the model, slower and slower: then what it foretells is a lower limit. */
	readonly slowsDown: boolean;
	readonly cautions: readonly string[];
}

export interface RefusedWashout extends Washing {
	readonly is: "refused";
	readonly because: string;
}

export type Washout = FittedWashout | RefusedWashout;

/** Ion product of water at 25 °C, (mol/L)². */
const waterIons = 1e-14;

/** Hydroxide beyond hydrogen ions at a pH, mol/L: 10^(pH - 14) - 10^(-pH). */
export function alkalinityOf(pH: number): number {
	return 10 ** (pH - 14) - 10 ** -pH;
}

/** The pH at an excess of hydroxide, from [OH] - [H] = excess and [OH][H] = 1e-14. */
export function pHOf(excess: number): number {
	// The larger root first: the difference of two near numbers would lose the smaller one.
	const larger =
		(Math.abs(excess) + Math.sqrt(excess * excess + 4 * waterIons)) / 2;
	const hydrogen = excess > 0 ? waterIons / larger : larger;
	return -Math.log10(hydrogen);
}

/** What is fitted: a curve over the number of the rinse, on a scale on which readings scatter alike (ln of the conductivity; pH as it is). */
interface WashScale {
	readonly toScale: (reading: number) => number;
	/** From the logarithm of the excess over the floor (µS/cm, or mol/L of ions) to the fitted scale; finite however far the curve is followed. */
	readonly fromExcess: (lnExcess: number, floor: number) => number;
	readonly excess: (reading: number, floor: number) => number;
	readonly order: number;
}

/** Exponents beyond this have no number. */
const beyondNumbers = 700;

function scaleOf(reading: WashReading, sign: number, order: number): WashScale {
	return reading === "conductivity"
		? {
				toScale: Math.log,
				fromExcess: (lnExcess, floor) =>
					floor > 0 && lnExcess < beyondNumbers
						? Math.log(floor + Math.exp(lnExcess))
						: lnExcess,
				excess: (read, floor) => read - floor,
				order: 1,
			}
		: {
				toScale: (read) => read,
				fromExcess: (lnExcess, floor) =>
					pHOf(
						alkalinityOf(floor) +
							sign * Math.exp(Math.min(lnExcess, beyondNumbers / 2)),
					),
				excess: (read, floor) =>
					sign * (alkalinityOf(read) - alkalinityOf(floor)),
				order,
			};
}

/** Sum of ln(1 + V/V_r) over the rinses up to a number: minus the logarithm of what is left of the first liquor. Rinses beyond the list have the volume `next`. */
export function dilutionExponent(
	volumes: readonly number[],
	rinse: number,
	retained: number,
	next: number,
): number {
	let exponent = 0;
	for (let k = 0; k < Math.min(rinse, volumes.length); k++)
		exponent += Math.log1p(volumes[k] / retained);
	return (
		exponent + Math.max(0, rinse - volumes.length) * Math.log1p(next / retained)
	);
}

/** A third parameter beside start and retained volume: none, the floor, or a bend of ln(excess) about a middle rinse. */
type ThirdParameter =
	| { readonly is: "none" }
	| { readonly is: "ln floor" }
	| { readonly is: "bend"; readonly middle: number };

/** Logarithms of the retained volumes that a fit may try: a ten thousandth of the smallest rinse to ten thousand of the largest. */
function retainedLimits(
	volumes: readonly number[],
	next: number,
): { readonly least: number; readonly most: number } {
	return {
		least: Math.log(Math.min(...volumes, next) * 1e-4),
		most: Math.log(Math.max(...volumes, next) * 1e4),
	};
}

/**
 * The washout model: the char keeps a liquor of volume V_r between rinses; each rinse of volume V mixes with it wholly and runs off, so that what is dissolved falls by
 * V_r / (V_r + V) a rinse: c_n = c_0 Π V_r / (V_r + V_k). A reading is the water's own plus what goes with c_n (conductivity) or with its power `order` (ions by pH).
 */
function washModel(
	scale: WashScale,
	volumes: readonly number[],
	next: number,
	floor: number,
	third: ThirdParameter,
): Model {
	const limits = retainedLimits(volumes, next);
	return defineModel({
		name: "washout by well-mixed rinses",
		formula: "c_n = c_0 \\prod_{k=1}^{n} V_r / (V_r + V_k)",
		parameters: [
			{ name: "ln start" },
			{ name: "ln retained", lower: limits.least, upper: limits.most },
			...(third.is === "none" ? [] : [{ name: third.is }]),
		],
		evaluate: (p, x, out) => {
			const retained = Math.exp(p[1]);
			for (let i = 0; i < x.length; i++) {
				const exponent =
					scale.order * dilutionExponent(volumes, x[i], retained, next);
				const bend =
					third.is === "bend" ? p[2] * (x[i] - third.middle) ** 2 : 0;
				out[i] = scale.fromExcess(
					p[0] - exponent + bend,
					third.is === "ln floor" ? Math.exp(p[2]) : floor,
				);
			}
		},
	});
}

/** Start values: the line through ln(excess) against the number of the rinse. */
function startOf(
	points: readonly WashPoint[],
	scale: WashScale,
	floor: number,
	typical: number,
): { readonly lnStart: number; readonly lnRetained: number } | null {
	const usable = points.flatMap((p) => {
		const excess = scale.excess(p.value, floor);
		return excess > 0 ? [{ n: p.rinse, y: Math.log(excess) }] : [];
	});
	if (usable.length < 2) return null;
	const [first, last] = [usable[0], usable[usable.length - 1]];
	const fall = (first.y - last.y) / (last.n - first.n) / scale.order;
	if (!(fall > 0)) return null;
	return {
		lnStart: first.y + scale.order * fall * first.n,
		lnRetained: Math.log(typical / Math.expm1(Math.max(fall, 1e-3))),
	};
}

function readingOf(
	rinse: Rinse,
	reading: WashReading,
	water: number,
): Recorded<Pick<WashPoint, "value" | "uncertainty" | "asRead">> {
	if (reading === "pH")
		return rinse.pH.recorded
			? {
					recorded: true,
					value: {
						value: rinse.pH.value.value,
						uncertainty: rinse.pH.value.standardUncertainty,
						asRead: rinse.pH.value.value,
					},
				}
			: { recorded: false };
	if (!rinse.conductivity.recorded) return { recorded: false };
	const read = rinse.conductivity.value.to("µS/cm");
	return {
		recorded: true,
		value: {
			// Diluted with the rinse water: what the water brought along is taken off first.
			value: water + rinse.diluted * (read.value - water),
			uncertainty: rinse.diluted * read.standardUncertainty,
			asRead: read.value,
		},
	};
}

function pointsOf(
	firing: Firing,
	reading: WashReading,
	volumes: readonly number[],
): WashPoint[] {
	const water = firing.rinseWater.conductivity.recorded
		? firing.rinseWater.conductivity.value.in("µS/cm")
		: 0;
	let poured = 0;
	return firing.rinses.flatMap((rinse, i): WashPoint[] => {
		poured += volumes[i];
		const read = readingOf(rinse, reading, water);
		return read.recorded ? [{ rinse: i + 1, poured, ...read.value }] : [];
	});
}

interface Floor {
	readonly value: number;
	readonly is: FittedWashout["floorIs"];
}

function floorOf(
	firing: Firing,
	reading: WashReading,
	points: readonly WashPoint[],
): Floor {
	if (reading === "pH")
		return firing.rinseWater.pH.recorded
			? { value: firing.rinseWater.pH.value.value, is: "measured" }
			: { value: 7, is: "assumed" };
	if (firing.rinseWater.conductivity.recorded)
		return {
			value: firing.rinseWater.conductivity.value.in("µS/cm"),
			is: "measured",
		};
	return points.length >= 5
		? { value: 0.5 * Math.min(...points.map((p) => p.value)), is: "fitted" }
		: { value: 0, is: "assumed" };
}

const poresLag =
	"The model takes every rinse as wholly mixed with the liquor in the char. Agent deep in the pores comes out later than that, so the last rinses fall more slowly than the first: let the char stand in the water, and read again after a night.";

function refusalOf(
	points: readonly WashPoint[],
	reading: WashReading,
	floor: Floor,
): string {
	if (points.length < 3)
		return `${points.length === 0 ? "no" : points.length === 1 ? "one" : "two"} reading${points.length === 1 ? "" : "s"} of the ${reading}: the model has two unknowns, so at least three rinses must be read before anything shows how good it is`;
	const none =
		reading === "conductivity" ? points.filter((p) => !(p.value > 0)) : [];
	if (none.length > 0)
		return `rinse ${none.map((p) => p.rinse).join(", ")} comes out at no conductivity at all once its dilution is taken off: look at the reading, the dilution and the water's own conductivity`;
	const [first, last] = [points[0], points[points.length - 1]];
	const distance = (p: WashPoint): number => Math.abs(p.value - floor.value);
	const noise = Math.hypot(first.uncertainty, last.uncertainty);
	return distance(first) - distance(last) <= 2 * noise
		? `the ${reading} did not come nearer to the water's own between rinse ${first.rinse} and rinse ${last.rinse} by more than its reading error: nothing can be foretold from it`
		: "";
}

/**
 * Fits the washout of one run to its readings of conductivity or pH. Readings scatter alike in ln(conductivity) and in pH; the scatter about the curve gives the errors
 * (Student's t), not the stated reading errors. The floor is the water's own conductivity where it was read, fitted where it was not and at least five rinses were, else 0; for pH the
 * water's own, else 7. Model: common practice (well-mixed rinses), derived in `washModel`.
 *
 * @param options.nextVolume volume of each rinse still to come; that of the last one unless told otherwise
 * @returns "refused" with the reason where the readings cannot carry the model
 */
export function washout(
	firing: Firing,
	reading: WashReading = "conductivity",
	options: { readonly nextVolume?: Quantity<"volume"> } = {},
): Washout {
	const volumes = firing.rinses.map((r) => r.volume.in("mL"));
	const nextVolume =
		options.nextVolume?.in("mL") ?? volumes[volumes.length - 1] ?? 0;
	const points = pointsOf(firing, reading, volumes);
	const washing: Washing = {
		firing,
		reading,
		unit: reading === "pH" ? "pH" : "µS/cm",
		points,
		volumes,
		nextVolume,
	};
	const refused = (because: string): Washout => ({
		...washing,
		is: "refused",
		because,
	});
	const floor = floorOf(firing, reading, points);
	const refusal = refusalOf(points, reading, floor);
	if (refusal !== "") return refused(refusal);
	const agent = agentNamed(firing.agent);
	const sign = points[0].value > floor.value ? 1 : -1;
	const scale = scaleOf(reading, sign, agent.found ? agent.agent.order : 1);
	const start = startOf(points, scale, floor.value, volumes[0]);
	if (start === null)
		return refused(
			`the ${reading} does not fall towards the water's own from rinse to rinse`,
		);
	const fitFloor = floor.is === "fitted";
	const limits = retainedLimits(volumes, nextVolume);
	const model = washModel(scale, volumes, nextVolume, floor.value, {
		is: fitFloor ? "ln floor" : "none",
	});
	const fitted = fitCurve(
		model,
		{
			x: points.map((p) => p.rinse),
			y: points.map((p) => scale.toScale(p.value)),
			unitX: "rinse",
			name: `washing of ${firing.name}`,
		},
		{
			start: {
				"ln start": start.lnStart,
				"ln retained": Math.min(
					Math.max(start.lnRetained, limits.least),
					limits.most,
				),
				...(fitFloor ? { "ln floor": Math.log(floor.value) } : {}),
			},
		},
	);
	if (!fitted.converged.holds)
		return refused(
			`the washout model finds no best fit: ${fitted.converged.reason}`,
		);
	const { interval } = fitted.parameters[1];
	if (interval.is === "not known")
		return refused(`the washout model has no errors: ${interval.because}`);
	const ends = interval.value;
	const slowsDown = bendsUp(fitted, washing, scale, floor);
	return {
		...washing,
		is: "fitted",
		floor: fitFloor ? Math.exp(fitted.theta[2]) : floor.value,
		floorIs: floor.is,
		retained: Math.exp(fitted.theta[1]),
		retainedInterval: {
			low: ends.low.kind === "open" ? 0 : Math.exp(ends.low.value),
			high:
				ends.high.kind === "open"
					? Number.POSITIVE_INFINITY
					: Math.exp(ends.high.value),
		},
		fit: fitted,
		slowsDown,
		cautions: [
			...(slowsDown ? [slowing] : []),
			...cautionsOf(firing, reading, floor, points),
		],
	};
}

/**
 * Whether the washing slows down from rinse to rinse: ln(excess) against the number of the rinse bends upwards, by a quadratic term added to the model, beyond its one-sided 97.5 % limit
 * (Student's t from the scatter about that curve). Needs five readings, so that two are left to show the scatter, and a floor that is not itself fitted.
 */
function bendsUp(
	all: Fit,
	{ points, volumes, nextVolume }: Washing,
	scale: WashScale,
	floor: Floor,
): boolean {
	if (points.length < 5 || floor.is === "fitted") return false;
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
	const limit = studentTQuantile(0.975, found.degreesOfFreedom);
	return value > limit * standardError.value;
}

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
						p.asRead > 1.05 * firing.reference.value.conductivity.in("µS/cm"),
				)
			: [];
	const agent = agentNamed(firing.agent);
	return [
		poresLag,
		...(agent.found && agent.agent.washingCaution !== ""
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

/** The fitted curve at rinses 0, 1, 2 ... (0: the liquor before the first), with its 95 % band, in the unit of the readings. Rinses still to come have the volume `nextVolume`. */
export interface WashCurvePoint {
	readonly rinse: number;
	readonly value: number;
	readonly low: number;
	readonly high: number;
}

export function washCurve(
	washed: FittedWashout,
	rinses: readonly number[],
): WashCurvePoint[] {
	const back = washed.reading === "pH" ? (y: number): number => y : Math.exp;
	return predict(washed.fit, rinses).map((p, i) => {
		const band = p.confidenceBandOfCurve;
		const [low, high] =
			band.is === "value"
				? [band.value.low, band.value.high]
				: [p.value, p.value];
		return {
			rinse: rinses[i],
			value: back(p.value),
			low: back(low),
			high: back(high),
		};
	});
}

/** The number of a target in the unit of the readings. */
export function targetNumber(
	washed: Washout,
	target: Quantity<"conductivity"> | Quantity<"pH">,
): number {
	if (washed.reading === "pH") {
		if (target.kind !== "pH")
			throw new RangeError(
				"The washing was fitted to pH: give the target as a pH.",
			);
		return target.value;
	}
	if (target.kind !== "conductivity")
		throw new RangeError(
			"The washing was fitted to conductivity: give the target as a conductivity.",
		);
	return target.in("µS/cm");
}
