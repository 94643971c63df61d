import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { files } from "../../data/demo-properties/make.mjs";
import { properties } from "../../kernel-lib/activation/index";
import { exact, input } from "../../kernel-lib/quantity/index";

const folder = new URL("../../data/demo-properties/", import.meta.url);
const read = (name: string): string =>
	readFileSync(new URL(name, folder), "utf8");
const made = files();

describe("the demo properties", () => {
	test.each(Object.keys(made))(
		"%s is what its script makes, and is marked invented",
		(name) => {
			expect(read(name)).toBe(made[name]);
			expect(read(name)).toContain("invented");
		},
	);

	test("no CSV or truth file was made by anything else", () => {
		const there = readdirSync(folder).filter(
			(name) => name.endsWith(".csv") || name === "truth.json",
		);
		expect(there.sort()).toEqual(Object.keys(made).sort());
	});

	test("its script shares nothing with the library", () => {
		expect(read("make.mjs")).not.toMatch(
			/from "(?!node:|\.\/|\.\.\/simulation\/|\.\.\/demo-run\/)/,
		);
	});
});

interface TrueChar {
	readonly sample: string;
	readonly moisture: number;
	readonly ash: number;
	readonly volatile: number;
	readonly fixedCarbon: number;
	readonly density: number;
	readonly soluble: number;
	readonly hardness: number;
	readonly pH: number;
	readonly effectiveSize: number;
	readonly floated: readonly number[];
}
const truth: { readonly chars: readonly TrueChar[] } = JSON.parse(
	read("truth.json"),
);
const path = fileURLToPath(new URL("chars.csv", folder));
const sheet = properties.readProperties(path);
const found = properties.charProperties(sheet);

describe("what the library finds in it", () => {
	const expected = truth.chars.flatMap((c) =>
		(
			[
				["moisture", 100 * c.moisture],
				["total ash", 100 * c.ash],
				["volatile matter", 100 * c.volatile],
				["fixed carbon", 100 * c.fixedCarbon],
				["apparent density", c.density],
				["water-soluble content", 100 * c.soluble],
				["ball-pan hardness", 100 * c.hardness],
				["pH", c.pH],
				["effective size", c.effectiveSize],
			] as const
		).map(([property, value]) => ({ sample: c.sample, property, value })),
	);
	test.each(expected)(
		"$sample, $property: the 95 % interval holds the truth",
		({ sample, property, value }) => {
			const p = found.find(
				(f) => f.sample === sample && f.property === property,
			);
			if (p?.interval.is !== "interval") throw new Error("no interval");
			expect(p.interval.lower).toBeLessThan(value);
			expect(p.interval.upper).toBeGreaterThan(value);
		},
	);

	test.each(truth.chars)(
		"$sample: the shares that float, within 3 standard deviations of a split",
		({ sample, floated }) => {
			const splits = sheet.splits.filter((s) => s.sample === sample);
			expect(splits).toHaveLength(floated.length);
			splits.forEach(({ split }, i) => {
				expect(
					Math.abs(properties.floatedShare(split).in("1") - floated[i]),
				).toBeLessThan(3 * 0.008);
			});
		},
	);

	test("the ash that was taken out early shows against a limit; the dust that was lost is said", () => {
		const limited = properties.charProperties(
			properties.readProperties(path, {
				"total ash": input("ratio", 0.5, "%", exact, {}),
			}),
		);
		expect(
			limited
				.filter((p) => p.agreement.is === "beyond the limit")
				.map((p) => [p.sample, p.property]),
		).toEqual([["potash", "total ash"]]);
		expect(sheet.cautions.filter((c) => c.includes("missing"))).toHaveLength(2);
		expect(sheet.cautions.every((c) => c.startsWith("potash"))).toBe(true);
	});
});
