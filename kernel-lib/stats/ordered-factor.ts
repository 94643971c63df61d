import { refuse } from "./checks";
import type { CorrelationMatrix } from "./correlation";
import { normalCdf, normalDensity } from "./normal";

/**
 * Lower triangular factor of the reordered matrix. Constraint number c, from firstConstraint[column] to
 * firstConstraint[column + 1] - 1, is that of a coordinate, member[c], whose last nonzero entry is in that column; its
 * row of the factor is entry[c * rank], entry[c * rank + 1], ... A singular matrix has columns with several constraints.
 */
export interface OrderedFactor {
	readonly rank: number;
	/** Coordinates in the order taken, without those that are combinations of others. */
	readonly order: readonly number[];
	readonly firstConstraint: Int32Array;
	readonly member: Int32Array;
	readonly entry: Float64Array;
}

/** What is left of a variance of 1 below this is rounding: the coordinate is a combination of earlier ones. */
const SINGULAR = 1e-12;

/**
 * Cholesky factor, taking next the coordinate that is least likely to lie within its limits given the expected values
 * of those before it (Genz and Bretz 2002, section 4.1.3): that leaves the least variation to the later variables.
 */
export function orderedFactor(
	correlation: CorrelationMatrix,
	lower: ArrayLike<number>,
	upper: ArrayLike<number>,
): OrderedFactor {
	const size = correlation.length;
	const factor = Array.from({ length: size }, () => new Float64Array(size));
	const remaining = new Set(correlation.keys());
	const expected = new Float64Array(size);
	const rows: number[][] = [];
	for (let column = 0; column < size; column++) {
		let next = -1;
		let least = Number.POSITIVE_INFINITY;
		for (const member of remaining) {
			const { own, from, to } = conditional(
				correlation,
				factor[member],
				column,
				expected,
				lower[member],
				upper[member],
			);
			if (own * own < SINGULAR) continue;
			const chance = normalCdf(to) - normalCdf(from);
			if (chance < least) {
				least = chance;
				next = member;
			}
		}
		if (next < 0) break;
		remaining.delete(next);
		const chosen = factor[next];
		const { own, from, to } = conditional(
			correlation,
			chosen,
			column,
			expected,
			lower[next],
			upper[next],
		);
		chosen[column] = own;
		for (const member of remaining) {
			let sum = correlation[member][next];
			for (let before = 0; before < column; before++)
				sum -= factor[member][before] * chosen[before];
			factor[member][column] = sum / own;
		}
		expected[column] =
			least > 1e-10
				? (normalDensity(from) - normalDensity(to)) / least
				: Math.max(from, Math.min(to, 0));
		rows.push([next]);
	}
	const order = rows.map(([first]) => first);
	for (const member of remaining) {
		let last = rows.length - 1;
		while (last > 0 && Math.abs(factor[member][last]) < 1e-7) last -= 1;
		rows[last].push(member);
	}
	return flattened(factor, rows, order);
}

function flattened(
	factor: readonly Float64Array[],
	rows: readonly (readonly number[])[],
	order: readonly number[],
): OrderedFactor {
	const rank = rows.length;
	const member = Int32Array.from(rows.flat());
	const entry = new Float64Array(member.length * rank);
	member.forEach((coordinate, constraint) => {
		entry.set(factor[coordinate].subarray(0, rank), constraint * rank);
	});
	const firstConstraint = new Int32Array(rank + 1);
	rows.forEach((members, column) => {
		firstConstraint[column + 1] = firstConstraint[column] + members.length;
	});
	return { rank, order, firstConstraint, member, entry };
}

/** The factor with the coordinates in the order of the matrix. */
export function factorInOrder(correlation: CorrelationMatrix): OrderedFactor {
	const unlimited = new Float64Array(correlation.length).fill(
		Number.POSITIVE_INFINITY,
	);
	return orderedFactor(
		correlation,
		unlimited.map((limit) => -limit),
		unlimited,
	);
}

/** Own standard deviation of a coordinate given those before it, and its limits in that unit. */
function conditional(
	correlation: CorrelationMatrix,
	row: Float64Array,
	column: number,
	expected: Float64Array,
	lower: number,
	upper: number,
): { own: number; from: number; to: number } {
	let variance = correlation[0][0];
	let centre = 0;
	for (let before = 0; before < column; before++) {
		variance -= row[before] * row[before];
		centre += row[before] * expected[before];
	}
	if (variance < -1e-8) {
		refuse(
			"correlation-matrix",
			"correlations that contradict each other: the matrix is not positive semidefinite",
			"correlations that variables can have",
			"Look for a wrong sign.",
		);
	}
	const own = Math.sqrt(Math.max(0, variance));
	return { own, from: (lower - centre) / own, to: (upper - centre) / own };
}
