/** What a comparison may be asked for, and what it takes unless told otherwise. */
import { describe, expect, test } from "vitest";
import {
	type CompareOptions,
	marginOf,
	percentOfControl,
	residueOf,
} from "../../kernel-lib/compare";
import { chosenClaim } from "../../kernel-lib/compare/claim";
import {
	marginProblems,
	marginSet,
	percentOption,
} from "../../kernel-lib/compare/margin";
import {
	comparisonProblems,
	requireCompareOptions,
	settingsOf,
} from "../../kernel-lib/compare/settings";
import { flasks, group } from "./fixtures";

const refused = (options: object) => {
	try {
		requireCompareOptions(options as CompareOptions);
		return "";
	} catch (error) {
		return (error as Error).message;
	}
};

describe("slopes that are allowed for", () => {
	test.each([
		[0, 1],
		[0.1, 0.5],
		[0.3, 0.3],
		[0, 0],
		[1, 1],
	])("%f to %f", (low, high) => {
		expect(refused({ slopes: { low, high } })).toBe("");
	});
	test.each([
		{ low: -0.01, high: 0.5 },
		{ low: 0.5, high: 1.01 },
		{ low: 0.5, high: 0.4 },
		{ low: "0.1", high: 0.5 },
		{ low: 0.1, high: "0.5" },
		{ low: 0.1 },
		{ high: 0.5 },
		{},
		null,
		0.3,
	])("not %j", (slopes) => {
		expect(refused({ slopes })).toContain(
			"{ low: 0.1, high: 0.5 }, numbers from 0 to 1, the lower one first",
		);
	});
});

describe("claim and margin", () => {
	const claim = "at least the margin more";
	test("the claim of at least the margin needs one; a difference does not", () => {
		expect(refused({ claim })).toContain(
			'found the claim "at least the margin more", and no margin among the options of compareTreatments',
		);
		expect(refused({ claim, margin: marginOf(25) })).toBe("");
		expect(refused({ claim, margin: percentOfControl(10) })).toBe("");
		expect(refused({ claim: "difference" })).toBe("");
		expect(refused({})).toBe("");
	});
	test("a claim that there is not is refused with those that there are", () => {
		expect(() => chosenClaim("more")).toThrow(
			/expected "difference" or "at least the margin more"/,
		);
	});
	test("a share of the control is what percentOfControl makes", () => {
		expect(percentOption.accepts(percentOfControl(10))).toBe(true);
		for (const other of [
			null,
			undefined,
			10,
			"10 %",
			{},
			{ is: "percent of the control" },
			{ is: "percent of the control", percent: "10" },
			{ is: "uptake", percent: 10 },
		])
			expect(percentOption.accepts(other)).toBe(false);
	});
	test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])(
		"not %f per cent of the control",
		(percent) => {
			expect(() => percentOfControl(percent)).toThrow(
				`found a margin of ${percent} % of the control; expected a difference above 0`,
			);
		},
	);
	test("per cent that are no number are named as they were given", () => {
		expect(() => percentOfControl("10" as never)).toThrow(
			/"10" as per cent of the control/,
		);
	});
	test("a margin of 0 or below is no margin, one that was not set is none", () => {
		const problems = (margin: Parameters<typeof marginSet>[0]) =>
			marginProblems(marginSet(margin)).map((p) => p.found);
		expect(problems(undefined)).toEqual([]);
		expect(problems(marginOf(25))).toEqual([]);
		expect(problems(marginOf(0))).toEqual(["a margin of 0 mg/g"]);
		const percent = (n: number) =>
			problems({ is: "percent of the control", percent: n });
		expect(percent(0.1)).toEqual([]);
		expect(percent(0)).toEqual(["a margin of 0 % of the control"]);
	});
	test("a margin is exact", () => {
		expect(marginOf(25)).toMatchObject({ value: 25, unit: "mg/g" });
		expect(marginOf(25).standardUncertainty).toBe(0);
	});
});

describe("settings", () => {
	test("unless told otherwise", () => {
		expect(settingsOf({})).toEqual({
			margin: { is: "not set" },
			claim: "difference",
			confidence: 0.95,
			spread: "moderated",
			sameness: "one-sided tests",
			slopes: "of the probe",
		});
	});
	test("as they were asked for", () => {
		const margin = marginOf(25);
		const asked = {
			claim: "at least the margin more",
			confidence: 0.9,
			spread: "pooled",
			sameness: "interval",
			slopes: { low: 0.1, high: 0.2 },
		} as const;
		expect(settingsOf({ ...asked, margin, residue: residueOf(300) })).toEqual({
			...asked,
			margin: { is: "uptake", uptake: margin },
		});
	});
});

test("no flasks are nothing to compare, and every problem is told", () => {
	const set = { is: "not set" } as const;
	const found = (
		n: number,
		margin: Parameters<typeof comparisonProblems>[1]["margin"],
	) =>
		comparisonProblems(
			flasks(
				group(
					"water",
					"",
					Array.from({ length: n }, () => 1),
				),
			),
			{ margin },
		).map((p) => p.code);
	expect(found(1, set)).toEqual([]);
	expect(found(0, set)).toEqual(["nothing-to-compare"]);
	expect(found(0, marginSet(marginOf(-1)))).toEqual([
		"nothing-to-compare",
		"margin-not-positive",
	]);
});
