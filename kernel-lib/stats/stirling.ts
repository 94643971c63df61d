/**
 * The two building blocks of binomial, Poisson, beta and gamma densities that keep all digits for large
 * arguments, where differences of log-gammas lose them: Loader (2000), "Fast and accurate computation of
 * binomial probabilities".
 */

/**
 * ln Gamma(n + 1) - [(n + 1/2) ln n - n + ln(2 pi)/2] for any real n > 0: what Stirling's formula leaves out.
 * Asymptotic series from n = 12 upwards, the recurrence of the gamma function below.
 */
export function stirlingError(n: number): number {
	let shifted = n;
	let sum = 0;
	while (shifted < 12) {
		sum += (shifted + 0.5) * Math.log1p(1 / shifted) - 1;
		shifted += 1;
	}
	const q = 1 / (shifted * shifted);
	const series =
		1 / 12 -
		q *
			(1 / 360 -
				q *
					(1 / 1260 -
						q * (1 / 1680 - q * (1 / 1188 - q * (691 / 360360 - q / 156)))));
	return sum + series / shifted;
}

/** x ln(x / m) + m - x, accurate also where x is close to m. */
export function deviance(x: number, m: number): number {
	if (Math.abs(x - m) < 0.1 * (x + m)) {
		const v = (x - m) / (x + m);
		let sum = (x - m) * v;
		let power = 2 * x * v;
		for (let odd = 3; odd < 1000; odd += 2) {
			power *= v * v;
			const next = sum + power / odd;
			if (next === sum) break;
			sum = next;
		}
		return sum;
	}
	return x * Math.log(x / m) + m - x;
}
