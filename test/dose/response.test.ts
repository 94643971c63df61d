import { describe, expect, test } from "vitest";
import {
	doseForRemoval,
	fitResponse,
	hill,
	logistic,
	responseCurve,
	responseTable,
} from "../../kernel-lib/dose/index";
import { tableText } from "../../kernel-lib/quantity/index";

const doses = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20];
const noise = [0.6, -0.8, 0.4, 0.9, -0.5, -0.7, 0.3, 0.2];
const hillAt = (x: number, top = 100): number => top / (1 + (1.5 / x) ** 1.6);
const removals = doses.map((x, i) => hillAt(x) + noise[i]);

describe("response forms", () => {
	test("exact points give the truth back, for both forms", () => {
		const h = fitResponse(
			hill,
			doses,
			doses.map((x) => hillAt(x)),
		);
		expect([...h.fit.theta].map((v) => Number(v.toFixed(6)))).toEqual([
			0, 100, 1.5, 1.6,
		]);
		const x = [0, 1, 2, 3, 4, 5, 6, 8];
		const l = fitResponse(
			logistic,
			x,
			x.map((v) => 2 + 95 / (1 + Math.exp(-1.2 * (v - 3)))),
		);
		expect([...l.fit.theta].map((v) => Number(v.toFixed(6)))).toEqual([
			2, 97, 3, 1.2,
		]);
	});

	test("the dose for a removal lies on the curve and inside its interval, which is asymmetric", () => {
		const r = fitResponse(hill, doses, removals, { fixed: { bottom: 0 } });
		for (const d of doseForRemoval(r, [50, 90])) {
			if (d.is !== "dose" || d.interval.is !== "value") throw new Error();
			const [bottom, top, c, h] = r.fit.theta;
			expect(bottom + (top - bottom) / (1 + (c / d.dose) ** h)).toBeCloseTo(
				d.level.percent,
				8,
			);
			const { low, high } = d.interval.value;
			if (low.kind !== "closed" || high.kind !== "closed") throw new Error();
			expect(low.value).toBeLessThan(d.dose);
			expect(high.value).toBeGreaterThan(d.dose);
			if (d.level.percent === 90)
				expect(high.value - d.dose).toBeGreaterThan(d.dose - low.value);
		}
	});

	test("a removal that the curve does not reach has no dose, one that it may not reach has no upper end", () => {
		const level = doses.map((x, i) => hillAt(x, 95) + noise[i]);
		const r = fitResponse(hill, doses, level);
		const [reached, , never] = doseForRemoval(r, [90, 94, 99]);
		expect(reached.is).toBe("dose");
		if (never.is !== "no dose") throw new Error("99 % of 95 %");
		expect(never.because).toContain("levels off at");
		expect(never.wouldTell).toMatch(/^Flasks with/);
		const barely = doseForRemoval(r, [r.fit.theta[1] - 0.05])[0];
		if (barely.is !== "dose" || barely.interval.is !== "value")
			throw new Error();
		expect(barely.interval.value.high.kind).toBe("open");
		expect(tableText(responseTable(r, [50, 90, 99]))).toContain("none");
	});

	test("data that cannot answer are refused with the flasks that could", () => {
		expect(() => fitResponse(hill, [1, 1, 1], [50, 52, 49])).toThrow(
			/one dose only.*quarter/,
		);
		expect(() =>
			fitResponse(hill, [5, 8, 12, 20, 30], [97, 97.5, 97.2, 97.8, 98]),
		).toThrow(/on the plateau.*0\.31/s);
		expect(() => fitResponse(hill, [1, 2, 3], [10, 50, 80])).toThrow(
			/3 different doses for 4 free parameters/,
		);
		expect(() => fitResponse(hill, [1, 2], [10])).toThrow(/2 doses and 1/);
		expect(() => fitResponse(hill, [1, Number.NaN, 3], [10, 20, 30])).toThrow(
			/NaN g\/L and 20 %/,
		);
		const r = fitResponse(hill, doses, removals);
		expect(() => doseForRemoval(r, [100])).toThrow(/below 100/);
	});

	test("the form as a curve, with a band", () => {
		const curve = responseCurve(fitResponse(hill, doses, removals), 100);
		expect(curve.from).toBe("response form");
		for (const a of curve.at) {
			if (a.low.is !== "value" || a.high.is !== "value") throw new Error();
			expect(a.low.value).toBeLessThan(a.high.value);
		}
	});
});
