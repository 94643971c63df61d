import { expect, test } from "vitest";
import { kelvinsOf } from "../../kernel-lib/temperature/index";

test("degrees of every treatment, in the order of the treatments", () => {
	expect(kelvinsOf(["warm", "cold"], { cold: 5, other: 90, warm: 35 })).toEqual(
		[308.15, 278.15],
	);
});

test("treatments without a temperature are all named, and what to do", () => {
	const asked = () =>
		kelvinsOf(["fired once", "fired twice", "toString", "25 °C"], {
			"25 °C": 25,
			"fired once": Number.NaN,
		});
	expect(asked).toThrow(/3 problems/);
	expect(asked).toThrow(
		/found the treatment "fired twice", which has no temperature in `celsius`; .*like "fired twice": 25\./,
	);
	expect(asked).not.toThrow(/column|row|NaN/);
});
