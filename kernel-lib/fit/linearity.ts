import type { Layout } from "./workspace";

/** Which parameters a curve is linear in, as found by trying. */
export interface Structure extends Layout {
	/** Nonlinear parameters that act on the same terms, in groups; two groups of one size may be exchangeable. */
	readonly groups: readonly (readonly number[])[];
}

/** The curve at full-length theta. */
export type Curve = (theta: Float64Array, out: Float64Array) => void;

/** Multipliers of the free parameters at the points where the curve is tried: the start first, then scattered around it. */
const triedFactors: readonly (readonly number[])[] = [
	[1],
	[1.37, 0.61, 1.83],
	[0.43, 2.9, 0.71, 1.21],
	[3.7, 0.29, 1.07, 0.83, 2.3],
	[0.17, 1.6, 4.9, 0.9],
];

/** Departure from linearity, relative to the curve, that counts as rounding. */
const rounding = 1e-9;

/** Numbers smaller than this have lost digits. */
const underflow = 1e-300;

/**
 * Finds the largest set of free parameters in which the curve is linear (jointly: with the others held, the curve is a
 * plane in them), and how they enter, by differences at several points around the start. A curve that only looks linear
 * there is caught later: a fit checks that its sum of squares is what linearity promised.
 *
 * `theta` holds the start values, fixed parameters at theirs; `free` the indices of the free ones. `positions` are places
 * on the x axis: a peak whose start lies off the data shows what its height does only when it is moved among them.
 */
export function findStructure(
	curve: Curve,
	points: number,
	theta: Float64Array,
	free: readonly number[],
	positions: readonly number[],
): Structure {
	const value = (at: Float64Array): Float64Array => {
		const out = new Float64Array(points);
		curve(at, out);
		return out;
	};
	const bases = triedFactors.map((factors) => {
		const base = theta.slice();
		free.forEach((j, k) => {
			if (factors.length > 1)
				base[j] = (base[j] || 1) * factors[k % factors.length];
		});
		return base;
	});
	for (const first of [0.25, 0.6]) {
		const base = theta.slice();
		free.forEach((j, k) => {
			const place = (first + 0.15 * k) % 1;
			base[j] = positions[Math.floor(place * positions.length)];
		});
		bases.push(base);
	}
	const { acts, bends } = findBends(value, bases, free);
	const straight = free.map((_, i) => acts[i] && !bends[i][i]);
	const linear = largestFlatSet(bends, straight);
	const nonlinear = free.map((_, i) => i).filter((i) => !linear.includes(i));
	const owners = nonlinear.map((i) => linear.filter((j) => bends[i][j]));
	const form =
		linear.length === 0
			? "none"
			: !vanishesWithout(
						linear.map((i) => free[i]),
						bases,
						value,
					)
				? "offset"
				: owners.every((o) => o.length === 1)
					? "owned"
					: "sum";
	return {
		linear: linear.map((i) => free[i]),
		nonlinear: nonlinear.map((i) => free[i]),
		form,
		owners: form === "owned" ? owners.map((o) => linear.indexOf(o[0])) : [],
		groups: groupsOf(nonlinear, owners).map((g) => g.map((i) => free[i])),
	};
}

/** The structure of a curve that is linear in none of its free parameters. */
export function structureOfNone(free: readonly number[]): Structure {
	return {
		linear: [],
		nonlinear: free,
		form: "none",
		owners: [],
		groups: free.map((j) => [j]),
	};
}

/** The structure in which nothing is projected out: every free parameter is stepped on. */
export function plainStructure(structure: Structure): Structure {
	return {
		...structure,
		linear: [],
		nonlinear: [...structure.linear, ...structure.nonlinear].sort(
			(a, b) => a - b,
		),
		form: "none",
		owners: [],
	};
}

/** The structure that is left when one more parameter is held fixed. */
export function structureWithout(
	structure: Structure,
	fixed: number,
): Structure {
	const { linear, nonlinear, owners, form } = structure;
	const groups = structure.groups.map((g) => g.filter((j) => j !== fixed));
	if (linear.includes(fixed)) {
		const rest = linear.filter((j) => j !== fixed);
		return {
			linear: rest,
			nonlinear,
			form: rest.length === 0 ? "none" : "offset",
			owners: [],
			groups,
		};
	}
	const kept = nonlinear.map((j) => j !== fixed);
	return {
		linear,
		nonlinear: nonlinear.filter((_, i) => kept[i]),
		form,
		owners: owners.filter((_, i) => kept[i]),
		groups,
	};
}

/** Tries every free parameter and every pair: does the parameter act, does the curve bend along it, do the two act on each other? */
function findBends(
	value: (at: Float64Array) => Float64Array,
	bases: readonly Float64Array[],
	free: readonly number[],
): { acts: boolean[]; bends: boolean[][] } {
	const acts = free.map(() => false);
	const bends = free.map(() => free.map(() => false));
	for (const base of bases) {
		const here = value(base);
		if (!here.every(Number.isFinite)) continue;
		const move = (at: Float64Array, i: number, times: number): Float64Array => {
			const moved = at.slice();
			moved[free[i]] += times * 0.37 * (base[free[i]] || 1);
			return moved;
		};
		const moved = free.map((_, i) => value(move(base, i, 1)));
		for (let i = 0; i < free.length; i++) {
			if (someChange(here, moved[i])) acts[i] = true;
			const far = value(move(base, i, 3));
			if (!allSmall((k) => far[k] - 3 * moved[i][k] + 2 * here[k], far, here))
				bends[i][i] = true;
			for (let j = 0; j < i; j++) {
				const both = value(move(move(base, i, 1), j, 1));
				const twist = (k: number): number =>
					both[k] - moved[i][k] - moved[j][k] + here[k];
				if (!allSmall(twist, both, here)) bends[i][j] = bends[j][i] = true;
			}
		}
	}
	return { acts, bends };
}

/** Whether the difference is rounding at every point, measured by the two values there. */
function allSmall(
	difference: (k: number) => number,
	a: Float64Array,
	b: Float64Array,
): boolean {
	return a.every(
		(v, k) =>
			Math.abs(difference(k)) <=
			rounding * (Math.abs(v) + Math.abs(b[k])) + underflow,
	);
}

function someChange(a: Float64Array, b: Float64Array): boolean {
	return a.some((v, k) => Math.abs(v - b[k]) > 1e-6 * Math.abs(v));
}

/** Largest set of candidates with no bend among them; the earliest of equals. */
function largestFlatSet(
	bends: readonly (readonly boolean[])[],
	candidate: readonly boolean[],
): number[] {
	const indices = candidate.flatMap((c, i) => (c ? [i] : []));
	let best: number[] = [];
	const grow = (chosen: number[], next: number): void => {
		if (chosen.length > best.length) best = chosen;
		if (chosen.length + indices.length - next <= best.length) return;
		for (let k = next; k < indices.length; k++)
			if (chosen.every((i) => !bends[i][indices[k]]))
				grow([...chosen, indices[k]], k + 1);
	};
	grow([], 0);
	return best;
}

/** Whether the curve is zero when the linear parameters are. */
function vanishesWithout(
	linear: readonly number[],
	bases: readonly Float64Array[],
	value: (at: Float64Array) => Float64Array,
): boolean {
	let tried = false;
	for (const base of bases) {
		const without = base.slice();
		for (const j of linear) without[j] = 0;
		const whole = value(base);
		const rest = value(without);
		if (!whole.every(Number.isFinite) || !rest.every(Number.isFinite)) continue;
		if (rest.some((v, k) => Math.abs(v) > 1e-14 * Math.abs(whole[k])))
			return false;
		tried = true;
	}
	return tried;
}

/** Nonlinear parameters that act on a common linear one belong together. */
function groupsOf(
	nonlinear: readonly number[],
	owners: readonly (readonly number[])[],
): number[][] {
	let groups: { members: number[]; owners: readonly number[] }[] = [];
	nonlinear.forEach((i, position) => {
		const mine = owners[position];
		const touching = groups.filter((g) =>
			g.owners.some((o) => mine.includes(o)),
		);
		groups = [
			...groups.filter((g) => !touching.includes(g)),
			{
				members: [...touching.flatMap((g) => g.members), i].sort(
					(a, b) => a - b,
				),
				owners: [...touching.flatMap((g) => g.owners), ...mine],
			},
		];
	});
	return groups.map((g) => g.members).sort((a, b) => a[0] - b[0]);
}
