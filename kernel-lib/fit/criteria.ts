import { known, type MaybeKnown, notKnown } from "../quantity";

/** What the information criteria are computed from. */
export interface LikelihoodSummary {
	/** Sum of squared residuals, each divided by its sigma where sigmas were given. */
	readonly rss: number;
	readonly points: number;
	readonly freeParameters: number;
	/** Whether the size of the errors was given rather than estimated from the scatter. */
	readonly sigmaIsAbsolute: boolean;
}

/** Akaike's and the Bayesian information criterion. Lower is better; only differences between fits of the same y with the same sigmas mean anything. */
export interface InformationCriteria {
	readonly aic: MaybeKnown<number>;
	/** AIC with the correction for few points, the one to use. */
	readonly aicc: MaybeKnown<number>;
	readonly bic: MaybeKnown<number>;
}

/**
 * With errors estimated from the scatter: AIC = n ln(RSS/n) + 2K and BIC = n ln(RSS/n) + K ln n, where K counts the free
 * parameters and the variance. With absolute errors: RSS in place of n ln(RSS/n), and K counts the free parameters only.
 * AICc = AIC + 2K(K+1)/(n-K-1). Constants that depend on n and the sigmas alone are left out.
 * Sources: Hurvich and Tsai 1989, Biometrika 76, 297; Burnham and Anderson 2002, sections 2.2 and 2.4.
 */
export function informationCriteria(
	summary: LikelihoodSummary,
): InformationCriteria {
	const { rss, points: n, freeParameters, sigmaIsAbsolute } = summary;
	const k = sigmaIsAbsolute ? freeParameters : freeParameters + 1;
	if (!(rss > 0)) {
		const none = notKnown(
			"the curve goes through every point exactly, so there is no scatter to judge it by",
		);
		return { aic: none, aicc: none, bic: none };
	}
	const deviance = sigmaIsAbsolute ? rss : n * Math.log(rss / n);
	const aic = deviance + 2 * k;
	return {
		aic: known(aic),
		aicc:
			n > k + 1
				? known(aic + (2 * k * (k + 1)) / (n - k - 1))
				: notKnown(
						`AICc needs more than ${k + 1} points for ${k} estimated quantities; there are ${n}`,
					),
		bic: known(deviance + k * Math.log(n)),
	};
}
