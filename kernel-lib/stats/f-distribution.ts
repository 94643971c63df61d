import { betaPower, incompleteBeta } from "./beta";
import {
	refuse,
	requireDegreesOfFreedom,
	requireNumber,
	requireProbability,
} from "./checks";
import {
	chiSquareCdf,
	chiSquareQuantile,
	chiSquareUpperTail,
} from "./chi-square";
import { newton } from "./newton";

/** P(F <= f) for Fisher's F with df1 (numerator) and df2 (denominator; Infinity allowed) degrees of freedom, full relative accuracy in the lower tail. */
export function fCdf(f: number, df1: number, df2: number): number {
	requireArguments(f, df1, df2);
	if (f <= 0) return 0;
	if (df2 === Number.POSITIVE_INFINITY) return chiSquareCdf(f * df1, df1);
	const total = df2 + df1 * f;
	return incompleteBeta(df1 / 2, df2 / 2, (df1 * f) / total, df2 / total).lower;
}

/** P(F > f), the p-value of an F test, with full relative accuracy in the upper tail. */
export function fUpperTail(f: number, df1: number, df2: number): number {
	requireArguments(f, df1, df2);
	if (f <= 0) return 1;
	if (df2 === Number.POSITIVE_INFINITY) return chiSquareUpperTail(f * df1, df1);
	const total = df2 + df1 * f;
	return incompleteBeta(df2 / 2, df1 / 2, df2 / total, (df1 * f) / total).lower;
}

/** f with P(F <= f) = p, for p from 0 to 1 (Infinity); Newton's iteration on logarithms. */
export function fQuantile(p: number, df1: number, df2: number): number {
	requireProbability("the F quantile", p);
	requireArguments(1, df1, df2);
	if (p === 0) return 0;
	if (p === 1) return Number.POSITIVE_INFINITY;
	if (df2 === Number.POSITIVE_INFINITY) return chiSquareQuantile(p, df1) / df1;
	return Math.exp(
		newton(0, (v) => {
			const f = Math.exp(v);
			const total = df2 + df1 * f;
			const x = (df1 * f) / total;
			const y = df2 / total;
			// x^a y^b / B(a, b) is f times the density of f
			const growth = betaPower(df1 / 2, df2 / 2, x, y);
			if (p < 0.5) {
				const { lower } = incompleteBeta(df1 / 2, df2 / 2, x, y);
				return { gap: Math.log(p / lower), slope: growth / lower };
			}
			const upper = incompleteBeta(df2 / 2, df1 / 2, y, x).lower;
			return { gap: Math.log(upper / (1 - p)), slope: growth / upper };
		}),
	);
}

function requireArguments(f: number, df1: number, df2: number): void {
	requireNumber("the F distribution", f);
	requireDegreesOfFreedom("the numerator of the F distribution", df1);
	requireDegreesOfFreedom("the denominator of the F distribution", df2);
	if (df1 === Number.POSITIVE_INFINITY) {
		refuse(
			"degrees-of-freedom",
			"Infinity degrees of freedom for the numerator of the F distribution",
			"a finite number above 0",
			"Use the chi-square distribution of the denominator.",
		);
	}
}
