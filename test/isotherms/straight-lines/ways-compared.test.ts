import { describe, expect, test } from "vitest";
import type { Repeats } from "../../../kernel-lib/isotherms/index";
import { waysCompared } from "../../../kernel-lib/isotherms/index";

/** Repeats in which each way held the truth in so many of 100; the fitted curve first. */
function repeatsHeld(
	held: readonly number[],
	trials = 500,
	widths: readonly number[] = held.map(() => 10),
): Repeats {
	return {
		truth: { plateau: 380, affinity: 0.01 },
		trials,
		flasks: "of the trial",
		confidence: 0.95,
		ways: held.map((percent, i) => ({
			name: ["fitted", "C/q against C", "1/q against 1/C", "q against q/C"][i],
			estimates: [],
			covered: percent / 100,
			median: 380,
			low: 380 - widths[i] / 2,
			high: 380 + widths[i] / 2,
		})),
	};
}

const findingOf = (...sets: Repeats[]): string =>
	waysCompared(Object.fromEntries(sets.map((s, i) => [`set ${i}`, s]))).finding;

const promise =
	"A 95 % interval should hold the true value in 95 of 100 repeats: ";

describe("the title says which way held the truth as often as it promised", () => {
	test("the worst of both sets counts", () => {
		expect(
			findingOf(repeatsHeld([96, 83, 99, 100]), repeatsHeld([96, 96, 88, 80])),
		).toBe(
			`${promise}the fitted curve's did, but those of all 3 straight-line forms did not (80 to 88 at worst).`,
		);
	});

	test("some forms may keep it, or all", () => {
		expect(findingOf(repeatsHeld([96, 83, 99, 95]))).toBe(
			`${promise}the fitted curve's did, but of 3 straight-line forms those of 1 did not (83 at worst).`,
		);
		expect(findingOf(repeatsHeld([96, 95, 99, 95]))).toBe(
			`${promise}the fitted curve's did, and so did those of all 3 straight-line forms.`,
		);
	});

	test("the fitted curve may fail, too", () => {
		expect(findingOf(repeatsHeld([85, 83, 83, 83]))).toBe(
			`${promise}here even the fitted curve's did not (85 at worst), and those of all 3 straight-line forms did not (83 at worst).`,
		);
		expect(findingOf(repeatsHeld([85, 95, 95, 95]))).toBe(
			`${promise}here even the fitted curve's did not (85 at worst), but those of all 3 straight-line forms did.`,
		);
	});

	test("too seldom is more than three standard deviations of chance below", () => {
		// 500 repeats at 95 %: one standard deviation is 0.97 %
		expect(findingOf(repeatsHeld([95, 92.1, 95, 95]))).toContain("so did");
		expect(findingOf(repeatsHeld([95, 92.05, 95, 95]))).toContain("those of 1");
	});

	test("from a hundred repeats on it is said, below it is not", () => {
		expect(findingOf(repeatsHeld([95, 10, 95, 95], 99))).toBe(
			"99 repeats are too few to see which way holds the true value as often as it promises: 100 would show it.",
		);
		expect(findingOf(repeatsHeld([95, 10, 95, 95], 100))).toContain("did not");
	});
});

describe("behind the title", () => {
	test("a way twice as wide as the fitted curve is called so, a little less is not", () => {
		const said = (width: number) =>
			waysCompared({
				"all flasks": repeatsHeld([95, 99, 95, 95], 500, [10, width, 10, 10]),
			}).statements;
		expect(said(20)).toEqual([
			"A wide interval holds the true value often and says little: with all flasks C/q against C 2 times as widely spread as the fitted curve.",
		]);
		expect(said(19.9)).toEqual([]);
	});

	test("a fitted curve without scatter makes no number that is none", () => {
		const { statements } = waysCompared({
			a: repeatsHeld([95, 99, 95, 95], 500, [0, 5, 5, 5]),
		});
		expect(statements).toEqual([]);
	});

	test("the table has a row a way and a column a set", () => {
		const { table } = waysCompared({
			"all flasks": repeatsHeld([96, 83, 99, 100]),
			"weak solutions only": repeatsHeld([96, 96, 88, 80]),
		});
		expect(table.columns).toEqual([
			"way",
			"all flasks: held (%)",
			"weak solutions only: held (%)",
		]);
		expect(table.rows[1]).toEqual(["C/q against C", "83", "96"]);
	});
});

test("no set, three sets and sets of two confidences are refused", () => {
	const one = repeatsHeld([95, 95, 95, 95]);
	expect(() => waysCompared({})).toThrow(/0 sets of repeats/);
	expect(() => waysCompared({ a: one, b: one, c: one })).toThrow(
		/3 sets of repeats.*one or 2 sets/,
	);
	expect(() =>
		waysCompared({ a: one, b: { ...one, confidence: 0.9 } }),
	).toThrow(/sets of 2 confidences/);
});
