import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { files } from "../../data/demo-run/make.mjs";

const folder = new URL("../../data/demo-run/", import.meta.url);
const read = (name: string): string =>
	readFileSync(new URL(name, folder), "utf8");
const made = files();
const truth = JSON.parse(read("truth.json"));
const treatment = (name: string) =>
	truth.treatments.find((t: { treatment: string }) => t.treatment === name);

describe("the demo run", () => {
	test.each(Object.keys(made))("%s is what its script makes", (name) => {
		expect(read(name)).toBe(made[name]);
	});

	test("no CSV or truth file was made by anything else", () => {
		const there = readdirSync(folder).filter(
			(name) => name.endsWith(".csv") || name.endsWith("truth.json"),
		);
		expect(there.sort()).toEqual(Object.keys(made).sort());
	});

	test.each(Object.keys(made).filter((name) => !name.includes("glassware")))(
		"%s is marked invented",
		(name) => {
			expect(read(name)).toContain("invented");
		},
	);

	test("its scripts share nothing with the library", () => {
		for (const place of ["../../data/demo-run/", "../../data/simulation/"]) {
			const scripts = new URL(place, import.meta.url);
			for (const name of readdirSync(scripts).filter((n) =>
				n.endsWith(".mjs"),
			)) {
				const text = readFileSync(new URL(name, scripts), "utf8");
				expect(text).not.toMatch(/from "(?!node:|\.\/|\.\.\/simulation\/)/);
			}
		}
	});

	test("somebody in a hurry would be misled by potash and wood vinegar", () => {
		for (const name of ["potash", "wood vinegar"]) {
			const naive = truth.naive.find(
				(n: { treatment: string }) => n.treatment === name,
			);
			expect(naive.word).toBe("higher");
			expect(naive.difference).toBeGreaterThan(truth.margin);
			expect(treatment(name).right).not.toContain("higher");
			expect(Math.abs(treatment(name).differenceAtSameResidue)).toBeLessThan(
				truth.margin / 2,
			);
			expect(Math.abs(treatment(name).differenceOfTheseLots)).toBeLessThan(
				truth.margin / 2,
			);
		}
	});

	test("the second firing truly matters, as dosed too", () => {
		const fired = treatment("fired twice");
		expect(fired.right).toEqual(["higher"]);
		expect(fired.differenceAsDosed).toBeGreaterThan(truth.margin);
	});
});
