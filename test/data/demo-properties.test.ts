import { describe, expect, test } from "vitest";
import { files } from "../../data/demo-properties/make.mjs";
import * as properties from "../../kernel-lib/properties/index";
import { exact, input } from "../../kernel-lib/quantity/index";
import { pathOf, reader, testMadeByScript } from "./made-by-script";

const read = reader("demo-properties");

describe("the demo properties", () => {
	testMadeByScript("demo-properties", files());
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
const path = pathOf("demo-properties", "chars.csv");
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
		expect(sheet.cautions.every((c) => c.startsWith('"potash'))).toBe(true);
	});
});
