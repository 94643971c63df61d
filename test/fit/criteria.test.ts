import { describe, expect, test } from "vitest";
import { fit as fitCurve, informationCriteria } from "../../kernel-lib/fit";
import { referenceData } from "../reference/check";
import { hyperbola, line, valueIn } from "./fixtures";

interface SyntheticSet {
	readonly id: string;
	readonly x: number[];
	readonly y: number[];
	readonly fit: {
		readonly aicc_K_is_p_plus_1: number;
		readonly aic: number;
		readonly bic: number;
		readonly r2: number;
	};
}
const { sets } = referenceData<{ sets: SyntheticSet[] }>("synthetic-fits.json");

describe("information criteria", () => {
	test("of a fit are those computed by SciPy for it", () => {
		const set = sets.find((s) => s.id === "langmuir-1") as SyntheticSet;
		const found = fitCurve(
			hyperbola,
			{ x: set.x, y: set.y },
			{ start: { k: 0.01 } },
		);
		const { aic, aicc, bic } = found.criteria;
		expect(valueIn(aic)).toBeCloseTo(set.fit.aic, 7);
		expect(valueIn(aicc)).toBeCloseTo(set.fit.aicc_K_is_p_plus_1, 7);
		expect(valueIn(bic)).toBeCloseTo(set.fit.bic, 7);
		expect(valueIn(found.rSquared)).toBeCloseTo(set.fit.r2, 9);
	});

	test("with absolute sigmas take the sum of squares as it is and count no variance", () => {
		const { aic, aicc, bic } = informationCriteria({
			rss: 12,
			points: 10,
			freeParameters: 3,
			sigmaIsAbsolute: true,
		});
		expect(valueIn(aic)).toBe(18);
		expect(valueIn(aicc)).toBeCloseTo(18 + 24 / 6, 12);
		expect(valueIn(bic)).toBeCloseTo(12 + 3 * Math.log(10), 12);
	});

	test("AICc is refused where its correction has no value: three points and a line have none", () => {
		const { criteria } = fitCurve(line, { x: [1, 2, 3], y: [1, 2.2, 2.9] });
		expect(criteria.aicc).toEqual({
			is: "not known",
			because:
				"AICc needs more than 4 points for 3 estimated quantities; there are 3",
		});
		expect(criteria.aic.is).toBe("value");
		expect(
			fitCurve(line, { x: [1, 2, 3, 4], y: [1, 2.2, 2.9, 4] }).criteria.aicc.is,
		).toBe("not known");
		expect(
			fitCurve(line, { x: [1, 2, 3, 4, 5], y: [1, 2.2, 2.9, 4, 5.2] }).criteria
				.aicc.is,
		).toBe("value");
	});

	test("a curve through every point has none, and no infinite ones", () => {
		const { criteria } = fitCurve(line, { x: [1, 2, 3], y: [0, 0, 0] });
		expect(criteria.aic).toMatchObject({ is: "not known" });
		expect(criteria.bic).toMatchObject({ is: "not known" });
	});

	test("a better curve by one parameter too many is ranked lower", () => {
		const base = { points: 12, sigmaIsAbsolute: false };
		const small = informationCriteria({ ...base, rss: 10, freeParameters: 2 });
		const large = informationCriteria({ ...base, rss: 9.9, freeParameters: 3 });
		expect(valueIn(large.aicc)).toBeGreaterThan(valueIn(small.aicc));
	});
});
