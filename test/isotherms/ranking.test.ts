import { describe, expect, test } from "vitest";
import {
	dualSiteLangmuir,
	freundlich,
	henry,
	type Isotherm,
	langmuir,
	ownIsotherm,
	plainPoints,
	rankIsotherms,
	sips,
} from "../../kernel-lib/isotherms/index";
import { evidenceText } from "../../kernel-lib/isotherms/words";
import { goodLines, pointsOn } from "./plain-lines";

const errors = [3, -4, 1, 5, -2, -5, 4, 2, -3];
const points = pointsOn(langmuir, [350, 0.01], goodLines, { errors });

test("an evidence ratio is a number up to a thousand to one", () => {
	expect(evidenceText(1000)).toBe("1000 to 1");
	expect(evidenceText(1001)).toBe("more than 1000 to 1");
	expect(evidenceText(1.61e10)).toBe("more than 1000 to 1");
	expect(evidenceText(2.34)).toBe("2.3 to 1");
});

describe("isotherms ranked by AICc", () => {
	const ranking = rankIsotherms(points);

	test("the form that made the points leads, and one of the wrong shape is far behind", () => {
		expect(ranking.ranked[0].isotherm).toBe(langmuir);
		const power = ranking.ranked.find((r) => r.isotherm === freundlich);
		expect(power?.difference).toBeGreaterThan(20);
		expect(power?.weight).toBeLessThan(1e-4);
	});

	test("weights are exp(-d/2) over their sum, evidence ratios the best over each", () => {
		const { ranked } = ranking;
		const total = ranked.reduce((s, r) => s + Math.exp(-r.difference / 2), 0);
		for (const r of ranked) {
			expect(r.difference).toBeCloseTo(r.aicc - ranked[0].aicc, 10);
			expect(r.weight).toBeCloseTo(Math.exp(-r.difference / 2) / total, 12);
			expect(r.evidenceRatio * r.weight).toBeCloseTo(ranked[0].weight, 9);
		}
		expect(ranked.reduce((s, r) => s + r.weight, 0)).toBeCloseTo(1, 12);
		const order = ranked.map((r) => r.aicc);
		expect(order).toEqual([...order].sort((a, b) => a - b));
	});

	test("all are judged with the same weights", () => {
		for (const r of ranking.ranked)
			expect(r.fit.weights).toEqual(ranking.ranked[0].fit.weights);
	});

	test("a ranking on fewer points than it needs says so", () => {
		const warned = (count: number): boolean =>
			rankIsotherms(
				{ ...points, points: points.points.slice(0, count) },
				{ isotherms: [henry, langmuir, freundlich] },
			).warnings.some((w) =>
				w.startsWith(`The ranking rests on ${count} points`),
			);
		expect(warned(5)).toBe(true);
		expect(warned(6)).toBe(false);
	});

	test("what has no AICc is not ranked, and the reason is told", () => {
		const few = rankIsotherms(
			{ ...points, points: points.points.slice(0, 5) },
			{ isotherms: [langmuir, sips, dualSiteLangmuir] },
		);
		expect(few.ranked.map((r) => r.isotherm)).toEqual([langmuir]);
		expect(few.notRanked.map((n) => n.isotherm.name).sort()).toEqual(
			[dualSiteLangmuir.name, sips.name].sort(),
		);
		const shown = JSON.stringify([few.table, ranking.table]);
		expect(shown).toContain("not ranked: ");
		expect(shown).not.toMatch(/NaN|Infinity|undefined|null/);
	});

	test("forms that the points do not tell apart are said to be alike", () => {
		const sameInOtherWords = ownIsotherm({
			name: "hyperbola",
			parameters: ["a", "half"],
			start: [300, 80],
			curve: (c, a, half) => (a * c) / (half + c),
		});
		const said = (isotherms: Isotherm[]): boolean =>
			rankIsotherms(points, { isotherms }).warnings.some((w) =>
				/^(Langmuir and hyperbola|hyperbola and Langmuir) cannot be distinguished/.test(
					w,
				),
			);
		expect(said([langmuir, sameInOtherWords, freundlich])).toBe(true);
		expect(said([langmuir, freundlich])).toBe(false);
	});

	test("points that suit no candidate are a problem, not an empty table", () => {
		expect(() => rankIsotherms(points, { isotherms: [] })).toThrow(
			/no isotherm/,
		);
		expect(() => rankIsotherms(plainPoints("none", [], []))).toThrow();
	});
});
