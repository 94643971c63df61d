import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	emptyJar,
	iodineMolarMass,
	isothermThrough,
	milligramsPerLitre,
	stand,
} from "../../data/simulation/forward-model.mjs";

const between = (min: number, max: number) =>
	fc.double({ min, max, noNaN: true });

describe("a jar of made-up data", () => {
	const natures = fc.record({
		dissolved: between(0.1, 5),
		liquid: between(10, 200),
		char: between(0.1, 3),
		uptake: between(20, 900),
		exponent: between(0.05, 0.6),
		demandLeft: between(0, 0.6),
		lossShare: between(0, 0.1),
		early: between(0, 1),
	});

	test("keeps its iodine: dosed = dissolved + on char + consumed + lost", () => {
		fc.assert(
			fc.property(natures, (n) => {
				const isotherm = isothermThrough(n.uptake, 3000, n.exponent);
				const jar = stand(
					{ ...emptyJar(), dissolved: n.dissolved, liquid: n.liquid },
					{ ...n, isotherm },
				);
				expect(
					jar.dissolved + jar.onChar + jar.consumed + jar.lost,
				).toBeCloseTo(n.dissolved, 10);
			}),
		);
	});

	test("comes to rest on the isotherm", () => {
		fc.assert(
			fc.property(natures, (n) => {
				const isotherm = isothermThrough(n.uptake, 3000, n.exponent);
				const jar = stand(
					{ ...emptyJar(), dissolved: n.dissolved, liquid: n.liquid },
					{ ...n, isotherm },
				);
				// Nearly empty jars: the last digits of the residue decide, and no titration sees them.
				fc.pre(jar.dissolved > 1e-4);
				const residue = milligramsPerLitre(jar.dissolved, jar.liquid);
				const uptake = (jar.onChar * iodineMolarMass) / n.char;
				const expected = isotherm.capacity * residue ** isotherm.exponent;
				expect(Math.abs(uptake / expected - 1)).toBeLessThan(1e-6);
			}),
		);
	});

	test("without char keeps the share of its dose that did not escape", () => {
		const jar = stand(
			{ ...emptyJar(), dissolved: 2.5, liquid: 100 },
			{
				isotherm: { capacity: 0, exponent: 1 },
				char: 0,
				demandLeft: 0,
				lossShare: 0.02,
				early: 0,
			},
		);
		// left + 0.02 left = 2.5
		expect(jar.dissolved).toBeCloseTo(2.5 / 1.02, 10);
	});

	test("gives a hand-worked residue: linear isotherm, no losses", () => {
		// 2 mmol in 100 mL, 1 g, uptake (mg/g) = 0.05 * residue (mg/L): left + 0.05 * left * 10 = 2, left = 4/3 mmol
		const jar = stand(
			{ ...emptyJar(), dissolved: 2, liquid: 100 },
			{
				isotherm: { capacity: 0.05, exponent: 1 },
				char: 1,
				demandLeft: 0,
				lossShare: 0,
				early: 0.25,
			},
		);
		expect(jar.dissolved).toBeCloseTo(4 / 3, 10);
	});
});
