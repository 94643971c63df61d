import type { Fit, FitOptions } from "../fit";
import type { Isotherm } from "./catalogue/index";
import { guess } from "./deviations";
import {
	mostEvaluationsAgain,
	oneStandardError,
	type Refit,
} from "./moved-points";
import type { IsothermPoints } from "./points";
import { type RawFit, type ResidueFitOptions, startingFrom } from "./raw-fit";
import { rowsAt } from "./residue-rows";
import {
	deviationsOfSets,
	moved,
	residuesAt,
	type Setting,
	settingOf,
	thetas,
} from "./residue-setting";
import { fitOnce, type Scaled, scaledFit } from "./scaled-fit";
import { shiftsOf } from "./shared-errors";

/** Rounds in which weights and curve are brought into line, and the change of a weight that ends them. */
const mostRounds = 12;
const settledWeight = 1e-5;

/**
 * Fits the residues themselves: each flask should show the residue at which the isotherm meets its balance line, and its titre scatters about that. A flask that ran dry adds the probability that
 * its titre stays below the detection limit. Every point needs its balance line. Several sets of points are fitted at once, with some parameters in common.
 *
 * The weights depend a little on the curve, so that curve and weights are found in turn: from one start to the next without a search, and at the end once more with it.
 */
export function fitResidues(
	isotherm: Isotherm,
	sets: readonly IsothermPoints[],
	options: ResidueFitOptions,
): RawFit {
	const setting = settingOf(isotherm, sets, options);
	const { weights, engine } = options;
	if (weights.is === "given")
		return summary(
			setting,
			weights.deviations,
			scaledFit(setting, weights.deviations, engine),
		);
	const quick: FitOptions = { ...engine, search: "never" };
	let deviations = deviationsOfSets(
		setting,
		sets.map((s) => guess(isotherm, s.points)),
		setting.lines.near,
	);
	let found = scaledFit(setting, deviations, quick);
	const align = (settings: FitOptions): boolean => {
		const { theta } = found.combined;
		const next = deviationsOfSets(
			setting,
			thetas(setting, theta),
			residuesAt(setting, theta),
		);
		if (!next.every(Number.isFinite)) return true;
		const settled = next.every(
			(d, i) => Math.abs(d / deviations[i] - 1) <= settledWeight,
		);
		if (settled) return true;
		deviations = next;
		found = scaledFit(setting, deviations, settings);
		return false;
	};
	for (let round = 0; round < mostRounds; round++)
		if (align(startingFrom(quick, found.combined))) break;
	found = scaledFit(setting, deviations, engine);
	// The search may have found another minimum, with other weights.
	for (let round = 0; round < 3; round++) if (align(engine)) break;
	return summary(setting, deviations, found);
}

function summary(
	setting: Setting,
	deviations: Float64Array,
	{ fits, combined, absolute, ...scatter }: Scaled,
): RawFit {
	const { points, index, effects } = setting;
	const { scale, withShared, degreesOfFreedom, scaleFrom } = scatter;
	const { residualSD } = combined;
	const engineScale = absolute
		? scale
		: residualSD.is === "value"
			? residualSD.value
			: 1;
	return {
		fits,
		combined,
		index,
		used: points,
		expected: residuesAt(setting, combined.theta),
		deviations: deviations.map((d) => d * withShared),
		weights: deviations,
		rows: rowsAt(
			setting,
			combined.theta,
			deviations.map((d) => (absolute ? d * scale : d)),
		),
		effects,
		variance: absolute ? 1 : engineScale ** 2,
		besideEngine: engineScale > 0 ? scale / engineScale : 1,
		degreesOfFreedom,
		scale,
		scaleFrom,
		refit: refitOf(setting, deviations, combined, scale),
	};
}

function refitOf(
	setting: Setting,
	deviations: Float64Array,
	combined: Fit,
	scale: number,
): Refit {
	const size = scale > 0 ? scale : 1e-6;
	const engine: FitOptions = {
		...startingFrom(setting.options.engine, combined),
		search: "never",
		confidence: oneStandardError,
		maxEvaluations: mostEvaluationsAgain,
	};
	return (amounts, reach) => {
		const there = moved(setting, amounts);
		const { combined: fit } = fitOnce(
			there,
			deviations,
			size,
			true,
			engine,
			reach,
		);
		return {
			fit,
			shifts: () =>
				shiftsOf(
					fit,
					setting.effects,
					rowsAt(
						there,
						fit.theta,
						deviations.map((d) => d * size),
					),
					reach ** 2,
				),
		};
	};
}
