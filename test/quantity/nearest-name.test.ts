import { expect, test } from "vitest";
import { didYouMean, nearestName } from "../../kernel-lib/quantity/index";

test.each([
	// A third of the known name may differ, rounded down; one letter in the shortest names.
	["titrx", ["titre"], "titre"],
	["tixxe", ["titre"], ""],
	["ab", ["ac"], "ac"],
	["xy", ["ac"], ""],
	["treatxxxt", ["treatment"], "treatment"],
	["treatxxxx", ["treatment"], ""],
	["steam fired", ["steam-fired", "lime"], "steam-fired"],
	["", ["a"], ""],
])("%s among %o: %s", (word, known, expected) => {
	expect(nearestName(word, known)).toBe(expected);
});

test("the nearest of several wins", () => {
	expect(nearestName("soak 12", ["soak 11", "soak 12b"])).toBe("soak 11");
});

test("no near name: the list", () => {
	expect(didYouMean("qqq", ["titre", "dose"])).toBe(
		'There is "titre", "dose".',
	);
});
