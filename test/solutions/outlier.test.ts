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

test("the words name the reading, how many others there are, and how rare it is", () => {
	// G of 0, 0, 0, 0, 1 is (4/5)/sqrt(1/5), the largest that five readings can have: p 0
	expect(outlierAdvice([20, 20, 20, 20, 21], "mL", 0.05)).toMatch(
		/The reading 21 mL stands apart from the other 4 .*p below 0\.001/,
	);
	const some = outlierAdvice([20, 20.1, 19.9, 21.2], "mL", 0.05);
	expect(some).toMatch(/p = 0\.0[0-4]\d\)/);
});

test("a reading that lies low is named like one that lies high", () => {
	expect(outlierAdvice([20, 20.01, 20.02, 19], "mL", 0.05)).toMatch(
		/reading 19 mL stands apart from the other 3/,
	);
});
