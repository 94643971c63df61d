import { describe, expect, test } from "vitest";
import {
	correlatedInputs,
	exponentialOf,
	idsOf,
	input,
	ledgerRows,
	meanOfReplicates,
	minus,
	named,
	normal,
	per,
	plus,
	type Quantity,
	scaled,
	stated,
	times,
	total,
} from "../../kernel-lib/quantity/index";

const cell = (row: number, value: number): Quantity<"volume"> =>
	input("volume", value, "mL", normal(0.05), {
		symbol: "V",
		source: {
			is: "cell",
			file: "run.csv",
			hash: "0123456789abcdef",
			sheet: "flasks",
			row,
			column: "titre (mL)",
		},
	});
const idOf = (q: Quantity): string => idsOf([q])[0];
const named3 = (q: Quantity<"volume">): Quantity<"volume"> =>
	named(q, "V_{sum}", "sum");

/** The next number that a double can hold. */
function next(x: number): number {
	const bits = new BigInt64Array(1);
	const value = new Float64Array(bits.buffer);
	value[0] = x;
	bits[0] += 1n;
	return value[0];
}

describe("an id is made of the formula and the inputs", () => {
	test("the same formula of the same inputs has one id, however it was put together", () => {
		const [a, b, c] = [2, 3, 4].map((row) => cell(row, row));
		const again = [2, 3, 4].map((row) => cell(row, row));
		expect(idOf(named3(plus(plus(a, b), c)))).toBe(idOf(named3(total(again))));
	});

	test("other inputs or another formula have other ids", () => {
		const [a, b, c] = [2, 3, 4].map((row) => cell(row, 7));
		const different = [
			plus(a, b),
			plus(a, c),
			plus(b, a),
			minus(a, b),
			minus(b, a),
			plus(a, b, c),
			minus(a, minus(b, c)),
			minus(minus(a, b), c),
			scaled(a, 2),
			scaled(a, 3),
			times(a, per(b, c)),
			times(a, per(c, b)),
		].map((q) => idOf(named3(q)));
		expect(new Set(different).size).toBe(different.length);
	});

	test("a mean of many knows all that it is made of", () => {
		const mean = (middle: number): Quantity<"volume"> =>
			named3(
				total(
					[2, 3, 4, 5, middle, 20, 21, 22, 23, 24].map((row) => cell(row, 1)),
				),
			);
		expect(idOf(mean(6))).not.toBe(idOf(mean(7)));
	});

	test("digits in the last place change no id", () => {
		const chain = (change: (x: number) => number): readonly string[] => {
			const typed = input("ratio", change(0.3), "1", normal(0.01), {
				symbol: "x",
			});
			const [slope, intercept] = correlatedInputs(
				[
					{
						kind: "volume",
						value: change(1 / 3),
						unit: "mL",
						standardUncertainty: change(0.01),
						symbol: "b",
						meaning: "slope",
					},
					{
						kind: "volume",
						value: change(2),
						unit: "mL",
						standardUncertainty: change(0.02),
						symbol: "a",
						meaning: "intercept",
					},
				] as const,
				[
					[1, change(0.5)],
					[change(0.5), 1],
				],
				"line 1",
			);
			const line = plus(intercept, times(slope, exponentialOf(typed)));
			const replicates = meanOfReplicates(
				[2, 3, 4].map((row) => plus(cell(row, change(row)), line)),
				"three",
			);
			return ledgerRows([named(replicates, "V", "result")]).map((r) => r.id);
		};
		const before = chain((x) => x);
		expect(chain(next)).toEqual(before);
		expect(new Set(before).size).toBe(before.length);
	});

	test("numbers typed in are known by what was written, not by when", () => {
		const typed = (value: number, meaning = "char"): string =>
			idOf(input("mass", value, "g", normal(0.001), { symbol: "m", meaning }));
		expect(typed(0.5)).toBe(typed(0.5));
		// Six digits of what was written count.
		expect(typed(0.5)).not.toBe(typed(0.500001));
		expect(typed(0.5)).toBe(typed(0.5000001));
		expect(typed(0.5)).not.toBe(typed(0.5, "dish"));
	});

	test("two constants of one source and symbol are two", () => {
		const constant = (value: number): Quantity<"mass"> =>
			input("mass", value, "g", normal(0.001), {
				symbol: "M",
				source: stated("from memory"),
			});
		expect(idOf(constant(126.9))).not.toBe(idOf(constant(22.99)));
	});

	test("what was computed is known by what it was computed from: six digits of a written number count, none of a computed one", () => {
		const coefficient = (value: number, computedFrom: string): string =>
			idOf(
				input("mass", value, "g", normal(0.1), {
					symbol: "b",
					source: stated("fit"),
					computedFrom,
				}),
			);
		expect(coefficient(1, "sheet 1")).toBe(coefficient(2, "sheet 1"));
		expect(coefficient(1, "sheet 1")).not.toBe(coefficient(1, "sheet 2"));
	});
});
