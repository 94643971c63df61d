import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { files } from "../../data/demo-isotherm/make.mjs";

const folder = new URL("../../data/demo-isotherm/", import.meta.url);
const read = (name: string): string =>
	readFileSync(new URL(name, folder), "utf8");
const made = files();

describe("the demo sheets of isotherms and iodine numbers", () => {
	test.each(Object.keys(made))("%s is what its script makes", (name) => {
		expect(read(name)).toBe(made[name]);
	});

	test("no CSV or truth file was made by anything else", () => {
		const there = readdirSync(folder).filter(
			(name) => name.endsWith(".csv") || name === "truth.json",
		);
		expect(there.sort()).toEqual(Object.keys(made).sort());
	});

	test.each(Object.keys(made).filter((name) => !name.includes("glassware")))(
		"%s is marked invented",
		(name) => {
			expect(read(name)).toContain("invented");
		},
	);

	test("its script shares nothing with the library", () => {
		for (const name of readdirSync(folder).filter((n) => n.endsWith(".mjs")))
			expect(read(name)).not.toMatch(
				/from "(?!node:|\.\/|\.\.\/simulation\/|\.\.\/demo-run\/)/,
			);
	});
});
