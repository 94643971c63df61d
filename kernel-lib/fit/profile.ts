import {
	known,
	listOption,
	type MaybeKnown,
	notKnown,
	optionProblems,
	textOption,
	throwProblems,
	wordOption,
} from "../quantity";
import { chiSquareQuantile, studentTQuantile } from "../stats";
import { createDescent, type Descent } from "./descent";
import { requireFit } from "./doors";
import { structureWithout } from "./linearity";
import { unknownParameters } from "./names";
import { type Fit, type Interval, type Limit, needsAllSets } from "./result";
import type { DescentSettings } from "./settings";
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
	readonly interval: MaybeKnown<Interval>;
}

/** One end of a profile interval, in numbers only. */
export interface ProfileEnd {
	kind: "closed" | "open" | "at its limit" | "lower minimum";
	value: number;
}

/** Finds ends of profile intervals on the same points without allocating anew. */
export interface Profiler {
	/**
	 * Moves parameter j away from its best value until the least sum of squares over the other parameters reaches
	 * `target`. `firstStep` is a guess of the distance with its sign; `slopes`, how the other parameters move with
	 * parameter j at first (zeros if not known).
	 */
	end(
		response: Float64Array,
		theta: Float64Array,
		rss: number,
		target: number,
		j: number,
		firstStep: number,
		slopes: Float64Array,
		out: ProfileEnd,
	): void;
}

/**
 * Intervals by profile likelihood: a parameter is held at one value after another, the others are fitted again each
 * time, and the interval ends where the sum of squares has risen by the amount that the rule allows. Asymmetric where
 * the curve is, and open where the data set no end.
 *
 * Source: Bates and Watts 1988, Nonlinear Regression Analysis and its Applications, section 6.1; Venzon and Moolgavkar 1988, Appl. Stat. 37, 87.
 * @throws ProblemError for a parameter or an option that there is not
 * @example
 * const line = fit.defineModel({ name: "line", parameters: ["a", "b"], curve: (x, a, b) => a + b * x });
 * const found = fit.fit(line, { x: [0, 1, 2, 3], y: [1, 3, 3, 5] });
 * const { interval } = fit.profileIntervals(found)[1];
 * interval.is === "value" && interval.value.low // => { "kind": "closed", "value": -0.016974 }
 */
export function profileIntervals(
	fit: Fit,
	options: ProfileOptions = {},
): ParameterInterval[] {
	requireFit(fit, "profileIntervals");
	const { task } = fit;
	throwProblems([
		...optionProblems(
			options,
			{
				parameters: listOption(textOption),
				rule: wordOption("F", "likelihood ratio"),
			},
			"profileIntervals",
		),
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
	const target =
		reason === ""
			? profileTarget(
					task,
					fit.residualSumOfSquares,
					fit.degreesOfFreedom,
					rule,
				)
			: 0;
	const response = whitenedResponse(task);
	const profiler = createProfiler(task, objectiveOf(task));
	return wanted.map((j) => {
		const { name, unit } = task.model.parameters[j];
		return {
			name,
			unit,
			value: fit.theta[j],
			interval:
				reason !== ""
					? notKnown(reason)
					: profileInterval(fit, profiler, response, j, target, rule),
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

/** Sum of squares at the ends of an interval. F with one degree of freedom is the square of Student's t, which is quicker. */
export function profileTarget(
	task: Task,
	rss: number,
	degreesOfFreedom: number,
	rule: ProfileRule,
): number {
	if (task.sigmaIsAbsolute) return rss + chiSquareQuantile(task.confidence, 1);
	return rule === "F"
		? rss *
				(1 +
					studentTQuantile(0.5 + task.confidence / 2, degreesOfFreedom) ** 2 /
						degreesOfFreedom)
		: rss * Math.exp(chiSquareQuantile(task.confidence, 1) / task.points);
}

function profileInterval(
	fit: Fit,
	profiler: Profiler,
	response: Float64Array,
	j: number,
	target: number,
	rule: ProfileRule,
): MaybeKnown<Interval> {
	const { task, theta } = fit;
	const size = theta.length;
	const rss = fit.residualSumOfSquares;
	const se = fit.parameters[j].standardError;
	const variance = task.sigmaIsAbsolute ? 1 : rss / fit.degreesOfFreedom;
	const slopes = new Float64Array(size);
	let step = 0.1 * Math.abs(theta[j]) || 1;
	if (se.is === "value" && se.value > 0) {
		// Where the end would be if the curve were straight in its parameters, and which way the others would move.
		step = se.value * Math.sqrt((target - rss) / variance);
		if (fit.covariance.is === "value")
			for (let i = 0; i < size; i++)
				slopes[i] = fit.covariance.value[i * size + j] / se.value ** 2;
	}
	const low: ProfileEnd = { kind: "closed", value: 0 };
	const high: ProfileEnd = { kind: "closed", value: 0 };
	profiler.end(response, theta, rss, target, j, -step, slopes, low);
	profiler.end(response, theta, rss, target, j, step, slopes, high);
	if (low.kind === "lower minimum" || high.kind === "lower minimum")
		return notKnown(
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
/** How much farther than the straight line says the next place is sought, in parts of the way that is missing and of the whole. */
const overshoot = 1.2;
const leastOvershoot = 1e-4;
/** A parameter's own limit is neared in steps that leave a tenth of the way to it, then the square of what was left before: on the limit itself a curve may be no curve any more (an affinity of 0 leaves no uptake, however great the plateau). */
const firstLeft = 0.1;
const leastLeft = 1e-30;
/** Once the last two misses, as parts of the allowed rise, multiply to less than this, a straight step through them needs no look at its end: it is off by about their product. */
const sureStep = 1e-9;

export function createProfiler(task: Task, objective: Objective): Profiler {
	const size = task.start.length;
	const settings: DescentSettings = {
		lower: task.lower,
		upper: task.upper,
		// The sum of squares is off by the square of this.
		tolerance: 1e-5,
		maxEvaluations: task.maxEvaluations,
		firstRadius: 1,
	};
	const descents: Descent[] = [];
	const descentWithout = (j: number): Descent => {
		descents[j] ??= createDescent(
			objective,
			structureWithout(task.structure, j),
		);
		return descents[j];
	};
	const at = new Float64Array(size);
	const insideAt = new Float64Array(size);
	const outsideAt = new Float64Array(size);
	const slope = new Float64Array(size);
	return {
		end: (response, theta, rss, target, j, firstStep, slopes, out) => {
			const allowed = Math.sqrt(target - rss);
			const bound = firstStep > 0 ? task.upper[j] : task.lower[j];
			const best = theta[j];
			const descent = descentWithout(j);
			let lowest = rss;
			/** The root of the rise, less the root of what is allowed: nearly straight in the parameter, so it is what is searched. The others' refit starts from `at`. */
			const miss = (value: number): number => {
				at[j] = value;
				const least = descent.run(response, at, settings).rss;
				if (least < lowest) lowest = least;
				const rise = least - rss;
				return (rise > 0 ? Math.sqrt(rise) : 0) - allowed;
			};
			insideAt.set(theta);
			slope.set(slopes);
			let inside = best;
			let missInside = -allowed;
			let known = Math.abs(firstStep);
			let step = firstStep;
			let level = 0;
			let left = firstLeft;
			for (let grown = 0; ; grown++) {
				let value = best + step;
				const nearsBound =
					Math.abs(step) >= Math.abs(bound - best) * (1 - left);
				if (nearsBound) {
					value = bound + left * (best - bound);
					left *= left;
				}
				const ahead = value - inside;
				// The others move on as they did, unless that reaches farther than it is known.
				const reach = Math.abs(ahead) <= 1.01 * known ? ahead : 0;
				startOthers(at, insideAt, slope, reach);
				const missHere = miss(value);
				if (missHere >= 0) {
					outsideAt.set(at);
					closeIn(inside, missInside, value, missHere);
					break;
				}
				const gained = missHere - missInside;
				if (nearsBound || Math.abs(ahead) > 0.5 * Math.abs(step))
					level = gained < levelRise * allowed ? level + 1 : 0;
				if (nearsBound && (level === 2 || left < leastLeft)) {
					out.kind = "at its limit";
					out.value = bound;
					break;
				}
				if (level === 4 || grown === mostGrowths) {
					out.kind = "open";
					out.value = value;
					break;
				}
				for (let i = 0; i < size; i++) slope[i] = (at[i] - insideAt[i]) / ahead;
				known = Math.abs(ahead);
				insideAt.set(at);
				inside = value;
				missInside = missHere;
				// As far as the line through the last two places says, and somewhat more, for the curve may bend away from it.
				const needed = (overshoot * -missHere * known) / gained;
				const far = Math.abs(step);
				step =
					Math.sign(step) *
					(gained > 0 && needed < (growth - 1) * far
						? (1 + leastOvershoot) * far + needed
						: growth * far);
			}
			if (lowest < rss - 1e-6 * (target - rss)) out.kind = "lower minimum";

			/**
			 * Root between an inside and an outside value: inverse quadratic interpolation through the last three places
			 * where it stays between the two, the Illinois secant where it does not, halving where neither gets on.
			 */
			function closeIn(
				fromInside: number,
				fInside: number,
				fromOutside: number,
				fOutside: number,
			): void {
				out.kind = "closed";
				let a = fromInside;
				let fa = fInside;
				let b = fromOutside;
				let fb = fOutside;
				// The place that was an end before, and how often the same end has moved (the outside counted up, the inside down): an end that stays too long is given less weight.
				let c = best;
				let fc = -allowed;
				let last = b;
				let lastMiss = fb;
				let moved = 0;
				for (let round = 0; round < 100; round++) {
					let value = inverseQuadratic(a, fa, b, fb, c, fc);
					if (!strictlyBetween(value, a, b) || Math.abs(moved) > 1) {
						const wa = moved > 1 ? fa / 2 ** (moved - 1) : fa;
						const wb = moved < -1 ? fb / 2 ** (-moved - 1) : fb;
						value = b - (wb * (b - a)) / (wb - wa);
					}
					if (!strictlyBetween(value, a, b) || Math.abs(moved) > 4)
						value = (a + b) / 2;
					out.value = value;
					if (Math.abs(b - a) < 1e-13 * Math.abs(b)) break;
					const share = (value - a) / (b - a);
					for (let i = 0; i < size; i++) slope[i] = outsideAt[i] - insideAt[i];
					startOthers(at, insideAt, slope, share);
					const f = miss(value);
					if (Math.abs(f * lastMiss) < sureStep * allowed * allowed) {
						if (f !== lastMiss)
							out.value = value - (f * (value - last)) / (f - lastMiss);
						return;
					}
					if (f < 0) {
						c = a;
						fc = fa;
						a = value;
						fa = f;
						insideAt.set(at);
						moved = moved < 0 ? moved - 1 : -1;
					} else {
						c = b;
						fc = fb;
						b = value;
						fb = f;
						outsideAt.set(at);
						moved = moved > 0 ? moved + 1 : 1;
					}
					last = value;
					lastMiss = f;
				}
				// The curve cannot be computed beyond, which is no end that the data set.
				if (fb === Number.POSITIVE_INFINITY) out.kind = "open";
			}
		},
	};
}

/** Sets the start of a refit to `from` moved along `slope`; a parameter that would move by more than half of itself stays. */
function startOthers(
	at: Float64Array,
	from: Float64Array,
	slope: Float64Array,
	by: number,
): void {
	for (let i = 0; i < at.length; i++) {
		const move = by * slope[i];
		at[i] =
			Math.abs(move) <= 0.5 * Math.abs(from[i]) ? from[i] + move : from[i];
	}
}

function strictlyBetween(value: number, a: number, b: number): boolean {
	return value > Math.min(a, b) && value < Math.max(a, b);
}

/** Root of the parabola in f through three places; not finite where two of them coincide or f is not. */
function inverseQuadratic(
	a: number,
	fa: number,
	b: number,
	fb: number,
	c: number,
	fc: number,
): number {
	return (
		(a * fb * fc) / ((fa - fb) * (fa - fc)) +
		(b * fa * fc) / ((fb - fa) * (fb - fc)) +
		(c * fa * fb) / ((fc - fa) * (fc - fb))
	);
}
