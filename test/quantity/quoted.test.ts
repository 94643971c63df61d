import { expect, test } from "vitest";
import { quoted } from "../../kernel-lib/quantity/index";

test("a name stands in double quotes, whatever it holds", () => {
	expect(quoted("steam")).toBe('"steam"');
	expect(quoted('steam", which is safe: "dry')).toBe(
		"\"steam', which is safe: 'dry\"",
	);
	expect(quoted("“steam”")).toBe("\"'steam'\"");
	expect(quoted("")).toBe('""');
});

test("a name of 80 letters is shown whole, one of 81 is cut, no letter in two", () => {
	expect(quoted("é".repeat(80))).toBe(`"${"é".repeat(80)}"`);
	expect(quoted("😀".repeat(81))).toBe(`"${"😀".repeat(80)}…"`);
});
