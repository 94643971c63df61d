import { expect, test } from "vitest";
import { withWord } from "../../kernel-lib/quantity/index";

test.each([
	["day", "2", "day 2"],
	["day", "day 2", "day 2"],
	["day", "Day 2", "Day 2"],
	["day", "daylight", "day daylight"],
	["soak", "K1", "soak K1"],
	["soak", "soak K1", "soak K1"],
])("%s and %s: %s", (word, name, expected) => {
	expect(withWord(word, name)).toBe(expected);
});
