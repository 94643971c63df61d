import { describe, expect, test } from "vitest";
import { quantity } from "../../kernel-lib/index";
import { firingNextSteps } from "../../kernel-lib/words";
import { kilnOf } from "../activation/firings";

const char = { precursor: "char", "precursor mass (g)": 20 };

describe("what to do next after the firings", () => {
	test("more out than in is looked into, and comes first", () => {
		const steps = firingNextSteps(
			kilnOf([
				{ ...char, firing: "open", "fired mass (g)": 15 },
				{
					...char,
					firing: "gain",
					"step 1 temperature (°C)": 800,
					"fired mass (g)": 26,
				},
			]),
		);
		expect(steps[0]).toMatch(
			/^"gain": Kiln: the balance does not close\. 6\.00 g .* more came out than went in/,
		);
		expect(steps.filter((s) => s.includes("does not close"))).toHaveLength(1);
	});

	test("firings that lack the same are told in one sentence", () => {
		const open = (firing: string) => ({
			...char,
			firing,
			"fired mass (g)": 15,
		});
		expect(firingNextSteps(kilnOf([open("a"), open("b")]))).toContain(
			'To close the balance of "a", "b", measure: gas.',
		);
	});

	const drying = (grams: readonly number[]) =>
		firingNextSteps(
			kilnOf([
				{
					...char,
					firing: "f",
					"fired mass (g)": 15,
					...Object.fromEntries(
						grams.flatMap((g, i) => [
							[`drying ${i + 1} time (h)`, i],
							[`drying ${i + 1} mass (g)`, g],
						]),
					),
				},
			]),
		).filter((s) => s.includes("dry"));

	test("a drying that was weighed too seldom, one that goes on, and one that is done", () => {
		expect(drying([30, 16])).toEqual([
			expect.stringMatching(/^"f": weigh the drying more often; 2 weighings: /),
		]);
		// 16 + 8/2^t
		expect(drying([24, 20, 18, 17])).toEqual([
			expect.stringMatching(
				/^Drying of "f": not dry; predicted final mass 16\.00 g /,
			),
		]);
		// Falls to 15 g by a factor of a hundred each hour: nothing is left to come.
		expect(
			drying([25, 15.1, 15.001, 15, 15, 15].map((g) => Number(g.toFixed(3)))),
		).toEqual([]);
	});

	const washed = (conductivities: readonly number[], target: number) =>
		firingNextSteps(
			kilnOf([
				{
					...char,
					firing: "w",
					agent: "K2CO3",
					"agent mass (g)": 10,
					"fired mass (g)": 25,
					"product mass (g)": 15,
					...Object.fromEntries(
						conductivities.flatMap((x, i) => [
							[`rinse ${i + 1} (mL)`, 200],
							[`rinse ${i + 1} conductivity (µS/cm)`, x],
						]),
					),
				},
			]),
			{
				conductivity: quantity.input(
					"conductivity",
					target,
					"µS/cm",
					quantity.exact,
				),
			},
		).filter((s) => s.startsWith('Washing of "w"'));

	test("rinses that are still to come are said, those of a washing that is done are not", () => {
		const falling = [8000, 4000, 2000, 1000, 500];
		expect(washed(falling, 100)).toEqual([
			expect.stringMatching(/ of 200 mL still needed/),
		]);
		expect(washed(falling, 2500)).toEqual([]);
	});

	test("a target that it does not know is refused", () => {
		expect(() =>
			firingNextSteps(kilnOf([{ ...char, firing: "a" }]), {
				waters: 3,
			} as never),
		).toThrow(/"waters", which firingNextSteps does not have/);
	});
});
