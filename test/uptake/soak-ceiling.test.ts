import { describe, expect, test } from "vitest";
import { charRow, type Row, steps } from "./sheets";

/** g/mol, from the abridged standard atomic weights (IUPAC 2021, from memory): what the sums below are made with. */
const iodine = 253.81;
const sodiumCarbonate = 105.99;
const sodiumHydroxide = 39.997;
const ironChloride = 162.2;

/** Ceilings of a treated flask beside a control. */
function ceiling(change: Row, control: Row = {}) {
	const { uptakes } = steps([
		charRow("c", control),
		charRow("t", { treatment: "treated", control: "control", ...change }),
	]);
	const { demand } = uptakes[1];
	if (demand.is !== "suspected") return { more: demand.is, less: demand.is };
	const { more, less } = demand.ceiling;
	return {
		more: more.is === "value" ? more.value : more.because,
		less: less.is === "value" ? less.value : less.because,
	};
}

const soda: Row = { "soaked in": "washing soda", "soak strength (g/L)": 100 };

describe("a soak that nothing limits", () => {
	test("an unknown name has no ceiling either way", () => {
		const { more, less } = ceiling({
			"soaked in": "xylozan",
			"soak strength (g/L)": 1,
		});
		expect(more).toMatch(/xylozan/);
		expect(less).toMatch(/xylozan/);
	});
	test("a listed one without its strength has none on its own side, and 0 on the other", () => {
		const { more, less } = ceiling({ "soaked in": "washing soda" });
		expect(more).toMatch(/strength of the soak is not recorded/);
		expect(less).toBe(0);
	});
	test("what the char itself may hold gets no credit from strength or rinses", () => {
		const { more } = ceiling({
			"soaked in": "sugar",
			"soak strength (g/L)": 1,
			"rinse 1 (mL)": 500,
			"rinse 2 (mL)": 500,
			"char rinsed (g)": 10,
		});
		expect(more).toMatch(/held by the char itself/);
	});
	test("nor does what may stay undissolved", () => {
		expect(
			ceiling({ "soaked in": "slaked lime", "soak strength (g/L)": 1 }).more,
		).toMatch(/undissolved/);
	});
	test("the sheet's own word that it consumes iodine is no amount", () => {
		expect(ceiling({ ...soda, "soak consumes iodine": "yes" }).more).toMatch(
			/not how much/,
		);
	});
});

describe("by the amount held", () => {
	test("3 mL of liquor a gram, half a mole of iodine for each mole of alkali", () => {
		// 100 g/L = 0.9435 mol/L carbonate, 3 mL/g, 2 alkali a mole, half an I2 each
		expect(ceiling(soda).more).toBeCloseTo(
			(100 / sodiumCarbonate) * 3 * 1 * iodine,
			0,
		);
	});
	test("in mol/L and in %, where the water's own volume bounds the density", () => {
		expect(
			ceiling({ "soaked in": "KOH", "soak strength (mol/L)": 0.1 }).more,
		).toBeCloseTo(0.1 * 3 * 0.5 * iodine, 1);
		// 10 g in 100 g: at most 10 g in the volume of 90 g of water
		expect(
			ceiling({ "soaked in": "NaOH", "soak strength (%)": 10 }).more,
		).toBeCloseTo((1000 / 9 / sodiumHydroxide) * 3 * 0.5 * iodine, 0);
	});
	test("by the liquor that was weighed, where it is more than 3 mL a gram; a dried char holds little liquor and all of its salt", () => {
		const held = (mL: number): number => (100 / sodiumCarbonate) * mL * iodine;
		const weighed = (mL: number) =>
			ceiling({ ...soda, "liquor retained (mL)": mL }).more;
		expect(weighed(0)).toBeCloseTo(held(3), 0);
		expect(weighed(2.9)).toBeCloseTo(held(3), 0);
		expect(weighed(3.1)).toBeCloseTo(held(3.1), 0);
	});
	test("the strength of a soak is not that of a firing's agent", () => {
		const { uptakes } = steps(
			[
				charRow("c"),
				charRow("t", {
					treatment: "treated",
					control: "control",
					soak: "kiln 1",
					"soaked in": "HCl",
					"soak strength (mol/L)": 0.001,
				}),
			],
			undefined,
			{
				activation: [
					{
						firing: "kiln 1",
						"precursor mass (g)": 10,
						agent: "KOH",
						"agent mass (g)": 10,
					},
				],
			},
		);
		const { demand } = uptakes[1];
		if (demand.is !== "suspected") throw new Error(demand.is);
		expect(demand.ceiling.more).toMatchObject({
			because: expect.stringMatching(/agent of its firing/),
		});
	});
	test("the alkali in bleach has no limit, what it frees has", () => {
		const { more, less } = ceiling({
			"soaked in": "sodium hypochlorite",
			"soak strength (mol/L)": 0.01,
		});
		expect(more).toMatch(/how much alkali/);
		expect(less).toBeCloseTo(0.01 * 3 * 1 * iodine, 1);
	});
	test("three rinses of 20 mL a gram: ten times what ideal mixing leaves", () => {
		const rinsed = {
			...soda,
			"rinse 1 (mL)": 200,
			"rinse 2 (mL)": 200,
			"rinse 3 (mL)": 200,
		};
		const all = (100 / sodiumCarbonate) * 3 * iodine;
		expect(ceiling({ ...rinsed, "char rinsed (g)": 10 }).more).toBeCloseTo(
			all * 10 * (30 / 230) ** 3,
			1,
		);
		// without the mass that was rinsed the volumes say nothing
		expect(ceiling(rinsed).more).toBeCloseTo(all, 0);
	});
	test("rinsing that ideal mixing makes less than tenfold counts for nothing", () => {
		const all = (100 / sodiumCarbonate) * 3 * iodine;
		const one = (mL: number) =>
			ceiling({ ...soda, "rinse 1 (mL)": mL, "char rinsed (g)": 1 }).more;
		// 27 mL on 3 mL leaves a tenth
		expect(one(26.9)).toBeCloseTo(all, 0);
		expect(one(54)).toBeCloseTo((all * 30) / 57, 0);
	});
	test("what frees iodine is limited on the other side", () => {
		const { more, less } = ceiling({
			"soaked in": "FeCl3",
			"soak strength (g/L)": 10,
		});
		expect(more).toBe(0);
		expect(less).toBeCloseTo((10 / ironChloride) * 3 * 0.5 * iodine, 1);
	});
});

describe("by readings", () => {
	test("alkali: the acidified aliquot gives its iodine back", () => {
		expect(ceiling({ ...soda, acidified: "yes" }).more).toBe(0);
		expect(ceiling({ ...soda, acidified: "no" }).more).toBeGreaterThan(100);
	});
	test("alkali: a flask at pH 7.5 and one above it", () => {
		expect(ceiling({ ...soda, "final pH": 7.5 }).more).toBe(0);
		expect(ceiling({ ...soda, "final pH": 7.6 }).more).toBeGreaterThan(100);
	});
	test("neither settles what reduces iodine by itself", () => {
		const sulfite = { "soaked in": "Na2SO3", "soak strength (g/L)": 100 };
		expect(
			ceiling({ ...sulfite, acidified: "yes", "final pH": 6 }).more,
		).toBeGreaterThan(100);
	});
	test("a firing at 600 °C leaves nothing of sugar, one at 599 °C may; potash outlasts both", () => {
		const sugar = { "soaked in": "sugar" };
		expect(ceiling({ ...sugar, "fired after soak (°C)": 600 }).more).toBe(0);
		expect(ceiling({ ...sugar, "fired after soak (°C)": 599 }).more).toMatch(
			/held by the char/,
		);
		expect(
			ceiling({ "soaked in": "potash", "fired after soak (°C)": 900 }).more,
		).toMatch(/strength/);
	});
	test("the last rinse at the control's pH: 1 mmol/L of alkali, three times that in the pores", () => {
		const control = { "last rinse pH": 7 };
		expect(
			ceiling({ ...soda, "last rinse pH": 7.3 }, control).more,
		).toBeCloseTo(0.001 * 3 * 3 * 1 * iodine, 2);
		expect(
			ceiling({ ...soda, "last rinse pH": 7.31 }, control).more,
		).toBeGreaterThan(100);
		// without a rinse of the control there is nothing to be like
		expect(ceiling({ ...soda, "last rinse pH": 7 }).more).toBeGreaterThan(100);
	});
	test("the last rinse conducts as the control's: what two readings may hide, three times that in the pores", () => {
		const control = { "last rinse conductivity (µS/cm)": 50 };
		// (0 + 10 % of 50 + 5) µS/cm at 100 µS/cm for a mmol/L
		expect(
			ceiling({ ...soda, "last rinse conductivity (µS/cm)": 50 }, control).more,
		).toBeCloseTo(0.0001 * 3 * 3 * iodine, 3);
		// (150 + 20 + 5)
		expect(
			ceiling({ ...soda, "last rinse conductivity (µS/cm)": 200 }, control)
				.more,
		).toBeCloseTo(0.00175 * 3 * 3 * iodine, 2);
		expect(
			ceiling(
				{ "soaked in": "sugar", "last rinse conductivity (µS/cm)": 50 },
				control,
			).more,
		).toMatch(/held by the char/);
	});
	test("iodine that the last rinse consumed: three times that in the pores", () => {
		expect(
			ceiling({ "soaked in": "Na2SO3", "last rinse demand (mmol/L)": 0.2 })
				.more,
		).toBeCloseTo((3 * 3 * 0.2 * iodine) / 1000, 3);
	});
	test("the smallest of the limits counts", () => {
		expect(
			ceiling({
				...soda,
				"last rinse demand (mmol/L)": 0.2,
				"final pH": 7,
			}).more,
		).toBe(0);
	});
});
