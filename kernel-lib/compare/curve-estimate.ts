import {
	dividedBy,
	fitIsotherm,
	type Isotherm,
	type IsothermFit,
	type IsothermPoints,
	pointsOfUptakes,
	uptakeAtResidue,
} from "../isotherms";
import type { FlaskUptake } from "../uptake";
import { fewReadingsFactor } from "./few-readings";
import type { Obstacle } from "./obstacle";
import {
	outsideObstacle,
	tooFewObstacle,
	undeterminedObstacle,
} from "./residue-obstacles";
import { dosesOfCurve } from "./several-doses";
import type { CurveGroup } from "./soak-groups";
import { unevenScatterVariance } from "./uneven-scatter";

/** Uptake of one treatment at the stated residue, read off its isotherm. */
export interface CurveEstimate {
	readonly treatment: string;
	/** One curve, or one for each soak. */
	readonly fits: readonly IsothermFit[];
	/** mg/g. */
	readonly uptake: number;
	/** From the scatter about the curve, or of the soaks, (mg/g)^2, and its degrees of freedom. */
	readonly scatterVariance: number;
	readonly degreesOfFreedom: number;
	/** "between soaks": how far the curves of its soaks lie apart, drawn to what such treatments have in common; else what scatters about its one curve. */
	readonly spread: "about its curve" | "between soaks";
	/** So many soaks with curves of their own; 1 for one curve. */
	readonly soaks: number;
	/**
	 * What gave the largest variance: one scale for all points ("curve"), the reading errors where the points lie closer to the curve than these allow ("readings"), or each flask's own residual where the
	 * flasks scatter unevenly ("single flasks"); or the spread of soaks.
	 */
	readonly scatterFrom: "curve" | "readings" | "single flasks" | "soaks";
	/** By the identity of the input, what one standard uncertainty of it makes of the uptake, mg/g with sign: what several curves lean on moves all of them at once. Larger where the input is known from few readings. */
	readonly shared: ReadonlyMap<string, number>;
}

export type CurveOrNot =
	| { readonly is: "estimate"; readonly estimate: CurveEstimate }
	| { readonly is: "none"; readonly obstacle: Obstacle };

/** What the uptakes of a flask were multiplied by, by its day. */
export type FactorOf = (flask: FlaskUptake) => number;

/** Fits one isotherm to the flasks of a treatment, freed of a factor each; the same flasks with the same readings are never fitted twice. */
export type Fitter = (
	isotherm: Isotherm,
	group: CurveGroup,
	factorOf: FactorOf,
) => IsothermFit;

interface FittedGroup {
	readonly points: IsothermPoints;
	readonly fits: Map<Isotherm, IsothermFit>;
}

export function fitter(): Fitter {
	const known = new Map<string, FittedGroup>();
	return (isotherm, group, factorOf) => {
		const key = group.flasks
			.map((u) => `${identityOf(u)} ${factorOf(u)}`)
			.join("\n");
		const { points, fits } = known.get(key) ?? {
			points: pointsOf(group, factorOf),
			fits: new Map<Isotherm, IsothermFit>(),
		};
		known.set(key, { points, fits });
		const fit = fits.get(isotherm) ?? fitIsotherm(isotherm, points);
		fits.set(isotherm, fit);
		return fit;
	};
}

function pointsOf(
	{ name, flasks }: CurveGroup,
	factorOf: FactorOf,
): IsothermPoints {
	const factors = new Map(flasks.map((u) => [u.flask.name, factorOf(u)]));
	return {
		...dividedBy(
			pointsOfUptakes(flasks)[0],
			(flask) => factors.get(flask) ?? 1,
		),
		name,
	};
}

/** A deviation of a blank moves the uptakes of flasks that it does not name. */
function identityOf({ flask, uptake }: FlaskUptake): string {
	const { value, standardUncertainty } = uptake.quantity;
	return `${flask.name} ${value} ${standardUncertainty}`;
}

/** Whether the flasks of a treatment can carry an isotherm at all and reach the stated residue; before anything is fitted. */
export function carriesCurve(
	{ name, flasks }: CurveGroup,
	residue: number,
): { readonly ok: true } | { readonly ok: false; readonly obstacle: Obstacle } {
	const doses = dosesOfCurve(name, flasks);
	// Uptakes per gram of dry char and as weighed are no points of one curve.
	if (!doses.enough || new Set(flasks.map((u) => u.perGram)).size > 1)
		return {
			ok: false,
			obstacle: tooFewObstacle(doses, flasks, residue),
		};
	return { ok: true };
}

/**
 * The uptake on the isotherm at the stated residue. Where the points lie closer to the curve than their own reading errors allow (equal titres, rounded to a drop), the reading errors are the least that
 * is believed, as in the comparison without isotherms; where flasks scatter unevenly, each one's own residual counts, if that gives more.
 */
export function curveEstimate(fit: IsothermFit, residue: number): CurveOrNot {
	const treatment = fit.points.name;
	if (residue < fit.range.low || residue > fit.range.high)
		return { is: "none", obstacle: outsideObstacle(fit, residue) };
	const [at] = uptakeAtResidue(fit, residue);
	if (!fit.fit.converged.holds || at.scatter.is === "not known")
		return {
			is: "none",
			obstacle: undeterminedObstacle(
				fit,
				at.scatter.is === "not known"
					? at.scatter.because
					: fit.fit.converged.reason,
			),
		};
	const about = at.scatter.value ** 2;
	const readingsKnown = fit.weights.some((w) => w !== 1);
	const close = fit.scaleFrom === "scatter" && readingsKnown && fit.scale < 1;
	const even = close ? about / Math.max(fit.scale, 1e-6) ** 2 : about;
	const uneven = unevenScatterVariance(fit, residue);
	return {
		is: "estimate",
		estimate: {
			treatment,
			fits: [fit],
			uptake: at.uptake,
			scatterVariance: Math.max(even, uneven),
			degreesOfFreedom: fit.degreesOfFreedom,
			spread: "about its curve",
			soaks: 1,
			scatterFrom:
				uneven > even ? "single flasks" : close ? "readings" : "curve",
			shared: new Map(
				[...at.sharedEffects].map(([key, { effect, degreesOfFreedom }]) => [
					key,
					effect * fewReadingsFactor(degreesOfFreedom),
				]),
			),
		},
	};
}
