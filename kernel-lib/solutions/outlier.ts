import { fixed } from "../quantity";
import { grubbsTest } from "../stats";

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
	if (values.length < 3) return "";
	const { index, p } = grubbsTest(values);
	const furthest = values[index];
	const others =
		(values.reduce((sum, x) => sum + x, 0) - furthest) / (values.length - 1);
	// a hair of tolerance: 19.85 - 19.8 is a little more than 0.05
	if (Math.abs(furthest - others) <= resolution * (1 + 1e-9)) return "";
	if (p >= 0.05) return "";
	return `The reading ${Number(furthest.toPrecision(6))} ${unit} stands apart from the other ${values.length - 1} (Grubbs' test, p ${p < 0.001 ? "below 0.001" : `= ${fixed(p, 3)}`}). It is still counted; look for the reason at the bench, titrate once more, and record a deviation if there is one.`;
}
