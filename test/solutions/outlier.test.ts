import { expect, test } from "vitest";
import { outlierAdvice } from "../../kernel-lib/solutions";

test("one drop is no outlier, however well the other readings agree", () => {
	expect(outlierAdvice([19.85, 19.85, 19.8], "mL", 0.05)).toBe("");
});

test("a reading that stands apart is named and still counted", () => {
	const advice = outlierAdvice([19.85, 19.8, 19.85, 19.8, 20.6], "mL", 0.05);
	expect(advice).toMatch(/20\.6 mL stands apart/);
	expect(advice).toMatch(/still counted/);
});

test("two readings cannot tell which is off", () => {
	expect(outlierAdvice([19.8, 20.6], "mL", 0.05)).toBe("");
});

test("at 5 %, pinned on both sides: four readings x, x + e, x - e and x + 1 have G = 0.75/sqrt(0.25 + 2 e²/3), which meets the critical 1.481 at e = 0.098", () => {
	expect(outlierAdvice([10, 10.095, 9.905, 11], "mL", 0.05)).not.toBe("");
	expect(outlierAdvice([10, 10.102, 9.898, 11], "mL", 0.05)).toBe("");
});

test("the resolution, pinned on both sides", () => {
	expect(outlierAdvice([20, 20, 20, 20.05], "mL", 0.05)).toBe("");
	expect(outlierAdvice([20, 20, 20, 20.06], "mL", 0.05)).not.toBe("");
});
