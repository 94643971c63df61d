/** Thresholds that are decisions of ours, each held from both sides. The numbers follow by hand. */
import { describe, expect, test } from "vitest";
import { defineModel, type Fit, fit as fitCurve } from "../../kernel-lib/fit";
import { line } from "./fixtures";

/** Points on y = x with the same absolute sigma: the standard error of the factor is sigma / 3. */
function proportional(sigma: number): Fit {
	return fitCurve(
		defineModel({
			name: "proportional",
			parameters: ["a"],
			curve: (x, a) => a * x,
		}),
		{ x: [1, 2, 2], y: [1, 2, 2], sigmaY: sigma, sigmaIsAbsolute: true },
	);
}

/** Points on y = exp(-x), k = 1 and positive. The derivative by k at x is -x exp(-x). */
function decay(share: number): Fit {
	const x = [0.5, 1, 2];
	const squares = x.reduce((sum, v) => sum + (v * Math.exp(-v)) ** 2, 0);
	return fitCurve(
		defineModel({
			name: "decay",
			parameters: [{ name: "k", lower: 0 }],
			curve: (v, k) => Math.exp(-k * v),
		}),
		{
			x,
			y: x.map((v) => Math.exp(-v)),
			sigmaY: share * Math.sqrt(squares),
			sigmaIsAbsolute: true,
		},
		{ start: { k: 0.8 } },
	);
}

describe("a standard error of a quarter of the parameter", () => {
	test.each([
		["of a factor", proportional],
		["of a rate", decay],
	])("%s", (what, at) => {
		const scale = what === "of a factor" ? 3 : 1;
		expect(at(0.249 * scale).determined.holds).toBe(true);
		expect(at(0.251 * scale).determined).toEqual({
			holds: false,
			reason: expect.stringContaining("is 25 % of its value"),
		});
	});
});

/**
 * Two readings of exp(c) = 1, so c = 0. With d = 1.959964 standard errors of their mean the ends of the profile interval are ln(1 - d) and ln(1 + d). One arm is twice the other where
 * (1 - d)(1 + d)^2 = 1, that is 1 - d - d^2 = 0: d = (sqrt(5) - 1)/2 = 0.618.
 */
test.each([
	[0.61, true],
	[0.63, false],
])(
	"arms of a profile interval of which one is twice the other: d = %f",
	(d, settled) => {
		const found = fitCurve(
			defineModel({
				name: "exponent",
				parameters: ["c"],
				curve: (x, c) => x * Math.exp(c),
			}),
			{
				x: [1, 1],
				y: [1, 1],
				sigmaY: (d / 1.959964) * Math.SQRT2,
				sigmaIsAbsolute: true,
			},
			{ start: { c: 0.1 } },
		);
		expect(found.determined.holds).toBe(settled);
		if (!settled)
			expect(found.determined.reason).toContain(
				"much longer on one side than on the other",
			);
	},
);

/** Intercept and slope through points at m - 1 and m + 1 have the correlation -m / sqrt(m^2 + 1), which is 0.95 at m = 3.04. */
test.each([
	[3, false],
	[3.1, true],
])("parameters correlated by more than 0.95 are named: m = %f", (m, named) => {
	const found = fitCurve(line, {
		x: [m - 1, m - 1, m + 1, m + 1],
		y: [1, 1.1, 2, 2.1],
	});
	expect(found.cautions.join(" ").includes("Strongly correlated")).toBe(named);
});

test.each([
	[4, true],
	[5, false],
])(
	"fewer than three points to spare are said: %i points for a line",
	(points, said) => {
		const x = Array.from({ length: points }, (_, i) => i);
		const found = fitCurve(line, {
			x,
			y: x.map((v) => v + (v % 2 === 0 ? 0.01 : -0.01)),
		});
		expect(
			/Only \d more points than free parameters/.test(found.cautions.join(" ")),
		).toBe(said);
	},
);
