import { describe, expect, test } from "vitest";
import {
	cautionsIn,
	cautionTexts,
	neverConcluded,
	type SheetWords,
} from "../../kernel-lib/cautions";
import { dangerKinds, dangers, substances } from "../../kernel-lib/substances";

const sheetOf = (...words: string[]): SheetWords => ({
	rows: words.map((word) => ({ words: [word], texts: [] })),
	unknown: [],
});

describe("cautions", () => {
	test("reagents that are named bring theirs, and no others", () => {
		const texts = cautionTexts(sheetOf("sodium hydroxide", "steam")).join("\n");
		expect(texts).toMatch(/alkali burns/);
		expect(texts).toMatch(/carbon monoxide/);
		expect(texts).not.toMatch(/zinc/i);
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
		cautionsIn([{ words: [text], texts: [] }]).map((c) => c.what);

	test("danger comes before warning, the gravest first, each with who called it", () => {
		const found = cautionsIn([
			{ words: ["char", "iodine", "washing soda"], texts: ["KCN in the lab"] },
		]);
		expect(found.map((c) => c.what)).toEqual([
			"cyanide",
			"iodine",
			"mild alkali",
			"carbonate",
			"char dust",
		]);
		expect(found[0].text).toContain("Danger to life, potassium cyanide:");
		expect(found[2].text).toContain("Warning, sodium carbonate:");
		for (const kind of dangerKinds)
			for (const { kills: _, ...texts } of [dangers[kind]])
				for (const part of Object.values(texts))
					expect(part).not.toMatch(/\.\.|^\s|undefined/);
	});

	test("each substance has its dangers, or a source for having none, or is to be looked up; never two of these", () => {
		for (const s of substances)
			expect(s.dangers.length > 0 && s.harmless !== "", s.name).toBe(false);
		const unknown = substances
			.filter((s) => s.dangers.length === 0 && s.harmless === "")
			.map((s) => s.name);
		expect(unknown.length).toBeLessThan(20);
		for (const name of unknown)
			expect(cautionTexts(sheetOf(name)).join("\n"), name).toContain(
				`Of the hazards of ${name} this program knows nothing`,
			);
	});

	test("what to do in the kiln is said where it was in one", () => {
		const text = (...words: string[]): string =>
			cautionTexts({ rows: [{ words, texts: [] }], unknown: [] }).join("\n");
		expect(text("sulfuric acid")).not.toContain("In the kiln:");
		expect(text("sulfuric acid", "kiln")).toContain(
			"In the kiln: gives off choking acid fumes",
		);
		// An alkali's metal vapour is a matter of the kiln alone.
		expect(text("potash")).not.toContain("potassium, sodium");
	});

	test.each([
		["I2", "iodine"],
		["methylthioninium chloride", "dye"],
		["carbolic acid", "phenol"],
		["potash", "mild alkali"],
		["K₂CO₃ in water", "mild alkali"],
		["washing soda", "mild alkali"],
		["soda ash", "mild alkali"],
		["caustic soda", "strong alkali"],
		["lye", "strong alkali"],
		["lime", "strong alkali"],
		["quicklime", "strong alkali"],
		["wood ash", "mild alkali"],
		["phosphoric 1", "strong acid"],
		["muriatic acid", "strong acid"],
		["sulphuric acid", "strong acid"],
		["nitric", "strong acid"],
		["acetic", "mild acid"],
		["citric", "mild acid"],
		["vinegar", "mild acid"],
		["pyroligneous acid", "tar"],
		["ZnCl2", "zinc chloride"],
		["potassium iodate", "iodate"],
		["dichromate", "chromate"],
		["baking soda", "carbonate"],
		["HNO3", "oxidiser"],
		["KNO3", "nitrate"],
		["saltpetre", "nitrate"],
		["permanganate", "oxidiser"],
		["H2O2", "oxidiser"],
		["perchloric acid", "perchlorate"],
		["dichromate", "oxidiser"],
		["ammonium nitrate", "ammonia"],
		["bleach", "bleach"],
		["NaOCl", "bleach"],
		["chlorine", "bleach"],
		["HF", "fluoride"],
		["hydrofluoric acid", "strong acid"],
		["FeCl3", "metal salt"],
		["cyanide", "cyanide"],
		["lead acetate", "poison"],
		["mercury", "poison"],
		["Quecksilber", "poison"],
		["alcohols", "solvent"],
		["Javel", "bleach"],
		["sodium sulfide", "sulfide"],
		["alcohol", "solvent"],
		["methanol", "poison"],
		["CO2", "choking gas"],
		["pyrolysis gas", "gas of a kiln"],
		["PVC", "treated feedstock"],
		["tyres", "treated feedstock"],
		["treated wood", "treated feedstock"],
		["creosote", "tar"],
		["H3PO4", "phosphoric acid"],
		["second firing", "gas of a kiln"],
		["steam, 30 min", "steam"],
		["CaCl2 brine", "brine"],
		["brine", "brine"],
	])("%s calls for the caution on %s", (text, what) => {
		expect(called(text)).toContain(what);
	});

	test.each([
		["lime juice", "strong alkali"],
		["potash alum", "mild alkali"],
		["potash-free water", "mild alkali"],
		["table salt", "brine"],
		["baking soda", "mild alkali"],
		["vinegar", "strong acid"],
	])("%s does not call for the caution on %s", (text, what) => {
		expect(called(text)).not.toContain(what);
	});
});
