import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	bareNumber,
	fixed,
	intervalText,
	plainDigits,
	plainNumber,
	roundedPair,
	significant,
	valueText,
} from "../../kernel-lib/quantity";

describe("one style for numbers", () => {
	test.each([
		[812.43, 6.12, "mg/g", "812.4 mg/g (u 6.1 mg/g)"],
		[19.8, 0.05, "mL", "19.800 mL (u 0.050 mL)"],
		[4518.2, 18.3, "mg/L", "4518 mg/L (u 18 mg/L)"],
		[-0.0749, 0.0482, "1", "−0.075 (u 0.048)"],
		[30.6, 0, "%", "30.6 %"],
	])("%d with u %d in %s: %s", (value, u, unit, text) => {
		expect(valueText(value, u, unit)).toBe(text);
	});

	test.each([
		[62.34, 59.12, 65.56, "62.3 mg/g (59.1 to 65.6)"],
		[4518.2, 4482, 4554.4, "4518 mg/g (4482 to 4554)"],
		[3.92, -25.1, 36.6, "4 mg/g (−25 to 37)"],
	])(
		"%d from %d to %d shows two digits of half its interval",
		(value, low, high, text) => {
			expect(intervalText(value, low, high, "mg/g")).toBe(text);
		},
	);

	test("a long or a very small number has a power of ten, others none", () => {
		expect(plainNumber(16_100_000_000)).toBe("1.61 × 10¹⁰");
		expect(plainNumber(9_999_999)).toBe("9999999");
		expect(plainNumber(1e7)).toBe("1 × 10⁷");
		expect(plainNumber(0.0001)).toBe("0.0001");
		expect(plainNumber(-0.00009)).toBe("−9 × 10⁻⁵");
		expect(plainNumber(0)).toBe("0");
		expect(significant(0.016863796, 4)).toBe("0.01686");
		expect(bareNumber(0.75494061)).toBe("0.75494");
		expect(bareNumber(1_234_567)).toBe("1234567");
	});

	test("readers get a minus sign, machines a hyphen, and nobody minus zero", () => {
		expect(fixed(-13.4, 0)).toBe("−13");
		expect(fixed(-0.04, 1)).toBe("0.0");
		expect(fixed(-3, -1)).toBe("0");
		expect(plainNumber(-2.5)).toBe("−2.5");
		expect(plainDigits(-2.5)).toBe("-2.5");
	});

	test("what is shown is the number to half of its last digit", () => {
		fc.assert(
			fc.property(
				fc.double({ min: -1e6, max: 1e6, noNaN: true }),
				fc.double({ min: 1e-4, max: 1e5, noNaN: true }),
				(value, u) => {
					const [shown, uncertainty] = roundedPair(value, u);
					const back = Number(shown.replace("−", "-"));
					expect(Math.abs(back - value)).toBeLessThanOrEqual(0.0501 * u);
					expect(Math.abs(Number(uncertainty) - u)).toBeLessThanOrEqual(
						0.0501 * u,
					);
				},
			),
		);
	});
});
