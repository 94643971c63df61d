import { expect, test } from "vitest";
import { ammoniaNamedIn } from "../../kernel-lib/substances";
import { substances } from "../../kernel-lib/substances/list";

test.each([
	"ammonia",
	"NH4OH",
	"10 % NH₃",
	"ammonium carbonate",
	"(NH4)2CO3",
	"Salmiakgeist",
	"salmiak",
	"hirschhornsalz",
	"ammoniaque",
	"amoníaco",
	"urea 1 mol/L",
	"urine",
	"ammonium citrate",
	"sulfate of ammonia, twice",
])("%s may bring ammonia into a char", (text) => {
	expect(ammoniaNamedIn(text)).toBe("named");
});

test.each(["", "water", "K2CO3 1 mol/L", "sodium chloride", "steam"])(
	"%s brings none",
	(text) => {
		expect(ammoniaNamedIn(text)).toBe("none named");
	},
);

test("what is not on the list may be anything", () => {
	expect(ammoniaNamedIn("kitchen magic")).toBe("not known");
});

test("every ammonium salt of the list counts", () => {
	for (const { name, formula } of substances)
		if (/ammoni/.test(name) || /NH4/.test(formula))
			expect(ammoniaNamedIn(name), name).toBe("named");
});
