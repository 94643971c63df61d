import { expect, test } from "vitest";
import { chartOf } from "../../kernel-lib/notebook/page/chart";
import { hostile, isotherm } from "../figures/fixtures";

test("the notes of a figure wait beside its still picture for the interactive form, as text", () => {
	const { html } = chartOf({ ...isotherm, notes: [hostile, "k = 2"] });
	const caption = /<figcaption class="live">(.*?)<\/figcaption>/.exec(
		html,
	)?.[1];
	expect(caption).toContain("k = 2");
	expect(caption).toContain("&lt;img");
	expect(caption).not.toContain("<img");
	expect(chartOf({ ...isotherm, notes: [] }).html).not.toContain("figcaption");
});
