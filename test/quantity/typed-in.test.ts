import { describe, expect, test } from "vitest";
import { idsOf, minus, ProblemError } from "../../kernel-lib/quantity/index";
import { input, normal, rectangular } from "../../kernel-lib/quantity/public";

const purity = () =>
	input("ratio", 99.9, "%", rectangular(0.1), {
		symbol: "P",
		source: "label of the bottle",
	});

describe("a number typed into a cell", () => {
	test("with a source and a symbol it is one error, however often it is typed", () => {
		expect(minus(purity(), purity()).standardUncertainty).toBe(0);
	});

	test("without them, or as a reading, two are two", () => {
		const bare = () => input("mass", 3, "g", normal(0.1), { symbol: "m" });
		const reading = () =>
			input("mass", 3, "g", normal(0.1), {
				symbol: "m",
				source: "note card",
				scope: "reading",
			});
		for (const typed of [bare, reading])
			expect(minus(typed(), typed()).standardUncertainty).toBeCloseTo(
				Math.SQRT2 * 0.1,
				12,
			);
		expect(idsOf([bare()])).toEqual(idsOf([bare()]));
	});

	test("everything that is wrong is told at once", () => {
		const wrong = () =>
			input(
				"mas" as "mass",
				Number.NaN,
				"g",
				0.1 as never,
				{
					simbol: "m",
				} as never,
			);
		expect(wrong).toThrow(ProblemError);
		expect(wrong).toThrow(
			/4 problems[\s\S]*Did you mean "mass"[\s\S]*NaN[\s\S]*quantity\.normal\(0\.1\)[\s\S]*Did you mean "symbol"/,
		);
	});

	test("a unit of another kind is told with those of the kind", () => {
		expect(() => input("mass", 1, "mL" as "g", normal(0.1))).toThrow(
			/the unit "mL" for a mass; expected one of g, mg, µg, kg/,
		);
	});

	test("nothing said about the error is told with what can be said", () => {
		expect(() => input("mass", 1, "g", undefined as never)).toThrow(
			/quantity\.rectangular\(a\)/,
		);
	});
});
