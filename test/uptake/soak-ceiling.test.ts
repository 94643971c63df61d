import { describe, expect, test } from "vitest";
import { known, notKnown } from "../../kernel-lib/quantity";
import { substancesIn } from "../../kernel-lib/substances";
import type { LooksLike } from "../../kernel-lib/uptake/flask-uptake";
import { isLimited } from "../../kernel-lib/uptake/soak-ceiling";
import { evidenceOn } from "../../kernel-lib/uptake/soak-evidence";
import { charRow, type Row, steps } from "./sheets";

/** g/mol, from the abridged standard atomic weights (IUPAC 2021, from memory): what the sums below are made with. */
const iodine = 253.81;
const sodiumCarbonate = 105.99;
const sodiumHydroxide = 39.997;
const ironChloride = 162.2;

function demandOf(change: Row, control: Row = {}) {
	const { uptakes } = steps([
		charRow("c", control),
		charRow("t", { treatment: "treated", control: "control", ...change }),
	]);
	return uptakes[1].demand;
}

/** What the limits of a treated flask rest on. */
function stepsOf(change: Row, control: Row = {}): string {
	const demand = demandOf(change, control);
	return demand.is === "suspected" ? demand.ceiling.steps.join("; ") : "";
}

/** Ceilings of a treated flask beside a control. */
function ceiling(change: Row, control: Row = {}) {
	const demand = demandOf(change, control);
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
		const { more, less } = ceiling({ ...soda, "soak consumes iodine": "yes" });
		expect(more).toMatch(/not how much/);
		expect(less).toBe(0);
	});
	test("the sheet's own word that it consumes none leaves what it frees", () => {
		const { more, less } = ceiling({
			"soaked in": "sodium hypochlorite",
			"soak strength (mol/L)": 0.01,
			"soak consumes iodine": "no",
		});
		expect(more).toBe(0);
		expect(less).toBeCloseTo(0.01 * 3 * 1 * iodine, 1);
	});
	test("one that is on the list and of which nobody knows what it does has none either way, however weak", () => {
		const { more, less } = ceiling({
			"soaked in": "perchloric acid",
			"soak strength (mol/L)": 0.001,
		});
		expect(more).toMatch(/what perchloric acid does to iodine is not known/);
		expect(less).toMatch(/what perchloric acid does to iodine is not known/);
	});
	test("nor has one that frees iodine, and nobody knows how much", () => {
		const { more, less } = ceiling({
			"soaked in": "sodium nitrite",
			"soak strength (mol/L)": 0.001,
		});
		expect(more).toBe(0);
		expect(less).toMatch(/depends on acid and time/);
	});
	test.each(["g/L", "%"])(
		"a mixture in %s has no strength in moles",
		(unit) => {
			expect(
				ceiling({ "soaked in": "lime sulfur", [`soak strength (${unit})`]: 1 })
					.more,
			).toMatch(/no one formula/);
		},
	);
	test.each([
		["%", 100],
		["%", 0],
		["g/L", 0],
	])("a strength in %s of %s says nothing", (unit, strength) => {
		expect(
			ceiling({
				"soaked in": "NaOH",
				[`soak strength (${unit})`]: strength,
			}).more,
		).toMatch(/strength of the soak is 100 % or 0/);
	});
	test("of several things that were soaked in, one without a limit is enough", () => {
		expect(
			ceiling({ "soaked in": "NaOH, sugar", "soak strength (mol/L)": 0.1 })
				.more,
		).toMatch(/sucrose may be held by the char itself/);
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
		// 8 mL on 2 g
		expect(
			ceiling({ ...soda, "char mass (g)": 2, "liquor retained (mL)": 8 }).more,
		).toBeCloseTo(held(4), 0);
	});
	test("of several things each may have been all of the strength", () => {
		expect(
			ceiling({
				"soaked in": "NaOH and KOH, with NaCl",
				"soak strength (mol/L)": 0.1,
			}).more,
		).toBeCloseTo(2 * 0.1 * 3 * 0.5 * iodine, 1);
	});
	test("the limits tell what they rest on: liquor held and rinses", () => {
		const koh: Row = { "soaked in": "KOH", "soak strength (mol/L)": 0.1 };
		expect(stepsOf(koh)).toBe(
			"potassium hydroxide: 3.0 mL of liquor per gram of char (the most that a char holds); no rinse is recorded",
		);
		expect(stepsOf({ ...koh, "liquor retained (mL)": 3 })).toContain(
			"3.0 mL of liquor per gram of char (the most that a char holds)",
		);
		expect(stepsOf({ ...koh, "liquor retained (mL)": 4 })).toContain(
			"4.0 mL of liquor per gram of char (recorded)",
		);
		const once = { ...koh, "rinse 1 (mL)": 270 };
		expect(stepsOf(once)).toContain("they do not count");
		// 30 mL on 10 g; 270 mL leave a tenth, and once more a hundredth
		expect(stepsOf({ ...once, "char rinsed (g)": 10 })).toContain(
			"one rinse, wholly mixed, would leave 10 % of the liquor; 10 times that is allowed",
		);
		expect(
			stepsOf({ ...once, "char rinsed (g)": 10, "rinse 2 (mL)": 270 }),
		).toContain("2 rinses, each wholly mixed, would leave 1.0 % of the liquor");
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
	test("what was read of the rinse goes with the liquor that was weighed", () => {
		// 6 mL on 1 g, in place of 3
		const held = { "liquor retained (mL)": 6 };
		expect(
			ceiling({ ...soda, ...held, "last rinse pH": 7 }, { "last rinse pH": 7 })
				.more,
		).toBeCloseTo(0.001 * 3 * 6 * 1 * iodine, 2);
		expect(
			ceiling({
				"soaked in": "Na2SO3",
				...held,
				"last rinse demand (mmol/L)": 0.2,
			}).more,
		).toBeCloseTo((3 * 6 * 0.2 * iodine) / 1000, 3);
	});
	test("a rinse less alkaline than the control's is alike within 0.3 too", () => {
		const control = { "last rinse pH": 7 };
		const more = (pH: number) =>
			ceiling({ ...soda, "last rinse pH": pH }, control).more;
		expect(more(6.7)).toBeCloseTo(0.001 * 3 * 3 * 1 * iodine, 2);
		expect(more(6.69)).toBeGreaterThan(100);
	});
	test("the pH of a rinse says nothing of what reduces iodine by itself", () => {
		expect(
			ceiling(
				{
					"soaked in": "Na2SO3",
					"soak strength (g/L)": 100,
					"last rinse pH": 7,
				},
				{ "last rinse pH": 7 },
			).more,
		).toBeGreaterThan(100);
	});
	test("conductivities are told with what they leave room for", () => {
		// (150 + 20 + 5) µS/cm
		expect(
			stepsOf(
				{ ...soda, "last rinse conductivity (µS/cm)": 200 },
				{ "last rinse conductivity (µS/cm)": 50 },
			),
		).toContain(
			"conducts 200 µS/cm against 50 of the control's, which leaves room for 1.8 mmol/L of a salt in the rinse and 3 times that in the pores",
		);
	});
	test("a rinse that conducts less than the control's may hide as much as one alike", () => {
		const more = (own: number, control: Row) =>
			ceiling({ ...soda, "last rinse conductivity (µS/cm)": own }, control)
				.more;
		// (0 + 10 % of 50 + 5) µS/cm
		expect(more(30, { "last rinse conductivity (µS/cm)": 50 })).toBeCloseTo(
			0.0001 * 3 * 3 * iodine,
			3,
		);
		expect(more(30, {})).toBeGreaterThan(100);
		expect(
			ceiling(soda, { "last rinse conductivity (µS/cm)": 50 }).more,
		).toBeGreaterThan(100);
	});
	test("conductivity says nothing of what hardly dissolves, nor does what the rinse consumed", () => {
		const lime = { "soaked in": "slaked lime", "soak strength (g/L)": 1 };
		expect(
			ceiling(
				{ ...lime, "last rinse conductivity (µS/cm)": 50 },
				{ "last rinse conductivity (µS/cm)": 50 },
			).more,
		).toMatch(/undissolved/);
		expect(
			ceiling({ ...lime, "last rinse demand (mmol/L)": 0.2 }).more,
		).toMatch(/undissolved/);
		expect(
			ceiling({ "soaked in": "sugar", "last rinse demand (mmol/L)": 0.2 }).more,
		).toMatch(/held by the char/);
	});
	test("what the last rinse consumed is no limit on what frees iodine", () => {
		expect(
			ceiling({ "soaked in": "KMnO4", "last rinse demand (mmol/L)": 0.2 }).less,
		).toMatch(/strength of the soak is not recorded/);
	});
	test("nothing is left of a mixture either that burns off", () => {
		expect(
			ceiling({ "soaked in": "tea", "fired after soak (°C)": 600 }).more,
		).toBe(0);
	});
	test("the smallest of the limits counts, whichever it is", () => {
		// a soak of 0.5 mmol/L holds less than a rinse of like pH could hide
		const weak: Row = {
			"soaked in": "washing soda",
			"soak strength (mol/L)": 0.0005,
			"last rinse pH": 7,
		};
		expect(ceiling(weak, { "last rinse pH": 7 }).more).toBeCloseTo(
			0.0005 * 3 * 1 * iodine,
			3,
		);
		expect(stepsOf(weak, { "last rinse pH": 7 })).toContain("3.0 mL of liquor");
		expect(
			ceiling({
				...soda,
				"last rinse demand (mmol/L)": 0.2,
				"final pH": 7,
			}).more,
		).toBe(0);
	});
});

describe("whether a ceiling limits what is asked about", () => {
	const open = notKnown("nothing limits it");
	test.each<[boolean, boolean, LooksLike, boolean]>([
		[true, true, "either", true],
		[true, false, "either", false],
		[false, true, "either", false],
		[true, false, "more uptake", true],
		[false, true, "more uptake", false],
		[true, false, "less uptake", false],
		[false, true, "less uptake", true],
	])("more %s, less %s, asked about %s: %s", (more, less, asked, limited) => {
		const ceiling = {
			more: more ? known(1) : open,
			less: less ? known(1) : open,
			steps: [],
		};
		expect(isLimited(ceiling, asked)).toBe(limited);
		if (asked === "either") expect(isLimited(ceiling)).toBe(limited);
	});
});

describe("readings of a flask", () => {
	const evidence = (name: string, change: Row = {}) => {
		const { trial } = steps([
			charRow("c", { "last rinse pH": 7 }),
			charRow("t", { treatment: "treated", control: "control", ...change }),
		]);
		const [found] = substancesIn(name);
		if (found.is !== "known") throw new Error(name);
		return evidenceOn(trial, trial.flasks[1], found.substance);
	};

	test.each(["washing soda", "sugar", "Na2SO3", "KMnO4"])(
		"say nothing of %s where nothing was read",
		(name) => {
			expect(evidence(name)).toEqual([]);
			expect(evidence(name, { acidified: "no", "final pH": 9 })).toEqual([]);
			expect(evidence(name, { "fired after soak (°C)": 400 })).toEqual([]);
		},
	);

	test("speak each for itself", () => {
		const read: Row = {
			acidified: "yes",
			"last rinse pH": 7,
			"fired after soak (°C)": 700,
		};
		expect(evidence("washing soda", read).map((e) => e.most)).toEqual([
			0, 0.003,
		]);
		expect(evidence("sugar", read).map((e) => e.most)).toEqual([0]);
		expect(evidence("KMnO4", read)).toEqual([]);
	});
});
