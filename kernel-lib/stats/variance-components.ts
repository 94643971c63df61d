import { dot } from "../linear";
import { chiSquareQuantile } from "./chi-square";
import { fQuantile } from "./f-distribution";

/** A random source of scatter: the group that each observation belongs to. */
export interface RandomLevel {
	readonly name: string;
	readonly groups: readonly string[];
}

/** Variance between the groups of one level, in the square of the unit of the observations. */
export type VarianceComponent = { readonly name: string } & (
	| {
			/** "none seen" where the estimate is not above 0: only the upper limit says anything. */
			readonly is: "seen" | "none seen";
			/** Unbiased, so that it may be negative. */
			readonly estimate: number;
			readonly low: number;
			readonly high: number;
			/** Of the mean square of the level. */
			readonly degreesOfFreedom: number;
	  }
	| {
			readonly is: "not known";
			/** "nothing repeated": the level adds nothing to those before it. "confounded": it cannot be told from a level after it. "agree exactly": there is no scatter at all. "contradiction": levels after it scatter more than chance allows. */
			readonly why:
				| "nothing repeated"
				| "confounded"
				| "agree exactly"
				| "contradiction";
	  }
);

/** A sum of squares below this share of that of the observations themselves is rounding. */
const roundingOfSquares = 1e-24;

/** Mean square of a level, beyond the levels before it, and what it is expected to be. */
interface MeanSquare {
	readonly value: number;
	readonly degreesOfFreedom: number;
	/** Of the variance of each level. */
	readonly expected: readonly number[];
}

/** A variance as a combination of mean squares; null where it is none. */
type Combination = readonly number[] | null;

/** What is left of a column beside those before it, below this share of it, is rounding. */
const rounding = 1e-9;

/**
 * Variance components of a linear model with fixed groups and random levels, nested or crossed, of any sizes: Henderson's method of fitting constants (1953, his method 3), each level fitted after those before it and its mean
 * square set equal to its expectation. Limits by Ting, Burdick, Graybill, Jeyaratnam and Lu (1990), whose formulas are from memory: exact for a single mean square, near enough for differences of them.
 *
 * @param values the observations
 * @param fixed the fixed group of each observation
 * @param levels from the outermost to the innermost; the last has a group for each observation
 * @param covariates what else the observations follow with coefficients that are fixed and not known, a number for each observation
 */
export function varianceComponents(
	values: readonly number[],
	fixed: readonly string[],
	levels: readonly RandomLevel[],
	confidence: number,
	covariates: readonly Float64Array[] = [],
): VarianceComponent[] {
	const squares = meanSquares(
		values,
		withColumns(spaceOf(fixed), covariates),
		levels,
	);
	const combinations: Combination[] = levels.map(() => null);
	for (let k = levels.length - 1; k >= 0; k--)
		combinations[k] = combinationOf(k, squares, combinations);
	return levels.map(({ name }, k): VarianceComponent => {
		const combination = combinations[k];
		const own = squares[k].degreesOfFreedom;
		if (combination === null)
			return {
				name,
				is: "not known",
				why: own === 0 ? "nothing repeated" : "confounded",
			};
		const found = limitsOf(combination, squares, confidence);
		if (!(found.high > 0))
			return {
				name,
				is: "not known",
				why: found.estimate === 0 ? "agree exactly" : "contradiction",
			};
		return {
			name,
			is: found.estimate > 0 ? "seen" : "none seen",
			...found,
			degreesOfFreedom: own,
		};
	});
}

/**
 * What some levels span: the indicators of disjoint groups, and directions of length 1 at right angles to them and to each other. Levels that lie within one another, as flasks within soaks, then cost no more than
 * adding up their groups, however many there are.
 */
interface Space {
	/** The group of each observation, counted from 0. */
	readonly groups: Int32Array;
	readonly sizes: Float64Array;
	readonly directions: readonly Float64Array[];
}

/** The groups as a space of their own. */
function spaceOf(names: readonly string[]): Space {
	const places = new Map<string, number>();
	const groups = Int32Array.from(names, (name) => {
		const place = places.get(name) ?? places.size;
		places.set(name, place);
		return place;
	});
	const sizes = new Float64Array(places.size);
	for (const g of groups) sizes[g] += 1;
	return { groups, sizes, directions: [] };
}

const dimension = ({ sizes, directions }: Space): number =>
	sizes.length + directions.length;

function totals({ groups, sizes }: Space, vector: Float64Array): Float64Array {
	const sums = new Float64Array(sizes.length);
	for (let i = 0; i < groups.length; i++) sums[groups[i]] += vector[i];
	return sums;
}

/** Takes a space off a vector, twice, so that rounding does not bring it back. */
function without(vector: Float64Array, space: Space): Float64Array {
	const { groups, sizes, directions } = space;
	const left = vector.slice();
	for (let pass = 0; pass < 2; pass++) {
		const sums = totals(space, left);
		for (let i = 0; i < left.length; i++)
			left[i] -= sums[groups[i]] / sizes[groups[i]];
		for (const b of directions) {
			const along = dot(b, left);
			for (let i = 0; i < left.length; i++) left[i] -= along * b[i];
		}
	}
	return left;
}

/** A space with further columns in it. */
function withColumns(space: Space, columns: readonly Float64Array[]): Space {
	const directions = [...space.directions];
	for (const column of columns) {
		const left = without(column, { ...space, directions });
		const size = dot(left, left);
		if (size > rounding * dot(column, column))
			directions.push(left.map((x) => x / Math.sqrt(size)));
	}
	return { ...space, directions };
}

function indicators({ groups, sizes }: Space): Float64Array[] {
	return Array.from(sizes, (_, g) =>
		Float64Array.from(groups, (own) => (own === g ? 1 : 0)),
	);
}

/** True where each group lies within one group of the other space. */
function liesWithin(inner: Space, outer: Space): boolean {
	const around = new Int32Array(inner.sizes.length).fill(-1);
	return inner.groups.every((g, i) => {
		if (around[g] === -1) around[g] = outer.groups[i];
		return around[g] === outer.groups[i];
	});
}

/** What two spaces span together; of two sets of groups the larger stays one, and the other becomes directions unless the larger lies within it. */
function together(a: Space, b: Space): Space {
	const [large, small] = a.sizes.length > b.sizes.length ? [a, b] : [b, a];
	const crossed = liesWithin(large, small) ? [] : indicators(small);
	return withColumns({ ...large, directions: [] }, [
		...crossed,
		...a.directions,
		...b.directions,
	]);
}

/** Square of the length of what a space holds of a vector. */
function squaresIn(space: Space, vector: Float64Array): number {
	const sums = totals(space, vector);
	return space.directions.reduce(
		(sum, b) => sum + dot(b, vector) ** 2,
		sums.reduce((sum, t, g) => sum + (t * t) / space.sizes[g], 0),
	);
}

/** Trace of Z' P Z, P the projection on a space: the part of a level's variance in its sum of squares. */
function shareOf(space: Space, level: Space): number {
	const { groups, sizes, directions } = space;
	const shared = new Map<number, number>();
	for (let i = 0; i < groups.length; i++) {
		const pair = groups[i] * level.sizes.length + level.groups[i];
		shared.set(pair, (shared.get(pair) ?? 0) + 1);
	}
	let share = 0;
	for (const [pair, n] of shared)
		share += (n * n) / sizes[Math.floor(pair / level.sizes.length)];
	return directions.reduce(
		(sum, b) => sum + totals(level, b).reduce((s, t) => s + t * t, 0),
		share,
	);
}

function meanSquares(
	values: readonly number[],
	fixed: Space,
	levels: readonly RandomLevel[],
): MeanSquare[] {
	const least = roundingOfSquares * values.reduce((sum, v) => sum + v * v, 0);
	const spaces = levels.map((level) => spaceOf(level.groups));
	let before = fixed;
	// What went before is taken off first, which keeps the digits of small differences.
	let left = without(Float64Array.from(values), before);
	return spaces.map((own) => {
		const after = together(before, own);
		const count = dimension(after) - dimension(before);
		const squares = squaresIn(after, left);
		const expected = spaces.map((other) =>
			count === 0
				? 0
				: (shareOf(after, other) - shareOf(before, other)) / count,
		);
		left = without(left, after);
		before = after;
		return {
			value: count > 0 && squares > least ? squares / count : 0,
			degreesOfFreedom: count,
			expected,
		};
	});
}

/** The combination of mean squares that is expected to be the variance of a level, from those of the levels within it. */
function combinationOf(
	k: number,
	squares: readonly MeanSquare[],
	within: readonly Combination[],
): Combination {
	const { degreesOfFreedom, expected } = squares[k];
	if (degreesOfFreedom === 0) return null;
	const combination = squares.map((_, j) => (j === k ? 1 : 0));
	for (let j = k + 1; j < squares.length; j++) {
		if (expected[j] < rounding) continue;
		const inner = within[j];
		if (inner === null) return null;
		inner.forEach((c, i) => {
			combination[i] -= expected[j] * c;
		});
	}
	return combination.map((c) => c / expected[k]);
}

/** How far the lower and the upper limit of an expected mean square lie from it, as a share of it. */
function reaches(df: number, tail: number): { low: number; high: number } {
	return {
		low: 1 - df / chiSquareQuantile(1 - tail, df),
		high: df / chiSquareQuantile(tail, df) - 1,
	};
}

/** Estimate and limits of a combination of independent mean squares (modified large samples). */
function limitsOf(
	combination: readonly number[],
	squares: readonly MeanSquare[],
	confidence: number,
): {
	readonly estimate: number;
	readonly low: number;
	readonly high: number;
} {
	const tail = (1 - confidence) / 2;
	const parts = squares.flatMap(({ value, degreesOfFreedom: df }, k) =>
		combination[k] === 0
			? []
			: [{ df, size: combination[k] * value, ...reaches(df, tail) }],
	);
	const plus = parts.filter((p) => p.size > 0);
	const minus = parts.filter((p) => p.size < 0);
	let below = 0;
	let above = 0;
	for (const p of plus) {
		below += (p.low * p.size) ** 2;
		above += (p.high * p.size) ** 2;
		for (const m of minus) {
			const upper = fQuantile(1 - tail, p.df, m.df);
			const lower = fQuantile(tail, p.df, m.df);
			const product = p.size * -m.size;
			below +=
				(((upper - 1) ** 2 - (p.low * upper) ** 2 - m.high ** 2) / upper) *
				product;
			above +=
				(((1 - lower) ** 2 - (p.high * lower) ** 2 - m.low ** 2) / lower) *
				product;
		}
	}
	for (const m of minus) {
		below += (m.high * m.size) ** 2;
		above += (m.low * m.size) ** 2;
	}
	const estimate = parts.reduce((s, p) => s + p.size, 0);
	return {
		estimate,
		low: Math.max(0, estimate - Math.sqrt(Math.max(0, below))),
		high: estimate + Math.sqrt(Math.max(0, above)),
	};
}
