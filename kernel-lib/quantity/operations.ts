/**
 * The operations that an expression graph is made of. Each knows its value, its exact derivatives and how to do a whole block at once, so that first-order
 * propagation and Monte Carlo walk the same graph. All numbers are in base units.
 */
export interface Operation {
	readonly id: string;
	/** `parameter` is the operation's constant: a factor or an exponent. */
	evaluate(x: readonly number[], parameter: number): number;
	/** Partial derivative with respect to operand i. */
	derivative(x: readonly number[], parameter: number, i: number): number;
	/** Block form: out[j] = evaluate([x0[j], x1[j], ...]). Lengths all equal. */
	evaluateBlock(
		x: readonly Float64Array[],
		parameter: number,
		out: Float64Array,
	): void;
}

export const sum: Operation = {
	id: "sum",
	evaluate: (x) => {
		let total = 0;
		for (const v of x) total += v;
		return total;
	},
	derivative: () => 1,
	evaluateBlock: (x, _parameter, out) => {
		out.set(x[0]);
		for (let k = 1; k < x.length; k++) {
			const a = x[k];
			for (let j = 0; j < out.length; j++) out[j] += a[j];
		}
	},
};

export const difference: Operation = {
	id: "difference",
	evaluate: (x) => x[0] - x[1],
	derivative: (_x, _parameter, i) => (i === 0 ? 1 : -1),
	evaluateBlock: ([a, b], _parameter, out) => {
		for (let j = 0; j < out.length; j++) out[j] = a[j] - b[j];
	},
};

export const product: Operation = {
	id: "product",
	evaluate: (x) => x[0] * x[1],
	derivative: (x, _parameter, i) => (i === 0 ? x[1] : x[0]),
	evaluateBlock: ([a, b], _parameter, out) => {
		for (let j = 0; j < out.length; j++) out[j] = a[j] * b[j];
	},
};

export const quotient: Operation = {
	id: "quotient",
	evaluate: (x) => x[0] / x[1],
	derivative: (x, _parameter, i) =>
		i === 0 ? 1 / x[1] : -x[0] / (x[1] * x[1]),
	evaluateBlock: ([a, b], _parameter, out) => {
		for (let j = 0; j < out.length; j++) out[j] = a[j] / b[j];
	},
};

/** Multiplication by an exact number. */
export const scaling: Operation = {
	id: "scaling",
	evaluate: (x, factor) => x[0] * factor,
	derivative: (_x, factor) => factor,
	evaluateBlock: ([a], factor, out) => {
		for (let j = 0; j < out.length; j++) out[j] = a[j] * factor;
	},
};

/** Multiplication by a number that was computed, such as a coefficient of correlation: its digits are no part of the formula. */
export const computedScaling: Operation = { ...scaling };

/** Mean of any number of operands of one kind. */
export const average: Operation = {
	id: "average",
	evaluate: (x) => sum.evaluate(x, 0) / x.length,
	derivative: (x) => 1 / x.length,
	evaluateBlock: (x, _parameter, out) => {
		sum.evaluateBlock(x, 0, out);
		for (let j = 0; j < out.length; j++) out[j] /= x.length;
	},
};

export const power: Operation = {
	id: "power",
	evaluate: (x, exponent) => x[0] ** exponent,
	derivative: (x, exponent) => exponent * x[0] ** (exponent - 1),
	evaluateBlock: ([a], exponent, out) => {
		for (let j = 0; j < out.length; j++) out[j] = a[j] ** exponent;
	},
};

export const logarithm: Operation = {
	id: "logarithm",
	evaluate: (x) => Math.log(x[0]),
	derivative: (x) => 1 / x[0],
	evaluateBlock: ([a], _parameter, out) => {
		for (let j = 0; j < out.length; j++) out[j] = Math.log(a[j]);
	},
};

export const exponential: Operation = {
	id: "exponential",
	evaluate: (x) => Math.exp(x[0]),
	derivative: (x) => Math.exp(x[0]),
	evaluateBlock: ([a], _parameter, out) => {
		for (let j = 0; j < out.length; j++) out[j] = Math.exp(a[j]);
	},
};

export const cosine: Operation = {
	id: "cosine",
	evaluate: (x) => Math.cos(x[0]),
	derivative: (x) => -Math.sin(x[0]),
	evaluateBlock: ([a], _parameter, out) => {
		for (let j = 0; j < out.length; j++) out[j] = Math.cos(a[j]);
	},
};

export const sine: Operation = {
	id: "sine",
	evaluate: (x) => Math.sin(x[0]),
	derivative: (x) => Math.cos(x[0]),
	evaluateBlock: ([a], _parameter, out) => {
		for (let j = 0; j < out.length; j++) out[j] = Math.sin(a[j]);
	},
};
