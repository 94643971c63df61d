import { expect, test } from "vitest";
import { listed } from "../../kernel-lib/quantity/index";

test.each([
	[[], ""],
	[["a"], "a"],
	[["a", "b"], "a and b"],
	[["a", "b", "c"], "a, b and c"],
])("%o reads %s", (items, text) => {
	expect(listed(items)).toBe(text);
});

test("or", () => {
	expect(listed(["a", "b", "c"], "or")).toBe("a, b or c");
});
