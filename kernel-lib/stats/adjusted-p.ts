import { requireProbability } from "./checks";

/** p-values adjusted for their number by Holm's step-down method (1979, Scand. J. Statist. 6, 65), in the order given; valid under any dependence. */
export function holmAdjustedP(p: ArrayLike<number>): Float64Array {
	const order = Array.from(p, (value, index) => {
		requireProbability(`p-value ${index + 1} of Holm's adjustment`, value);
		return index;
	}).sort((a, b) => p[a] - p[b]);
	const adjusted = new Float64Array(p.length);
	let largest = 0;
	order.forEach((index, rank) => {
		largest = Math.max(largest, Math.min(1, (p.length - rank) * p[index]));
		adjusted[index] = largest;
	});
	return adjusted;
}
