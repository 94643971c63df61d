import { expect, test } from "vitest";
import {
	cautionsFor,
	cautionsIn,
	notConcludedFromActivation,
} from "../../kernel-lib/cautions/index";
import { kilnOf } from "../activation/firings";
import { rowOf, usualTruth } from "../activation/made-up-firing";

const cautions = (change: Record<string, string | number>): string =>
	cautionsFor(
		kilnOf([{ firing: "A", "precursor mass (g)": 5, ...change }]),
	).join("\n");

test("every firing: carbon monoxide, tar, char that glows again, dust; local codes come last", () => {
	const text = cautions({});
	for (const words of [/tar, and carbon monoxide/, /glow inside/, /Char dust/])
		expect(text).toMatch(words);
	expect(text.trim().split("\n").pop()).toContain("local codes");
});

test.each([
	[
		"zinc chloride",
		/its fume destroys the lungs[\s\S]*In the kiln: only under a working fume hood/,
	],
	["H3PO4", /choking acid fumes/],
	[
		"potassium hydroxide",
		/cool it closed, under nitrogen[\s\S]*eat steel and glass[\s\S]*burns skin and blinds/,
	],
	["K2CO3", /irritate eyes and skin/],
	["potash", /At red heat potassium, sodium and carbon monoxide/],
])("%s", (agent, words) => {
	expect(cautions({ agent })).toMatch(words);
	expect(cautions({})).not.toMatch(words);
});

test("steam and the drying oven, where there are any", () => {
	const steam = {
		"step 1 temperature (°C)": 800,
		"step 1 atmosphere": "steam",
	};
	expect(cautions(steam)).toContain("Steam scalds");
	expect(cautions({})).not.toContain("Steam scalds");
	expect(
		cautions({ "drying 1 time (h)": 1, "drying 1 mass (g)": 4 }),
	).toContain("Dry char in an oven");
});

test("an iodine trial without a kiln is not told of kilns", () => {
	expect(
		cautionsIn([{ words: ["char", "iodine"], texts: [] }]).map((c) => c.what),
	).toEqual(["iodine", "char dust"]);
});

test("what may not be concluded: the firing that does not balance, by name", () => {
	const row = rowOf(usualTruth);
	const limits = (change: Record<string, number>): string =>
		notConcludedFromActivation(kilnOf([{ ...row, ...change }])).join("\n");
	expect(limits({})).not.toContain("not to be relied on");
	expect(
		limits({ "product mass (g)": (row["product mass (g)"] as number) - 3 }),
	).toContain('The yield of "made up" is not to be relied on');
	expect(limits({})).toContain("drinking water");
});
