import { describe, expect, test } from "vitest";
import {
	averagedUptake,
	dualSiteLangmuir,
	fitIsotherm,
	freundlich,
	henry,
	type Isotherm,
	langmuir,
	ownIsotherm,
	plainPoints,
	rankIsotherms,
	rankingTable,
	sips,
	uptakeAtResidue,
} from "../../kernel-lib/isotherms/index";
import { normalQuantile, studentTQuantile } from "../../kernel-lib/stats/index";
import { goodLines, pointsOn } from "./plain-lines";

const errors = [3, -4, 1, 5, -2, -5, 4, 2, -3];
const points = pointsOn(langmuir, [350, 0.01], goodLines, { errors });

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
		const shown = JSON.stringify(rankingTable(few, ranking));
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
				/^(Langmuir and hyperbola|hyperbola and Langmuir) cannot be told apart/.test(
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

describe("uptake averaged over the candidates", () => {
	const between = pointsOn(sips, [350, 0.01, 0.93], goodLines, {
		errors: errors.map((e) => 2 * e),
	});
	const ranking = rankIsotherms(between, { isotherms: [langmuir, sips] });
	const at = averagedUptake(ranking, 1000);

	test("both candidates carry weight in this trial", () => {
		expect(ranking.ranked[1].weight).toBeGreaterThan(0.01);
	});

	test("mean, unconditional error and limits by the formula", () => {
		const parts = ranking.ranked.map((r) => {
			const [u] = uptakeAtResidue(r.fit, 1000);
			if (u.scatter.is === "not known") throw new Error(u.scatter.because);
			return {
				weight: r.weight,
				uptake: u.uptake,
				error: u.scatter.value,
				t: studentTQuantile(0.975, r.fit.degreesOfFreedom),
			};
		});
		const z = normalQuantile(0.975);
		const mean = parts.reduce((s, p) => s + p.weight * p.uptake, 0);
		const error = parts.reduce(
			(s, p) => s + p.weight * Math.sqrt(p.error ** 2 + (p.uptake - mean) ** 2),
			0,
		);
		const adjusted = parts.reduce(
			(s, p) =>
				s +
				p.weight *
					Math.sqrt(((p.t / z) * p.error) ** 2 + (p.uptake - mean) ** 2),
			0,
		);
		expect(at.uptake).toBeCloseTo(mean, 9);
		expect(at.standardError).toBeCloseTo(error, 9);
		expect(at.high - at.uptake).toBeCloseTo(z * adjusted, 8);
		expect(at.uptake - at.low).toBeCloseTo(z * adjusted, 8);
	});

	test("it is less sure than the best isotherm taken for the true one, when they disagree", () => {
		const far = averagedUptake(ranking, 20);
		const [best] = uptakeAtResidue(ranking.ranked[0].fit, 20);
		if (best.scatter.is === "not known") throw new Error("no error");
		expect(far.extrapolating).toBe(true);
		expect(far.standardError).toBeGreaterThan(best.scatter.value);
	});

	test("one candidate alone gives what its fit gives", () => {
		const alone = averagedUptake(
			rankIsotherms(points, { isotherms: [langmuir] }),
			1000,
		);
		const [fit] = uptakeAtResidue(fitIsotherm(langmuir, points), 1000);
		expect(alone.uptake).toBeCloseTo(fit.uptake, 9);
		expect(fit.low.is === "value" && fit.low.value).toBeCloseTo(alone.low, 6);
	});

	test("shared errors move all candidates together and are added once", () => {
		const uptake = Float64Array.from(between.points, (p) => 0.01 * p.uptake);
		const shared = rankIsotherms(
			{
				...between,
				shared: [
					{
						key: "balance",
						what: "balance",
						degreesOfFreedom: Number.POSITIVE_INFINITY,
						concentration: new Float64Array(uptake.length),
						uptake,
					},
				],
			},
			{ isotherms: [langmuir, sips] },
		);
		const there = averagedUptake(shared, 1000);
		expect(there.shared / there.uptake).toBeCloseTo(0.01, 3);
		expect(there.standardError).toBeCloseTo(
			Math.hypot(there.scatter, there.shared),
			12,
		);
	});

	test("nothing ranked, nothing averaged", () => {
		const none = rankIsotherms(
			{ ...points, points: points.points.slice(0, 4) },
			{ isotherms: [sips] },
		);
		expect(none.ranked).toEqual([]);
		expect(() => averagedUptake(none, 100)).toThrow(
			/a ranking without ranked isotherms/,
		);
	});
});
