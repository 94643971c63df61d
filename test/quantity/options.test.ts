import { describe, expect, test } from "vitest";
import {
	countOption,
	eitherOption,
	exact,
	input,
	listOption,
	numberOption,
	optionProblems,
	quantityOption,
	requireOptions,
	stated,
	textOption,
	wordOption,
	yesNoOption,
} from "../../kernel-lib/quantity/index";

const margin = input("uptake", 25, "mg/g", exact, { source: stated("test") });
const rules = {
	margin: quantityOption("uptake", "compare.marginOf(25)"),
	confidence: numberOption(0.5, 1),
	drift: wordOption("check", "correct"),
	names: listOption(textOption),
	bands: yesNoOption,
	trials: countOption(1),
	treatment: eitherOption(textOption, listOption(textOption)),
};
const texts = (options: object): string[] =>
	optionProblems(options, rules, "compareTreatments").map(
		(p) => `${p.found}; expected ${p.expected}. ${p.mend}`,
	);

describe("options of a call", () => {
	test("right ones pass, undefined counts as not given", () => {
		expect(
			texts({
				margin,
				confidence: 0.9,
				drift: "check",
				names: ["a"],
				bands: true,
				trials: 3,
				treatment: undefined,
			}),
		).toEqual([]);
	});
	test("a misspelt name is answered with the nearest one", () => {
		expect(texts({ confidance: 0.9 })).toEqual([
			'the option "confidance", which compareTreatments does not have; expected an option that it has. Did you mean "confidence"?',
		]);
	});
	test("a name that is near to none is answered with the list", () => {
		expect(texts({ x: 1 })[0]).toMatch(/There is "margin", "confidence"/);
	});
	test("a bare number where a quantity belongs", () => {
		expect(texts({ margin: 25 })).toEqual([
			'the number 25 for the option "margin" of compareTreatments; expected a quantity of the kind uptake, such as compare.marginOf(25). Change this value.',
		]);
	});
	test.each([
		[{ confidence: 0.5 }],
		[{ confidence: 1 }],
		[{ confidence: Number.NaN }],
		[{ confidence: "0.9" }],
		[{ drift: "mend" }],
		[{ names: "a" }],
		[{ names: [1] }],
		[{ bands: 1 }],
		[{ trials: 0 }],
		[{ trials: 1.5 }],
		[{ treatment: 3 }],
		[{ toString: 3 }],
	])("refuses %o", (options) => {
		expect(texts(options)).toHaveLength(1);
	});
	test.each([
		[{ confidence: 0.501 }],
		[{ confidence: 0.999 }],
		[{ trials: 1 }],
	])("takes %o", (options) => {
		expect(texts(options)).toEqual([]);
	});
	test("all problems at once", () => {
		expect(() =>
			requireOptions({ alfa: 1, margin: 25 }, rules, "compareTreatments"),
		).toThrow(/2 problems[\s\S]*alfa[\s\S]*margin/);
	});
	test("a quantity in the place of the options", () => {
		expect(texts(margin)).toEqual([
			"a quantity of the kind uptake as the options of compareTreatments; expected options in braces, such as { margin: ... }. Write the name of the option and its value in braces.",
		]);
	});
});
