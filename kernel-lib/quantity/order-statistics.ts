/** How finely values are sorted into bins before the few that matter are sorted in full; a bin's number fits in 16 bits. */
const bins = 8192;

/** Moments and order statistics of a large sample, in one pass and without sorting all of it. */
export interface SampleStatistics {
	readonly mean: number;
	readonly standardDeviation: number;
	/** The values of these ranks, 0 for the smallest. Exact. */
	ranks(wanted: readonly number[]): number[];
	/** The values of ranks from (inclusive) to (exclusive), in order. Exact. */
	range(from: number, to: number): Float64Array;
}

/**
 * @param centre a value near the mean: squares are summed about it, so that no digits are lost
 * @param spread about a standard deviation; only speed depends on it
 */
export function sampleStatistics(
	values: Float64Array,
	centre: number,
	spread: number,
): SampleStatistics {
	const counts = new Int32Array(bins);
	const binOf = new Uint16Array(values.length);
	const [sum, squares] = tally(values, centre, spread, counts, binOf);
	const n = values.length;
	const variance = Math.max(0, (squares - (sum * sum) / n) / (n - 1));
	return {
		mean: centre + sum / n,
		standardDeviation: Math.sqrt(variance),
		ranks: (wanted) => {
			const found = wanted.map((rank) => binOfRank(counts, rank));
			const keep = new Uint8Array(bins);
			for (const { bin } of found) keep[bin] = 1;
			const sorted = kept(values, binOf, keep).sort();
			return found.map(({ bin, within }) => {
				// The kept bins lie one after another in the sorted values.
				let before = 0;
				for (let b = 0; b < bin; b++) if (keep[b] === 1) before += counts[b];
				return sorted[before + within];
			});
		},
		range: (from, to) => {
			const first = binOfRank(counts, from);
			const last = binOfRank(counts, to - 1);
			const keep = new Uint8Array(bins);
			keep.fill(1, first.bin, last.bin + 1);
			const sorted = kept(values, binOf, keep).sort();
			return sorted.slice(first.within, first.within + to - from);
		},
	};
}

/** One pass: sums about the centre, and the bin of every value within six spreads of it; what lies outside goes to the first and the last bin. */
function tally(
	values: Float64Array,
	centre: number,
	spread: number,
	counts: Int32Array,
	binOf: Uint16Array,
): [sum: number, squares: number] {
	const perUnit = spread > 0 ? bins / (12 * spread) : 0;
	const half = bins / 2;
	const last = bins - 1;
	let sum = 0;
	let squares = 0;
	for (let i = 0; i < values.length; i++) {
		const d = values[i] - centre;
		sum += d;
		squares += d * d;
		const x = d * perUnit + half;
		const bin = x <= 0 ? 0 : x >= last ? last : x | 0;
		binOf[i] = bin;
		counts[bin] += 1;
	}
	return [sum, squares];
}

function binOfRank(
	counts: Int32Array,
	rank: number,
): { bin: number; within: number } {
	let below = 0;
	let bin = 0;
	while (below + counts[bin] <= rank) below += counts[bin++];
	return { bin, within: rank - below };
}

function kept(
	values: Float64Array,
	binOf: Uint16Array,
	keep: Uint8Array,
): Float64Array {
	let count = 0;
	for (let i = 0; i < binOf.length; i++) count += keep[binOf[i]];
	const out = new Float64Array(count);
	let n = 0;
	for (let i = 0; i < binOf.length; i++)
		if (keep[binOf[i]] === 1) out[n++] = values[i];
	return out;
}
