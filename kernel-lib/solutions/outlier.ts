import { fixed, standardDeviation } from "../quantity";
import { studentTUpperTail } from "../stats";

/**
 * Two-sided p-value of the value furthest from the mean, by Grubbs' test: t^2 = n(n-2)G^2 / ((n-1)^2 - n G^2), times n for the choice of the furthest (Bonferroni, exact or
 * slightly too large). Grubbs (1969), Technometrics 11, 1; from memory.
 */
function grubbsP(values: readonly number[], furthest: number): number {
	const n = values.length;
	const mean = values.reduce((sum, x) => sum + x, 0) / n;
	const g = Math.abs(furthest - mean) / standardDeviation(values);
	const rest = (n - 1) ** 2 - n * g * g;
	if (rest <= 0) return 0;
	const t = Math.sqrt((n * (n - 2) * g * g) / rest);
	return Math.min(1, 2 * n * studentTUpperTail(t, n - 2));
}

/**
 * What Grubbs' test says of replicate readings, in one sentence; "" for fewer than three or where none stands out at 5 %. It advises and never leaves anything out: a reading may
 * be dropped for a reason found at the bench, not for being far away.
 *
 * @param resolution in the unit of the values: readings that differ by no more are the same as far as anyone could read, whatever a test of three rounded numbers says
 */
export function outlierAdvice(
	values: readonly number[],
	unit: string,
	resolution: number,
): string {
	if (values.length < 3 || standardDeviation(values) === 0) return "";
	const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
	const furthest = values.reduce((far, x) =>
		Math.abs(x - mean) > Math.abs(far - mean) ? x : far,
	);
	const others = (mean * values.length - furthest) / (values.length - 1);
	// a hair of tolerance: 19.85 - 19.8 is a little more than 0.05
	if (Math.abs(furthest - others) <= resolution * (1 + 1e-9)) return "";
	const p = grubbsP(values, furthest);
	if (p >= 0.05) return "";
	return `The reading ${Number(furthest.toPrecision(6))} ${unit} stands apart from the other ${values.length - 1} (Grubbs' test, p ${p < 0.001 ? "below 0.001" : `= ${fixed(p, 3)}`}). It is still counted; look for the reason at the bench, titrate once more, and record a deviation if there is one.`;
}
