import { describe, expect, test } from "vitest";
import {
	cautionTexts,
	hazards,
	hazardsIn,
	neverConcluded,
	type SheetWords,
} from "../../kernel-lib/cautions";
import { isSubstance, substanceNamed } from "../../kernel-lib/substances";

const sheetOf = (...words: string[]): SheetWords => ({
	rows: words.map((word) => ({ words: [word], texts: [] })),
	unknown: [],
});

describe("cautions", () => {
	test("reagents that are named bring theirs, and no others", () => {
		const texts = cautionTexts(sheetOf("sodium hydroxide", "steam")).join("\n");
		expect(texts).toMatch(/Alkali burns/);
		expect(texts).toMatch(/carbon monoxide/);
		expect(texts).not.toMatch(/Zinc chloride/);
	});

	test("the last word is always that local codes come first", () => {
		expect(cautionTexts(sheetOf()).at(-1)).toMatch(/local codes/);
	});

	test("no claim of fitness, ever: water, breathing and poisoning are each refused", () => {
		const text = neverConcluded.join("\n");
		expect(text).toMatch(/not show that a char is fit for drinking water/);
		expect(text).toMatch(/not show that a char may protect anyone's breathing/);
		expect(text).toMatch(
			/not show that a char may be given to anyone against poisoning/,
		);
		expect(text).toMatch(/certified test/);
	});
});

describe("how a caution is found", () => {
	const called = (text: string): string[] =>
		hazardsIn([text]).map((h) => h.what);

	test("every substance that a caution names is on the list, by its usual name", () => {
		for (const name of hazards.flatMap((h) => h.substances)) {
			expect(substanceNamed(name).is, name).toBe("known");
			expect(isSubstance(name, name), name).toBe(true);
		}
	});

	test.each([
		["I2", "iodine"],
		["methylthioninium chloride", "methylene blue"],
		["carbolic acid", "phenol"],
		["potash", "alkali"],
		["K₂CO₃ in water", "alkali"],
		["washing soda", "alkali"],
		["soda ash", "alkali"],
		["caustic soda", "alkali"],
		["lye", "alkali"],
		["lime", "alkali"],
		["quicklime", "alkali"],
		["wood ash", "alkali"],
		["phosphoric 1", "acid"],
		["muriatic acid", "acid"],
		["sulphuric acid", "acid"],
		["nitric", "acid"],
		["acetic", "acid"],
		["citric", "acid"],
		["vinegar", "acid"],
		["pyroligneous acid", "acid"],
		["ZnCl2", "zinc chloride"],
		["potassium iodate", "oxidising standard"],
		["dichromate", "oxidising standard"],
		["baking soda", "alkali"],
		["HNO3", "oxidiser"],
		["KNO3", "oxidiser"],
		["saltpetre", "oxidiser"],
		["permanganate", "oxidiser"],
		["H2O2", "oxidiser"],
		["perchloric acid", "oxidiser"],
		["dichromate", "oxidiser"],
		["ammonium nitrate", "ammonia"],
		["bleach", "bleach and chlorine"],
		["NaOCl", "bleach and chlorine"],
		["chlorine", "bleach and chlorine"],
		["HF", "hydrofluoric acid"],
		["hydrofluoric acid", "acid"],
		["FeCl3", "metal salt"],
		["cyanide", "poison"],
		["lead acetate", "poison"],
		["mercury", "poison"],
		["sodium sulfide", "sulfide or sulfite"],
		["alcohol", "solvent"],
		["methanol", "poison"],
		["CO2", "gases of a kiln"],
		["pyrolysis gas", "gases of a kiln"],
		["PVC", "treated feedstock"],
		["tyres", "treated feedstock"],
		["treated wood", "treated feedstock"],
		["creosote", "wood tar"],
		["H3PO4", "phosphoric acid in the kiln"],
		["second firing", "firing"],
		["steam, 30 min", "steam"],
		["CaCl2 brine", "float liquids"],
		["brine", "float liquids"],
	])("%s calls for the caution on %s", (text, what) => {
		expect(called(text)).toContain(what);
	});

	test.each([
		["lime juice", "alkali"],
		["potash alum", "alkali"],
		["potash-free water", "alkali"],
		["table salt", "float liquids"],
	])("%s does not call for the caution on %s", (text, what) => {
		expect(called(text)).not.toContain(what);
	});
});
