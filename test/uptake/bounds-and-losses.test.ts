/** A bound takes the worst end of what is assumed about the losses. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { exact, input, type Quantity } from "../../kernel-lib/quantity";
import { uptakes } from "../../kernel-lib/uptake";
import { leastLost, lossOf, mostLost } from "../../kernel-lib/uptake/losses";
import { charRow, type Row, steps } from "./sheets";

/** g/mol, from the abridged standard atomic weights (IUPAC 2021, from memory). */
const iodine = 253.81;

const mass = (mg: number): Quantity<"mass"> =>
	input("mass", mg, "mg", exact, {});
const ratio = (r: number): Quantity<"ratio"> =>
	input("ratio", r, "1", exact, {});

test("the extremes are (1 - R) A and L (1/R - 1), whichever is more, and the loss lies between them", () => {
	fc.assert(
		fc.property(
			fc.double({ min: 1, max: 1000, noNaN: true }),
			fc.double({ min: 0, max: 1.1, noNaN: true }),
			fc.double({ min: 0.7, max: 1.2, noNaN: true }),
			(dosed, part, r) => {
				const left = part * dosed;
				const of = (loss: typeof lossOf): number =>
					loss(mass(dosed), mass(left), ratio(r)).in("mg");
				const ends = [(1 - r) * dosed, left * (1 / r - 1)];
				expect(of(mostLost)).toBeCloseTo(Math.max(...ends), 9);
				expect(of(leastLost)).toBeCloseTo(Math.min(...ends), 9);
				expect(of(lossOf)).toBeLessThanOrEqual(of(mostLost) + 1e-9);
				expect(of(lossOf)).toBeGreaterThanOrEqual(of(leastLost) - 1e-9);
			},
		),
	);
});

describe("a titrated flask that ran dry", () => {
	const blank = (titre: number): Row => ({
		flask: "i",
		contents: "iodine blank",
		"dose (mL)": 40,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre (mL)": titre,
	});
	const dry = (titre: number) =>
		steps([charRow("a", { "titre (mL)": 0 }), blank(titre)]).uptakes[0];

	// 2 mmol dosed, 0.01 mmol hidden
	test.each([
		// a tenth of all that was dosed may be lost
		[9, 2 * 0.9 - 0.01],
		// more was found than dosed: what was hidden gives the worst end
		[10.5, 2 - 0.01 - 0.01 * (1 / 1.05 - 1)],
	])("beside a blank that took %s of 10 mL", (titre, mmol) => {
		const { uptake, lossesTakenOff } = dry(titre);
		expect(lossesTakenOff).toBe(true);
		expect(uptake.is).toBe("at least");
		expect(uptake.quantity.in("mg/g") / iodine).toBeCloseTo(mmol, 3);
	});

	test("its balance adds up all the same, with the loss in the middle", () => {
		const { balance: b } = dry(9);
		expect(b.lost.in("mg") / b.added.in("mg")).toBeCloseTo(0.1 / 1.9, 6);
		expect(
			b.takenUp.in("mg") +
				b.left.in("mg") +
				b.withdrawn.in("mg") +
				b.lost.in("mg"),
		).toBeCloseTo(b.added.in("mg"), 9);
	});
});

describe("a flask that was read beyond its line", () => {
	const read = (absorbance: number, millilitres: number) =>
		uptakes(
			trialFromRows({
				flasks: [
					{
						flask: "a",
						treatment: "control",
						"char mass (g)": 0.1,
						"dose (mL)": millilitres,
						"made up to (mL)": 100,
						"char in when made up": "no",
						"absorbance 1": absorbance,
					},
					{
						flask: "i",
						contents: "dye blank",
						"dose (mL)": 25,
						"made up to (mL)": 100,
						"absorbance 1": 0.4,
					},
				],
				solutions: [
					{
						solution: "blue",
						substance: "methylene blue",
						"concentration (mg/L)": 200,
					},
				],
				calibration: [0, 20, 40, 60, 80, 100].map((c, i) => ({
					standard: `E${i}`,
					"concentration (mg/L)": c,
					"absorbance 1": 0.01 * c + (i % 2 === 0 ? 1e-5 : -1e-5),
				})),
			}),
		)[0];

	test("nothing left: a fifth of the dose may be lost", () => {
		// 10 mg dosed, a recovery of 0.8
		const { uptake } = read(0, 50);
		expect(uptake.is).toBe("at least");
		expect(uptake.quantity.in("mg/g")).toBeCloseTo(80, 0);
	});

	test("above the highest standard: as little as can be was lost", () => {
		// 20 mg dosed, 10 left: (1 - R) A = 4 mg, L (1/R - 1) = 2.5 mg
		const { uptake } = read(2, 100);
		expect(uptake.is).toBe("at most");
		expect(uptake.quantity.in("mg/g")).toBeCloseTo((20 - 10 - 2.5) / 0.1, 0);
	});
});
