import {
	requireDegreesOfFreedom,
	requireFinite,
	requireNumber,
} from "./checks";
import { chiNodes } from "./chi-nodes";
import { normalCdf } from "./normal";

/**
 * P(T <= t) for the noncentral t: T = (Z + noncentrality) / S, where S^2 df is chi-square. Infinity as degrees of
 * freedom means a shifted normal. Integrated over S (see chi-nodes.ts), so that both tails keep relative accuracy.
 */
export function noncentralTCdf(
	t: number,
	degreesOfFreedom: number,
	noncentrality: number,
): number {
	requireNumber("the noncentral t distribution", t);
	requireDegreesOfFreedom("the noncentral t distribution", degreesOfFreedom);
	requireFinite(
		"the noncentrality of the noncentral t distribution",
		noncentrality,
	);
	const nodes = chiNodes(
		degreesOfFreedom,
		Math.max(Math.abs(t), Math.abs(noncentrality)),
	);
	let sum = 0;
	for (let index = 0; index < nodes.s.length; index++) {
		sum += nodes.weight[index] * normalCdf(t * nodes.s[index] - noncentrality);
	}
	return Math.min(1, sum);
}

/** P(T > t) for the noncentral t, with full relative accuracy in the upper tail. */
export function noncentralTUpperTail(
	t: number,
	degreesOfFreedom: number,
	noncentrality: number,
): number {
	return noncentralTCdf(-t, degreesOfFreedom, -noncentrality);
}
