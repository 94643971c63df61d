import { describe, expect, test } from "vitest";
import {
	certificate,
	correlatedInputs,
	correlation,
	glasswareCalibration,
	glasswareTolerance,
	halfDivision,
	input,
	meanOfReplicates,
	measuredVolume,
	minus,
	monteCarloTrials,
	normal,
	piecesOfGlassware,
	plus,
	purityAtLeast,
	rectangular,
	repeatedReadings,
	tolerancesOf,
	triangular,
	weighedMass,
	withTemperatureSpread,
} from "../../kernel-lib/quantity/index";

describe("evidence", () => {
	test("divisors: JCGM 100:2008, 4.3.7 and 4.3.9", () => {
		expect(rectangular(1).standardUncertainty).toBeCloseTo(
			1 / Math.sqrt(3),
			15,
		);
		expect(triangular(1).standardUncertainty).toBeCloseTo(1 / Math.sqrt(6), 15);
		expect(halfDivision(0.1).standardUncertainty).toBeCloseTo(
			0.05 / Math.sqrt(3),
			15,
		);
		expect(certificate(0.06, 3).standardUncertainty).toBeCloseTo(0.02, 15);
	});

	test("nonsense is refused", () => {
		expect(() => rectangular(-1)).toThrow(RangeError);
		expect(() => certificate(1, 0)).toThrow(/coverage factor/);
		expect(() => normal(Number.NaN)).toThrow(RangeError);
	});
});

describe("repeated readings", () => {
	test("mean, s/sqrt(n), n - 1", () => {
		const q = repeatedReadings("volume", [24.1, 24.2, 24.15, 24.25], "mL");
		expect(q.value).toBeCloseTo(24.175, 12);
		// s = 0.0645497..., by hand: deviations -.075, .025, -.025, .075.
		expect(q.standardUncertainty).toBeCloseTo(Math.sqrt(0.0125 / 3) / 2, 12);
	});

	test("one reading has no scatter", () => {
		expect(() => repeatedReadings("volume", [24.1], "mL")).toThrow(
			/at least two readings/,
		);
	});
});

describe("mean of replicates", () => {
	const reading = (x: number, row: number) =>
		plus(
			input("volume", x, "mL", rectangular(0.05), {
				scope: "reading",
				symbol: `V_${row}`,
			}),
			burette,
		);
	const burette = input("volume", 0, "mL", rectangular(0.05), {
		symbol: "δ_{burette}",
	});

	test("one or two keep their reading errors, the calibration once", () => {
		const mean = meanOfReplicates(
			[reading(24.1, 1), reading(24.3, 2)],
			"two titres",
		);
		expect(mean.standardUncertainty).toBeCloseTo(
			Math.hypot(0.05 / Math.sqrt(3) / Math.SQRT2, 0.05 / Math.sqrt(3)),
			12,
		);
	});

	test("three or more: scatter in place of the reading errors, never both", () => {
		const mean = meanOfReplicates(
			[24.1, 24.3, 24.5].map(reading),
			"three titres",
		);
		expect(mean.value).toBeCloseTo(24.3, 12);
		expect(mean.standardUncertainty).toBeCloseTo(
			Math.hypot(0.2 / Math.sqrt(3), 0.05 / Math.sqrt(3)),
			12,
		);
	});

	test("scatter smaller than the readings can be read does not count", () => {
		const mean = meanOfReplicates(
			[24.3, 24.3, 24.3].map(reading),
			"three equal titres",
		);
		expect(mean.standardUncertainty).toBeCloseTo(
			Math.hypot(0.05 / 3, 0.05 / Math.sqrt(3)),
			12,
		);
	});
});

describe("glassware", () => {
	test("the volume of QUAM example A1: tolerance, repeatability and temperature", () => {
		const volume = withTemperatureSpread(
			measuredVolume("volumetric flask", 100, 100, {
				accuracyClass: "A",
				shape: "triangular",
				fillingSpread: 0.02,
			}),
			4,
		);
		// 0.0665 mL, recomputed from 0.1/sqrt(6), 0.02 and 100 * 2.1e-4 * 4/sqrt(3).
		expect(volume.standardUncertainty).toBeCloseTo(0.06647305218407432, 12);
	});

	test("one piece used twice is one error", () => {
		const first = glasswareCalibration("volumetric pipette", 25);
		const second = glasswareCalibration("volumetric pipette", 25);
		expect(minus(first, second).standardUncertainty).toBe(0);
		const other = glasswareCalibration("volumetric pipette", 25, {
			name: "of the other bench",
		});
		expect(minus(first, other).standardUncertainty).toBeGreaterThan(0);
	});

	test("the default burette: 50 mL, 0.1 mL divisions, class B ± 0.1 mL", () => {
		const burette = glasswareTolerance("burette", 50, "B");
		expect(burette).toMatchObject({
			ok: true,
			value: { tolerance: 0.1, division: 0.1, standard: "ISO 385" },
		});
	});

	test("a size between those of the standard is refused with the sizes there are", () => {
		const found = glasswareTolerance("volumetric pipette", 12, "A");
		expect(found.ok).toBe(false);
		if (!found.ok) expect(found.problems[0].expected).toContain("10, 15, 20");
	});

	test("class B is never tighter than A, tolerances grow with the size, each says it is from memory", () => {
		for (const piece of piecesOfGlassware) {
			const rows = tolerancesOf(piece);
			for (const row of rows) {
				expect(row.source).toMatch(/^from memory: ISO \d+/);
				const a = glasswareTolerance(piece, row.size, "A", row.division);
				const b = glasswareTolerance(piece, row.size, "B", row.division);
				if (a.ok && b.ok)
					expect(b.value.tolerance).toBeGreaterThanOrEqual(a.value.tolerance);
			}
			const classA = rows.filter((r) => r.accuracyClass !== "B");
			for (let i = 1; i < classA.length; i++)
				expect(classA[i].tolerance).toBeGreaterThanOrEqual(
					classA[i - 1].tolerance,
				);
		}
	});
});

test("a mass by difference counts linearity twice: QUAM example A2", () => {
	const mass = weighedMass(0.3888, { linearity: 0.00015 });
	// Two weighings, rectangular 0.15 mg: recomputed 0.12247 mg.
	expect(mass.standardUncertainty).toBeCloseTo(0.0001224744871391589, 15);
});

test("a purity of at least 99.5 % is 99.75 % ± 0.25 %", () => {
	const p = purityAtLeast(99.5);
	expect(p.in("1")).toBeCloseTo(0.9975, 15);
	expect(p.standardUncertainty).toBeCloseTo(0.25 / Math.sqrt(3), 12);
});

describe("correlated inputs", () => {
	const correlations = [
		[1, 0.8, -0.3],
		[0.8, 1, 0.1],
		[-0.3, 0.1, 1],
	];
	const [a, b, c] = correlatedInputs(
		[
			{
				kind: "mass",
				value: 2,
				unit: "g",
				standardUncertainty: 0.1,
				symbol: "a",
				meaning: "a",
			},
			{
				kind: "volume",
				value: 5,
				unit: "mL",
				standardUncertainty: 0.2,
				symbol: "b",
				meaning: "b",
			},
			{
				kind: "mass",
				value: 1,
				unit: "g",
				standardUncertainty: 0.3,
				symbol: "c",
				meaning: "c",
			},
		],
		correlations,
		"invented",
	);

	test("values, uncertainties and correlations come back", () => {
		expect([a, b, c].map((q) => q.value)).toEqual([2, 5, 1]);
		expect(a.standardUncertainty).toBeCloseTo(0.1, 14);
		expect(b.standardUncertainty).toBeCloseTo(0.2, 14);
		expect(c.standardUncertainty).toBeCloseTo(0.3, 14);
		expect(correlation(a, b)).toBeCloseTo(0.8, 12);
		expect(correlation(a, c)).toBeCloseTo(-0.3, 12);
		expect(correlation(b, c)).toBeCloseTo(0.1, 12);
	});

	test("Monte Carlo sees the correlation too", () => {
		const [x, y] = monteCarloTrials([a, b], { trials: 100_000 });
		const mean = (v: Float64Array): number =>
			v.reduce((s, t) => s + t, 0) / v.length;
		const [mx, my] = [mean(x), mean(y)];
		let covariance = 0;
		for (let i = 0; i < x.length; i++) covariance += (x[i] - mx) * (y[i] - my);
		expect(covariance / x.length / (0.1 * 0.2)).toBeCloseTo(0.8, 1);
	});

	test("correlations that contradict each other are refused", () => {
		expect(() =>
			correlatedInputs(
				["a", "b", "c"].map((symbol) => ({
					kind: "mass" as const,
					value: 1,
					unit: "g" as const,
					standardUncertainty: 1,
					symbol,
					meaning: symbol,
				})),
				[
					[1, 0.9, -0.9],
					[0.9, 1, 0.9],
					[-0.9, 0.9, 1],
				],
				"invented",
			),
		).toThrow(/contradict/);
	});
});
