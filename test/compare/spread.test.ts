import { describe, expect, test } from "vitest";
import { marginOf } from "../../kernel-lib/compare";
import { pooledShareOf } from "../../kernel-lib/compare/spread";
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
			"with 4 soaks against 3 this rests in part on soaks of all treatments scattering alike",
		);
		expect(head(4)).not.toContain("scattering alike");
	});
});
