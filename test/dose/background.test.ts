import { describe, expect, test } from "vitest";
import { doseForTarget, naturalBackground } from "../../kernel-lib/dose/index";
import { withNonAdsorbable } from "../../kernel-lib/isotherms/catalogue/with-non-adsorbable";
import {
	derivativesAt,
	freundlich,
	langmuir,
	uptakeAt,
} from "../../kernel-lib/isotherms/index";
import { createRandom } from "../../kernel-lib/stats/index";
import { flasksOf } from "./flasks";

const truth = Float64Array.of(120, 0.05);
const plain = (c: number): number => (c > 0 ? uptakeAt(langmuir, truth, c) : 0);
const doses = [0.3, 0.6, 1, 1.5, 2, 3, 5, 8, 12, 18];
const deviation = 0.5;

function trial(seed: number, background: number) {
	const random = createRandom(seed);
	return flasksOf(
		(c) => plain(c - background),
		200,
		doses,
		doses.map(() => deviation * random.normal()),
		deviation,
	);
}

describe("what no dose takes away", () => {
	test("derivatives of an isotherm over a background agree with differences", () => {
		for (const isotherm of [langmuir, freundlich]) {
			const over = withNonAdsorbable(isotherm);
			const theta = Float64Array.of(40, 0.3, 5);
			const d = derivativesAt(over, theta, 30);
			theta.forEach((t, j) => {
				const h = 1e-5 * t;
				const at = (step: number): number => {
					const moved = theta.slice();
					moved[j] += step;
					return uptakeAt(over, moved, 30);
				};
				expect(d[j] / ((at(h) - at(-h)) / (2 * h))).toBeCloseTo(1, 6);
			});
			expect(uptakeAt(over, theta, 4)).toBe(0);
		}
	});

	test("it is found where it is, and the answer respects it", () => {
		const found = naturalBackground(langmuir, trial(1, 12));
		expect(found.is).toBe("shown");
		if (found.low.is !== "value" || found.high.is !== "value")
			throw new Error();
		expect(found.low.value).toBeLessThan(12);
		expect(found.high.value).toBeGreaterThan(12);
		expect(found.share).toBeCloseTo(0.06, 1);
		const below = doseForTarget(found.fit, {
			start: 200,
			target: 8,
			beyond: "mark",
		});
		if (below.is === "dose") throw new Error("no dose reaches 8 of 12 mg/L");
		expect(below.code).toBe("target-below-background");
		expect(below.because).toContain("not adsorbable");
		// The same water at half its strength holds half of it.
		const diluted = doseForTarget(found.fit, {
			start: 100,
			target: 8,
			beyond: "mark",
		});
		expect(diluted.is).toBe("dose");
	});

	test("claimed where there is none in at most 5 of 100 trials, and shown where it is in nearly all", () => {
		let claimed = 0;
		let seen = 0;
		for (let seed = 1; seed <= 200; seed++) {
			if (naturalBackground(langmuir, trial(seed, 0)).is === "shown")
				claimed += 1;
			if (seed <= 60)
				seen +=
					naturalBackground(langmuir, trial(seed, 6)).is === "shown" ? 1 : 0;
		}
		expect(claimed).toBeLessThanOrEqual(10);
		expect(seen).toBeGreaterThanOrEqual(55);
	}, 60_000);

	test("not shown is said with what would show it", () => {
		const none = naturalBackground(langmuir, trial(3, 0));
		expect(none.is).toBe("not shown");
		expect(none.sentence).toMatch(
			/not shown by these data.*Flasks with 36 and 72 g/s,
		);
		expect(none.fit.isotherm.name).toBe("Langmuir");
	});

	test("flasks of several waters are refused: their background is not one concentration", () => {
		const mixed = trial(4, 5);
		const points = {
			...mixed,
			points: mixed.points.map((p, i) =>
				i < 5
					? p
					: {
							...p,
							balance: {
								is: "known" as const,
								intercept: (100 * 1) / doses[i],
								slope: 1 / doses[i],
							},
						},
			),
		};
		expect(() => naturalBackground(langmuir, points)).toThrow(
			/flasks of one water/,
		);
	});

	test("starts within a twentieth are one water, others are not", () => {
		const points = trial(1, 0);
		const stronger = (factor: number) => ({
			...points,
			points: points.points.map((p, i) =>
				i === 0 && p.balance.is === "known"
					? {
							...p,
							balance: {
								...p.balance,
								intercept: p.balance.intercept * factor,
							},
						}
					: p,
			),
		});
		expect(() => naturalBackground(langmuir, stronger(1.049))).not.toThrow();
		expect(() => naturalBackground(langmuir, stronger(1.051))).toThrow(
			/flasks of "char" that start from 200 to 210 mg\/L/,
		);
	});

	test("the sentence says what its interval is asked to hold", () => {
		const found = naturalBackground(langmuir, trial(1, 12), {
			confidence: 0.9,
		});
		expect(found.confidence).toBe(0.9);
		expect(found.sentence).toContain("; 90 % interval ");
	});
});
