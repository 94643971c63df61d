import { describe, expect, test } from "vitest";
import { likelySlip } from "../../kernel-lib/solutions/likely-slip";

describe("the usual slip behind a ratio", () => {
	test.each<[number, RegExp]>([
		[1.57, /pentahydrate/],
		[1.57 * 1.059, /pentahydrate/],
		[1.57 / 1.059, /pentahydrate/],
		[2, /normality for molarity/],
		[2 * 1.199, /normality for molarity/],
		[6, /iodate or dichromate/],
		[6 / 1.199, /iodate or dichromate/],
		[10, /decimal point, an aliquot factor/],
		[10 * 1.399, /decimal point, an aliquot factor/],
		[100, /percent for a fraction/],
		[1000, /unit at the head/],
		[1000 * 1.399, /unit at the head/],
	])("%s, and its reciprocal", (ratio, cause) => {
		expect(likelySlip(ratio)).toMatch(cause);
		expect(likelySlip(1 / ratio)).toMatch(cause);
	});

	// Quotients that a computer holds exactly.
	test("a number as far off as may be still counts", () => {
		expect(likelySlip(14)).toMatch(/decimal point, an aliquot factor/);
		expect(likelySlip(2.4)).toMatch(/normality for molarity/);
	});

	test.each([
		1,
		1.47,
		2 * 1.201,
		4.9,
		10 * 1.401,
		50,
		100 * 1.401,
		1000 * 1.401,
	])("%s is no usual slip", (ratio) => {
		expect(likelySlip(ratio)).toBe("");
		expect(likelySlip(1 / ratio)).toBe("");
	});
});
