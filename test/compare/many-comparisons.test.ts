import { describe, expect, test } from "vitest";
import { notConcluded } from "../../kernel-lib/cautions";
import { type Comparison, marginOf } from "../../kernel-lib/compare";
import { createRandom } from "../../kernel-lib/stats";
import { methodSentences } from "../../kernel-lib/words";
import { compareTreatments, type FlaskFixture, flasks } from "./fixtures";

/** A control and so many treatments, two soaks each; on two days where asked, which takes the product form away. */
function compared(treatments: number, days: number): Comparison {
	const random = createRandom("many comparisons");
	const list = Array.from({ length: treatments + 1 }, (_, t) =>
		Array.from(
			{ length: t === 0 ? 6 : 2 },
			(_, s): FlaskFixture => ({
				flask: `${t}-${s}`,
				treatment: t === 0 ? "water" : `soak ${t}`,
				control: t === 0 ? "" : "water",
				soak: `${s}`,
				day: `${(t * (s + 1)) % days}`,
				uptake: 200 + (t % 3 === 1 ? 150 : 0) + 5 * random.normal(),
			}),
		),
	).flat();
	return compareTreatments(flasks(list), { margin: marginOf(25) });
}

const told = (c: Comparison): string =>
	[...methodSentences(c), ...notConcluded(c)].join("\n");

describe("more treatments than are computed point by point", () => {
	test("40 on two days: an interval and a word each, and the head says that they are a bound", () => {
		const c = compared(40, 2);
		expect(c.verdicts).toHaveLength(40);
		expect(c.verdicts.every((v) => v.difference.is === "estimate")).toBe(true);
		expect(
			c.verdicts.filter((v) => v.word === "higher").length,
		).toBeGreaterThan(8);
		expect(c.verdicts.filter((v) => v.word === "lower")).toEqual([]);
		expect(c.method.simultaneous.are).toBe("bound");
		expect(told(c)).toContain(
			"The intervals of the 40 differences are a bound",
		);
		expect(told(c)).toContain("critical values and p are a bound");
	});

	test("few: computed, and nothing of a bound is said", () => {
		const c = compared(8, 2);
		expect(c.method.simultaneous.are).toBe("computed");
		expect(told(c)).not.toContain("are a bound");
	});
});
