/**
 * The equations of the 27 NIST StRD nonlinear sets with their derivatives, written from the equations printed in the data
 * files. x holds one column after another (only Nelson has two).
 */
export interface NistModel {
	readonly parameters: number;
	/** Response at point i. */
	readonly value: (b: Float64Array, x: Float64Array, i: number) => number;
	/** Derivatives at point i by all parameters. */
	readonly slope: (
		b: Float64Array,
		x: Float64Array,
		i: number,
		out: Float64Array,
	) => void;
}

const { exp, log, pow, sin, cos, atan, PI } = Math;

function gaussians(): NistModel {
	return {
		parameters: 8,
		value: (b, x, i) =>
			b[0] * exp(-b[1] * x[i]) +
			b[2] * exp(-(((x[i] - b[3]) / b[4]) ** 2)) +
			b[5] * exp(-(((x[i] - b[6]) / b[7]) ** 2)),
		slope: (b, x, i, out) => {
			out[0] = exp(-b[1] * x[i]);
			out[1] = -b[0] * x[i] * out[0];
			for (const j of [2, 5]) {
				const z = (x[i] - b[j + 1]) / b[j + 2];
				const e = exp(-z * z);
				out[j] = e;
				out[j + 1] = (b[j] * e * 2 * z) / b[j + 2];
				out[j + 2] = (b[j] * e * 2 * z * z) / b[j + 2];
			}
		},
	};
}

function exponentials(): NistModel {
	return {
		parameters: 6,
		value: (b, x, i) =>
			b[0] * exp(-b[1] * x[i]) +
			b[2] * exp(-b[3] * x[i]) +
			b[4] * exp(-b[5] * x[i]),
		slope: (b, x, i, out) => {
			for (const j of [0, 2, 4]) {
				out[j] = exp(-b[j + 1] * x[i]);
				out[j + 1] = -b[j] * x[i] * out[j];
			}
		},
	};
}

/** Polynomial of degree `top` over 1 + polynomial of degree `bottom`. */
function rational(top: number, bottom: number): NistModel {
	const parts = (b: Float64Array, x: number): [number, number] => {
		let numerator = 0;
		for (let j = top; j >= 0; j--) numerator = numerator * x + b[j];
		let denominator = 0;
		for (let j = bottom; j >= 1; j--)
			denominator = (denominator + b[top + j]) * x;
		return [numerator, 1 + denominator];
	};
	return {
		parameters: top + 1 + bottom,
		value: (b, x, i) => {
			const [u, v] = parts(b, x[i]);
			return u / v;
		},
		slope: (b, x, i, out) => {
			const [u, v] = parts(b, x[i]);
			for (let j = 0; j <= top; j++) out[j] = x[i] ** j / v;
			for (let j = 1; j <= bottom; j++)
				out[top + j] = (-u * x[i] ** j) / (v * v);
		},
	};
}

function chwirut(): NistModel {
	return {
		parameters: 3,
		value: (b, x, i) => exp(-b[0] * x[i]) / (b[1] + b[2] * x[i]),
		slope: (b, x, i, out) => {
			const v = b[1] + b[2] * x[i];
			const f = exp(-b[0] * x[i]) / v;
			out[0] = -x[i] * f;
			out[1] = -f / v;
			out[2] = (-f * x[i]) / v;
		},
	};
}

/** b1 (1 - exp(-b2 x)). */
function approach(): NistModel {
	return {
		parameters: 2,
		value: (b, x, i) => -b[0] * Math.expm1(-b[1] * x[i]),
		slope: (b, x, i, out) => {
			out[0] = -Math.expm1(-b[1] * x[i]);
			out[1] = b[0] * x[i] * exp(-b[1] * x[i]);
		},
	};
}

export const nistModels: Readonly<Record<string, NistModel>> = {
	Bennett5: {
		parameters: 3,
		value: (b, x, i) => b[0] * pow(b[1] + x[i], -1 / b[2]),
		slope: (b, x, i, out) => {
			const s = b[1] + x[i];
			out[0] = pow(s, -1 / b[2]);
			out[1] = (-b[0] * out[0]) / (b[2] * s);
			out[2] = (b[0] * out[0] * log(s)) / (b[2] * b[2]);
		},
	},
	BoxBOD: approach(),
	Chwirut1: chwirut(),
	Chwirut2: chwirut(),
	DanWood: {
		parameters: 2,
		value: (b, x, i) => b[0] * pow(x[i], b[1]),
		slope: (b, x, i, out) => {
			out[0] = pow(x[i], b[1]);
			out[1] = b[0] * out[0] * log(x[i]);
		},
	},
	ENSO: {
		parameters: 9,
		value: (b, x, i) => {
			const year = (2 * PI * x[i]) / 12;
			const u = (2 * PI * x[i]) / b[3];
			const v = (2 * PI * x[i]) / b[6];
			return (
				b[0] +
				b[1] * cos(year) +
				b[2] * sin(year) +
				b[4] * cos(u) +
				b[5] * sin(u) +
				b[7] * cos(v) +
				b[8] * sin(v)
			);
		},
		slope: (b, x, i, out) => {
			const year = (2 * PI * x[i]) / 12;
			out[0] = 1;
			out[1] = cos(year);
			out[2] = sin(year);
			for (const j of [3, 6]) {
				const u = (2 * PI * x[i]) / b[j];
				out[j] = ((b[j + 1] * sin(u) - b[j + 2] * cos(u)) * u) / b[j];
				out[j + 1] = cos(u);
				out[j + 2] = sin(u);
			}
		},
	},
	Eckerle4: {
		parameters: 3,
		value: (b, x, i) => (b[0] / b[1]) * exp(-0.5 * ((x[i] - b[2]) / b[1]) ** 2),
		slope: (b, x, i, out) => {
			const z = (x[i] - b[2]) / b[1];
			const e = exp(-0.5 * z * z) / b[1];
			out[0] = e;
			out[1] = (b[0] * e * (z * z - 1)) / b[1];
			out[2] = (b[0] * e * z) / b[1];
		},
	},
	Gauss1: gaussians(),
	Gauss2: gaussians(),
	Gauss3: gaussians(),
	Hahn1: rational(3, 3),
	Kirby2: rational(2, 2),
	Lanczos1: exponentials(),
	Lanczos2: exponentials(),
	Lanczos3: exponentials(),
	MGH09: {
		parameters: 4,
		value: (b, x, i) =>
			(b[0] * (x[i] * x[i] + x[i] * b[1])) / (x[i] * x[i] + x[i] * b[2] + b[3]),
		slope: (b, x, i, out) => {
			const u = x[i] * x[i] + x[i] * b[1];
			const v = x[i] * x[i] + x[i] * b[2] + b[3];
			out[0] = u / v;
			out[1] = (b[0] * x[i]) / v;
			out[2] = (-b[0] * u * x[i]) / (v * v);
			out[3] = (-b[0] * u) / (v * v);
		},
	},
	MGH10: {
		parameters: 3,
		value: (b, x, i) => b[0] * exp(b[1] / (x[i] + b[2])),
		slope: (b, x, i, out) => {
			const s = x[i] + b[2];
			out[0] = exp(b[1] / s);
			out[1] = (b[0] * out[0]) / s;
			out[2] = (-b[0] * out[0] * b[1]) / (s * s);
		},
	},
	MGH17: {
		parameters: 5,
		value: (b, x, i) =>
			b[0] + b[1] * exp(-x[i] * b[3]) + b[2] * exp(-x[i] * b[4]),
		slope: (b, x, i, out) => {
			out[0] = 1;
			out[1] = exp(-x[i] * b[3]);
			out[2] = exp(-x[i] * b[4]);
			out[3] = -x[i] * b[1] * out[1];
			out[4] = -x[i] * b[2] * out[2];
		},
	},
	Misra1a: approach(),
	Misra1b: {
		parameters: 2,
		value: (b, x, i) => b[0] * (1 - (1 + (b[1] * x[i]) / 2) ** -2),
		slope: (b, x, i, out) => {
			const s = 1 + (b[1] * x[i]) / 2;
			out[0] = 1 - s ** -2;
			out[1] = b[0] * x[i] * s ** -3;
		},
	},
	Misra1c: {
		parameters: 2,
		value: (b, x, i) => b[0] * (1 - 1 / Math.sqrt(1 + 2 * b[1] * x[i])),
		slope: (b, x, i, out) => {
			const s = 1 + 2 * b[1] * x[i];
			out[0] = 1 - 1 / Math.sqrt(s);
			out[1] = (b[0] * x[i]) / (s * Math.sqrt(s));
		},
	},
	Misra1d: {
		parameters: 2,
		value: (b, x, i) => (b[0] * b[1] * x[i]) / (1 + b[1] * x[i]),
		slope: (b, x, i, out) => {
			const s = 1 + b[1] * x[i];
			out[0] = (b[1] * x[i]) / s;
			out[1] = (b[0] * x[i]) / (s * s);
		},
	},
	Nelson: {
		parameters: 3,
		value: (b, x, i) => b[0] - b[1] * x[i] * exp(-b[2] * x[i + x.length / 2]),
		slope: (b, x, i, out) => {
			const x2 = x[i + x.length / 2];
			const e = x[i] * exp(-b[2] * x2);
			out[0] = 1;
			out[1] = -e;
			out[2] = b[1] * e * x2;
		},
	},
	Rat42: {
		parameters: 3,
		value: (b, x, i) => b[0] / (1 + exp(b[1] - b[2] * x[i])),
		slope: (b, x, i, out) => {
			const e = exp(b[1] - b[2] * x[i]);
			const s = 1 / (1 + e);
			out[0] = s;
			out[1] = -b[0] * e * s * s;
			out[2] = b[0] * e * s * s * x[i];
		},
	},
	Rat43: {
		parameters: 4,
		value: (b, x, i) => b[0] / pow(1 + exp(b[1] - b[2] * x[i]), 1 / b[3]),
		slope: (b, x, i, out) => {
			const e = exp(b[1] - b[2] * x[i]);
			const s = 1 + e;
			const f = pow(s, -1 / b[3]);
			out[0] = f;
			out[1] = (-b[0] * f * e) / (s * b[3]);
			out[2] = (b[0] * f * e * x[i]) / (s * b[3]);
			out[3] = (b[0] * f * log(s)) / (b[3] * b[3]);
		},
	},
	Roszman1: {
		parameters: 4,
		value: (b, x, i) => b[0] - b[1] * x[i] - atan(b[2] / (x[i] - b[3])) / PI,
		slope: (b, x, i, out) => {
			const d = x[i] - b[3];
			const q = PI * (d * d + b[2] * b[2]);
			out[0] = 1;
			out[1] = -x[i];
			out[2] = -d / q;
			out[3] = -b[2] / q;
		},
	},
	Thurber: rational(3, 3),
};
