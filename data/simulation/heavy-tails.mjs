// @ts-check
/**
 * Errors that are not normal, all with mean 0 and the standard deviation that is asked for: what an analysis that believes in the normal curve has to live with.
 *
 * @typedef {import("./generator.mjs").Generator} Generator
 * @typedef {"normal" | "t4" | "contaminated" | "skewed"} Tail
 */

/** Standard exponential, of mean 1. @param {Generator} random */
const exponential = (random) => -Math.log(1 - random.uniform());

/** One draw of mean 0 and variance 1. @type {Record<Tail, (random: Generator) => number>} */
const unit = {
	normal: (random) => random.normal(1),
	// Student's t with 4 degrees of freedom has variance 2; a chi-square of 4 is twice the sum of two exponentials.
	t4: (random) => {
		const chiSquare = 2 * (exponential(random) + exponential(random));
		return random.normal(1) / Math.sqrt(chiSquare / 4) / Math.SQRT2;
	},
	// One in ten is three times as far off: variance 0.9 x 1 + 0.1 x 9 = 1.8.
	contaminated: (random) =>
		random.normal(random.uniform() < 0.1 ? 3 : 1) / Math.sqrt(1.8),
	// The sum of four exponentials has mean 4 and variance 4: mostly a little too low, now and then much too high.
	skewed: (random) =>
		(exponential(random) +
			exponential(random) +
			exponential(random) +
			exponential(random) -
			4) /
		2,
};

/** @param {Generator} random @param {Tail} tail @param {number} spread standard deviation */
export const draw = (random, tail, spread) =>
	spread === 0 ? 0 : spread * unit[tail](random);

/** Evenly spread between -limit and limit. @param {Generator} random @param {number} limit */
export const within = (random, limit) => limit * (2 * random.uniform() - 1);
