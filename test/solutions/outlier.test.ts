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
