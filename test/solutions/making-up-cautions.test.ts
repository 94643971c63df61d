import { describe, expect, test } from "vitest";
import { cautionsOf } from "../../kernel-lib/solutions/making-up-cautions";

const localRules = /rules of the place come first/;

describe("what to beware of while dissolving", () => {
	test.each<[string, readonly RegExp[]]>([
		["sodium hydroxide", [/alkali burns.*never water to the solid/]],
		["KOH", [/alkali burns.*never water to the solid/]],
		["CaCl2·2H2O", [/brines.*warms the water/]],
		["potassium carbonate", [/irritate.*warm the water/, /froth up with acid/]],
		["zinc chloride", [/toxic to water life.*warms the water/]],
		["HCl", [/Strong acids.*acid into water, never water into acid/]],
		["citric acid", [/Weak acids.*acid into water/]],
		["iodine", [/vapour irritates.*Spilt: thiosulfate on it/]],
		["K2Cr2O7", [/Oxidisers set fire/, /may cause cancer/]],
		["potassium iodate", [/Iodate is a strong oxidiser/]],
		["H2O2", [/Oxidisers set fire/]],
		["NaOCl", [/Bleach burns.*never with acid or ammonia/]],
		["mercury(II) chloride", [/poisons/]],
		["sodium chloride", []],
		["potassium iodide", [/hazards of potassium iodide .* knows nothing/]],
	])("%s: its own cautions and no other, then the local rules", (name, own) => {
		const told = cautionsOf([name]);
		expect(told).toHaveLength(own.length + 1);
		own.forEach((words, i) => {
			expect(told[i]).toMatch(words);
		});
		expect(told.at(-1)).toMatch(localRules);
	});

	test.each(["hydrochloric acid 37 %", "conc. sulfuric acid", "HCl (aq)"])(
		"%s is known by the name within it",
		(name) => {
			expect(cautionsOf([name])[0]).toMatch(/acid into water/);
		},
	);

	test("of several substances, each caution once and the local rules once", () => {
		const told = cautionsOf(["NaOH", "KOH", "iodine"]);
		expect(told).toHaveLength(3);
	});

	test("a kind that has nothing to say of a step leaves it out", () => {
		expect(cautionsOf(["CaCO3"])[0]).not.toMatch(/dissolving|Spilt|Waste/);
	});

	test("what must not meet comes first", () => {
		expect(cautionsOf(["bleach", "HCl"])[0]).toMatch(
			/^Must not be done: bleach and acid/,
		);
	});

	test("what is not known is to be looked up, on the list or not", () => {
		for (const name of ["RbBr", "KBr"]) {
			const told = cautionsOf([name]);
			expect(told).toHaveLength(2);
			expect(told[0]).toMatch(
				/^Of the hazards of (?:RbBr|potassium bromide) this program knows nothing: read its safety data sheet/,
			);
			expect(told[1]).toMatch(localRules);
		}
		expect(cautionsOf(["beetroot juice", "RbBr"])).toHaveLength(2);
	});

	test("what is no chemical has none", () => {
		expect(cautionsOf(["beetroot juice"])).toEqual([]);
		expect(cautionsOf([])).toEqual([]);
	});
});
