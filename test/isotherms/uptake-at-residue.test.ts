import { describe, expect, test } from "vitest";
import {
	betLiquid,
	fitIsotherm,
	freundlich,
	henry,
	type IsothermPoints,
	langmuir,
	plainPoints,
	uptakeAtResidue,
} from "../../kernel-lib/isotherms/index";
import type { MaybeKnown } from "../../kernel-lib/quantity";
import { studentTQuantile } from "../../kernel-lib/stats/index";
import { goodLines, pointsOn } from "./plain-lines";

const known = (value: MaybeKnown<number>): number => {
	if (value.is === "not known") throw new Error(value.because);
	return value.value;
};

const c = [10, 20, 40, 80, 160];
const q = [9.1, 17.8, 36.4, 71.5, 144.6];

describe("uptake on the fitted curve at a residue", () => {
	test("a line through the origin, by the textbook formula", () => {
		const fit = fitIsotherm(henry, plainPoints("p", c, q));
		const sxx = c.reduce((s, v) => s + v * v, 0);
		const k = c.reduce((s, v, i) => s + v * q[i], 0) / sxx;
		const rss = c.reduce((s, v, i) => s + (q[i] - k * v) ** 2, 0);
		const error = 50 * Math.sqrt(rss / 4 / sxx);
		const [at] = uptakeAtResidue(fit, 50);
		expect(at.uptake).toBeCloseTo(50 * k, 9);
		expect(known(at.standardError)).toBeCloseTo(error, 9);
		expect(known(at.high) - at.uptake).toBeCloseTo(
			studentTQuantile(0.975, 4) * error,
			8,
		);
		expect(at.place).toBe("inside the measured range, 10 to 160 mg/L");
		expect(at.extrapolating).toBe(false);
	});

	test("shared errors are moved through the curve and added", () => {
		const points: IsothermPoints = {
			...plainPoints("p", c, q),
			shared: [
				{
					key: "balance",
					what: "balance",
					degreesOfFreedom: Number.POSITIVE_INFINITY,
					concentration: new Float64Array(5),
					uptake: Float64Array.from(q, (v) => 0.01 * v),
				},
			],
		};
		const [at] = uptakeAtResidue(fitIsotherm(henry, points), 50);
		expect(known(at.shared)).toBeCloseTo(0.01 * at.uptake, 9);
		expect(at.sharedEffects.get("balance")?.effect).toBeCloseTo(
			0.01 * at.uptake,
			9,
		);
		expect(known(at.standardError)).toBeCloseTo(
			Math.hypot(known(at.scatter), known(at.shared)),
			12,
		);
	});

	test("one row for each residue asked for; outside the range it is said", () => {
		const fit = fitIsotherm(
			langmuir,
			pointsOn(langmuir, [350, 0.01], goodLines, {
				errors: [3, -4, 1, 5, -2, -5, 4, 2, -3],
			}),
		);
		const all = uptakeAtResidue(fit, 10, 1000, 9000);
		expect(all.map((a) => a.extrapolating)).toEqual([true, false, true]);
		expect(all[2].place).toMatch(/^outside the measured range/);
		// within a thousandth where the points are good to a hundredth
		expect(all[1].uptake / (3500 / 11)).toBeCloseTo(1, 2);
		// the curve is known worst outside
		expect(known(all[0].standardError) / all[0].uptake).toBeGreaterThan(
			known(all[1].standardError) / all[1].uptake,
		);
	});

	test("residues at which there is no uptake are refused, all at once", () => {
		const bet = fitIsotherm(betLiquid(250), plainPoints("p", c, q));
		expect(() => uptakeAtResidue(bet, -1, 300)).toThrow(
			/-1 mg\/L[\s\S]*300 mg\/L/,
		);
	});

	test("no errors where the fit has none, and the reason is told", () => {
		const fit = fitIsotherm(
			freundlich,
			plainPoints("two", [10, 100], [30, 60]),
		);
		const [at] = uptakeAtResidue(fit, 50);
		expect(at.standardError.is).toBe("not known");
		expect(at.uptake).toBeGreaterThan(30);
		expect(at.uptake).toBeLessThan(60);
	});
});
