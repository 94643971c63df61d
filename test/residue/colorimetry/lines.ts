import {
	type CalibrationLine,
	type CalibrationOptions,
	calibrate,
	type Standard,
} from "../../../kernel-lib/residue/colorimetry";

/** Standards at 0 to 4 and how far each lies off the line, in units of 0.01: at right angles to 1, c and c², so that a line or a parabola through them is found exactly. */
export const concentrations = [0, 1, 2, 3, 4];
const off = [-1, 2, 0, -2, 1];

/** Sum of the squares of what lies off: 10 × 0.01². */
export const squares = 1e-3;

export const standardsOn = (
	f: (c: number) => number,
	noise = 0.01,
): Standard[] =>
	concentrations.map((c, i) => ({
		concentration: c,
		signal: f(c) + noise * off[i],
	}));

/** S = a + b c with a scatter of sqrt(0.001/3); mean concentration 2, Sxx = 10, n = 5. */
export const straight = (
	a = 0.5,
	b = 1,
	options: CalibrationOptions = {},
): CalibrationLine =>
	calibrate(
		standardsOn((c) => a + b * c),
		options,
	);

export const s = Math.sqrt(squares / 3);

/** 1/m + 1/n + (c - 2)²/Sxx of that line. */
export const spread = (c: number, m = 1): number =>
	1 / m + 1 / 5 + (c - 2) ** 2 / 10;

/** Student's t with 3 degrees of freedom; tables. */
export const t3 = {
	90: 2.353363434801824,
	95: 3.182446305284263,
	98: 4.540702858568134,
} as const;
