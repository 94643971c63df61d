import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import * as quantity from "../../kernel-lib/quantity";
import { uptakes as uptakesOf } from "../../kernel-lib/uptake";
import { referenceData } from "../reference/check";
import { backTitration } from "../reference/iodometry.checks";
import { charRow, plainSolutions, type Row, steps } from "./sheets";

const iodineMolarMass = 253.8;

describe("single dose", () => {
	test("the blank-titre example of the reference file", () => {
		const { backTitration: e } = referenceData<{
			backTitration: Record<string, number>;
		}>("iodometry.json");
		expect(Math.abs(backTitration() / e.uptake_mg_per_g - 1)).toBeLessThan(
			1e-9,
		);
	});

	test("uptake by hand: 40 mL of 0.05 mol/L, titre 5 mL of 0.1 mol/L on 25 of 100 mL", () => {
		// dosed 2 mmol, in the aliquot 0.25 mmol, left 1 mmol, taken up 1 mmol = 253.8 mg by 1 g
		const { uptakes } = steps([charRow("a")]);
		expect(uptakes[0].computedUptake.in("mg/g")).toBeCloseTo(
			iodineMolarMass,
			6,
		);
		expect(uptakes[0].residue.quantity.in("mg/L")).toBeCloseTo(
			0.01 * iodineMolarMass * 1000,
			6,
		);
		expect(uptakes[0].uptake.is).toBe("value");
		expect(uptakes[0].lossesTakenOff).toBe(false);
	});

	test("char displaces half a millilitre per gram when the volume is made up over it", () => {
		const { found } = steps([
			charRow("a", { "char in when made up": "yes", "char mass (g)": 2 }),
		]);
		expect(found[0].account.liquid.in("mL")).toBeCloseTo(99, 9);
	});

	test("water in wet char dilutes when nothing is made up, and the mass is dry", () => {
		const { found, uptakes } = steps([
			{
				...charRow("a", { "moisture, wet basis (%)": 10 }),
				"made up to (mL)": "",
				"char in when made up": "",
			},
		]);
		expect(uptakes[0].charMass.in("g")).toBeCloseTo(0.9, 9);
		expect(found[0].account.liquid.in("mL")).toBeCloseTo(40 + 0.1 / 0.998, 9);
		expect(uptakes[0].perGram).toBe("dry char");
	});

	test("moisture on the dry basis", () => {
		const { uptakes } = steps([
			charRow("a", { "moisture, dry basis (%)": 25 }),
		]);
		expect(uptakes[0].charMass.in("g")).toBeCloseTo(0.8, 9);
	});

	test("duplicate titrations are averaged inside the flask", () => {
		const { found } = steps([
			charRow("a", {
				"titre (mL)": "",
				"titre 1 (mL)": 4.9,
				"titre 2 (mL)": 5.1,
			}),
		]);
		expect(found[0].titre.in("mL")).toBeCloseTo(5, 9);
	});

	test("a refilled burette: read 45 to 50, refilled to 1, then to 6 is 10 mL", () => {
		const row = charRow("a", {
			"titre (mL)": "",
			"burette start (mL)": 45,
			"refilled at (mL)": 50,
			"refilled to (mL)": 1,
			"burette end (mL)": 6,
		});
		const { found } = steps([row]);
		expect(found[0].titre.in("mL")).toBeCloseTo(10, 9);
	});
});

describe("blanks", () => {
	const blank = (name: string, day: string, titre: number): Row => ({
		flask: name,
		contents: "reagent blank",
		day,
		"aliquot (mL)": 25,
		"titre (mL)": titre,
	});
	const iodineBlank = (name: string, day: string, titre: number): Row => ({
		flask: name,
		contents: "iodine blank",
		day,
		"dose (mL)": 40,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre (mL)": titre,
	});

	test("the reagent blank of the day is taken off every titre, iodine blanks included", () => {
		const { found } = steps([
			charRow("a", { day: "1" }),
			charRow("b", { day: "2" }),
			blank("r1", "1", 0.1),
			blank("r2", "2", 0.3),
			iodineBlank("i1", "1", 9.1),
		]);
		const titre = (name: string): number =>
			found.find((r) => r.flask.name === name)?.titre.in("mL") ?? Number.NaN;
		expect(titre("a")).toBeCloseTo(4.9, 9);
		expect(titre("b")).toBeCloseTo(4.7, 9);
		expect(titre("i1")).toBeCloseTo(9.0, 9);
	});

	test("swapping two days' blanks changes the uptakes", () => {
		const of = (first: string, second: string): number[] =>
			steps([
				charRow("a", { day: "1" }),
				charRow("b", { day: "2" }),
				blank("r1", first, 0.1),
				blank("r2", second, 0.3),
			]).uptakes.map((u) => u.computedUptake.value);
		expect(of("1", "2")[0]).not.toBeCloseTo(of("2", "1")[0], 3);
	});

	test("recovery comes from the iodine blanks of the same day only", () => {
		const { recoveries, uptakes } = steps([
			charRow("a", { day: "1" }),
			charRow("b", { day: "2" }),
			iodineBlank("i1", "1", 9),
		]);
		const r = recoveries.forDay("1");
		expect(r.is === "measured" && r.ratio.value).toBeCloseTo(0.9, 9);
		expect(recoveries.forDay("2").is).toBe("none");
		expect(uptakes.map((u) => u.lossesTakenOff)).toEqual([true, false]);
	});

	test("losses lie between the two published extremes, and their spread is in the uncertainty", () => {
		const { lossSharing: e } = referenceData<{
			lossSharing: Record<string, number>;
		}>("iodometry.json");
		// 2 mmol dosed; a tenth left is 0.2 mmol: aliquot 0.05 mmol, titre 1 mL
		const { uptakes } = steps([
			charRow("a", { "titre (mL)": 1 }),
			iodineBlank("i", "", 9),
		]);
		const dosed = uptakes[0].balance.added.in("mg");
		const share = uptakes[0].balance.takenUp.in("mg") / dosed;
		expect(share).toBeGreaterThan(e.fromDosed);
		expect(share).toBeLessThan(e.fromLeft);
		const extreme = ((e.fromLeft - e.fromDosed) / 2 / Math.sqrt(3)) * dosed;
		expect(uptakes[0].balance.takenUp.in("mg")).toBeGreaterThan(0);
		expect(uptakes[0].balance.takenUp.standardUncertainty).toBeGreaterThan(
			extreme,
		);
	});
});

describe("bounds", () => {
	test("a titre of zero gives at least: the dose less what a drop could hide", () => {
		const { dropHides } = referenceData<{ dropHides: { mass_mg: number } }>(
			"iodometry.json",
		);
		const { uptakes } = steps([charRow("a", { "titre (mL)": 0 })]);
		const u = uptakes[0];
		expect(u.uptake.is).toBe("at least");
		expect(u.uptake.quantity.in("mg/g")).toBeCloseTo(
			2 * iodineMolarMass - dropHides.mass_mg,
			6,
		);
		expect(u.residue.is).toBe("at most");
		expect(u.nextDose).toMatch(/Add at least \d+ mL more of "iodine"/);
	});

	test("an uptake that cannot be distinguished from zero gives at most; the computed value stays, even negative", () => {
		const { uptakes } = steps([charRow("a", { "titre (mL)": 10.02 })]);
		expect(uptakes[0].uptake.is).toBe("at most");
		expect(uptakes[0].computedUptake.value).toBeLessThan(0);
		expect(uptakes[0].uptake.quantity.value).toBeGreaterThan(0);
		expect(uptakes[0].nextDose).toMatch(/times as much char/);
	});
});

describe("demand of a soak", () => {
	const leachate = (change: Row = {}): Row => ({
		flask: "L",
		contents: "leachate",
		treatment: "wood vinegar",
		"char mass (g)": 2,
		"leachate (mL)": 50,
		"leachate taken (mL)": 25,
		"dose (mL)": 10,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre (mL)": 2,
		...change,
	});
	const flasks = [
		charRow("c"),
		charRow("w", { treatment: "wood vinegar", control: "control" }),
	];

	test("suspected and not measured", () => {
		const { uptakes } = steps(flasks);
		expect(uptakes.map((u) => u.demand.is)).toEqual([
			"none expected",
			"suspected",
		]);
	});

	test("the sheet's own word comes before the name of the soak", () => {
		const { uptakes } = steps([
			flasks[0],
			{ ...flasks[1], "soak consumes iodine": "no" },
		]);
		expect(uptakes[1].demand.is).toBe("none expected");
	});

	test("measured by a leachate: scaled by volume taken and by mass of char", () => {
		// leachate: 0.5 mmol dosed, left 0.1 x 2 / 2 x 4 = 0.4 mmol, consumed 0.1 mmol by half the leachate of 2 g: 0.1 mmol per gram
		const { uptakes } = steps([...flasks, leachate()]);
		const demand = uptakes[1].demand;
		expect(demand.is === "measured" && demand.mass.in("mg")).toBeCloseTo(
			0.1 * iodineMolarMass,
			6,
		);
		expect(uptakes[1].computedUptake.in("mg/g")).toBeCloseTo(
			(1 - 0.1) * iodineMolarMass,
			6,
		);
		// the balance itself is not touched: what was consumed left the solution
		expect(uptakes[1].balance.takenUp.in("mg")).toBeCloseTo(iodineMolarMass, 6);
	});

	test("scaled by the liquor retained where it is recorded", () => {
		const { uptakes } = steps([
			flasks[0],
			{ ...flasks[1], "liquor retained (mL)": 0.5 },
			leachate({ "liquor retained (mL)": 4 }),
		]);
		const demand = uptakes[1].demand;
		expect(demand.is === "measured" && demand.mass.in("mg")).toBeCloseTo(
			((0.2 * 0.5) / 4) * iodineMolarMass,
			6,
		);
	});

	describe("a leachate that held more than it was given", () => {
		// 2.5 mL of 0.1 mol/L would find the whole dose again
		const demandAt = (titre: number) =>
			steps([...flasks, leachate({ "titre (mL)": titre })]).uptakes[1];
		const plain = steps(flasks).uptakes[1].computedUptake.in("mg/g");

		test("within its error is a measurement like any other, of either sign", () => {
			const { demand, computedUptake } = demandAt(2.52);
			expect(demand.is === "measured" && demand.mass.in("mg")).toBeLessThan(0);
			expect(computedUptake.in("mg/g")).toBeGreaterThan(plain);
		});

		test("beyond its error adds nothing: it may have freed iodine", () => {
			const { demand, computedUptake } = demandAt(3);
			expect(demand).toMatchObject({
				is: "suspected",
				looksLike: "less uptake",
			});
			expect(demand.is === "suspected" && demand.because).toContain(
				"the leachate L held more iodine than it was given",
			);
			expect(computedUptake.in("mg/g")).toBe(plain);
		});
	});

	test("a leachate that ran dry gives no number", () => {
		const { uptakes } = steps([...flasks, leachate({ "titre (mL)": 0 })]);
		expect(uptakes[1].demand.is).toBe("suspected");
	});

	test("a leachate is never pooled with the iodine blanks", () => {
		const { recoveries } = steps([...flasks, leachate()]);
		expect(recoveries.forDay("").is).toBe("none");
	});

	describe("iodine that is read by its colour", () => {
		/** On a line of 0.001 a mg/L: what is left (mg/L) of 100 mL, read ten times diluted. */
		const read = (row: Row, left: number): Row => ({
			...row,
			"titre (mL)": "",
			"aliquot (mL)": "",
			dilution: 10,
			"absorbance 1": 0.001 * (left / 10),
		});
		const demandOf = (...rows: Row[]) =>
			uptakesOf(
				trialFromRows({
					flasks: [read(flasks[1], 10 * iodineMolarMass), flasks[0], ...rows],
					solutions: plainSolutions,
					calibration: [0, 100, 200, 300].map((c) => ({
						standard: `E${c}`,
						"concentration (mg/L)": c,
						"absorbance 1": 0.001 * c,
					})),
				}),
			)[0];

		test("what remains of the soak consumes it all the same", () => {
			expect(demandOf().demand.is).toBe("suspected");
		});

		test("a leachate that was read measures it", () => {
			// As above: 0.5 mmol dosed, 0.4 mmol left in 100 mL; 0.1 mmol for a gram.
			const { demand, computedUptake, balance } = demandOf(
				read(leachate(), 4 * iodineMolarMass),
			);
			expect(demand.is === "measured" && demand.mass.in("mg")).toBeCloseTo(
				0.1 * iodineMolarMass,
				1,
			);
			expect(balance.takenUp.in("mg") - computedUptake.in("mg/g")).toBeCloseTo(
				0.1 * iodineMolarMass,
				1,
			);
		});

		test("a leachate that was titrated measures it too", () => {
			const { demand } = demandOf(leachate());
			expect(demand.is === "measured" && demand.mass.in("mg")).toBeCloseTo(
				0.1 * iodineMolarMass,
				1,
			);
		});

		test.each([
			[0, /the leachate L used up all the iodine/],
			[4000, /the leachate L read above the highest standard/],
		])("a leachate of %s mg/L gives no number", (left, because) => {
			const { demand } = demandOf(read(leachate(), left));
			expect(demand.is === "suspected" && demand.because).toMatch(because);
		});
	});

	test("alkali and no word of acid is a caution; acidified is none", () => {
		const potash = charRow("p", { treatment: "potash", control: "control" });
		expect(steps([flasks[0], potash]).uptakes[1].cautions.join()).toMatch(
			/not recorded as acidified/,
		);
		expect(
			steps([
				flasks[0],
				{ ...potash, acidified: "no" },
			]).uptakes[1].cautions.join(),
		).toMatch(/was not acidified/);
		expect(
			steps([flasks[0], { ...potash, acidified: "yes" }]).uptakes[1].cautions,
		).toEqual([]);
	});
});

describe("laws", () => {
	const event = fc.oneof(
		fc.record({ dose: fc.double({ min: 1, max: 60, noNaN: true }) }),
		fc.record({ liquid: fc.double({ min: 1, max: 60, noNaN: true }) }),
		fc.record({ withdrawn: fc.double({ min: 1, max: 9, noNaN: true }) }),
	);

	test("added = taken up + left + withdrawn + lost, for any sequence of doses, top-ups and withdrawals", () => {
		fc.assert(
			fc.property(
				fc.array(event, { minLength: 0, maxLength: 6 }),
				fc.double({ min: 0, max: 20, noNaN: true }),
				fc.double({ min: 7, max: 11, noNaN: true }),
				(events, titre, blankTitre) => {
					const row: Row = {
						flask: "a",
						treatment: "control",
						"char mass (g)": 1.2,
						"dose 1 (mL)": 60,
					};
					let liquid = 60;
					events.forEach((e, i) => {
						const n = i + 2;
						if ("dose" in e) {
							row[`dose ${n} (mL)`] = e.dose;
							liquid += e.dose;
						} else if ("liquid" in e) {
							row[`liquid added ${n} (mL)`] = e.liquid;
							liquid += e.liquid;
						} else {
							row[`withdrawn ${n} (mL)`] = e.withdrawn;
							row[`withdrawn ${n} titre (mL)`] = e.withdrawn / 3;
							liquid -= e.withdrawn;
						}
					});
					fc.pre(liquid > 6);
					row["aliquot (mL)"] = 5;
					row["titre (mL)"] = titre;
					const { uptakes, found } = steps([
						row,
						{
							flask: "i",
							contents: "iodine blank",
							"dose (mL)": 40,
							"made up to (mL)": 100,
							"aliquot (mL)": 25,
							"titre (mL)": blankTitre,
						},
					]);
					const b = uptakes[0].balance;
					const sum = quantity.plus(b.takenUp, b.left, b.withdrawn, b.lost);
					expect(Math.abs(sum.in("mg") / b.added.in("mg") - 1)).toBeLessThan(
						1e-12,
					);
					// and the error of the difference is rounding too: both sides are made of the same inputs
					expect(quantity.minus(sum, b.added).standardUncertainty).toBeLessThan(
						1e-9 * b.added.in("mg"),
					);
					expect(found[0].account.liquid.in("mL")).toBeCloseTo(liquid, 9);
				},
			),
			{ numRuns: 60 },
		);
	});

	test("the order of rows changes nothing", () => {
		const rows = [
			charRow("a", { day: "1" }),
			charRow("b", { day: "2", "titre (mL)": 4 }),
			charRow("c", { day: "1", "titre (mL)": 3 }),
			{
				flask: "r",
				contents: "reagent blank",
				day: "1",
				"aliquot (mL)": 25,
				"titre (mL)": 0.1,
			},
		];
		const byName = (order: Row[]): Map<string, string> =>
			new Map(
				steps(order).uptakes.map((u) => [
					u.flask.name,
					String(u.computedUptake),
				]),
			);
		const straight = byName(rows);
		const back = byName([...rows].reverse());
		for (const [name, text] of straight) expect(back.get(name)).toBe(text);
	});

	test("two uptakes that share a titrant share its error: their difference is surer than either", () => {
		const strengths: Row[] = [
			{
				solution: "iodine",
				substance: "iodine",
				"concentration (N)": 0.1,
				"uncertainty (%)": 5,
			},
			{
				solution: "thiosulfate",
				substance: "sodium thiosulfate",
				"concentration (mol/L)": 0.1,
				"uncertainty (%)": 5,
			},
		];
		const { uptakes } = steps(
			[charRow("a"), charRow("b", { "titre (mL)": 4.5 })],
			strengths,
		);
		const [a, b] = uptakes.map((u) => u.computedUptake);
		expect(quantity.correlation(a, b)).toBeGreaterThan(0.8);
		expect(quantity.minus(b, a).standardUncertainty).toBeLessThan(
			0.5 * a.standardUncertainty,
		);
	});
});

describe("the commonest small trial", () => {
	const solutions: Row[] = [
		{ solution: "iodine", substance: "iodine", "concentration (N)": 0.1 },
		{
			solution: "thiosulfate",
			substance: "sodium thiosulfate",
			"concentration (mol/L)": 0.1,
		},
	];
	const flask = (name: string, second: number | "", titre: number): Row => ({
		flask: name,
		treatment: name,
		"char mass (g)": 1.0,
		"dose 1 (mL)": 10,
		"dose 2 (mL)": second,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre (mL)": titre,
		"char in when made up": "no",
	});

	test("a small dose given again when the first was all taken up", () => {
		const { uptakes } = steps(
			[flask("control", "", 1), flask("steam", 10, 2), flask("salt", 10, 0)],
			solutions,
		);
		// control: 0.5 mmol dosed, 0.2 mmol left; steam: 1.0 dosed, 0.4 left
		expect(uptakes[0].computedUptake.in("mg/g")).toBeCloseTo(
			0.3 * iodineMolarMass,
			6,
		);
		expect(uptakes[1].computedUptake.in("mg/g")).toBeCloseTo(
			0.6 * iodineMolarMass,
			6,
		);
		expect(uptakes[2].uptake.is).toBe("at least");
		expect(uptakes[2].uptake.quantity.in("mg/g")).toBeCloseTo(
			1.0 * iodineMolarMass - 2.538,
			6,
		);
	});
});
