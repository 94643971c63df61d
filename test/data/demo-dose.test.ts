import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { files as dose } from "../../data/demo-dose/make.mjs";
import { files as temperature } from "../../data/demo-temperature/make.mjs";

describe.each([
	["demo-dose", dose()],
	["demo-temperature", temperature()],
])("%s", (name, made) => {
	const folder = new URL(`../../data/${name}/`, import.meta.url);
	const read = (file: string): string =>
		readFileSync(new URL(file, folder), "utf8");

	test.each(Object.keys(made))("%s is what its script makes", (file) => {
		expect(read(file)).toBe(made[file]);
	});

	test("nothing else lies there but the script, the scenario and a word about it", () => {
		expect(readdirSync(folder).sort()).toEqual(
			[...Object.keys(made), "ABOUT.md", "make.mjs", "scenario.json"].sort(),
		);
	});

	test("every file but the glassware is marked invented", () => {
		for (const file of [...Object.keys(made), "ABOUT.md", "scenario.json"])
			if (!file.includes("glassware"))
				expect(read(file).toLowerCase(), file).toContain("invented");
	});

	test("its script shares nothing with the library", () => {
		for (const script of ["make.mjs", "../simulation/water-trial.mjs"])
			expect(read(script)).not.toMatch(
				/from "(?!node:|\.\.\/simulation\/|\.\.\/demo-run\/csv)/,
			);
	});
});
