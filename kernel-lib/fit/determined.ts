import type { MaybeKnown } from "../quantity";
import type { Factor } from "./covariance";
import type { Flag } from "./flag";
import { createProfiler, type ProfileEnd, profileTarget } from "./profile";
import type { FittedParameter } from "./result";
import type { Task } from "./task";
import type { Objective } from "./workspace";

/** Standard errors above this share of a parameter's size mean that the data do not settle it: its 95 % interval then spans a factor of about three. Our decision. */
const looseness = 0.25;

/** A profile interval one arm of which is longer than the other by more than this factor shows that the standard error is no measure. Our decision. */
const lopsided = 2;

/** What the flag is judged from. */
export interface Settled {
	readonly task: Task;
	readonly objective: Objective;
	/** y in units of the points' errors. */
	readonly response: Float64Array;
	readonly theta: Float64Array;
	readonly parameters: readonly FittedParameter[];
	readonly residualSumOfSquares: number;
	readonly degreesOfFreedom: number;
	readonly factor: Factor;
}

/**
 * Whether the data settle every parameter, with the reason. A standard error is held against the parameter's size:
 * - for a parameter in which the curve is linear, its value or, if greater, the value at which its term alone would be
 *   as large as the points (an intercept of 0.1 with an error of 0.2 under readings of 50 is settled);
 * - for one that may have either sign (a shift, a phase), its value; where that is too near 0 to say anything, the
 *   profile interval decides: it must close on both sides with arms alike;
 * - for any other (a rate, an affinity, an exponent), its value.
 */
export function determinedFlag(fit: Settled): Flag {
	const reasons = fit.parameters.flatMap((p, j) => looseReason(fit, p, j));
	return reasons.length > 0
		? { holds: false, reason: reasons.join("; ") }
		: {
				holds: true,
				reason: "every free parameter has an error well below its size",
			};
}

function looseReason(fit: Settled, p: FittedParameter, j: number): string[] {
	if (p.standardError.is === "not known") return [];
	const share = p.standardError.value / Math.abs(p.value);
	if (share <= looseness) return [];
	const relative = `the standard error of ${p.name} is ${partOf(share, "its value")}`;
	if (fit.task.structure.linear.includes(j)) {
		const ofPoints = p.standardError.value / sizeOfPoints(fit, j);
		if (ofPoints <= looseness) return [];
		return [
			ofPoints < 0.99 * share
				? `the standard error of ${p.name} moves the curve by ${partOf(ofPoints, "the points")}`
				: relative,
		];
	}
	const mayChangeSign = fit.task.lower[j] < 0 && fit.task.upper[j] > 0;
	if (!mayChangeSign || fit.task.loss !== "squares") return [relative];
	const trouble = profileTrouble(fit, j, p.standardError);
	return trouble === "" ? [] : [`${p.name} ${trouble}`];
}

/** The value of parameter j at which its term alone would be as large as the points. */
function sizeOfPoints({ response, factor }: Settled, j: number): number {
	const norm = factor.norms[factor.columns.indexOf(j)];
	return Math.sqrt(response.reduce((sum, y) => sum + y * y, 0)) / norm;
}

/** What is wrong with the profile interval, in words that follow the parameter's name; empty if nothing. */
function profileTrouble(
	fit: Settled,
	j: number,
	standardError: MaybeKnown<number>,
): string {
	const { task, theta, residualSumOfSquares: rss, degreesOfFreedom } = fit;
	if (standardError.is === "not known") return "";
	const target = profileTarget(task, rss, degreesOfFreedom, "F");
	const profiler = createProfiler(task, fit.objective);
	const none = new Float64Array(theta.length);
	const arm = (direction: number): number => {
		const end: ProfileEnd = { kind: "closed", value: 0 };
		const step = 2 * direction * standardError.value;
		profiler.end(fit.response, theta, rss, target, j, step, none, end);
		return end.kind === "closed"
			? Math.abs(end.value - theta[j])
			: Number.POSITIVE_INFINITY;
	};
	const arms = [arm(-1), arm(1)];
	const longer = Math.max(...arms);
	if (longer === Number.POSITIVE_INFINITY)
		return "has no end to its interval on one side";
	return longer > lopsided * Math.min(...arms)
		? "has an interval much longer on one side than on the other"
		: "";
}

function partOf(share: number, whole: string): string {
	return share < 100
		? `${Math.round(100 * share)} % of ${whole}`
		: `many times ${whole}`;
}
