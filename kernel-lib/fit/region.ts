import {
	known,
	type MaybeKnown,
	notKnown,
	type OptionRule,
	optionProblems,
	problem,
	throwProblems,
} from "../quantity";
import { chiSquareQuantile, fQuantile } from "../stats";
import { createDescent } from "./descent";
import { structureWithout } from "./linearity";
import { unknownParameters } from "./names";
import { type Fit, needsAllSets } from "./result";
import type { DescentSettings } from "./settings";
import { objectiveOf, whitenedResponse } from "./task";

/** One point of the region's edge, seen from the estimate. */
export interface RegionPoint {
	readonly first: number;
	readonly second: number;
	/** "open": the region has no edge in this direction as far as was looked; the point is where the looking ended. */
	readonly edge: "closed" | "open";
}

export interface JointRegion {
	readonly first: string;
	readonly second: string;
	readonly confidence: number;
	/** Around the estimate, in order of direction. */
	readonly points: readonly RegionPoint[];
}

const optionRules: Readonly<Record<string, OptionRule>> = {
	directions: {
		expected: "a whole number from 8 to 100000, 64 if not given",
		accepts: (v) =>
			Number.isInteger(v) && (v as number) >= 8 && (v as number) <= 1e5,
	},
};

/** How far along one direction the edge is sought, in units of the ellipse that the standard errors give. */
const farthest = 1e4;

/**
 * The joint confidence region of two parameters: all pairs at which the least sum of squares over the other parameters
 * is at most RSSmin (1 + 2 F(confidence; 2, n-p) / (n-p)), or RSSmin + chi-square(confidence; 2) with absolute sigmas.
 * The edge is found along equally spaced directions (64 if not given otherwise) of the ellipse that it would be if the
 * curve were straight in its parameters. Source: Bates and Watts 1988, section 6.1.
 */
export function jointRegion(
	fit: Fit,
	first: string,
	second: string,
	options: { readonly directions?: number } = {},
): MaybeKnown<JointRegion> {
	const { task, theta } = fit;
	const names = task.free.map((j) => task.model.parameters[j].name);
	const problems = [
		...optionProblems(options, optionRules, "jointRegion"),
		...unknownParameters([first, second], names, "parameters"),
	];
	const count = options.directions ?? 64;
	if (first === second)
		problems.push(
			problem(
				"same-parameter-twice",
				{ call: "parameters" },
				`"${first}" twice`,
				"two different free parameters",
				"Name another one.",
			),
		);
	throwProblems(problems);
	if (task.loss !== "squares")
		return notKnown("a joint region needs a sum of squares to rise");
	if (fit.scope === "one of several data sets") return notKnown(needsAllSets);
	if (!fit.converged.holds) return notKnown(fit.converged.reason);
	if (fit.covariance.is === "not known") return fit.covariance;
	const a = task.model.parameters.findIndex((p) => p.name === first);
	const b = task.model.parameters.findIndex((p) => p.name === second);
	const size = theta.length;
	const c = fit.covariance.value;
	const variances: Variances = {
		first: c[a * size + a],
		second: c[b * size + b],
		covariance: c[a * size + b],
	};
	if (!(variances.first > 0 && variances.second > 0))
		return notKnown(
			"one of the two sits on a limit, so the data do not place it",
		);
	const df = fit.degreesOfFreedom;
	const rss = fit.residualSumOfSquares;
	const rise = task.sigmaIsAbsolute
		? chiSquareQuantile(task.confidence, 2)
		: 2 * fQuantile(task.confidence, 2, df);
	const target = task.sigmaIsAbsolute ? rss + rise : rss * (1 + rise / df);
	const held = riseOver(fit, a, b);
	const points = Array.from({ length: count }, (_, k): RegionPoint => {
		const along = ellipse(variances, rise, (2 * Math.PI * k) / count);
		const place = (radius: number): Place => ({
			first: theta[a] + radius * along.first,
			second: theta[b] + radius * along.second,
		});
		held.begin();
		const { radius, edge } = edgeAlong(
			(r) =>
				Math.sqrt(Math.max(0, held.at(place(r)))) - Math.sqrt(target - rss),
		);
		return { ...place(radius), edge };
	});
	return known({ first, second, confidence: task.confidence, points });
}

interface Place {
	readonly first: number;
	readonly second: number;
}

interface Variances extends Place {
	readonly covariance: number;
}

/** Where the edge would lie at an angle if the curve were straight in its parameters: by the Cholesky factor of the covariance of the two, stretched to the confidence. */
function ellipse(variances: Variances, rise: number, angle: number): Place {
	const { first, second, covariance } = variances;
	const stretch = Math.sqrt(rise);
	const slope = (stretch * covariance) / Math.sqrt(first);
	const rest =
		stretch * Math.sqrt(Math.max(0, second - covariance ** 2 / first));
	return {
		first: Math.cos(angle) * stretch * Math.sqrt(first),
		second: Math.cos(angle) * slope + Math.sin(angle) * rest,
	};
}

/** How far the least sum of squares over the other parameters rises where parameters a and b are held; each search begins where the last one of its direction ended. */
function riseOver(
	fit: Fit,
	a: number,
	b: number,
): { begin(): void; at(place: Place): number } {
	const { task, theta } = fit;
	const descent = createDescent(
		objectiveOf(task),
		structureWithout(structureWithout(task.structure, a), b),
	);
	const response = whitenedResponse(task);
	const settings: DescentSettings = {
		lower: task.lower,
		upper: task.upper,
		tolerance: 1e-7,
		maxEvaluations: task.maxEvaluations,
		firstRadius: 1,
	};
	const isOutside = (value: number, j: number): boolean =>
		value < task.lower[j] || value > task.upper[j];
	const at = theta.slice();
	return {
		begin: () => at.set(theta),
		at: ({ first, second }) => {
			if (isOutside(first, a) || isOutside(second, b))
				return Number.POSITIVE_INFINITY;
			at[a] = first;
			at[b] = second;
			return descent.run(response, at, settings).rss - fit.residualSumOfSquares;
		},
	};
}

/** The radius at which `miss` changes its sign, by doubling and halving; open where it does not as far as is looked. */
function edgeAlong(miss: (radius: number) => number): {
	readonly radius: number;
	readonly edge: RegionPoint["edge"];
} {
	let inner = 0;
	let outer = 1;
	while (miss(outer) < 0 && outer < farthest) {
		inner = outer;
		outer *= 2;
	}
	if (outer >= farthest) return { radius: outer, edge: "open" };
	for (let round = 0; round < 60 && outer - inner > 1e-8 * outer; round++) {
		const middle = (inner + outer) / 2;
		if (miss(middle) < 0) inner = middle;
		else outer = middle;
	}
	return { radius: (inner + outer) / 2, edge: "closed" };
}
