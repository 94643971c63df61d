import { type Fit, type Interval, type Limit, profileIntervals } from "../fit";
import type { MaybeKnown } from "../quantity";
import type { MovedFit } from "./moved-points";
import type { RawFit } from "./raw-fit";

/** Steps in which an end is approached where the curve bends on the way. */
const stepsOnTheWay = 3;
/** Cosine of the angle between the directions at the start and at the end of the way above which the way counts as straight. */
const straight = 0.95;

/** Share of the way below which what is left to the scatter is gone straight: it then adds next to nothing, and a profile would look for it among the last digits. */
const littleLeft = 0.1;

/** What is known of a parameter before its ends are sought. */
export interface EndsWanted {
	/** What one standard uncertainty of each shared error does to the parameter. */
	readonly effects: readonly number[];
	/** Standard error from the scatter alone. */
	readonly scatter: number;
	/** How many standard errors of both together an end would be away on a straight curve. */
	readonly quantile: number;
	readonly confidence: number;
}

/** A place in the space of errors: shared ones in standard uncertainties, and the way that is left to the scatter in its standard errors. */
interface Place {
	readonly shared: readonly number[];
	readonly scatter: number;
}

const open: Limit = {
	kind: "open",
	reason:
		"with the points moved by the shared errors in this direction the fit settles nowhere: the data set no end on this side",
};

/**
 * Profile interval of one combined parameter, shared errors included. Each end is the farthest that the errors can carry the parameter when they are `quantile` standard uncertainties from nothing, all
 * together: the points are moved by the shared errors in the direction that tells most on the parameter, fitted again, and profiled over the way that is left to the scatter. Where the direction turns on
 * the way it is followed in steps. On a straight curve an end is the quantile times the standard error of both together; on a bent one it lies where the curve has it, open where there is none.
 */
export function profileWithShared(
	raw: RawFit,
	parameter: number,
	wanted: EndsWanted,
): MaybeKnown<Interval> {
	const { effects, confidence } = wanted;
	const noShared = effects.every((e) => e === 0);
	const settled = raw.combined.converged.holds;
	const { name } = raw.combined.parameters[parameter];
	const from = (sign: 1 | -1): MaybeKnown<Interval> | "nowhere" => {
		const { fit, left } = noShared
			? { fit: raw.refit(effects, wanted.quantile).fit, left: wanted.quantile }
			: farthest(raw, parameter, wanted, sign);
		if (settled && !noShared && !fit.converged.holds) return "nowhere";
		const { value, standardError } = fit.parameters[parameter];
		return left < littleLeft * wanted.quantile && standardError.is === "value"
			? point(
					Math.min(
						fit.task.upper[parameter],
						Math.max(
							fit.task.lower[parameter],
							value + sign * standardError.value,
						),
					),
				)
			: profileIntervals(fit, { parameters: [name] })[0].interval;
	};
	const up = from(1);
	const down = noShared ? up : from(-1);
	if (down !== "nowhere" && down.is === "not known") return down;
	if (up !== "nowhere" && up.is === "not known") return up;
	return {
		is: "value",
		value: {
			low: down === "nowhere" ? open : down.value.low,
			high: up === "nowhere" ? open : up.value.high,
			confidence,
			method: noShared
				? "profile likelihood"
				: "profile likelihood from points moved by the shared errors",
		},
	};
}

function point(value: number): MaybeKnown<Interval> {
	const end: Limit = { kind: "closed", value };
	return {
		is: "value",
		value: { low: end, high: end, confidence: 0, method: "" },
	};
}

/** A fit at an end's place, and the way that is left to the scatter from there. */
interface EndFit {
	readonly fit: Fit;
	readonly left: number;
}

/** The fit at the place, `quantile` from nothing, that carries the parameter farthest up (or down). */
function farthest(
	raw: RawFit,
	parameter: number,
	{ effects, scatter, quantile }: EndsWanted,
	sign: 1 | -1,
): EndFit {
	const at = (place: Place): MovedFit => raw.refit(place.shared, reach(place));
	const onward = (place: Place, from: MovedFit): Place | "none" => {
		const error = from.fit.parameters[parameter].standardError;
		return from.fit.converged.holds && error.is === "value"
			? direction(
					from.shifts().map((s) => s.effect[parameter]),
					error.value / reach(place),
					sign,
				)
			: "none";
	};
	const first = direction(effects, scatter, sign);
	const far = atLength(first, quantile);
	const end = at(far);
	const there = onward(far, end);
	const straightOn: EndFit = { fit: end.fit, left: reach(far) };
	if (there === "none" || cosine(first, there) > straight) return straightOn;
	let place = atLength(first, quantile / stepsOnTheWay);
	for (let step = 2; step <= stepsOnTheWay; step++) {
		const here = onward(place, at(place));
		if (here === "none") return straightOn;
		place = atLength(
			sum(place, atLength(here, quantile / stepsOnTheWay)),
			(step * quantile) / stepsOnTheWay,
		);
	}
	return { fit: at(place).fit, left: reach(place) };
}

/** The way that is left to the scatter; where it is nothing, next to nothing. */
function reach({ scatter }: Place): number {
	return Math.max(scatter, 1e-3);
}

/** Unit vector along which the parameter grows (or falls) fastest. The scatter's share is a distance and has no sign. */
function direction(
	effects: readonly number[],
	scatter: number,
	sign: 1 | -1,
): Place {
	return atLength({ shared: effects.map((e) => sign * e), scatter }, 1);
}

function length({ shared, scatter }: Place): number {
	return Math.hypot(scatter, ...shared);
}

function atLength(place: Place, wanted: number): Place {
	const factor = wanted / (length(place) || 1);
	return {
		shared: place.shared.map((s) => s * factor),
		scatter: place.scatter * factor,
	};
}

function sum(a: Place, b: Place): Place {
	return {
		shared: a.shared.map((s, k) => s + b.shared[k]),
		scatter: a.scatter + b.scatter,
	};
}

function cosine(a: Place, b: Place): number {
	return a.shared.reduce(
		(total, s, k) => total + s * b.shared[k],
		a.scatter * b.scatter,
	);
}
