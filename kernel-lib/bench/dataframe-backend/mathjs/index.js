// The five functions of mathjs that danfojs-node calls, over simple-statistics, with the conventions of mathjs: sample variance and standard deviation, a list of modes.
const statistics = require("simple-statistics");

/** Sample variance (n - 1); 0 for a single value. */
function variance(values) {
	return values.length === 1 ? 0 : statistics.sampleVariance(values);
}

/** All values that occur most often, in the order of their first occurrence. */
function mode(values) {
	const counts = new Map();
	for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
	const most = Math.max(...counts.values());
	return [...counts.keys()].filter((value) => counts.get(value) === most);
}

/** Not a number where one of the values is none, rather than the middle of an order that does not exist. */
function median(values) {
	return values.some(Number.isNaN) ? Number.NaN : statistics.median(values);
}

module.exports = {
	mean: statistics.mean,
	median,
	mode,
	std: (values) => Math.sqrt(variance(values)),
	variance,
};
