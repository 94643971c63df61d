import { type Isotherm, type IsothermFit, uptakeAtResidue } from "../isotherms";
import type { CurveEstimate } from "./curve-estimate";
import type { CurveGroup } from "./soak-groups";

/** Isotherms with less weight than this are not carried on. Our decision. */
const leastWeight = 0.01;

/** One isotherm that was tried, for all treatments together. */
export interface IsothermTried {
	readonly isotherm: Isotherm;
	/** By Akaike's criterion (AICc) summed over the treatments; the weights of all sum to 1. 0 where the data could not be given one. */
	readonly weight: number;
}

/** The isotherm that the treatments are compared on, and what else would have done. */
export interface IsothermChoice {
	readonly isotherm: Isotherm;
	readonly tried: readonly IsothermTried[];
	/** "given": only one was to be tried. "by AICc": the data chose. "first": the data could give none a criterion, so that the first of the list was taken. */
	readonly how: "given" | "by AICc" | "first";
}

type Fit = (isotherm: Isotherm, group: CurveGroup) => IsothermFit;

type Known =
	| { readonly known: true; readonly value: number }
	| { readonly known: false };

/**
 * AICc of fits whose weights differ a little from curve to curve: the density of the readings holds 1/w for each, so that 2 sum ln w belongs to minus twice the log-likelihood.
 * One fit without a criterion leaves the isotherm none: the groups after it are not fitted, for a search that comes to no end takes longer than all others together.
 */
function criterion(
	groups: readonly CurveGroup[],
	fitOf: (group: CurveGroup) => IsothermFit,
): Known {
	let sum = 0;
	for (const group of groups) {
		const f = fitOf(group);
		if (f.aicc.is === "not known" || !f.fit.converged.holds)
			return { known: false };
		sum += f.aicc.value;
		f.used.forEach((p, i) => {
			if (p.is === "reading") sum += 2 * Math.log(f.weights[i]);
		});
	}
	return { known: Number.isFinite(sum), value: sum };
}

/** One isotherm for all treatments, so that what its form gets wrong it gets wrong alike on both sides of a difference. */
export function chooseIsotherm(
	candidates: readonly Isotherm[],
	groups: readonly CurveGroup[],
	fitOf: Fit,
): IsothermChoice {
	const [first] = candidates;
	if (candidates.length === 1 || groups.length === 0)
		return {
			isotherm: first,
			tried: candidates.map((isotherm, i) => ({
				isotherm,
				weight: i === 0 ? 1 : 0,
			})),
			how: candidates.length === 1 ? "given" : "first",
		};
	const criteria = candidates.map((isotherm) =>
		criterion(groups, (group) => fitOf(isotherm, group)),
	);
	const values = criteria.flatMap((c) => (c.known ? [c.value] : []));
	if (values.length === 0)
		return {
			isotherm: first,
			tried: candidates.map((isotherm, i) => ({
				isotherm,
				weight: i === 0 ? 1 : 0,
			})),
			how: "first",
		};
	const least = Math.min(...values);
	const raw = criteria.map((c) =>
		c.known ? Math.exp((least - c.value) / 2) : 0,
	);
	const total = raw.reduce((a, b) => a + b, 0);
	const tried = candidates.map((isotherm, i) => ({
		isotherm,
		weight: raw[i] / total,
	}));
	const best = tried.reduce((a, b) => (b.weight > a.weight ? b : a));
	return { isotherm: best.isotherm, tried, how: "by AICc" };
}

/**
 * Adds what other plausible isotherms would have given: each is one error, common to all treatments with its sign, of the size sqrt(weight) times the difference. The variance that this gives a difference
 * is the spread of its estimates over the isotherms, weighted (Burnham and Anderson, Model Selection and Multimodel Inference, 2002, section 4.3; from memory).
 */
export function withOtherIsotherms(
	estimate: CurveEstimate,
	choice: IsothermChoice,
	group: CurveGroup,
	residue: number,
	fitOf: Fit,
): CurveEstimate {
	const shared = new Map(estimate.shared);
	for (const { isotherm, weight } of choice.tried) {
		if (isotherm === choice.isotherm || weight < leastWeight) continue;
		const [at] = uptakeAtResidue(fitOf(isotherm, group), residue);
		shared.set(
			`isotherm: ${isotherm.name}`,
			Math.sqrt(weight) * (at.uptake - estimate.uptake),
		);
	}
	return { ...estimate, shared };
}
