import { describe, expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import { compareTreatments } from "../../kernel-lib/compare/index";

const { verdicts } = compareTreatments(readTrial("data/demo-run/hazelnut.csv"));
const number = (text: unknown): number =>
	Number(String(text).replace("−", "-"));

describe("the table of a difference", () => {
	test.each(verdicts.map((v) => [v.treatment, v] as const))(
		"%s: weights and uptakes add up to the difference, its ends stand below",
		(_, { difference, working: { title, rows } }) => {
			expect(title).toMatch(/^How the difference of ".*" from ".*" was had$/);
			if (difference.is !== "estimate") {
				expect(rows).toEqual([]);
				return;
			}
			const row = (what: string): number =>
				number(rows.find(([first]) => first === what)?.[3]);
			const sum = rows
				.filter(([what]) => String(what).startsWith("flask "))
				.reduce((s, [, , w, q]) => s + number(w) * number(q), 0);
			// Four places of a weight and one of an uptake are shown.
			expect(Math.abs(sum - difference.estimate)).toBeLessThan(0.3);
			expect(row("difference")).toBeCloseTo(difference.estimate, 0);
			expect(row("lower end")).toBeCloseTo(difference.low, 0);
			expect(row("upper end")).toBeCloseTo(difference.high, 0);
		},
	);
});
