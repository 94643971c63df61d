import type { Structure } from "./linearity";

/**
 * Terms of one kind (two peaks, three exponentials) can exchange their names without changing the curve, and a width
 * may change its sign. Of all namings that give the same sum of squares, this takes the one nearest to `reference`, so
 * that the terms keep the order of the start values. Returns whether theta was changed.
 *
 * `tolerance` is how far two equal sums may lie apart; `sumOfSquares` sets the linear parameters of its argument to their best values and returns the sum of squares there.
 */
export function relabel(
	theta: Float64Array,
	reference: Float64Array,
	structure: Structure,
	rss: number,
	tolerance: number,
	sumOfSquares: (theta: Float64Array) => number,
): boolean {
	const same = (value: number): boolean => Math.abs(value - rss) <= tolerance;
	let changed = false;
	const groups = structure.groups.filter((g) => g.length > 0);
	for (const size of new Set(groups.map((g) => g.length))) {
		const alike = groups.filter((g) => g.length === size);
		if (alike.length < 2 || alike.length > 5) continue;
		const namings = permutations(alike.length)
			.map((order) => {
				const renamed = theta.slice();
				alike.forEach((group, i) => {
					group.forEach((j, c) => {
						renamed[j] = theta[alike[order[i]][c]];
					});
				});
				return {
					renamed,
					distance: distance(renamed, reference, alike.flat()),
				};
			})
			.sort((a, b) => a.distance - b.distance);
		for (const { renamed, distance: far } of namings) {
			if (far >= distance(theta, reference, alike.flat())) break;
			if (same(sumOfSquares(renamed))) {
				theta.set(renamed);
				changed = true;
				break;
			}
		}
	}
	for (const j of structure.nonlinear) {
		if (theta[j] * reference[j] >= 0) continue;
		const flipped = theta.slice();
		flipped[j] = -theta[j];
		if (same(sumOfSquares(flipped))) {
			theta.set(flipped);
			changed = true;
		}
	}
	return changed;
}

/** Sum of squared logarithms of the ratios of sizes. */
function distance(
	a: Float64Array,
	b: Float64Array,
	indices: readonly number[],
): number {
	let sum = 0;
	for (const j of indices) {
		const ratio = Math.abs(a[j] / b[j]);
		sum +=
			ratio > 0 && ratio < Infinity
				? Math.log(ratio) ** 2
				: a[j] === b[j]
					? 0
					: 1e4;
	}
	return sum;
}

function permutations(count: number): number[][] {
	if (count === 1) return [[0]];
	return permutations(count - 1).flatMap((shorter) =>
		Array.from({ length: count }, (_, i) => [
			...shorter.slice(0, i),
			count - 1,
			...shorter.slice(i),
		]),
	);
}
