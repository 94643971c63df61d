import { describe, expect, test } from "vitest";
import { cautionTexts, neverConcluded } from "../../kernel-lib/cautions";

describe("cautions", () => {
	test("reagents that are named bring theirs, and no others", () => {
		const texts = cautionTexts(["sodium hydroxide", "steam"]).join("\n");
		expect(texts).toMatch(/Alkali burns/);
		expect(texts).toMatch(/carbon monoxide/);
		expect(texts).not.toMatch(/Zinc chloride/);
	});

	test("the last word is always that local codes come first", () => {
		expect(cautionTexts([]).at(-1)).toMatch(/local codes/);
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
