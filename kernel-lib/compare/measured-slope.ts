import { grouped } from "../quantity";
import { bracketedRoot, mean, studentTQuantile } from "../stats";
import type { Carriable } from "./carriable";
import type { SlopeLimits } from "./settings";
import type { Slope } from "./slope";
import { slopeRange } from "./slope-range";

/** Doses per gram differ by design from this ratio on; what weighing and pipetting make of one dose stays far below. Our decision. */
export const apartByDesign = 1.5;
/** Fewest degrees of freedom that a measured slope may rest on. Our decision. */
const fewestDegrees = 2;

/** Flasks (or means of soaks) of one treatment whose doses differ, with the dose as the instrument: the logarithm of the dose less its mean in the group. */
interface Point {
	readonly members: readonly number[];
	readonly group: string;
	readonly instrument: number;
}

interface Solved {
	readonly slope: number;
	/** d(sum of instrument times carried uptake)/d(slope); negative. */
	readonly steepness: number;
	readonly points: readonly Point[];
	readonly degreesOfFreedom: number;
	readonly residualSumOfSquares: number;
	readonly withinSoaks: boolean;
}

function differByDesign(doses: readonly number[]): boolean {
	return Math.max(...doses) >= apartByDesign * Math.min(...doses);
}

/** Points whose differences tell the slope: flasks within soaks where a soak has several doses, so that what differs from soak to soak drops out; else soaks within the treatment; null where no doses differ by design. */
function pointsOf(
	{ list }: Carriable,
	own: readonly number[],
): {
	readonly points: readonly Point[];
	readonly withinSoaks: boolean;
} | null {
	const soak = (i: number): string => list[i].flask.flask.soak;
	const logOf = (i: number): number => Math.log(list[i].dose);
	const soaks = [...grouped(own, soak).values()];
	const within = soaks.some((members) =>
		differByDesign(members.map((i) => list[i].dose)),
	);
	const meanDoses = soaks.map((members) => Math.exp(mean(members.map(logOf))));
	if (!within && !differByDesign(meanDoses)) return null;
	const raw = within
		? own.map((i) => ({ members: [i], group: soak(i), log: logOf(i) }))
		: soaks.map((members) => ({
				members,
				group: "",
				log: mean(members.map(logOf)),
			}));
	const groups = [...grouped(raw, (p) => p.group).values()];
	const points = groups.flatMap((group) => {
		const middle = mean(group.map((p) => p.log));
		return group.map((p) => ({
			members: p.members,
			group: p.group,
			instrument: p.log - middle,
		}));
	});
	return { points, withinSoaks: within };
}

/** Solves: carried uptakes do not go with the dose. The scatter of residues at one dose has no say in it, for it is the dose, not the residue, that they are held against. */
function solve(
	carriable: Carriable,
	own: readonly number[],
	at: number,
): Solved | null {
	const { list } = carriable;
	const found = pointsOf(carriable, own);
	if (found === null) return null;
	const { points, withinSoaks } = found;
	const groups = new Set(points.map((p) => p.group)).size;
	const degreesOfFreedom = points.length - groups - 1;
	if (degreesOfFreedom < 1) return null;
	const far = (i: number): number => Math.log(at / list[i].residue);
	const carried = (i: number, s: number): number =>
		list[i].uptake * Math.exp(s * far(i));
	const total = (s: number): number =>
		points.reduce(
			(sum, p) =>
				sum + p.instrument * mean(p.members.map((i) => carried(i, s))),
			0,
		);
	const slope = rootOf(total);
	if (slope === null) return null;
	const steepness = points.reduce(
		(sum, p) =>
			sum +
			p.instrument * mean(p.members.map((i) => carried(i, slope) * far(i))),
		0,
	);
	if (!(steepness < 0)) return null;
	let residualSumOfSquares = 0;
	for (const group of grouped(points, (p) => p.group).values()) {
		const values = group.map((p) =>
			mean(p.members.map((i) => carried(i, slope))),
		);
		const middle = mean(values);
		for (const v of values) residualSumOfSquares += (v - middle) ** 2;
	}
	return {
		slope,
		steepness,
		points,
		degreesOfFreedom,
		residualSumOfSquares,
		withinSoaks,
	};
}

/** Curves that fall, or rise faster than a straight line by this much, are not looked for. */
const searched = { low: -3, high: 4 } as const;

/** The root of a falling function; null where it has none in the range. */
function rootOf(f: (s: number) => number): number | null {
	const { low, high } = searched;
	return f(low) > 0 && f(high) < 0 ? bracketedRoot(f, low, high, 1e-12) : null;
}

/**
 * The slope of each treatment: measured from doses that differ by design within it, all of them with the scatter of all treatments so dosed; else the range that belongs to the probe. A measured slope that is known no
 * better than the range is not used.
 *
 * @param at residue of the comparison, mg/L
 * @param unmeasured the range that is allowed for where a slope is not measured
 */
export function slopesOf(
	carriable: Carriable,
	at: number,
	confidence: number,
	unmeasured: SlopeLimits | "of the probe" = "of the probe",
): ReadonlyMap<string, Slope> {
	const { list } = carriable;
	const treatments = [...new Set(list.map((f) => f.treatment))];
	const flasksOf = (t: string): number[] =>
		list.flatMap((f, i) =>
			f.treatment === t && f.side === "value" ? [i] : [],
		);
	const solved = new Map(
		treatments.map((t) => [t, solve(carriable, flasksOf(t), at)]),
	);
	return new Map(
		treatments.map((t): [string, Slope] => {
			const range = slopeRange(list.filter((f) => f.treatment === t));
			const allowed: Slope =
				unmeasured === "of the probe" ? range : { is: "range", ...unmeasured };
			const own = solved.get(t) ?? null;
			if (own === null) return [t, allowed];
			const alike = [...solved.values()].filter(
				(s) => s !== null && s.withinSoaks === own.withinSoaks,
			) as Solved[];
			const degreesOfFreedom = alike.reduce(
				(sum, s) => sum + s.degreesOfFreedom,
				0,
			);
			const variance =
				alike.reduce((sum, s) => sum + s.residualSumOfSquares, 0) /
				degreesOfFreedom;
			const standardUncertainty =
				Math.sqrt(
					variance * own.points.reduce((sum, p) => sum + p.instrument ** 2, 0),
				) / -own.steepness;
			const reach =
				degreesOfFreedom < fewestDegrees
					? Number.POSITIVE_INFINITY
					: studentTQuantile((1 + confidence) / 2, degreesOfFreedom) *
						standardUncertainty;
			if (!(2 * reach < range.high - range.low)) return [t, allowed];
			const response = new Float64Array(list.length);
			for (const p of own.points)
				for (const i of p.members)
					response[i] = p.instrument / p.members.length / -own.steepness;
			return [
				t,
				{
					is: "measured",
					value: own.slope,
					standardUncertainty,
					degreesOfFreedom,
					response,
					withinSoaks: own.withinSoaks,
				},
			];
		}),
	);
}
