import { inspect } from "node:util";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	budget,
	correlation,
	exact,
	input,
	jupyterDisplay,
	normal,
	type Quantity,
	tableText,
	working,
} from "../../kernel-lib/quantity/index";
import {
	densityTables,
	solutionDensity,
} from "../../kernel-lib/solutions/densities";
import {
	concentrationFromMassFraction,
	dilute,
	makeUp,
	makeUpIodine,
	type Preparation,
	waterDensity,
	weighingList,
} from "../../kernel-lib/solutions/public";
import { molarMass } from "../../kernel-lib/substances";

const percent = (x: number): Quantity<"ratio"> =>
	input("ratio", x, "%", exact, {});
const grams = (x: number): Quantity<"mass"> => input("mass", x, "g", exact, {});
const millilitres = (x: number): Quantity<"volume"> =>
	input("volume", x, "mL", exact, {});
const molar = (x: number): Quantity<"concentration"> =>
	input("concentration", x, "mol/L", exact, {});

function amount(p: Preparation, i = 0): number {
	return p.portions[i].amount.value;
}

describe("weighing", () => {
	test("by mass fraction", () => {
		const p = makeUp("K2CO3", percent(10), grams(500));
		expect(amount(p, 0)).toBeCloseTo(50, 12);
		expect(amount(p, 1)).toBeCloseTo(450, 12);
	});

	test("a hydrate brings water along: solid and water still add up to the whole", () => {
		const p = makeUp("Na2CO3", percent(5), grams(400), {
			weighedAs: "Na2CO3·10H2O",
			purity: percent(99),
		});
		expect(amount(p, 0)).toBeCloseTo((20 * 286.138) / 105.988 / 0.99, 2);
		expect(amount(p, 0) + amount(p, 1)).toBeCloseTo(400, 9);
	});

	test("more than the hydrate can give is refused", () => {
		expect(() =>
			makeUp("CaCl2", percent(80), grams(100), {
				weighedAs: "CaCl2·2H2O",
			}),
		).toThrow(/weaker solution/);
	});

	test("by mass per volume and by amount per volume", () => {
		const volume = millilitres(250);
		const byMass = makeUp(
			"NaCl",
			input("massConcentration", 100, "g/L", exact, {}),
			volume,
		);
		expect(amount(byMass)).toBeCloseTo(25, 12);
		const byAmount = makeUp("Na2S2O3", molar(0.1), millilitres(1000), {
			weighedAs: "Na2S2O3·5H2O",
		});
		expect(amount(byAmount)).toBeCloseTo(24.8172, 4);
		expect(byAmount.portions[0].what).toBe("Na2S2O3·5H2O");
	});

	test("iodine takes the ratio of iodide that is asked for, and refuses one that would not dissolve it", () => {
		const p = makeUpIodine(molar(0.05), millilitres(1000), 1.5);
		expect(amount(p, 0)).toBeCloseTo(12.69, 4);
		expect(amount(p, 1)).toBeCloseTo(1.5 * 12.69, 4);
		// 1.3 g of iodide a gram is the least: a decision, pinned on both sides
		expect(() => makeUpIodine(molar(0.05), millilitres(1000), 1.29)).toThrow(
			/1.29 grams of potassium iodide.*at least 1.3.*dissolved/,
		);
		expect(
			amount(makeUpIodine(molar(0.05), millilitres(1000), 1.3), 1),
		).toBeCloseTo(1.3 * 12.69, 4);
	});
});

describe("what a preparation is called, and what it takes", () => {
	test("strengths are shown in mol/L, g/L or %", () => {
		const half = millilitres(500);
		const millimolar = input("concentration", 100, "mmol/L", exact, {});
		const milligrams = input("massConcentration", 2000, "mg/L", exact, {});
		expect(makeUp("KCl", millimolar, half).solution).toBe("0.1 mol/L KCl");
		expect(makeUp("KCl", milligrams, half).solution).toBe("2 g/L KCl");
		const tenth = input("ratio", 0.1, "1", exact, {});
		expect(makeUp("KCl", tenth, grams(500)).solution).toBe("10 % w/w KCl");
	});

	test("a mass is given in grams, whatever the whole was given in", () => {
		const kilogram = input("mass", 1, "kg", exact, {});
		const { portions } = makeUp("NaCl", percent(10), kilogram);
		expect(portions.map((p) => String(p.amount.unit))).toEqual(["g", "g"]);
		expect(portions.map((p) => p.amount.value)).toEqual([
			expect.closeTo(100, 9),
			expect.closeTo(900, 9),
		]);
	});

	test("an impure solid takes more of it, by volume too", () => {
		const p = makeUp("NaCl", molar(1), millilitres(1000), {
			purity: percent(80),
		});
		// 22.990 + 35.45 g/mol
		expect(amount(p)).toBeCloseTo(58.44 / 0.8, 2);
	});

	test("by mass no formula is needed for what is weighed as itself", () => {
		const p = makeUp("sea salt", percent(3), grams(100));
		expect(amount(p, 0)).toBeCloseTo(3, 12);
	});

	test("water must be left over: all but nothing is refused, a thousandth is not", () => {
		expect(() => makeUp("NaCl", percent(100), grams(100))).toThrow(
			/100 % of NaCl from NaCl.*more water/,
		);
		expect(amount(makeUp("NaCl", percent(99.9), grams(100)), 1)).toBeCloseTo(
			0.1,
			9,
		);
	});

	test("the steps say to what volume it is filled", () => {
		const p = makeUp("NaCl", molar(1), millilitres(250));
		expect(p.steps.join(" ")).toContain("fill to the mark (250 mL)");
		const iodine = makeUpIodine(molar(0.05), millilitres(250), 2);
		expect(iodine.steps.join(" ")).toContain("Fill to 250 mL in brown glass");
		const diluted = dilute("NaOH", molar(1), molar(0.1), millilitres(250));
		expect(diluted.steps.join(" ")).toContain("fill to the mark (250 mL)");
	});

	test("no ratio of iodide is beyond any", () => {
		expect(() =>
			makeUpIodine(molar(0.05), millilitres(1000), Number.POSITIVE_INFINITY),
		).toThrow(/"makeUpIodine".*Infinity grams of potassium iodide/);
	});
});

describe("what does not go together", () => {
	const loose = makeUp as (...args: readonly unknown[]) => Preparation;

	test("a strength by mass with a volume, by volume with a mass, and a strength of another kind", () => {
		expect(() => loose("NaOH", percent(10), millilitres(100))).toThrow(
			/"makeUp".*kind volume for a strength in %; expected a mass/,
		);
		expect(() => loose("NaOH", molar(1), grams(100))).toThrow(
			/kind mass for a strength in mol\/L; expected a volume/,
		);
		expect(() => loose("NaOH", grams(1), grams(100))).toThrow(
			/"makeUp".*strength of the kind mass/,
		);
		// One problem, not two: nothing is said of the amount while the strength is none.
		expect(() => loose("NaOH", grams(1), grams(100))).not.toThrow(
			/an amount of the kind/,
		);
		const perLitre = input("massConcentration", 1, "g/L", exact, {});
		expect(() => loose("NaOH", perLitre, grams(100))).toThrow(
			/the volume that is filled to the mark.*Give it in mL/,
		);
		expect(() => loose("NaOH", percent(10), millilitres(100))).toThrow(
			/the mass of all of it.*Give it in g/,
		);
	});

	test("options that there are not, or that hold something else", () => {
		expect(() =>
			loose("CaCl2", molar(1), millilitres(100), { weightedAs: "CaCl2·2H2O" }),
		).toThrow(/Did you mean "weighedAs"/);
		expect(() =>
			loose("CaCl2", molar(1), millilitres(100), { purity: 99 }),
		).toThrow(/a quantity of the kind ratio/);
	});

	test("a dilution counted in two ways, or from a percentage without a density", () => {
		const looseDilute = dilute as (...args: readonly unknown[]) => Preparation;
		expect(() =>
			looseDilute("NaOH", molar(1), grams(1), millilitres(100)),
		).toThrow(/"dilute".*a stock in mol\/L.*Give both strengths in one way/);
		expect(() =>
			looseDilute("HCl", percent(37), molar(1), millilitres(100)),
		).toThrow(/"dilute".*without a density/);
		const density = input("density", 1.184, "g/mL", exact, {});
		for (const wanted of [
			percent(1),
			input("massConcentration", 1, "g/L", exact, {}),
		])
			expect(() =>
				looseDilute("HCl", percent(37), wanted, millilitres(100), { density }),
			).toThrow(/Give both strengths in one way/);
		expect(() =>
			looseDilute("HCl", percent(37), molar(1), millilitres(100), {
				densty: density,
			}),
		).toThrow(/Did you mean "density"/);
	});
});

describe("dilution", () => {
	test("c1 V1 = c2 V2 for any pair, in any unit of concentration", () => {
		const x = fc.double({ min: 0.01, max: 10, noNaN: true });
		fc.assert(
			fc.property(
				x,
				fc.double({ min: 0.01, max: 1, noNaN: true }),
				x,
				(stock, share, litres) => {
					const normality = (v: number): Quantity<"normality"> =>
						input("normality", v, "N", exact, {});
					const p = dilute(
						"thiosulfate",
						normality(stock),
						normality(stock * share),
						millilitres(litres * 1000),
					);
					expect(amount(p) / (litres * 1000)).toBeCloseTo(share, 12);
				},
			),
		);
	});

	test("a stock that is too weak is refused", () => {
		expect(() =>
			dilute("NaOH", molar(0.1), molar(0.2), millilitres(100)),
		).toThrow(/stronger stock/);
	});

	test("a stock in mol/L needs no density, and is not weighed where one is given", () => {
		const looseDilute = dilute as (...args: readonly unknown[]) => Preparation;
		const density = input("density", 1.1, "g/mL", exact, {});
		const p = looseDilute("NaOH", molar(1), molar(0.1), millilitres(100), {
			density,
		});
		expect(p.portions).toHaveLength(1);
		expect(amount(p)).toBeCloseTo(10, 12);
	});

	test("as strong as what is wanted: all of it is stock", () => {
		const p = dilute("NaOH", molar(0.2), molar(0.2), millilitres(100));
		expect(amount(p)).toBeCloseTo(100, 12);
		expect(p.portions).toHaveLength(1);
		expect(p.portions[0].what).toBe("NaOH, 0.2 mol/L");
		expect(p.solution).toBe("0.2 mol/L NaOH");
	});

	test("a percentage that is too weak is refused in mol/L", () => {
		const density = input("density", 1, "g/mL", exact, {});
		// 1 % of 36.46 g/mol in 1 g/mL is 0.274 mol/L
		expect(() =>
			dilute("HCl", percent(1), molar(0.3), millilitres(100), { density }),
		).toThrow(/HCl of 0\.274.* mol\/L.* for 0\.3 mol\/L/);
	});

	test("from a concentrated acid, by mass and by volume", () => {
		const density = input("density", 1.689, "g/mL", exact, {});
		const p = dilute("H3PO4", percent(85), molar(1), millilitres(1000), {
			density,
		});
		// 97.994 g of acid are in 97.994/0.85 g of stock.
		expect(amount(p, 0)).toBeCloseTo(97.994 / 0.85, 3);
		expect(amount(p, 1)).toBeCloseTo(97.994 / 0.85 / 1.689, 3);
		expect(p.portions.map(({ what }) => what)).toEqual([
			"85 % H3PO4, by mass",
			"or the same by volume",
		]);
		expect(p.portions.map((x) => String(x.amount.unit))).toEqual(["g", "mL"]);
	});
});

describe("cautions", () => {
	test.each([
		[() => makeUp("NaOH", percent(10), grams(500)), "never water to the solid"],
		[
			() => makeUp("NaOH", molar(1), millilitres(500)),
			"never water to the solid",
		],
		[
			() =>
				makeUp("CaCl2", molar(1), millilitres(500), {
					weighedAs: "CaCl2·2H2O",
				}),
			"warms the water",
		],
		[() => makeUp("CaCl2·2H2O", molar(1), millilitres(500)), "warms the water"],
		[
			() =>
				dilute("HCl", percent(37), molar(1), millilitres(500), {
					density: input("density", 1.184, "g/mL", exact, {}),
				}),
			"acid into water, never water into acid",
		],
		[() => makeUpIodine(molar(0.05), millilitres(500), 1.5), "vapour"],
		[() => makeUp("ZnCl2", molar(1), millilitres(500)), "corrosive"],
		[() => makeUp("KIO3", molar(0.01), millilitres(500)), "oxidiser"],
	])("%# names the hazard and defers to local rules", (made, text) => {
		const p = made();
		expect(p.cautions.join(" ")).toContain(text);
		expect(p.cautions.at(-1)).toContain("rules of the place come first");
	});

	test("the weighing list holds portions, steps and each caution once", () => {
		const shown = tableText(
			weighingList([
				makeUp("NaOH", molar(1), millilitres(500)),
				makeUp("KOH", molar(1), millilitres(500)),
			]),
		);
		expect(shown.match(/never water to the solid/g)).toHaveLength(1);
		// As it is weighed: half a mole of 39.997 g/mol to four digits.
		expect(shown).toMatch(/NaOH +20 g/);
		expect(shown).toMatch(/KOH +28\.05 g/);
		expect(shown).not.toMatch(/NaN|undefined|Infinity/);
	});
});

describe("a preparation is shown as what to weigh", () => {
	const made = () => makeUp("K2CO3", percent(10), grams(500));

	test("a line a portion, the solution named once", () => {
		const { rows, notes } = weighingList([made()]);
		expect(rows).toEqual([
			["10 % w/w K2CO3", "K2CO3", "50 g", "500 g in all"],
			["", "water", "450 g", ""],
		]);
		expect(notes[0]).toBe(
			"10 % w/w K2CO3: Weigh the water, then the solid. Add the solid to the water in portions, stirring; let it cool.",
		);
	});

	test("in a notebook and on a plain console", () => {
		const p = made();
		const text = tableText(weighingList([p]));
		const display = (
			p as unknown as { [jupyterDisplay](): Record<string, string> }
		)[jupyterDisplay]();
		expect(display["text/plain"]).toBe(text);
		expect(display["text/html"]).toContain("<td");
		expect(display["text/html"]).toContain("450 g");
		expect(inspect(p)).toBe(text);
	});
});

describe("densities", () => {
	const solutes = densityTables.map(({ rows, ...solute }) => ({
		...solute,
		highestPercent: rows[rows.length - 1][0],
	}));

	test("the common soak solutions are there, each with a source that says from memory", () => {
		expect(solutes.map((s) => s.formula).sort()).toEqual(
			[
				"NaOH",
				"KOH",
				"CaCl2",
				"NaCl",
				"H3PO4",
				"ZnCl2",
				"K2CO3",
				"C6H8O7",
			].sort(),
		);
		for (const s of solutes) {
			expect(s.source).toContain("from memory");
			expect(() => molarMass(s.formula)).not.toThrow();
		}
	});

	test.each(solutes)(
		"$formula: from water on, rising, smooth, without a jump at a row",
		({ formula, highestPercent }) => {
			const at = (p: number): number =>
				solutionDensity(formula, percent(p)).in("g/mL");
			expect(at(0)).toBeCloseTo(0.9982, 10);
			const steps = Array.from({ length: 400 }, (_, i) =>
				at((highestPercent * i) / 399),
			);
			for (let i = 1; i < steps.length; i++) {
				const rise = steps[i] - steps[i - 1];
				expect(rise).toBeGreaterThan(0);
				// No stretch rises more than four times as fast as the whole: a slip in one row would show.
				expect(rise).toBeLessThan((4 * (at(highestPercent) - 0.9982)) / 399);
			}
		},
	);

	test("between two rows the volume per gram lies on a straight line", () => {
		// NaCl: 1.0857 g/mL at 12 %, 1.1162 at 16 %; half way and a quarter of the way
		expect(solutionDensity("NaCl", percent(14)).in("g/mL")).toBeCloseTo(
			2 / (1 / 1.0857 + 1 / 1.1162),
			12,
		);
		expect(solutionDensity("NaCl", percent(13)).in("g/mL")).toBeCloseTo(
			1 / (0.75 / 1.0857 + 0.25 / 1.1162),
			12,
		);
	});

	test("a row of the table is met as it stands, the ends too", () => {
		for (const [w, d] of [
			[0, 0.9982],
			[2, 1.0125],
			[20, 1.1478],
			[26, 1.1972],
		])
			expect(solutionDensity("NaCl", percent(w)).in("g/mL")).toBeCloseTo(d, 12);
		expect(() => solutionDensity("NaCl", percent(26.01))).toThrow(/0 to 26 %/);
		expect(() => solutionDensity("NaCl", percent(-0.01))).toThrow(/0 to 26 %/);
	});

	test("of an exact mass fraction only the table's own error is left", () => {
		// within 0.001 g/mL, every value equally likely
		const density = solutionDensity("NaCl", percent(14));
		expect(density.to("g/mL").standardUncertainty).toBeCloseTo(
			0.001 / Math.sqrt(3),
			9,
		);
		expect(budget(density).rows.map((row) => row.meaning)).toEqual([
			"error of the densities of sodium chloride",
		]);
	});

	test("its working shows the rows of the table that it lies between", () => {
		const symbols = working(solutionDensity("NaCl", percent(14))).givens.map(
			(g) => g.symbol,
		);
		expect(symbols.join()).toMatch(/12 %/);
		expect(symbols.join()).toMatch(/w_?1/);
	});

	test("a substance by any of its names; one that is on no list is refused like one without a table", () => {
		const at = (name: string): number =>
			solutionDensity(name, percent(10)).in("g/mL");
		expect(at("caustic soda")).toBe(at("NaOH"));
		for (const name of ["methylene blue", "moonshine"])
			expect(() => at(name)).toThrow(
				/one whose densities are on record: sodium hydroxide \(NaOH\), potassium/,
			);
	});

	test("c = w ρ / M, the density from the table unless it was measured", () => {
		// 10 % NaOH: 110.89 g/L over 39.997 g/mol
		expect(
			concentrationFromMassFraction("NaOH", percent(10)).in("mol/L"),
		).toBeCloseTo(110.89 / 39.997, 4);
	});

	test("beyond the table is refused, with its range", () => {
		expect(() => solutionDensity("NaOH", percent(51))).toThrow(
			/0 to 50 % w\/w/,
		);
		expect(() => solutionDensity("NaOH", percent(-1))).toThrow(/density/);
		expect(() => solutionDensity("sugar", percent(1))).toThrow(/on record/);
	});

	test("the error of the mass fraction and of the table both count", () => {
		const w = input("ratio", 20, "%", normal(0.5), {});
		const q = solutionDensity("sodium hydroxide", w);
		const slope =
			(solutionDensity("NaOH", percent(20)).value -
				solutionDensity("NaOH", percent(19.9)).value) /
			0.1;
		expect(q.standardUncertainty).toBeCloseTo(
			Math.hypot(0.5 * slope, 0.003 / Math.sqrt(3)),
			4,
		);
	});
});

describe("water", () => {
	const celsius = (t: number): Quantity<"temperature"> =>
		input("temperature", t, "°C", normal(0.5), {});

	test("the derivative of either formula agrees with differences", () => {
		for (const by of ["Tanaka", "Kell"] as const)
			for (const t of [1, 10, 20, 35]) {
				const at = (x: number): number =>
					waterDensity(celsius(x), by).in("kg/m3");
				const slope = (at(t + 0.01) - at(t - 0.01)) / 0.02;
				const formula = by === "Tanaka" ? 0.002 : 0.01;
				expect(
					waterDensity(celsius(t), by).to("kg/m3").standardUncertainty,
				).toBeCloseTo(Math.hypot(0.5 * slope, formula / Math.sqrt(3)), 6);
			}
	});

	test("at 20 °C as both papers print it", () => {
		expect(waterDensity(celsius(20)).in("kg/m3")).toBeCloseTo(998.2067, 4);
		expect(waterDensity(celsius(20), "Kell").in("kg/m3")).toBeCloseTo(
			998.2041,
			4,
		);
	});

	test("warmer water is less dense from 4 °C on, and below it denser", () => {
		const together = (t: number): number => {
			const temperature = celsius(t);
			return correlation(waterDensity(temperature), temperature);
		};
		expect(together(20)).toBeLessThan(-0.99);
		expect(together(1)).toBeGreaterThan(0.9);
	});

	test("what the formula itself may be wrong by has its name", () => {
		const exactly = input("temperature", 20, "°C", exact, {});
		expect(
			budget(waterDensity(exactly)).rows.map((row) => row.meaning),
		).toEqual(["error of the formula and of ordinary pure water"]);
	});

	test("another formula is named only where it reaches", () => {
		expect(() => waterDensity(celsius(150))).toThrow(
			/"waterDensity".*formula of Kell/,
		);
		for (const t of [150.1, -0.1])
			expect(() => waterDensity(celsius(t))).toThrow(/Look the temperature up/);
		expect(() => waterDensity(celsius(151), "Kell")).toThrow(
			/Look the temperature up/,
		);
		expect(() => waterDensity(celsius(0), "Kell")).not.toThrow();
		expect(() => waterDensity(celsius(0))).not.toThrow();
	});

	test("outside its range a formula is not stretched", () => {
		expect(() => waterDensity(celsius(40.1))).toThrow(/0 to 40.*Kell/);
		expect(() => waterDensity(celsius(40))).not.toThrow();
		expect(() => waterDensity(celsius(-0.1))).toThrow(/0 to 40/);
		expect(() => waterDensity(celsius(150), "Kell")).not.toThrow();
		expect(() => waterDensity(celsius(150.1), "Kell")).toThrow(/0 to 150/);
		expect(waterDensity(celsius(45), "Kell").in("g/mL")).toBeCloseTo(0.9902, 4);
	});
});
