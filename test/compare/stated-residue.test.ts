/** The residue of a comparison: what may be stated, how it is shown, and where it lies if none was stated. */
import { describe, expect, test } from "vitest";
import { residueOf } from "../../kernel-lib/compare";
import { commonResidue } from "../../kernel-lib/compare/common-residue";
import {
	residueOfTrial,
	residueProblems,
	residueText,
} from "../../kernel-lib/compare/stated-residue";
import { exact, input } from "../../kernel-lib/quantity";
import { flasks, group } from "./fixtures";

describe("a stated residue", () => {
	test("is an exact concentration above 0", () => {
		expect(residueOf(2500).in("g/L")).toBeCloseTo(2.5, 12);
		expect(residueOf(2500).standardUncertainty).toBe(0);
		expect(residueOfTrial(300).in("mg/L")).toBe(300);
		expect(() => residueOf(0)).toThrow(
			/found a residue of 0 mg\/L; expected a residual concentration above 0.*severalDoses/,
		);
		expect(() => residueOf(-1)).toThrow(/a residue of -1 mg\/L/);
		for (const none of [Number.NaN, Number.POSITIVE_INFINITY])
			expect(() => residueOf(none)).toThrow(/a residue that is no number/);
	});

	test("is refused where it is a bare number, nothing, or no mass in a volume", () => {
		const found = (residue: unknown) =>
			residueProblems(residue).map((p) => p.found);
		expect(found(residueOf(300))).toEqual([]);
		expect(found(300)).toEqual(["the bare number 300"]);
		for (const none of [undefined, null, "300", {}, { kind: "x" }])
			expect(found(none)).toEqual(["no residual concentration"]);
		const whole = {
			kind: "massConcentration",
			value: 1,
			unit: "g/L",
			in: () => 1,
		};
		expect(found(whole)).toEqual([]);
		for (const part of ["kind", "value", "unit", "in"]) {
			const { [part as keyof typeof whole]: _, ...rest } = whole;
			expect(found(rest)).toEqual(["no residual concentration"]);
		}
		expect(
			residueProblems(input("concentration", 2, "mmol/L", exact, {})),
		).toMatchObject([
			{ found: "2 mmol/L", mend: expect.stringMatching(/molar mass/) },
		]);
		expect(found({ ...whole, in: () => 0 })).toEqual(["a residue of 0 mg/L"]);
	});

	test("is shown in g/L from 1000 mg/L on, to three digits", () => {
		expect([340, 999.4, 999.6, 1000, 2544].map(residueText)).toEqual([
			"340 mg/L",
			"999 mg/L",
			"1 g/L",
			"1 g/L",
			"2.54 g/L",
		]);
	});
});

describe("where none was stated", () => {
	const of = (...groups: Parameters<typeof flasks>[0][]) =>
		commonResidue(flasks(groups.flat()));
	const at = (treatment: string, residue: number, more = {}) =>
		group(treatment, "", [100], { residue, ...more });
	test("the middle of the treatments on the logarithmic scale, whatever lies badly read beside it", () => {
		expect(of(at("water", 100), at("steam", 900))).toBe(300);
		expect(
			of(
				at("water", 100),
				at("steam", 900),
				at("steam", 5000, { residueReading: 2000 }),
			),
		).toBe(300);
	});
	test("bounds alone hold at the largest limit; without any, at 1 mg/L", () => {
		expect(
			of(
				at("water", 8, { is: "at least" }),
				at("steam", 20, { is: "at least" }),
			),
		).toBe(20);
		expect(of(at("water", 0, { is: "at least" }))).toBe(1);
		expect(of()).toBe(1);
	});
});
