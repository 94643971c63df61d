import { quadraticForm } from "../linear";
import {
	anyNumberOption,
	known,
	type MaybeKnown,
	type Problem,
	problem,
	quoted,
	requireArgument,
	significant,
	throwProblems,
} from "../quantity";
import { derivativesAt, uptakeAt } from "./catalogue/index";
import { requireFit } from "./doors";
import type { IsothermFit } from "./fit-result";
import { combinedDegreesOfFreedom, twoSided } from "./intervals";

/** What the fitted isotherm gives at a stated residual concentration. */
export interface UptakeAtResidue {
	/** mg/L. */
	readonly residue: number;
	/** mg/g; the values below likewise. */
	readonly uptake: number;
	readonly scatter: MaybeKnown<number>;
	readonly shared: MaybeKnown<number>;
	readonly standardError: MaybeKnown<number>;
	readonly low: MaybeKnown<number>;
	readonly high: MaybeKnown<number>;
	/** How much one standard uncertainty of each shared input moves the uptake; by key. */
	readonly sharedEffects: ReadonlyMap<
		string,
		{ readonly effect: number; readonly degreesOfFreedom: number }
	>;
	readonly degreesOfFreedom: number;
	readonly confidence: number;
	readonly extrapolating: boolean;
	/** Where the residue lies against the measured range, in words. */
	readonly place: string;
}

/**
 * Uptake on the fitted isotherm at residual concentrations (mg/L), with scatter and shared errors apart and together, by the delta method. It is the uncertainty of the curve, not of a new flask.
 *
 * @throws ProblemError for a residue that is not above zero or at which the isotherm is not defined
 * @example
 * const points = isotherms.plainPoints("oak char", [10, 30, 90, 190], [50, 75, 90, 95]);
 * const fit = isotherms.fitIsotherm(isotherms.langmuir, points);
 * // 100 x 4/(1 + 4)
 * isotherms.uptakeAtResidue(fit, 40)[0].uptake // => 80
 */
export function uptakeAtResidue(
	fit: IsothermFit,
	...residues: readonly number[]
): UptakeAtResidue[] {
	requireFit(fit, "uptakeAtResidue");
	for (const residue of residues)
		requireArgument(
			residue,
			anyNumberOption("a residue in mg/L"),
			"uptakeAtResidue",
		);
	throwProblems(residues.flatMap((residue) => problemsAt(fit, residue)));
	return residues.map((residue) => at(fit, residue));
}

function problemsAt(fit: IsothermFit, residue: number): Problem[] {
	const { isotherm, theta } = fit;
	const defined =
		residue > 0 &&
		residue < isotherm.highestConcentration &&
		Number.isFinite(uptakeAt(isotherm, theta, residue));
	return defined
		? []
		: [
				problem(
					"residue-out-of-range",
					{ call: quoted(fit.points.name) },
					`a residue of ${residue} mg/L`,
					Number.isFinite(isotherm.highestConcentration)
						? `a concentration above 0 and below ${isotherm.highestConcentration} mg/L, as far as ${isotherm.name} is defined`
						: "a concentration above 0 mg/L",
					"Choose a residue that the flasks of the trial reached.",
				),
			];
}

function at(fit: IsothermFit, residue: number): UptakeAtResidue {
	const { isotherm, theta, range, confidence } = fit;
	const uptake = uptakeAt(isotherm, theta, residue);
	const gradient = derivativesAt(isotherm, theta, residue);
	const sharedEffects = new Map(
		fit.sharedShifts.map((s) => [
			s.key,
			{
				effect: gradient.reduce((sum, g, j) => sum + g * s.effect[j], 0),
				degreesOfFreedom: s.degreesOfFreedom,
			},
		]),
	);
	const extrapolating = residue < range.low || residue > range.high;
	const place = `${extrapolating ? "outside" : "inside"} the measured range, ${inWords(range.low)} to ${inWords(range.high)} mg/L`;
	const frame = {
		residue,
		uptake,
		sharedEffects,
		confidence,
		extrapolating,
		place,
	};
	const covariance = fit.scatterCovariance;
	if (covariance.is === "not known" || !gradient.every(Number.isFinite)) {
		const unknown: MaybeKnown<number> = {
			is: "not known",
			because:
				covariance.is === "not known"
					? covariance.because
					: "the curve has no finite slope there",
		};
		return {
			...frame,
			scatter: unknown,
			shared: unknown,
			standardError: unknown,
			low: unknown,
			high: unknown,
			degreesOfFreedom: 0,
		};
	}
	const scatterVariance = quadraticForm(covariance.value, gradient);
	const effects = [...sharedEffects.values()];
	const sharedVariance = effects.reduce((sum, e) => sum + e.effect ** 2, 0);
	const standardError = Math.sqrt(scatterVariance + sharedVariance);
	const degreesOfFreedom = combinedDegreesOfFreedom(
		scatterVariance,
		fit.degreesOfFreedom,
		effects,
	);
	const half = twoSided(confidence, degreesOfFreedom) * standardError;
	return {
		...frame,
		scatter: known(Math.sqrt(scatterVariance)),
		shared: known(Math.sqrt(sharedVariance)),
		standardError: known(standardError),
		low: known(uptake - half),
		high: known(uptake + half),
		degreesOfFreedom,
	};
}

function inWords(value: number): string {
	return significant(value, 3);
}
