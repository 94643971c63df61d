import type { Structure } from "./linearity";
import type { CurveOverArray, DerivativesOverArray } from "./model";

/**
 * Relative step of the five-point difference. Its truncation goes with the fourth power of the step, its rounding with
 * the inverse: at 3e-4 both stay near 1e-12 for a smooth curve, and a curve that turns many times over the parameter's
 * own size (a phase of 40 radians, say) still gets nine digits.
 */
const relativeStep = 3e-4;

/** Evaluates the curve with parameter j moved by `shift`; whether it is finite there. */
type Shifted = (j: number, shift: number, into: Float64Array) => boolean;

/**
 * Derivatives of a curve that comes without them. Where the curve is linear in a parameter the difference over a whole
 * unit is exact; the others are taken by central differences of fourth order, (f(-2h) - 8 f(-h) + 8 f(h) - f(2h)) / 12h. Where the curve is not finite on one side (a logarithm at its edge), the one-sided difference of third order is used.
 * Source of the formulas: Abramowitz and Stegun, 25.3.6 and 25.3.4.
 */
export function numericalDerivatives(
	evaluate: CurveOverArray,
	parameterCount: number,
	structure: Pick<Structure, "linear" | "form">,
): DerivativesOverArray {
	const moved = new Float64Array(parameterCount);
	let values = Array.from({ length: 4 }, () => new Float64Array(0));
	return (parameters, x, out) => {
		const points = out.length / parameterCount;
		if (values[0].length !== points)
			values = values.map(() => new Float64Array(points));
		moved.set(parameters);
		const at: Shifted = (j, shift, into) => {
			moved[j] = parameters[j] + shift;
			evaluate(moved, x, into);
			moved[j] = parameters[j];
			return into.every(Number.isFinite);
		};
		const [a, b, c, d] = values;
		if (structure.form === "offset") {
			for (const j of structure.linear) moved[j] = 0;
			evaluate(moved, x, a);
		} else a.fill(0);
		for (const j of structure.linear) {
			for (const other of structure.linear) moved[other] = other === j ? 1 : 0;
			const column = out.subarray(j * points, (j + 1) * points);
			evaluate(moved, x, column);
			for (let i = 0; i < points; i++) column[i] -= a[i];
		}
		moved.set(parameters);
		for (let j = 0; j < parameterCount; j++) {
			if (structure.linear.includes(j)) continue;
			const h = representableStep(
				parameters[j],
				isAsGoodAsZero(parameters[j], j, at, a, b)
					? stepFromZero(j, at, a, b)
					: relativeStep * Math.abs(parameters[j]),
			);
			const column = out.subarray(j * points, (j + 1) * points);
			const below = at(j, -2 * h, a) && at(j, -h, b);
			const above = at(j, h, c) && at(j, 2 * h, d);
			if (below === above) {
				for (let i = 0; i < points; i++)
					column[i] = (a[i] - d[i] + 8 * (c[i] - b[i])) / (12 * h);
			} else {
				const s = above ? h : -h;
				at(j, 0, a);
				at(j, s, b);
				at(j, 2 * s, c);
				at(j, 3 * s, d);
				for (let i = 0; i < points; i++)
					column[i] = (-11 * a[i] + 18 * b[i] - 9 * c[i] + 2 * d[i]) / (6 * s);
			}
		}
	};
}

/** A step that the parameter can take without rounding. */
function representableStep(at: number, step: number): number {
	return at + step - at || step;
}

/** Below this a parameter may be a 0 that rounding has moved; whether it is, the curve tells. */
const mayBeZero = 1e-9;

/** A parameter of 0, or one so near to it that a step in proportion to it leaves the curve where it is, to rounding. */
function isAsGoodAsZero(
	parameter: number,
	j: number,
	at: Shifted,
	base: Float64Array,
	moved: Float64Array,
): boolean {
	if (parameter === 0) return true;
	if (Math.abs(parameter) > mayBeZero) return false;
	return (
		at(j, 0, base) &&
		at(j, relativeStep * Math.abs(parameter), moved) &&
		!isMoved(base, moved, 1e-13)
	);
}

/** Whether any point has moved by more than this share of the largest. */
function isMoved(
	base: Float64Array,
	moved: Float64Array,
	share: number,
): boolean {
	let size = 0;
	let change = 0;
	for (let i = 0; i < base.length; i++) {
		size = Math.max(size, Math.abs(base[i]), Math.abs(moved[i]));
		change = Math.max(change, Math.abs(moved[i] - base[i]));
	}
	return change > share * size;
}

/** From a parameter of 0 there is no size to go by: the least power of ten that moves the curve visibly. */
function stepFromZero(
	j: number,
	at: Shifted,
	base: Float64Array,
	moved: Float64Array,
): number {
	at(j, 0, base);
	for (let exponent = -12; exponent < 6; exponent++) {
		const h = 10 ** exponent;
		if (!at(j, h, moved) && !at(j, -h, moved)) break;
		if (isMoved(base, moved, 1e-4)) return h;
	}
	return 1e-4;
}
