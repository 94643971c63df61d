import { describe, expect, test } from "vitest";
import { freedomText } from "../../kernel-lib/quantity/budget";
import {
	budget,
	exact,
	input,
	kindText,
	minus,
	normal,
	type Quantity,
	tableText,
	total,
} from "../../kernel-lib/quantity/index";
import { uptakeOf } from "./example-chain";

describe("budget of an uptake", () => {
	const { uptake } = uptakeOf(2);
	const { rows, expanded, advice } = budget(uptake);

	test("shares are sorted and add up to one", () => {
		expect(rows.reduce((sum, r) => sum + r.share, 0)).toBeCloseTo(1, 12);
		for (let i = 1; i < rows.length; i++)
			expect(rows[i].share).toBeLessThanOrEqual(rows[i - 1].share);
	});

	test("contributions add in quadrature to u, and are sensitivity times u of the input", () => {
		const u2 = rows.reduce((sum, r) => sum + r.contribution ** 2, 0);
		expect(Math.sqrt(u2)).toBeCloseTo(uptake.standardUncertainty, 12);
		for (const r of rows)
			expect(Math.abs(r.sensitivity) * r.standardUncertainty).toBeCloseTo(
				r.contribution,
				12,
			);
	});

	test("what halving an input would bring is what halving it brings", () => {
		const [first] = rows;
		const rest = uptake.standardUncertainty ** 2 - first.contribution ** 2;
		expect(first.ifHalved).toBeCloseTo(
			Math.sqrt(rest + (first.contribution / 2) ** 2),
			12,
		);
		expect(advice).toBe(
			"Halving the uncertainty of concentration of iodine, as I2 (c_I2) would bring u from 0.91 to 0.73 mg/g.",
		);
	});

	test("expanded uncertainty names its k and its degrees of freedom", () => {
		// One type A input with 5 degrees of freedom and 47 % of the variance: 5/0.47^2.
		expect(expanded.degreesOfFreedom).toBeCloseTo(5 / rows[0].share ** 2, 8);
		expect(tableText(budget(uptake).table)).toContain(
			"Expanded uncertainty U = 1.9 mg/g with k = 2.07 (95 %, 22.6 effective degrees of freedom",
		);
	});

	test("what does not fit the table is added up in one line", () => {
		const shown = budget(uptake, { most: 3 }).table;
		expect(shown.rows).toHaveLength(4);
		expect(shown.rows[3][1]).toBe("6 smaller inputs together");
	});
});

test("a result without uncertainty says so", () => {
	const x = input("mass", 1, "g", exact, { symbol: "m" });
	const empty = budget(minus(x, x));
	expect(empty.rows).toEqual([]);
	expect(empty.advice).toContain("No input has an uncertainty");
	expect(tableText(budget(x).table)).not.toMatch(/NaN|Infinity|undefined/);
});

test("twelve lines, then the rest in one", () => {
	const result = (inputs: number): Quantity<"mass"> =>
		total(
			Array.from({ length: inputs }, (_, i) =>
				input("mass", i, "g", normal(0.1 + i / 100), { symbol: `m_{${i}}` }),
			),
		);
	expect(budget(result(12)).table.rows).toHaveLength(12);
	const thirteen = budget(result(13)).table.rows;
	expect(thirteen).toHaveLength(13);
	expect(thirteen.at(-1)?.[0]).toBe("others");
});

test("a confidence that is no whole per cent is not rounded to one", () => {
	const q = input("mass", 3, "g", normal(0.1), {});
	expect(tableText(budget(q, { confidence: 0.999 }).table)).toContain(
		"(99.9 %",
	);
});

describe("effective degrees of freedom", () => {
	test.each([
		[4.2, "4.2 effective degrees of freedom by Welch and Satterthwaite"],
		[999.9, "999.9 effective degrees of freedom"],
		[1000, "unlimited for every practical purpose (1000 or more)"],
		[1810000, "unlimited for every practical purpose (1000 or more)"],
		[Number.POSITIVE_INFINITY, "taken as known"],
	])("%s", (degrees, said) => {
		expect(freedomText(degrees)).toContain(said);
	});
});

describe("a kind in words", () => {
	test.each([
		["uptake", "an uptake"],
		["mass", "a mass"],
		["massConcentration", "a mass concentration"],
		["areaPerMass", "an area per mass"],
		["pH", "a pH"],
	])("%s", (kind, words) => {
		expect(kindText(kind)).toBe(words);
	});
});
