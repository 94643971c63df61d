import { describe, expect, test } from "vitest";
import type { Flask, Solution, Trial } from "../../kernel-lib/bench";
import {
	exact,
	exactRatio,
	input,
	normal,
	type Quantity,
	stated,
	times,
} from "../../kernel-lib/quantity/index";
import { ageCaution, drift } from "../../kernel-lib/solutions/age";

const days = (n: number): Quantity<"time"> => input("time", n, "d", exact, {});

describe("drift", () => {
	const shared = input("ratio", 1, "1", normal(0.002), {
		symbol: "f",
		source: stated("the standard, shared"),
	});
	const found = (x: number, u: number): Quantity<"concentration"> =>
		times(input("concentration", x, "mol/L", normal(u), {}), shared);

	test("rate, and the concentration in between and a little beyond", () => {
		const d = drift(found(0.1, 0.0001), found(0.098, 0.0001), days(20));
		expect(d.rate.in("1/d")).toBeCloseTo(-0.001, 12);
		expect(d.significant).toBe(true);
		expect(d.at(days(10)).in("mol/L")).toBeCloseTo(0.099, 12);
		expect(d.at(days(30)).in("mol/L")).toBeCloseTo(0.097, 12);
		expect(d.at(days(0)).standardUncertainty).toBeCloseTo(
			found(0.1, 0.0001).standardUncertainty,
			12,
		);
		expect(() => d.at(days(31))).toThrow(/Standardise again/);
		expect(() => d.at(days(-1))).toThrow(/found -1 days/);
	});

	test("what both standardisations share does not hide a drift, and scatter is not taken for one", () => {
		// The shared 0.2 % is larger than the change of 0.1 %, and cancels in it.
		expect(
			drift(found(0.1, 1e-5), found(0.0999, 1e-5), days(5)).significant,
		).toBe(true);
		// the change is 1e-4; its standard uncertainty sqrt(2) u: twice that lies at u = 3.5355e-5
		expect(
			drift(found(0.1, 3.53e-5), found(0.0999, 3.53e-5), days(5)).significant,
		).toBe(true);
		expect(
			drift(found(0.1, 3.55e-5), found(0.0999, 3.55e-5), days(5)).significant,
		).toBe(false);
		const none = drift(found(0.1, 1e-4), found(0.0999, 1e-4), days(5));
		expect(none.significant).toBe(false);
		expect(none.text).toContain("No change that can be told");
	});

	test("no time, no drift", () => {
		expect(() => drift(found(0.1, 1), found(0.1, 1), days(0))).toThrow(
			/some time between them/,
		);
		expect(exactRatio(1).value).toBe(1);
	});
});

describe("age of a standardised solution", () => {
	const on = (day: string) => ({
		recorded: true as const,
		value: new Date(day),
	});
	const caution = (
		substance: string,
		standardisedOn: Solution["standardisedOn"],
		used: string,
	): string =>
		ageCaution(
			{
				flasks: [
					{
						titratedAt: on(used),
						dosedAt: { recorded: false },
						marks: [],
					} as unknown as Flask,
				],
			} as unknown as Trial,
			{ name: "bottle 1", substance, standardisedOn } as Solution,
		);

	test("fresh is no concern, old is", () => {
		expect(caution("iodine", on("2026-03-02"), "2026-03-02")).toBe("");
		expect(caution("iodine", on("2026-03-02"), "2026-03-09")).toContain(
			"7 days before its last use",
		);
		expect(caution("sodium thiosulfate", on("2026-03-02"), "2026-03-09")).toBe(
			"",
		);
		// a day and two weeks, pinned on both sides
		expect(caution("iodine", on("2026-03-02"), "2026-03-03")).toBe("");
		expect(caution("iodine", on("2026-03-02"), "2026-03-04")).toContain(
			"2 days before its last use",
		);
		expect(caution("thiosulfate", on("2026-03-02"), "2026-03-16")).toBe("");
		expect(caution("thiosulfate", on("2026-03-02"), "2026-03-17")).toContain(
			"15 days before its last use",
		);
		expect(caution("potassium iodate", on("2025-03-02"), "2026-03-09")).toBe(
			"",
		);
	});

	test("a day that is not recorded is said to be", () => {
		expect(caution("iodine", { recorded: false }, "2026-03-09")).toContain(
			"does not say when",
		);
	});

	test("standardised afterwards is said too", () => {
		expect(caution("iodine", on("2026-03-12"), "2026-03-09")).toContain(
			"after its last use",
		);
	});
});
