import { derivativesAt } from "../isotherms";
import { dot } from "../linear";
import type { CurveEstimate } from "./curve-estimate";
import { type CurveRow, curveRows } from "./curve-rows";
import { fewReadingsFactor } from "./few-readings";

/**
 * The days of a comparison that others can be told from: those that hang together by treatments that stood on several of them. Over the flasks of such days the factors are 1 on average, so that the last
 * day's follows from the others: there is one number for each day but the last, its factor less 1. A day that no treatment shares with another has no factor.
 */
export interface Days {
	readonly names: readonly string[];
	/** How many numbers there are. */
	readonly count: number;
	readonly ofFlask: (flask: string) => string;
	/** What the numbers, each taken so many times, make of the factor of a day. */
	readonly shares: (day: string) => Float64Array;
}

/** What one curve has to do with the days: to first order, for factors that differ from 1 by one number for each day but the last. */
export interface CurveOnDays {
	readonly estimate: CurveEstimate;
	/** d(uptake at the residue)/d(numbers), mg/g. */
	readonly followed: Float64Array;
	/** What its flasks know of the numbers beside the curve: the matrix of information, and the residuals' part of its equations. */
	readonly information: readonly Float64Array[];
	readonly towards: Float64Array;
	/** The same part where the flasks are moved by one standard uncertainty of a shared error. */
	readonly towardsOf: (key: string) => Float64Array;
}

export function daysOf(
	treatments: ReadonlyMap<string, readonly CurveEstimate[]>,
): Days {
	const flasks = [...treatments].flatMap(([treatment, curves]) =>
		curves
			.flatMap((c) => c.fits)
			.flatMap((f) => f.points.flasks)
			.map(({ flask: { name, day } }) => ({ treatment, name, day })),
	);
	const sets = hangingTogether(flasks).filter((days) => days.length > 1);
	const count = sets.reduce((sum, days) => sum + days.length - 1, 0);
	const flasksOn = (day: string): number =>
		flasks.filter((f) => f.day === day).length;
	const shares = new Map<string, Float64Array>();
	let first = 0;
	for (const days of sets) {
		const others = days.slice(0, -1);
		const last = new Float64Array(count);
		others.forEach((day, j) => {
			const own = new Float64Array(count);
			own[first + j] = 1;
			shares.set(day, own);
			last[first + j] = -flasksOn(day) / flasksOn(days[others.length]);
		});
		shares.set(days[others.length], last);
		first += others.length;
	}
	const dayOf = new Map(flasks.map((f) => [f.name, f.day]));
	const none = new Float64Array(count);
	return {
		names: [...shares.keys()].sort(),
		count,
		ofFlask: (flask) => dayOf.get(flask) ?? "",
		shares: (day) => shares.get(day) ?? none,
	};
}

/** Days in sets: two of one set are joined by treatments that stood on both, or on both and others between them. */
function hangingTogether(
	flasks: readonly { readonly treatment: string; readonly day: string }[],
): string[][] {
	let sets: Set<string>[] = [];
	for (const treatment of new Set(flasks.map((f) => f.treatment))) {
		const own = flasks
			.filter((f) => f.treatment === treatment)
			.map((f) => f.day);
		const touched = sets.filter((set) => own.some((day) => set.has(day)));
		sets = [
			...sets.filter((set) => !touched.includes(set)),
			new Set([...own, ...touched.flatMap((set) => [...set])]),
		];
	}
	return sets.map((set) => [...set].sort());
}

/** A scatter below this share of the uptake is rounding. */
const rounding = 1e-6;

/** @param residue of the comparison, mg/L */
export function curveOnDays(
	estimate: CurveEstimate,
	residue: number,
	days: Days,
): CurveOnDays {
	const [fit] = estimate.fits;
	const { rows, solved } = curveRows(fit);
	const pull = derivativesAt(fit.isotherm, fit.theta, residue);
	const perPoint =
		Math.max(estimate.scatterVariance, (rounding * estimate.uptake) ** 2) /
		dot(pull, solved(pull));
	// Points exactly on their curve tell nothing of days.
	const variance = perPoint > 0 ? perPoint : Number.POSITIVE_INFINITY;
	const size = days.count;
	const numbers = Array.from({ length: size }, (_, j) => j);
	const columns = numbers.map((j) =>
		Float64Array.from(
			rows,
			(r) => r.perUptake * r.uptake * days.shares(days.ofFlask(r.flask))[j],
		),
	);
	const along = columns.map((c) => alongCurve(rows, c));
	const solvedColumns = along.map(solved);
	/** Of a change of all residuals, what the curve leaves of it. */
	const towards = (change: Float64Array): Float64Array => {
		const followed = alongCurve(rows, change);
		return Float64Array.from(
			numbers,
			(j) =>
				(dot(columns[j], change) - dot(solvedColumns[j], followed)) / variance,
		);
	};
	return {
		estimate,
		followed: Float64Array.from(solvedColumns, (c) => dot(c, pull)),
		information: columns.map(towards),
		// The residuals are what the curve could not follow already; where flasks ran dry these hold it as well.
		towards: Float64Array.from(
			columns,
			(c) =>
				dot(
					c,
					rows.map((r) => r.residual),
				) / variance,
		),
		towardsOf: (key) => {
			const shared = fit.points.shared.find((s) => s.key === key);
			if (shared === undefined) return new Float64Array(size);
			const factor = fewReadingsFactor(shared.degreesOfFreedom);
			return towards(
				Float64Array.from(
					rows,
					(r) =>
						factor *
						(r.perConcentration * shared.concentration[r.point] +
							r.perUptake * shared.uptake[r.point]),
				),
			);
		},
	};
}

/** J' v. */
function alongCurve(
	rows: readonly CurveRow[],
	change: Float64Array,
): Float64Array {
	const sum = new Float64Array(rows[0]?.gradient.length ?? 0);
	rows.forEach(({ gradient }, i) => {
		for (let j = 0; j < sum.length; j++) sum[j] += gradient[j] * change[i];
	});
	return sum;
}
