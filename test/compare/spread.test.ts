import { describe, expect, test } from "vitest";
import { marginOf } from "../../kernel-lib/compare";
import { fitAdditiveModel } from "../../kernel-lib/compare/additive-model";
import {
	moderated,
	noSpread,
	type OwnSpread,
	pooledShareOf,
	type Spread,
	scatterOf,
	spreadOf,
	varianceOf,
} from "../../kernel-lib/compare/spread";
import { compareTreatments, flasks, group, verdictOf } from "./fixtures";

describe("each treatment scatters by itself", () => {
	test("its variance is drawn to the pooled one as if that had one degree of freedom", () => {
		expect(pooledShareOf("moderated", 2)).toBeCloseTo(1 / 3, 12);
		expect(pooledShareOf("moderated", 4)).toBeCloseTo(1 / 5, 12);
		expect(pooledShareOf("moderated", 0)).toBe(1);
		expect(pooledShareOf("pooled", 4)).toBe(1);
	});

	test("standard error and degrees of freedom by hand, spreads of 1 and 4", () => {
		const compared = compareTreatments(
			flasks([
				...group("water", "", [99, 100, 101]),
				...group("steam", "water", [116, 120, 124]),
			]),
			{ margin: marginOf(5) },
		);
		// Own variances 1 and 16 with 2 degrees of freedom each, pooled 8.5: 8.5/3 + 2/3 and 8.5/3 + 32/3, over three soaks each.
		const [water, steam] = [8.5 / 3 + 2 / 3, 8.5 / 3 + 32 / 3];
		const { difference } = verdictOf(compared, "steam");
		if (difference.is !== "estimate") throw new Error(difference.is);
		expect(difference.standardError).toBeCloseTo(
			Math.sqrt((water + steam) / 3),
			10,
		);
		// Weights of the own variances in the sum: 2/9 of each, and half of 2/9 through the pooled one.
		const [a, b] = [(3 / 9) * 1, (3 / 9) * 16];
		expect(difference.degreesOfFreedom).toBeCloseTo(
			((water + steam) / 3) ** 2 / ((a ** 2 + b ** 2) / 2),
			8,
		);
	});

	test("where the spreads are alike nothing is lost: the degrees of freedom of both", () => {
		const compared = compareTreatments(
			flasks([
				...group("water", "", [99, 100, 101]),
				...group("steam", "water", [119, 120, 121]),
			]),
			{ margin: marginOf(5) },
		);
		const { difference } = verdictOf(compared, "steam");
		if (difference.is !== "estimate") throw new Error(difference.is);
		expect(difference.degreesOfFreedom).toBeCloseTo(4, 10);
	});

	test("one degree of freedom between soaks is too few to leave the lots at hand; two are enough", () => {
		const scope = (soaks: readonly string[]) =>
			compareTreatments(
				flasks([
					...group("water", "", [99, 100, 101, 102]).map((f, i) => ({
						...f,
						soak: soaks[i],
					})),
					...group("steam", "water", [119, 120], { soak: "s" }),
				]),
				{ margin: marginOf(5) },
			).scope;
		expect(scope(["a", "a", "a", "b"])).toBe("these lots");
		expect(scope(["a", "a", "b", "c"])).toBe("treatment");
	});

	test("with up to three soaks the head says what the word leans on", () => {
		const head = (soaks: number): string =>
			verdictOf(
				compareTreatments(
					flasks([
						...group("water", "", [99, 100, 101, 100].slice(0, soaks)),
						...group("steam", "water", [199, 200, 201, 200]),
					]),
					{ margin: marginOf(5) },
				),
				"steam",
			).sentence;
		expect(head(3)).toContain(
			"With 4 soaks against 3 this rests in part on soaks of all treatments scattering alike",
		);
		expect(head(4)).not.toContain("scattering alike");
	});
});

describe("variances drawn to the pooled one, by hand", () => {
	const own = (
		treatment: string,
		degreesOfFreedom: number,
		squares: number,
		readings = 0,
	): OwnSpread => ({ treatment, degreesOfFreedom, squares, readings });
	const all = (degreesOfFreedom: number, readings = 0) => ({
		degreesOfFreedom,
		readings,
	});
	/** Variances 4 and 100 with two degrees of freedom each, and a treatment of one unit: pooled 208/4 = 52. */
	const groups = [
		own("water", 2, 8),
		own("steam", 2, 200),
		own("smoke", 0, 0, 9),
	];
	const shown = (s: Spread, treatment: string) => s.groups.get(treatment);

	test("a third of the pooled variance and two thirds of its own; a single unit has the pooled one alone", () => {
		const spread = moderated(groups, all(4), "moderated");
		expect(spread.deviation).toBeCloseTo(Math.sqrt(52), 12);
		expect(spread.degreesOfFreedom).toBe(4);
		expect(spread.fromReadings).toBe(false);
		expect(shown(spread, "water")).toEqual({
			ownVariance: 4,
			degreesOfFreedom: 2,
			pooledShare: 1 / 3,
			variance: expect.closeTo(20, 10),
		});
		expect(shown(spread, "steam")?.variance).toBeCloseTo(84, 10);
		expect(shown(spread, "smoke")).toEqual({
			ownVariance: 0,
			degreesOfFreedom: 0,
			pooledShare: 1,
			variance: expect.closeTo(52, 10),
		});
	});

	test("readings are the least that is believed, of all and of each", () => {
		const at = (readings: number) =>
			moderated(groups, all(4, readings), "moderated");
		expect(at(51.9)).toMatchObject({ fromReadings: false });
		expect(at(52)).toMatchObject({ fromReadings: false });
		const above = at(53);
		expect(above.fromReadings).toBe(true);
		expect(above.deviation ** 2).toBeCloseTo(53, 10);
		const each = moderated(
			[own("water", 2, 8, 5), own("steam", 2, 200, 99)],
			all(4),
			"moderated",
		);
		expect(shown(each, "water")?.ownVariance).toBe(5);
		expect(shown(each, "steam")?.ownVariance).toBe(100);
	});

	test("less than one degree of freedom in all tells nothing, one does", () => {
		expect(moderated(groups, all(0.99), "moderated")).toEqual(noSpread);
		expect(moderated(groups, all(1), "moderated").deviation ** 2).toBeCloseTo(
			208,
			10,
		);
		expect(noSpread).toEqual({
			deviation: 0,
			degreesOfFreedom: 0,
			fromReadings: false,
			groups: new Map(),
		});
	});

	test("a treatment without values has the pooled variance", () => {
		const spread = moderated(groups, all(4), "moderated");
		expect(varianceOf(spread, "steam")).toBeCloseTo(84, 10);
		expect(varianceOf(spread, "ash")).toBeCloseTo(52, 10);
	});

	describe("in a difference of steam and water, a third of each variance", () => {
		const thirds = new Map([
			["steam", 1 / 3],
			["water", 1 / 3],
		]);
		test("moderated: each own variance counts by itself and through the pooled one", () => {
			const { variance, denominator } = scatterOf(
				moderated(groups, all(4), "moderated"),
				thirds,
			);
			expect(variance).toBeCloseTo((84 + 20) / 3, 10);
			// 1/3 of 2/3 alone, and through the pooled one 2/9 in all, half of it each: 1/3 of 100 and of 4.
			expect(denominator).toBeCloseTo(((100 / 3) ** 2 + (4 / 3) ** 2) / 2, 9);
		});
		test("pooled: the square of all over the degrees of freedom of all", () => {
			const { variance, denominator } = scatterOf(
				moderated(groups, all(4), "pooled"),
				thirds,
			);
			expect(variance).toBeCloseTo((2 * 52) / 3, 10);
			expect(denominator).toBeCloseTo(((2 * 52) / 3) ** 2 / 4, 9);
		});
		test("of a treatment without values: the pooled one", () => {
			const { variance, denominator } = scatterOf(
				moderated(groups, all(4), "moderated"),
				new Map([["ash", 1 / 2]]),
			);
			expect(variance).toBeCloseTo(26, 10);
			expect(denominator).toBeCloseTo(26 ** 2 / 4, 9);
		});
		test("where all agree to the last digit there is nothing to know, and no number that is none", () => {
			const still = moderated(
				[own("water", 2, 0), own("steam", 2, 0)],
				all(4),
				"moderated",
			);
			expect(scatterOf(still, thirds)).toEqual({ variance: 0, denominator: 0 });
		});
		test("where all agree better than the readings of all, these have the degrees of freedom of all", () => {
			const still = moderated(
				[own("water", 2, 0), own("steam", 2, 0)],
				all(4, 5),
				"moderated",
			);
			const { variance, denominator } = scatterOf(still, thirds);
			expect(variance).toBeCloseTo((2 * 5) / 9, 10);
			expect(denominator).toBeCloseTo(((2 * 5) / 9) ** 2 / 4, 10);
		});
		test("without a spread nothing", () => {
			expect(scatterOf(noSpread, thirds)).toEqual({
				variance: 0,
				denominator: 0,
			});
		});
	});
});

describe("how far units scatter, from a fitted model", () => {
	/** Five soaks with these uptakes, the first of two flasks; the readings of the six flasks have variances of 1 to 6. */
	const spreadOfSoaks = (
		uptakes: readonly number[],
		used?: ReadonlyMap<string, number>,
	): Spread => {
		const members = [[0, 1], [2], [3], [4], [5]];
		const model = fitAdditiveModel(
			uptakes.map((mean, i) => ({
				treatment: i < 2 ? "water" : "steam",
				name: String(i),
				members: members[i],
				mean,
				days: new Map([["1", 1]]),
			})),
		);
		const none = new Float64Array(6);
		const errors = {
			ownVariance: Float64Array.of(1, 2, 3, 4, 5, 6),
			replicateVariance: none,
			aloneVariance: none,
			shared: [],
		};
		const along = { at: 0, edge: 0, taken: new Map() };
		return spreadOf(
			model,
			{ list: [], errors, slopes: [], along },
			"moderated",
			used,
		);
	};
	const apart = [98, 102, 117, 120, 123];

	test("squares and degrees of freedom of each, and of all", () => {
		const spread = spreadOfSoaks(apart);
		// Residuals -2, 2 and -3, 0, 3: 8 over 1 and 18 over 2; (8 + 18)/3 in all.
		expect(spread.degreesOfFreedom).toBe(3);
		expect(spread.deviation ** 2).toBeCloseTo(26 / 3, 10);
		expect(spread.groups.get("water")?.ownVariance).toBeCloseTo(8, 10);
		expect(spread.groups.get("water")?.degreesOfFreedom).toBeCloseTo(1, 10);
		expect(spread.groups.get("steam")?.ownVariance).toBeCloseTo(9, 10);
		expect(spread.groups.get("steam")?.degreesOfFreedom).toBeCloseTo(2, 10);
	});

	test("a measured slope uses some of them up, and less than a tenth of one counts as none", () => {
		const used = [
			["water", 0.89],
			["steam", 0.5],
		] as const;
		const spread = spreadOfSoaks(apart, new Map(used));
		expect(spread.degreesOfFreedom).toBeCloseTo(3 - 1.39, 10);
		expect(spread.groups.get("water")?.degreesOfFreedom).toBeCloseTo(0.11, 10);
		expect(spread.groups.get("steam")?.ownVariance).toBeCloseTo(18 / 1.5, 10);
		expect(
			spreadOfSoaks(apart, new Map([["water", 0.91]])).groups.get("water"),
		).toMatchObject({ ownVariance: 0, degreesOfFreedom: 0, pooledShare: 1 });
	});

	test("where they agree, the readings of their means: those of the flasks over the square of their number", () => {
		const spread = spreadOfSoaks([100, 100, 120, 120, 120]);
		// (1 + 2)/4 and 3, half of them; 4, 5 and 6, a third of them; a fifth of all.
		expect(spread.fromReadings).toBe(true);
		expect(spread.deviation ** 2).toBeCloseTo(18.75 / 5, 10);
		expect(spread.groups.get("water")?.ownVariance).toBeCloseTo(1.875, 10);
		expect(spread.groups.get("steam")?.ownVariance).toBeCloseTo(5, 10);
	});
});
