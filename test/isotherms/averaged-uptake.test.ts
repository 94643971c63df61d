import { describe, expect, test } from "vitest";
import {
	averagedTable,
	averagedUptake,
	fitIsotherm,
	langmuir,
	rankIsotherms,
	sips,
	uptakeAtResidue,
} from "../../kernel-lib/isotherms/index";
import { normalQuantile, studentTQuantile } from "../../kernel-lib/stats/index";
import { goodLines, pointsOn } from "./plain-lines";

const errors = [3, -4, 1, 5, -2, -5, 4, 2, -3];
const points = pointsOn(langmuir, [350, 0.01], goodLines, { errors });

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

	/** Two candidates of which the second has so much of the weight. */
	const weighted = (weight: number) => {
		const [best, other] = ranking.ranked;
		return {
			...ranking,
			ranked: [
				{ ...best, weight: 1 - weight },
				{ ...other, weight },
			],
		};
	};

	test("a candidate with a thousandth of the weight enters, one with less does not", () => {
		expect(averagedUptake(weighted(1.001e-3), 1000).from).toHaveLength(2);
		expect(averagedUptake(weighted(0.999e-3), 1000).from).toHaveLength(1);
	});

	test("as a table: a row for each ranking, the confidence in the head", () => {
		const at = averagedUptake(ranking, 1000);
		const table = averagedTable([ranking, ranking], 1000);
		expect(table.columns[3]).toBe("95 % interval (mg/g)");
		expect(table.rows).toHaveLength(2);
		expect(table.rows[0].slice(0, 4)).toEqual([
			"char",
			1000,
			at.uptake.toFixed(1),
			`${at.low.toFixed(1)} to ${at.high.toFixed(1)}`,
		]);
		expect(String(table.rows[0][4])).toMatch(
			/^\w+ [\d.]+ \(weight 0\.\d{3}\), /,
		);
		const ninety = rankIsotherms(between, {
			isotherms: [langmuir, sips],
			confidence: 0.9,
		});
		expect(averagedTable([ninety], 1000).columns[3]).toBe(
			"90 % interval (mg/g)",
		);
		expect(() => averagedTable([ranking, ninety], 1000)).toThrow(
			/intervals of 95 % and 90 %/,
		);
	});
});
