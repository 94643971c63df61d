import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

/** Path of a file of a folder of demo data. */
export function pathOf(folder: string, name: string): string {
	return fileURLToPath(
		new URL(`../../data/${folder}/${name}`, import.meta.url),
	);
}

/** Reads a file of a folder of demo data. */
export function reader(folder: string): (name: string) => string {
	return (name) => readFileSync(pathOf(folder, name), "utf8");
}

/** Tests that hold for every folder of demo data: its script makes what lies there and nothing else does, all of it marked invented, and without the library. */
export function testMadeByScript(
	folder: string,
	made: Readonly<Record<string, string>>,
): void {
	const read = reader(folder);
	const there = readdirSync(pathOf(folder, ""));

	test.each(Object.keys(made))("%s is what its script makes", (name) => {
		expect(read(name)).toBe(made[name]);
	});

	test("no CSV or truth file was made by anything else", () => {
		expect(
			there
				.filter((name) => name.endsWith(".csv") || name.endsWith("truth.json"))
				.sort(),
		).toEqual(Object.keys(made).sort());
	});

	test.each(Object.keys(made).filter((name) => !name.includes("glassware")))(
		"%s is marked invented",
		(name) => {
			expect(read(name)).toContain("invented");
		},
	);

	// a neighbour is one of these scripts itself
	test("its scripts share nothing with the library", () => {
		for (const name of there.filter((n) => n.endsWith(".mjs")))
			expect(read(name)).not.toMatch(
				/from "(?!node:|\.\/|\.\.\/simulation\/|\.\.\/demo-run\/)/,
			);
	});
}
