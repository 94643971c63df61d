/** A margin in mg/g for one control, by hand. */
import { describe, expect, test } from "vitest";
import { marginOf, percentOfControl } from "../../kernel-lib/compare";
import { marginFor, threeMargins } from "../../kernel-lib/compare/margin-for";
import type { GroupSummary } from "../../kernel-lib/compare/verdict";

const water: GroupSummary = {
	treatment: "water",
	units: 3,
	flasks: 6,
	boundFlasks: [],
	mean: 412.37,
	low: 400,
	high: 424.74,
	residue: 300,
	left: 310,
	is: "value",
};
const others: GroupSummary[] = [{ ...water, treatment: "steam", mean: 900 }];
const percent = (of: Partial<GroupSummary>, residue = 300, control = "water") =>
	marginFor(
		percentOfControl(7),
		[...others, { ...water, ...of }],
		control,
		residue,
	);
const refused = (because: string) => ({
	is: "not known",
	because: `a margin of 7 % of the control is not to be had: ${because}`,
});

describe("the margin that holds for a control", () => {
	test("none where none was set, and one in mg/g whatever the control", () => {
		expect(marginFor({ is: "not set" }, [water], "water", 300)).toEqual({
			is: "not known",
			because: "no margin was set",
		});
		expect(
			marginFor({ is: "uptake", uptake: marginOf(12.345) }, [], "water", 300),
		).toEqual({ is: "value", value: 12.345 });
	});

	test("7 % of 412.37 mg/g, to three digits, of the control and of no other", () => {
		expect(percent({})).toEqual({ is: "value", value: 28.9 });
		expect(percent({}, 300, "steam")).toEqual({ is: "value", value: 63 });
	});

	test("no share of a control that is not there, or that stands at another residue", () => {
		const none = refused("the control has no uptake at this residue");
		expect(percent({}, 300, "smoke")).toEqual(none);
		expect(percent({}, 301)).toEqual(none);
	});

	test("no share of a bound, be it all of the control or one flask of it", () => {
		const bound = refused("the uptake of the control has a bound in it");
		expect(percent({ is: "at least" })).toEqual(bound);
		expect(percent({ is: "at most" })).toEqual(bound);
		expect(percent({ boundFlasks: ["w1"] })).toEqual(bound);
	});

	test("no share where the interval ends at zero; one where it ends just above", () => {
		expect(percent({ low: 0, mean: 4, high: 8 })).toEqual(
			refused(
				"the interval of the control's uptake (0.0 to 8.0 mg/g) reaches zero",
			),
		);
		expect(percent({ low: -1.26, mean: 4, high: 9.26 })).toEqual(
			refused(
				"the interval of the control's uptake (−1.3 to 9.3 mg/g) reaches zero",
			),
		);
		expect(percent({ low: 0.001, mean: 4, high: 8 })).toEqual({
			is: "value",
			value: 0.28,
		});
	});
});

describe("three margins where none was set", () => {
	test("5, 10 and 20 % of 412.37 mg/g, to two digits", () => {
		expect(threeMargins([...others, water], "water", 300)).toEqual({
			is: "value",
			value: [21, 41, 82],
		});
	});

	test("none where the control has no uptake to take a share of", () => {
		expect(threeMargins([water], "water", 200)).toEqual({
			is: "not known",
			because: "the control has no uptake at this residue",
		});
		expect(threeMargins([{ ...water, low: 0 }], "water", 300).is).toBe(
			"not known",
		);
	});
});
