import { describe, expect, it } from "vitest";
import {
	manyToOne,
	nestedModel,
	sampleVariance,
	simultaneousAdjustedP,
	simultaneousCriticalValue,
	simultaneousFamily,
	studentTTwoSidedP,
} from "../../kernel-lib/stats/index";
import { referenceJson, relativeError } from "./reference";

interface Difference {
	readonly estimate: number;
	readonly standardError: number;
	readonly t: number;
	readonly p: number;
}

interface Nested {
	readonly groups: number[][][];
	readonly degreesOfFreedom: number;
	readonly varianceBetween: number;
	readonly varianceWithin: number;
	readonly differences: readonly Difference[];
}

const { plantGrowth, machines, machinesUnbalanced } = referenceJson<{
	plantGrowth: {
		groups: number[][];
		degreesOfFreedom: number;
		standardDeviation: number;
		differences: readonly Difference[];
	};
	machines: Nested;
	machinesUnbalanced: Nested;
}>("means-of-groups.json");

const pairs = [
	{ treated: 1, control: 0 },
	{ treated: 2, control: 0 },
];

describe("published data against R", () => {
	it("several means against a control, as multcomp has them to seven digits", () => {
		const found = manyToOne(plantGrowth.groups, pairs, 0.95);
		if (found.is !== "differences") throw new Error(found.is);
		expect(found.degreesOfFreedom).toBe(plantGrowth.degreesOfFreedom);
		expect(
			relativeError(
				found.pooledStandardDeviation,
				plantGrowth.standardDeviation,
			),
		).toBeLessThan(1e-9);
		plantGrowth.differences.forEach((expected, i) => {
			const got = found.differences[i];
			for (const [value, asked] of [
				[got.estimate, expected.estimate],
				[got.standardError, expected.standardError],
				[got.t, expected.t],
				[got.adjustedP, expected.p],
			])
				expect(relativeError(value, asked)).toBeLessThan(1e-7);
		});
	});

	it.each([
		["balanced", machines],
		["unbalanced", machinesUnbalanced],
	])(
		"observations within units within groups, %s, as nlme has them to six digits",
		(_, data) => {
			const found = nestedModel(data.groups, pairs, 0.95);
			if (found.is !== "fitted") throw new Error(found.is);
			expect(found.degreesOfFreedom).toBe(data.degreesOfFreedom);
			expect(
				relativeError(found.varianceBetween, data.varianceBetween),
			).toBeLessThan(1e-6);
			expect(
				relativeError(found.varianceWithin, data.varianceWithin),
			).toBeLessThan(1e-6);
			data.differences.forEach((expected, i) => {
				const got = found.differences[i];
				expect(relativeError(got.estimate, expected.estimate)).toBeLessThan(
					1e-6,
				);
				expect(
					relativeError(got.standardError, expected.standardError),
				).toBeLessThan(1e-6);
			});
		},
	);

	it("balanced, the nested model is the comparison of the units' means", () => {
		const nested = nestedModel(machines.groups, pairs, 0.95);
		const means = machines.groups.map((units) =>
			units.map((u) => u.reduce((a, b) => a + b, 0) / u.length),
		);
		const plain = manyToOne(means, pairs, 0.95);
		if (nested.is !== "fitted" || plain.is !== "differences")
			throw new Error("one is not available");
		nested.differences.forEach((d, i) => {
			expect(d.low).toBeCloseTo(plain.differences[i].low, 6);
			expect(d.adjustedP).toBeCloseTo(plain.differences[i].adjustedP, 7);
		});
	});
});

describe("means that differ by far more than they scatter", () => {
	it("are compared at once, with a p between that of one comparison and its multiple", () => {
		const found = manyToOne(
			[
				[100, 100.00001],
				[200, 200.00001],
				[100, 100.00002],
			],
			pairs,
			0.95,
		);
		if (found.is !== "differences") throw new Error(found.is);
		const [far] = found.differences;
		expect(far.t).toBeGreaterThan(1e6);
		const alone = studentTTwoSidedP(far.t, found.degreesOfFreedom);
		expect(far.adjustedP).toBeGreaterThanOrEqual(alone);
		expect(far.adjustedP).toBeLessThanOrEqual(2 * alone);
	});
});

describe("what cannot be estimated", () => {
	it("one observation a group, or none that differ, give no comparison of means", () => {
		expect(manyToOne([[1], [2]], [pairs[0]], 0.95).is).toBe("not available");
		expect(
			manyToOne(
				[
					[1, 1],
					[2, 2],
				],
				[pairs[0]],
				0.95,
			).is,
		).toBe("not available");
		expect(manyToOne([[1, 1.1], [2]], [pairs[0]], 0.95).is).toBe("differences");
	});

	it("one unit a group, one observation a unit, or repeats that agree exactly give no nested model", () => {
		expect(nestedModel([[[1, 2]], [[3, 4]]], [pairs[0]], 0.95).is).toBe(
			"not available",
		);
		expect(
			nestedModel(
				[
					[[1], [2]],
					[[3], [4]],
				],
				[pairs[0]],
				0.95,
			).is,
		).toBe("not available");
		expect(
			nestedModel(
				[
					[
						[1, 1],
						[2, 2],
					],
					[
						[3, 3],
						[4, 4],
					],
				],
				[pairs[0]],
				0.95,
			).is,
		).toBe("not available");
	});

	it("units that differ less than their observations do get no variance between them", () => {
		const groups = [
			[
				[1, 3],
				[3, 1],
			],
			[
				[5, 8],
				[8, 5],
			],
		];
		const found = nestedModel(groups, [pairs[0]], 0.95);
		if (found.is !== "fitted") throw new Error(found.is);
		expect(found.varianceBetween).toBe(0);
		const pooled =
			(3 * sampleVariance([1, 3, 3, 1]) + 3 * sampleVariance([5, 8, 8, 5])) / 6;
		expect(found.varianceWithin).toBeCloseTo(pooled, 12);
	});
});

describe("correlations without product form", () => {
	const { matrices, probabilities } = referenceJson<{
		matrices: Record<string, number[][]>;
		probabilities: readonly {
			matrix: string;
			degreesOfFreedom: number;
			t: number;
			outside: number;
			error: number;
		}[];
	}>("multivariate-t.json");

	it("16 probabilities within what mvtnorm states", () => {
		expect(probabilities.length).toBe(16);
		for (const {
			matrix,
			degreesOfFreedom,
			t,
			outside,
			error,
		} of probabilities) {
			const [, found] = simultaneousAdjustedP(
				matrices[matrix].map(() => t),
				matrices[matrix],
				degreesOfFreedom,
			);
			expect(Math.abs(found - outside), `${matrix}, t ${t}`).toBeLessThan(
				error + 1e-6,
			);
		}
	});

	it("each estimate takes the critical value of its own degrees of freedom", () => {
		const family = simultaneousFamily(matrices.five, "two-sided");
		const df = [4, 15, 4, 9, 30];
		const t = df.map((own) => family.criticalValue(own, 0.05));
		expect(t[0]).toBe(t[2]);
		expect(t[1]).toBe(
			simultaneousCriticalValue(matrices.five, 15, 0.05, "two-sided"),
		);
		expect(t[0]).toBeGreaterThan(t[1]);
		for (const p of family.adjustedPs(t, df)) expect(p).toBeCloseTo(0.05, 8);
		expect(family.adjustedPs(t, df)).toEqual(
			simultaneousAdjustedP(t, matrices.five, df),
		);
	});
});
