import { describe, expect, test } from "vitest";
import * as properties from "../../kernel-lib/properties/index";
import { criticalRangeFactor } from "../../kernel-lib/properties/range-factors";
import {
	expandedUncertainty,
	input,
	normal,
	notKnown,
	plus,
	rectangular,
} from "../../kernel-lib/quantity/index";
import { createRandom, normalCdf } from "../../kernel-lib/stats/index";
import { percent } from "./made";

const read = (value: number, u = 0.01) =>
	input("ratio", value, "%", rectangular(u), { scope: "reading" });

describe("critical range factors", () => {
	/** P(range of n standard normals <= w) = n ∫ φ(z) (Φ(z + w) - Φ(z))^(n-1) dz, by the trapezoid rule. */
	function rangeProbability(n: number, w: number): number {
		const step = 0.005;
		let sum = 0;
		for (let z = -8 - w; z <= 8; z += step)
			sum +=
				(Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
				(normalCdf(z + w) - normalCdf(z)) ** (n - 1);
		return n * sum * step;
	}
	test("95 of 100 ranges keep within them, as far as a tenth can say", () => {
		for (let n = 2; n <= 10; n++) {
			const f = criticalRangeFactor(n);
			expect(rangeProbability(n, f - 0.06)).toBeLessThan(0.95);
			expect(rangeProbability(n, f + 0.06)).toBeGreaterThan(0.95);
		}
	});
	test("one result has no range", () => {
		expect(() => criticalRangeFactor(1)).toThrow(/two results or more/);
	});
});

describe("pooled scatter", () => {
	test("squares and degrees of freedom add up over the sets", () => {
		const s = properties.pooledScatter([[1, 3], [10, 12, 14], [7]], "test");
		// 2 + 8 over 1 + 2
		expect(s.degreesOfFreedom).toBe(3);
		expect(s.standardDeviation).toBeCloseTo(Math.sqrt(10 / 3), 12);
	});
	test("sets of one say nothing", () => {
		expect(properties.pooledScatter([[1], [2]], "test").degreesOfFreedom).toBe(
			0,
		);
	});
});

describe("mean of determinations", () => {
	const values = [5, 5.4, 5.8].map((v) => read(v));
	const scatter = properties.pooledScatter([[5, 5.4, 5.8]], "s");

	test("its uncertainty is the scatter of the mean, readings not counted twice", () => {
		const mean = properties.meanOfDeterminations(values, "ash", scatter);
		expect(mean.in("%")).toBeCloseTo(5.4, 12);
		expect(mean.standardUncertainty).toBeCloseTo(0.4 / Math.sqrt(3), 9);
		// t with 2 degrees of freedom, 4.303
		expect(expandedUncertainty(mean).coverageFactor).toBeCloseTo(4.3027, 3);
	});

	test("where the readings explain the scatter, they stand", () => {
		const coarse = [5, 5.4, 5.8].map((v) => read(v, 2));
		const mean = properties.meanOfDeterminations(coarse, "ash", scatter);
		expect(mean.standardUncertainty).toBeCloseTo(
			2 / Math.sqrt(3) / Math.sqrt(3),
			9,
		);
	});

	test("an error that all share does not shrink with their number and is not taken for scatter", () => {
		const moisture = input("ratio", 0, "%", normal(0.3), {
			symbol: "W",
			meaning: "shared",
		});
		const shifted = values.map((v) => plus(v, moisture));
		const mean = properties.meanOfDeterminations(shifted, "ash", scatter);
		expect(mean.standardUncertainty).toBeCloseTo(
			Math.hypot(0.4 / Math.sqrt(3), 0.3),
			9,
		);
	});

	test("one determination among replicates of other chars has their scatter", () => {
		const one = properties.meanOfDeterminations([read(5)], "ash", scatter);
		expect(one.standardUncertainty).toBeCloseTo(0.4, 9);
	});

	test.each([
		{ chars: 1, reading: 0.001 },
		{ chars: 4, reading: 0.001 },
		{ chars: 1, reading: 0.3 },
		{ chars: 4, reading: 0.3 },
	])(
		"the 95 % interval of duplicates holds the true value in at least 95 of 100 cases, in just 95 where the readings are fine: $chars chars, readings within $reading",
		({ chars, reading }) => {
			const random = createRandom(chars);
			const trials = 2000;
			let held = 0;
			for (let i = 0; i < trials; i++) {
				const sets = Array.from({ length: chars }, () =>
					[0, 0].map(
						() =>
							5 + 0.2 * random.normal() + reading * (2 * random.uniform() - 1),
					),
				);
				const mean = properties.meanOfDeterminations(
					sets[0].map((v) => read(v, reading)),
					`${chars} ${i}`,
					properties.pooledScatter(sets, "s"),
				);
				const { lower, upper } = expandedUncertainty(mean);
				if (lower <= 5 && upper >= 5) held += 1;
			}
			// Three standard errors of a share of 0.95 in 2000 are 0.015.
			expect(held / trials).toBeGreaterThan(0.95 - 0.015);
			if (reading < 0.01) expect(held / trials).toBeLessThan(0.95 + 0.015);
		},
	);
});

describe("agreement", () => {
	const limit = { is: "limit", r: percent(0.5) } as const;
	test("duplicates within and beyond the limit", () => {
		expect(properties.agreementOf([read(5), read(5.5)], limit)).toMatchObject({
			is: "within the limit",
			advice: "",
		});
		const beyond = properties.agreementOf([read(5), read(5.6)], limit);
		expect(beyond.is).toBe("beyond the limit");
		expect(beyond.range).toBeCloseTo(0.6, 9);
		expect(beyond.advice).toContain("two more determinations");
	});
	test("three may lie further apart than two: 3.3/2.8 of the limit", () => {
		const three = properties.agreementOf(
			[read(5), read(5.2), read(5.58)],
			limit,
		);
		expect(three.allowed).toBeCloseTo((0.5 * 3.3) / 2.8, 9);
		expect(three.is).toBe("within the limit");
	});
	test("without a limit it says what the readings explain, and takes no side", () => {
		const told = properties.agreementOf(
			[read(5), read(5.6)],
			notKnown("no limit was given"),
		);
		expect(told.is).toBe("no limit known");
		expect(told.sentence).toBe("Within 0.6 %; the readings explain 0.016 %.");
		expect(told.advice).toContain("is in the interval");
		expect(
			properties.agreementOf(
				[read(5), read(5.005)],
				notKnown("no limit was given"),
			).advice,
		).toBe("");
	});
	test("one determination: a slip would not show", () => {
		expect(properties.agreementOf([read(5)], limit)).toMatchObject({
			is: "one determination",
			advice: "Determine it a second time on another portion.",
		});
	});
	test("a limit of another kind is refused", () => {
		expect(() =>
			properties.agreementOf([read(5), read(6)], {
				is: "limit",
				r: input("mass", 1, "g", rectangular(0), {}),
			} as never),
		).toThrow(/not a unit of mass/);
	});
});
