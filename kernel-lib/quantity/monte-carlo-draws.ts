import { refuse } from "../problem";
import {
	createRandom,
	createSobol,
	normalCdf,
	SOBOL_MAX_DIMENSIONS,
} from "../stats";
import type { BlockPlan, Draw } from "./block-plan";
import { sensitivities } from "./graph";
import type { QuantityNode } from "./quantity";
import type { Input } from "./source";
import { studentFromNormal } from "./student-deviates";

/** Trials that are computed at once: the columns of a chain stay in the processor's nearest memory. */
export const blockLength = 1024;

/** Independent draws. */
export function randomDraw(plan: BlockPlan, seed: number | string): Draw {
	const random = createRandom(seed);
	const inputs = plan.inputs.map((p) => p.input);
	return (i, column) => {
		const { distribution, degreesOfFreedom } = inputs[i];
		switch (distribution) {
			case "rectangular":
				return random.fillRectangular(column);
			case "triangular":
				return random.fillTriangular(column);
			case "student":
				return random.fillStudentT(column, degreesOfFreedom);
			default:
				return random.fillNormal(column);
		}
	};
}

function triangularQuantile(p: number): number {
	return p < 0.5 ? Math.sqrt(2 * p) - 1 : 1 - Math.sqrt(2 * (1 - p));
}

/** Turns standard normal deviates into deviates of another distribution of the same probability, in place: limits at plus and minus 1, Student's t as it is. */
function fromNormal(column: Float64Array, input: Input): void {
	const { distribution, degreesOfFreedom } = input;
	if (distribution === "student") studentFromNormal(column, degreesOfFreedom);
	if (distribution === "rectangular")
		for (let j = 0; j < column.length; j++)
			column[j] = 2 * normalCdf(column[j]) - 1;
	if (distribution === "triangular")
		for (let j = 0; j < column.length; j++)
			column[j] = triangularQuantile(normalCdf(column[j]));
}

/** Standard deviation that the trials of an input have: Student's t is wider than its scale; without a variance, ten times is wide enough to point the way. */
function effectiveSpread({
	uncertainty,
	distribution,
	degreesOfFreedom: df,
}: Input): number {
	return distribution !== "student"
		? uncertainty
		: uncertainty * (df > 2 ? Math.sqrt(df / (df - 2)) : 10);
}

/** The direction in which a result changes fastest, its inputs counted in their own spreads; of length 1, or all zero. */
function steepest(plan: BlockPlan, root: QuantityNode): Float64Array {
	const found = sensitivities(root);
	const gradient = Float64Array.from(plan.inputs, ({ input }) => {
		const s = found.get(input.key);
		return s === undefined ? 0 : s.derivative * effectiveSpread(input);
	});
	const length = Math.hypot(...gradient);
	return length === 0 ? gradient : gradient.map((g) => g / length);
}

/** Householder vector v with v'v = 2: I - v v' turns the first coordinate axis into a direction. Empty where it is that axis already. */
function householder(direction: Float64Array): Float64Array {
	const v = direction.map((d, i) => d - (i === 0 ? 1 : 0));
	const size = Math.hypot(...v);
	return size < 1e-12 || direction.every((d) => d === 0)
		? new Float64Array(0)
		: v.map((x) => (x / size) * Math.SQRT2);
}

/**
 * Draws from a scrambled Sobol sequence. Its points are best spread along the first coordinate, so the standard normal deviates are turned until that coordinate is the
 * direction in which the result changes fastest (the linear transformation of Imai and Tan (2006), J. Comput. Finance 10, 129; from memory); other distributions are
 * reached from the turned normal deviates, so that normal inputs gain most and heavy-tailed ones least.
 */
export function sobolDraw(
	plan: BlockPlan,
	root: QuantityNode,
	seed: number | string,
): (first: number, length: number) => Draw {
	const dimensions = plan.inputs.length;
	if (dimensions > SOBOL_MAX_DIMENSIONS)
		refuse(
			"too-many-inputs",
			"monteCarlo",
			`${dimensions} uncertain inputs`,
			`up to ${SOBOL_MAX_DIMENSIONS} for a low-discrepancy sequence`,
			'Take sampling: "random".',
		);
	const sobol = createSobol(dimensions, seed);
	const v = householder(steepest(plan, root));
	const columns = plan.inputs.map(() => new Float64Array(blockLength));
	const along = new Float64Array(blockLength);
	return (first, length) => {
		along.fill(0);
		columns.forEach((w, i) => {
			sobol.fillNormal(i, first, w.subarray(0, length));
			if (v.length > 0) addScaled(along, w, v[i]);
		});
		if (v.length > 0)
			columns.forEach((w, i) => {
				addScaled(w, along, -v[i]);
			});
		return (i, column) => {
			column.set(columns[i].subarray(0, column.length));
			fromNormal(column, plan.inputs[i].input);
		};
	};
}

function addScaled(to: Float64Array, x: Float64Array, factor: number): void {
	for (let j = 0; j < to.length; j++) to[j] += factor * x[j];
}
