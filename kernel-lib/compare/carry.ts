import type { Carriable } from "./carriable";
import { flaskErrorsOf } from "./flask-errors";
import type { Observation, Observations, SlopeEffect } from "./observations";
import { middleOf, type Slope } from "./slope";

/** Slopes that flasks of a treatment are carried along, out of what is known of them: up to a residue that is near what they left, and beyond it. */
export interface Taken {
	readonly slope: Slope;
	readonly near: number;
	readonly beyond: number;
}

/** The slope in the middle of what is allowed for, all the way. */
export function atMiddle(
	slopes: ReadonlyMap<string, Slope>,
): ReadonlyMap<string, Taken> {
	return new Map(
		[...slopes].map(([t, slope]) => {
			const value = middleOf(slope);
			return [t, { slope, near: value, beyond: value }];
		}),
	);
}

/** A bound holds at any residue on its own side of the flask's; on the other side it is carried along the steepest slope that is allowed for, which says least. */
function boundFactor(
	side: "at least" | "at most",
	ratio: number,
	slope: Slope,
): number {
	// Nothing left, or less: what cannot be is told elsewhere, and there is no ratio to carry along.
	if (!Number.isFinite(ratio)) return 1;
	const holds = side === "at least" ? ratio >= 1 : ratio <= 1;
	const steepest =
		slope.is === "range"
			? slope.high
			: Math.max(0, slope.value + 2 * slope.standardUncertainty);
	return holds ? 1 : ratio ** steepest;
}

/**
 * Each flask's uptake q at its residue C, carried to the residue C* of the comparison: q (C* / C)^s, with the error that its titre puts into q and C together. A bound stays where it is, or is carried so that it says
 * less.
 *
 * @param at C*, mg/L
 * @param edge up to here the slopes for near residues hold, mg/L
 */
export function carriedTo(
	{ list, errors }: Carriable,
	at: number,
	taken: ReadonlyMap<string, Taken>,
	edge = at,
): Observations {
	const beyondEdge = Math.log(at / edge);
	const count = list.length;
	const factor = new Float64Array(count);
	/** d(carried)/d(residue), (mg/g)/(mg/L). */
	const byResidue = new Float64Array(count);
	/** d(carried)/d(slope), mg/g. */
	const bySlope = new Float64Array(count);
	list.forEach(({ uptake, residue, side, treatment }, i) => {
		const { slope, near, beyond } = taken.get(treatment) as Taken;
		const ratio = residue > 0 ? at / residue : Number.POSITIVE_INFINITY;
		if (side !== "value") {
			factor[i] = boundFactor(side, ratio, slope);
			return;
		}
		factor[i] = Math.exp(near * Math.log(edge / residue) + beyond * beyondEdge);
		byResidue[i] = (-near * uptake * factor[i]) / residue;
		bySlope[i] = uptake * factor[i] * Math.log(ratio);
	});
	const measured = [...taken].flatMap(([treatment, { slope }]) =>
		slope.is === "measured" ? [{ treatment, slope }] : [],
	);
	const along = flaskErrorsOf(errors, factor, byResidue);
	for (const { effect } of along.shared) {
		// What an error does to the slope that was measured with it, it does to all that is carried along that slope.
		const moved = measured.map(({ slope }) =>
			slope.response.reduce((sum, r, i) => sum + r * effect[i], 0),
		);
		measured.forEach(({ treatment }, k) => {
			list.forEach((f, i) => {
				if (f.treatment === treatment) effect[i] += bySlope[i] * moved[k];
			});
		});
	}
	const slopes = measured.map(
		({ treatment, slope }): SlopeEffect => ({
			treatment,
			effect: Float64Array.from(bySlope, (d, i) =>
				list[i].treatment === treatment ? d * slope.standardUncertainty : 0,
			),
			degreesOfFreedom: slope.degreesOfFreedom,
		}),
	);
	return {
		list: list.map(
			(f, i): Observation => ({
				flask: f.flask,
				name: f.flask.flask.name,
				treatment: f.treatment,
				value: f.uptake * factor[i],
				side: f.side,
			}),
		),
		errors: along,
		slopes,
		along: { at, edge, taken },
	};
}
