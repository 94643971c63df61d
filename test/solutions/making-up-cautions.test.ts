import { describe, expect, test } from "vitest";
import { cautionsOf } from "../../kernel-lib/solutions/making-up-cautions";

const localRules = /rules of the place come first/;

describe("what to beware of while dissolving", () => {
	test.each<[string, readonly RegExp[]]>([
		["sodium hydroxide", [/Alkali heats up/]],
		["KOH", [/Alkali heats up/]],
		["CaCl2·2H2O", [/warms the water/]],
		["potassium carbonate", [/warms the water/]],
		["sodium carbonate", [/warms the water/]],
		["zinc chloride", [/warms the water/, /harmful to water life/]],
		["phosphoric acid", [/Acid into water/]],
		["citric acid", [/Acid into water/]],
		["iodine", [/vapour/]],
		["K2Cr2O7", [/strong oxidisers/]],
		["potassium iodate", [/strong oxidisers/]],
		["sodium chloride", []],
	])("%s: its own cautions and no other, then the local rules", (name, own) => {
		const told = cautionsOf([name]);
		expect(told).toHaveLength(own.length + 1);
		own.forEach((words, i) => {
			expect(told[i]).toMatch(words);
		});
		expect(told.at(-1)).toMatch(localRules);
	});

	test("of several substances, each caution once and the local rules once", () => {
		const told = cautionsOf(["NaOH", "KOH", "iodine"]);
		expect(told).toHaveLength(3);
	});

	test("a formula that is not on the list: nothing is known of it but the local rules", () => {
		expect(cautionsOf(["RbBr"])).toEqual([expect.stringMatching(localRules)]);
		expect(cautionsOf(["beetroot juice", "RbBr"])).toEqual([
			expect.stringMatching(localRules),
		]);
	});

	test("what is no chemical has none", () => {
		expect(cautionsOf(["beetroot juice"])).toEqual([]);
		expect(cautionsOf([])).toEqual([]);
	});
});
