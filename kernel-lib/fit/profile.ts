import { throwProblems } from "../quantity/index";
import { chiSquareQuantile, fQuantile } from "../stats/index";
import { createDescent, type Descent } from "./descent";
import { type Known, known, unknown } from "./known";
import { structureWithout } from "./linearity";
import type { StepSettings } from "./minimise";
import { unknownKeys, unknownParameters } from "./options";
import { type Fit, type Interval, type Limit, needsAllSets } from "./result";
import { objectiveOf, type Task, whitenedResponse } from "./task";
import type { Objective } from "./workspace";

/** How far the sum of squares may rise within the interval. */
export type ProfileRule =
	/** RSS(limit) = RSSmin (1 + F(confidence; 1, n-p) / (n-p)); with absolute sigmas, RSSmin + chi-square(confidence; 1). */
	| "F"
	/** n ln(RSS(limit) / RSSmin) = chi-square(confidence; 1), the likelihood ratio as it stands. */
	| "likelihood ratio";

export interface ProfileOptions {
	/** Which parameters; all free ones if not given. */
	readonly parameters?: readonly string[];
	readonly rule?: ProfileRule;
}

export interface ParameterInterval {
	readonly name: string;
	readonly unit: string;
	readonly value: number;
	readonly interval: Known<Interval>;
}

/** One end of a profile interval, in numbers only. */
export interface ProfileEnd {
	kind: "closed" | "open" | "at its limit" | "lower minimum";
	value: number;
}

/** Finds ends of profile intervals for many responses on the same points without allocating anew. */
export interface Profiler {
	/**
	 * Moves parameter j away from its best value until the least sum of squares over the other parameters reaches
	 * `target`. `firstStep` is a guess of the distance with its sign.
	 */
	end(
		response: Float64Array,
		theta: Float64Array,
		rss: number,
		target: number,
		j: number,
		firstStep: number,
		out: ProfileEnd,
	): void;
}

/**
 * Intervals by profile likelihood: a parameter is held at one value after another, the others are fitted again each
 * time, and the interval ends where the sum of squares has risen by the amount that the rule allows. Asymmetric where
 * the curve is, and open where the data set no end.
 *
 * Source: Bates and Watts 1988, Nonlinear Regression Analysis and its Applications, section 6.1; Venzon and Moolgavkar 1988, Appl. Stat. 37, 87.
 */
export function profileIntervals(
	fit: Fit,
	options: ProfileOptions = {},
): ParameterInterval[] {
	const { task } = fit;
	throwProblems([
		...unknownKeys(options, ["parameters", "rule"], { column: "options" }),
		...unknownParameters(
			options.parameters ?? [],
			task.free.map((j) => task.model.parameters[j].name),
			"parameters",
		),
	]);
	const rule = options.rule ?? "F";
	const wanted = task.free.filter(
		(j) =>
			options.parameters === undefined ||
			options.parameters.includes(task.model.parameters[j].name),
	);
	const reason = whyNoProfile(fit, rule);
	const objective = objectiveOf(task);
	const response = whitenedResponse(task);
	const profiler = createProfiler(task, objective);
	return wanted.map((j) => {
		const { name, unit } = task.model.parameters[j];
		return {
			name,
			unit,
			value: fit.theta[j],
			interval:
				reason !== ""
					? unknown(reason)
					: profileInterval(fit, profiler, response, j, rule),
		};
	});
}

function whyNoProfile(fit: Fit, rule: ProfileRule): string {
	if (fit.task.loss !== "squares")
		return `a profile needs a sum of squares, and this fit used the ${fit.task.loss} loss`;
	if (fit.scope === "one of several data sets") return needsAllSets;
	if (!fit.converged.holds) return fit.converged.reason;
	if (fit.degreesOfFreedom === 0 && !fit.task.sigmaIsAbsolute)
		return "as many free parameters as points leave no scatter to measure a rise by";
	if (rule === "likelihood ratio" && !(fit.residualSumOfSquares > 0))
		return "the curve goes through every point exactly";
	return "";
}

/** Sum of squares at the ends of an interval. */
export function profileTarget(
	task: Task,
	rss: number,
	degreesOfFreedom: number,
	rule: ProfileRule,
): number {
	if (task.sigmaIsAbsolute) return rss + chiSquareQuantile(task.confidence, 1);
	return rule === "F"
		? rss *
				(1 + fQuantile(task.confidence, 1, degreesOfFreedom) / degreesOfFreedom)
		: rss * Math.exp(chiSquareQuantile(task.confidence, 1) / task.points);
}

function profileInterval(
	fit: Fit,
	profiler: Profiler,
	response: Float64Array,
	j: number,
	rule: ProfileRule,
): Known<Interval> {
	const { task, theta } = fit;
	const rss = fit.residualSumOfSquares;
	const target = profileTarget(task, rss, fit.degreesOfFreedom, rule);
	const se = fit.parameters[j].standardError;
	const step =
		se.kind === "known" && se.value > 0
			? 2 * se.value
			: 0.1 * Math.abs(theta[j]) || 1;
	const out: ProfileEnd = { kind: "closed", value: 0 };
	const end = (direction: number): ProfileEnd => {
		profiler.end(response, theta, rss, target, j, direction * step, out);
		return { ...out };
	};
	const low = end(-1);
	const high = end(1);
	if (low.kind === "lower minimum" || high.kind === "lower minimum")
		return unknown(
			'the profile found a lower sum of squares than the fit; fit again with search: "always"',
		);
	return known({
		low: limitOf(low, theta[j]),
		high: limitOf(high, theta[j]),
		confidence: task.confidence,
		method:
			rule === "F"
				? "profile likelihood, F rule"
				: "profile likelihood, likelihood-ratio rule",
	});
}

function limitOf(end: ProfileEnd, from: number): Limit {
	if (end.kind === "closed") return { kind: "closed", value: end.value };
	if (end.kind === "at its limit")
		return { kind: "at its limit", value: end.value };
	return {
		kind: "open",
		reason: `the sum of squares stays below the allowed rise from ${Number(from.toPrecision(3))} to beyond ${Number(end.value.toPrecision(2))}: the data set no end on this side`,
	};
}

/** Growth of the step while the interval's end is sought, how often, and the relative rise over one such step that counts as none. */
const growth = 3;
const mostGrowths = 40;
const levelRise = 1e-3;

export function createProfiler(task: Task, objective: Objective): Profiler {
	const size = task.start.length;
	const settings: StepSettings = {
		lower: task.lower,
		upper: task.upper,
		tolerance: 1e-7,
		maxEvaluations: task.maxEvaluations,
		firstRadius: 1,
	};
	const descents = new Map<number, Descent>();
	const descentWithout = (j: number): Descent => {
		let descent = descents.get(j);
		if (descent === undefined) {
			descent = createDescent(objective, structureWithout(task.structure, j));
			descents.set(j, descent);
		}
		return descent;
	};
	const at = new Float64Array(size);
	return {
		end: (response, theta, rss, target, j, firstStep, out) => {
			const allowed = Math.sqrt(target - rss);
			const bound = firstStep > 0 ? task.upper[j] : task.lower[j];
			const best = theta[j];
			for (let i = 0; i < size; i++) at[i] = theta[i];
			// The root of the rise is nearly straight in the parameter, so it is what the secant works on.
			const descent = descentWithout(j);
			let lowest = rss;
			const miss = (value: number): number => {
				at[j] = value;
				const least = descent.run(response, at, settings).rss;
				if (least < lowest) lowest = least;
				const rise = least - rss;
				return (rise > 0 ? Math.sqrt(rise) : 0) - allowed;
			};
			let inside = best;
			let missInside = -allowed;
			let step = firstStep;
			let level = 0;
			for (let grown = 0; ; grown++) {
				let value = best + step;
				const reachesBound = firstStep > 0 ? value >= bound : value <= bound;
				if (reachesBound) value = bound;
				const missHere = miss(value);
				if (missHere >= 0) {
					closeIn(miss, inside, missInside, value, missHere, allowed, out);
					break;
				}
				if (reachesBound) {
					out.kind = "at its limit";
					out.value = bound;
					break;
				}
				const gained = missHere - missInside;
				level = gained < levelRise * allowed ? level + 1 : 0;
				if (level === 4 || grown === mostGrowths) {
					out.kind = "open";
					out.value = value;
					break;
				}
				inside = value;
				missInside = missHere;
				// Where the secant is straight it says how far to go; where it bends, go a good deal farther.
				const needed = (allowed / (missHere + allowed)) * step;
				step =
					Math.abs(needed) < growth * Math.abs(step) &&
					missHere > -0.5 * allowed
						? 1.1 * needed
						: growth * step;
			}
			if (lowest < rss - 1e-6 * (target - rss)) out.kind = "lower minimum";
		},
	};
}

/** Illinois method between an inside and an outside value, to nine digits of the rise. */
function closeIn(
	miss: (value: number) => number,
	inside: number,
	missInside: number,
	outside: number,
	missOutside: number,
	allowed: number,
	out: ProfileEnd,
): void {
	let a = inside;
	let fa = missInside;
	let b = outside;
	let fb = missOutside;
	let c = b;
	for (let round = 0; round < 100; round++) {
		c = Number.isFinite(fb) ? b - (fb * (b - a)) / (fb - fa) : (a + b) / 2;
		if (!(c > Math.min(a, b) && c < Math.max(a, b))) c = (a + b) / 2;
		const fc = miss(c);
		if (Math.abs(fc) < 1e-9 * allowed || Math.abs(b - a) < 1e-13 * Math.abs(b))
			break;
		if (fc * fb < 0) {
			a = b;
			fa = fb;
		} else fa /= 2;
		b = c;
		fb = fc;
	}
	out.kind = "closed";
	out.value = c;
}
