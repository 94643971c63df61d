import { listed, numberOption, problem, throwProblems } from "../quantity";
import { normalQuantile, studentTQuantile } from "../stats";

/** What an interval holds where nothing else is asked for; common practice, no source. */
export const usualConfidence = 0.95;

/** What the option `confidence` may be. */
export const confidenceOption = numberOption(0.5, 1);

/**
 * The confidence that results have in common; the usual one where there is none of them.
 *
 * @param of the table that states it once for all
 * @throws ProblemError for results of different confidence
 */
export function commonConfidence(
	results: readonly { readonly confidence: number }[],
	of: string,
): number {
	const found = [...new Set(results.map((r) => r.confidence))];
	throwProblems(
		found.length < 2
			? []
			: [
					problem(
						"different-confidence",
						{ call: of },
						`intervals of ${listed(found.map(confidenceText))}`,
						"one confidence in one table",
						"Fit all of them with the same { confidence: ... }, or make a table of each.",
					),
				],
	);
	return found[0] ?? usualConfidence;
}

/** "95 %". */
export function confidenceText(confidence: number): string {
	return `${Number((100 * confidence).toFixed(2))} %`;
}

/** Degrees of freedom of a sum of scatter and shared errors (JCGM 100:2008, G.4.1). */
export function combinedDegreesOfFreedom(
	scatterVariance: number,
	degreesOfFreedom: number,
	shared: readonly {
		readonly effect: number;
		readonly degreesOfFreedom: number;
	}[],
): number {
	const total =
		scatterVariance + shared.reduce((sum, s) => sum + s.effect ** 2, 0);
	const below =
		scatterVariance ** 2 / degreesOfFreedom +
		shared.reduce((sum, s) => sum + s.effect ** 4 / s.degreesOfFreedom, 0);
	return below > 0 ? total ** 2 / below : Number.POSITIVE_INFINITY;
}

/** Two-sided quantile: Student's t, the normal for infinite degrees of freedom. */
export function twoSided(confidence: number, degreesOfFreedom: number): number {
	const p = 0.5 + confidence / 2;
	return Number.isFinite(degreesOfFreedom)
		? studentTQuantile(p, degreesOfFreedom)
		: normalQuantile(p);
}
