import { describe, expect, test } from "vitest";
import type { FiringYields } from "../../kernel-lib/activation/index";
import {
	agentNamed,
	firingYields,
	yields,
} from "../../kernel-lib/activation/index";
import type { TypedRow } from "../../kernel-lib/bench/index";
import {
	correlation,
	type Kind,
	type Measured,
	type NotKnown,
	type Quantity,
	tableText,
	type UnitOf,
	working,
} from "../../kernel-lib/quantity/index";
import { firingOf, kilnOf } from "./firings";

const plainRow: TypedRow = {
	firing: "A",
	precursor: "hazelnut shell",
	"precursor mass (g)": 50,
	"precursor moisture, wet basis (%)": 8,
	"product mass (g)": 13.85,
};

function yieldsOf(change: TypedRow): FiringYields {
	return firingYields(firingOf({ ...plainRow, ...change }));
}

function quantityOf<K extends Kind>(
	result: Measured<K> | NotKnown,
): Quantity<K> {
	if (result.is === "not known") throw new Error(result.because);
	return result.quantity;
}
const number = <K extends Kind>(
	result: Measured<K> | NotKnown,
	unit: UnitOf<K>,
): number => quantityOf(result).in(unit);
const reason = (result: Measured<Kind> | NotKnown): string =>
	result.is === "not known" ? result.because : `known: ${result.quantity}`;

describe("yields", () => {
	test("wet and dry basis of the same moisture give the same yield", () => {
		const wet = yieldsOf({});
		const dry = yieldsOf({
			"precursor moisture, wet basis (%)": "",
			"precursor moisture, dry basis (%)": (100 * 0.08) / 0.92,
		});
		expect(number(wet.charYield, "%")).toBeCloseTo((100 * 13.85) / 46, 9);
		expect(number(dry.charYield, "%")).toBeCloseTo((100 * 13.85) / 46, 9);
	});

	test("charring and activating: the char yield is the product of the two, burn-off the rest of the second", () => {
		const f = yieldsOf({ "charred mass (g)": 16 });
		expect(number(f.carbonisationYield, "1")).toBeCloseTo(16 / 46, 12);
		expect(number(f.activationYield, "1")).toBeCloseTo(13.85 / 16, 12);
		expect(number(f.burnOff, "%")).toBeCloseTo((100 * (16 - 13.85)) / 16, 9);
		expect(
			number(f.carbonisationYield, "1") * number(f.activationYield, "1"),
		).toBeCloseTo(number(f.charYield, "1"), 12);
	});

	test("burn-off and activation yield have one and the same error; so have yields that share the precursor's mass", () => {
		const f = yieldsOf({ "charred mass (g)": 16 });
		expect(
			correlation(quantityOf(f.burnOff), quantityOf(f.activationYield)),
		).toBeCloseTo(-1, 9);
		expect(
			correlation(quantityOf(f.charYield), quantityOf(f.carbonisationYield)),
		).toBeGreaterThan(0.9);
	});

	test("a bought char that is activated has a burn-off; a shell charred and activated in one go has none", () => {
		expect(
			number(yieldsOf({ precursor: "bought charcoal" }).burnOff, "1"),
		).toBeCloseTo(1 - 13.85 / 46, 12);
		expect(reason(yieldsOf({}).burnOff)).toContain(
			"mass after charring is not recorded",
		);
	});

	test("moist product counts dry", () => {
		expect(
			number(yieldsOf({ "product moisture, wet basis (%)": 2 }).charYield, "1"),
		).toBeCloseTo((13.85 * 0.98) / 46, 12);
	});

	test("fixed-carbon yield from ash and volatile matter", () => {
		const f = yieldsOf({
			"product ash (%)": 4,
			"product volatile matter (%)": 9,
			"precursor ash (%)": 1.5,
		});
		expect(number(f.fixedCarbon, "%")).toBeCloseTo(87, 9);
		expect(number(f.fixedCarbonYield, "1")).toBeCloseTo(
			((13.85 / 46) * 0.87) / 0.985,
			12,
		);
		expect(reason(yieldsOf({}).fixedCarbonYield)).toContain("ash");
	});

	test("every yield shows its working down to the cells", () => {
		const steps = working(quantityOf(yieldsOf({}).charYield));
		expect(JSON.stringify(steps)).toContain("precursor mass (g)");
	});
});

describe("impregnation", () => {
	const solutions: readonly (readonly [string, TypedRow])[] = [
		["a solid", { "agent mass (g)": 23, "agent purity (%)": 100 }],
		[
			"a solution by mass",
			{ "agent solution mass (g)": 115, "agent strength (% w/w)": 20 },
		],
		[
			"a solution by volume, g/L",
			{ "agent solution volume (mL)": 100, "agent strength (g/L)": 230 },
		],
		[
			"a solution by volume, mol/L",
			{
				"agent solution volume (mL)": 100,
				"agent strength (mol/L)": 230 / 138.205,
			},
		],
	];
	for (const [name, change] of solutions)
		test(`${name}: 23 g on 46 g dry is a ratio of 0.5`, () => {
			const f = yieldsOf({ ...change, agent: "K2CO3" });
			expect(number(f.impregnationRatio, "1")).toBeCloseTo(0.5, 5);
			expect(number(f.agentPerPrecursor, "mmol/g")).toBeCloseTo(
				(1000 * 0.5) / 138.205,
				4,
			);
		});

	test("per mole of carbon", () => {
		const f = yieldsOf({
			agent: "potash",
			"agent mass (g)": 23,
			"precursor carbon (%)": 50,
		});
		expect(number(f.agentPerCarbon, "1")).toBeCloseTo(
			23 / 138.205 / ((46 * 0.5) / 12.011),
			5,
		);
	});

	test("what was poured off is taken away, at the soak's strength unless its own is recorded", () => {
		const soak = {
			agent: "K2CO3",
			"agent solution mass (g)": 115,
			"agent strength (% w/w)": 20,
			"liquor drained (g)": 60,
		};
		expect(number(yieldsOf(soak).impregnationRatioKept, "1")).toBeCloseTo(
			(23 - 12) / 46,
			9,
		);
		expect(
			number(
				yieldsOf({ ...soak, "liquor strength (%)": 10 }).impregnationRatioKept,
				"1",
			),
		).toBeCloseTo((23 - 6) / 46, 9);
	});

	test("agent found again, and at least that where a rinse was not read", () => {
		const washed = {
			agent: "K2CO3",
			"agent mass (g)": 23,
			"rinse water conductivity (mS/cm)": 0.01,
			"reference strength (g/L)": 10,
			"reference conductivity (mS/cm)": 15.01,
			"rinse 1 (mL)": 500,
			"rinse 1 conductivity (mS/cm)": 3.01,
			"rinse 1 diluted": 10,
			"rinse 2 (mL)": 500,
			"rinse 2 conductivity (mS/cm)": 1.51,
		};
		// 3.00 mS/cm ten times diluted is 20 g/L, 1.50 mS/cm is 1 g/L; half a litre of each.
		const f = yieldsOf(washed);
		expect(number(f.agentRecovered, "1")).toBeCloseTo(10.5 / 23, 9);
		// 20 g of liquor as strong as 12 % takes 2.4 g more along.
		expect(
			number(
				yieldsOf({
					...washed,
					"liquor drained (g)": 20,
					"liquor strength (%)": 12,
				}).agentRecovered,
				"1",
			),
		).toBeCloseTo(12.9 / 23, 9);
		const { "rinse 2 conductivity (mS/cm)": _, ...unread } = washed;
		const g = yieldsOf(unread);
		expect(g.agentRecovered.is).toBe("at least");
		expect(number(g.agentRecovered, "1")).toBeCloseTo(10 / 23, 9);
	});

	test("names, formulas, unknown words", () => {
		const name = (text: string): string => {
			const found = agentNamed(text);
			return found.is === "known" ? found.agent.formula : "?";
		};
		expect(
			["potash, 20 %", "H3PO4", "zinc chloride", "MgCl2", "kitchen magic"].map(
				name,
			),
		).toEqual(["K2CO3", "H3PO4", "ZnCl2", "MgCl2", "?"]);
		expect(
			reason(
				yieldsOf({ agent: "kitchen magic", "agent mass (g)": 3 })
					.agentPerPrecursor,
			),
		).toContain("molar mass");
	});
});

test("the table leaves empty columns out and says why they are", () => {
	const text = tableText(
		yields(kilnOf([plainRow, { ...plainRow, firing: "B" }])).table,
	);
	expect(text).toContain("char yield");
	expect(text).toContain("30.109 % (u 0.065 %)");
	expect(text).not.toMatch(/NaN|undefined|Infinity/);
	expect(text).toContain("Not known, burn-off: the mass after charring");
	expect(text).toContain('("A", "B")');
});

test("ratios by mass and by moles stand side by side in the table", () => {
	const text = tableText(
		yields(
			kilnOf([
				{
					...plainRow,
					agent: "K2CO3",
					"agent mass (g)": 23,
					"precursor carbon (%)": 50,
				},
			]),
		).table,
	);
	for (const words of [
		"impregnation ratio",
		"agent per dry precursor (mmol/g)",
		"agent per carbon (mol/mol)",
		"3.617",
		"0.0869",
	])
		expect(text).toContain(words);
});

test("a firing that is left out is out, and the table says so; a product mass left open is the last weighing in use", () => {
	const dried = {
		firing: "C",
		"precursor mass (g)": 50,
		"drying 1 time (h)": 1,
		"drying 1 mass (g)": 15,
		"drying 2 time (h)": 2,
		"drying 2 mass (g)": 14,
	};
	const trial = kilnOf([plainRow, dried], {
		deviations: [
			{ firing: "A", part: "", "what happened": "lid open" },
			{ firing: "C", part: "weighing 2", "what happened": "spilt" },
		],
	});
	const list = yields(trial);
	expect(list.map((y) => y.firing.name)).toEqual(["C"]);
	expect(number(list[0].charYield, "1")).toBeCloseTo(15 / 50, 12);
	expect(yields(trial)).toBe(list);
	const text = tableText(yields(trial).table);
	expect(text).toContain('Left out: "A" (lid open).');
	expect(text).toContain('Left out: weighing 2 of the drying of "C" (spilt).');
});
