/** What is decided about solutions, just below and just above each limit. */
import { describe, expect, test } from "vitest";
import type { Flask, Solution, Trial } from "../../kernel-lib/bench";
import { exact, input } from "../../kernel-lib/quantity";
import { ageCaution } from "../../kernel-lib/solutions/age";
import { makeUpIodine } from "../../kernel-lib/solutions/make-up";
import { outlierAdvice } from "../../kernel-lib/solutions/outlier";

describe("how long a standardised solution keeps", () => {
	const caution = (substance: string, days: number): string => {
		const on = (day: number) => ({
			recorded: true as const,
			value: new Date(Date.UTC(2026, 2, 2 + day)),
		});
		return ageCaution(
			{
				flasks: [
					{
						titratedAt: on(days),
						dosedAt: { recorded: false },
						marks: [],
					} as unknown as Flask,
				],
			} as unknown as Trial,
			{ name: "bottle", substance, standardisedOn: on(0) } as Solution,
		);
	};

	test.each([
		["iodine", 1, 2, "after a day"],
		["sodium thiosulfate", 14, 15, "after 14 days"],
	])(
		"%s: %s days are none to speak of, %s are",
		(substance, fresh, old, words) => {
			expect(caution(substance, fresh)).toBe("");
			expect(caution(substance, old)).toContain(
				`${old} days before its last use`,
			);
			expect(caution(substance, old)).toContain(words);
		},
	);

	test("on the day itself nothing is said, the day before its standardisation something", () => {
		expect(caution("iodine", 0)).toBe("");
		expect(caution("iodine", -1)).toContain("after its last use");
	});
});

describe("a reading that stands apart", () => {
	// Grubbs, three readings at 5 %: G = (1.1543, ...): 20 - 19 apart by little against a third.
	test("three readings are the fewest", () => {
		expect(outlierAdvice([10, 11], "mL", 0.01)).toBe("");
		expect(outlierAdvice([10, 10.001, 11], "mL", 0.01)).not.toBe("");
	});

	/** Four readings at -1, 1, 0 and x, in units of 0.1 mL about 20. */
	const four = (x: number): string =>
		outlierAdvice([19.9, 20.1, 20, 20 + 0.1 * x], "mL", 0.01);

	// G = (x - mean)/s, mean x/4, s² = (2 + 3/4 x²)/3; the two-sided 5 % point for four is 1.4812 (Grubbs and Beck 1972, from memory), reached at x = 11.27.
	test("at 5 %, two-sided: just inside and just outside Grubbs' 1.481 for four readings", () => {
		const G = (x: number): number =>
			(0.75 * x) / Math.sqrt((2 + 0.75 * x * x) / 3);
		let [low, high] = [1, 100];
		while (high - low > 1e-9) {
			const middle = (low + high) / 2;
			if (G(middle) < 1.48125) low = middle;
			else high = middle;
		}
		expect(four(low * 0.98)).toBe("");
		expect(four(low * 1.02)).toContain("stands apart");
	});

	test("what nobody could have read apart does not: by no more than the resolution", () => {
		const readings = [20, 20.0001, 20.0002, 20.05];
		expect(outlierAdvice(readings, "mL", 0.06)).toBe("");
		expect(outlierAdvice(readings, "mL", 0.04)).toContain("stands apart");
	});
});

describe("iodide that keeps iodine dissolved", () => {
	const c = input("concentration", 0.05, "mol/L", exact, {});
	const litre = input("volume", 1000, "mL", exact, {});

	test("1.3 g for each gram is enough, 1.29 is refused", () => {
		expect(makeUpIodine(c, litre, 1.3).sentence).toContain("of KI");
		expect(() => makeUpIodine(c, litre, 1.29)).toThrow(/at least 1\.3/);
		expect(() => makeUpIodine(c, litre, Number.NaN)).toThrow(/at least 1\.3/);
	});
});
