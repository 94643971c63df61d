/** How far a share seen in few trials may lie from the true one by chance alone; exact, from the binomial distribution. */

/** Chance with which a limit refuses a share that is in truth just as asked; small, because a test run holds a hundred of them. */
export const risk = 0.001;

/** Chances of 0, 1, ... `trials` hits. */
export function hitChances(share: number, trials: number): number[] {
	const chances: number[] = [];
	let logOfChoices = 0;
	for (let hits = 0; hits <= trials; hits++) {
		chances.push(
			Math.exp(
				logOfChoices +
					times(hits, Math.log(share)) +
					times(trials - hits, Math.log1p(-share)),
			),
		);
		logOfChoices += Math.log(trials - hits) - Math.log(hits + 1);
	}
	return chances;
}

/** 0 times the logarithm of 0 is 0 here. */
const times = (n: number, logarithm: number): number =>
	n === 0 ? 0 : n * logarithm;

/** The largest share of `trials` that is not too large for a true `share`: more is seen with a chance of at most `risk`. */
export function highestShare(share: number, trials: number): number {
	const chances = hitChances(share, trials);
	let more = 0;
	let hits = trials;
	while (hits > 0 && more + chances[hits] <= risk) {
		more += chances[hits];
		hits -= 1;
	}
	return hits / trials;
}

/** The smallest share of `trials` that is not too small for a true `share`. */
export function lowestShare(share: number, trials: number): number {
	return 1 - highestShare(1 - share, trials);
}
