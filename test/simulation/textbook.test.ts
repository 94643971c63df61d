import { describe, expect, test } from "vitest";
import { data } from "../../data/reference/dunnett-example.json";
import { type Measured, textbook } from "./textbook";

const soaks = (treatment: string, values: readonly number[]): Measured[] =>
	values.map((uptake, i) => ({ treatment, soak: `${treatment} ${i}`, uptake }));

const flasks = [
	...soaks("control", data.control),
	...soaks("A", data.A),
	...soaks("B", data.B),
];

describe("the textbook route, on Dunnett's blood counts", () => {
	test("finds B higher and A not", () => {
		const found = textbook(flasks, "control", 1);
		expect(found.map((t) => [t.treatment, t.dunnett])).toEqual([
			["A", ""],
			["B", "higher"],
		]);
	});

	test("puts A within the margin from 0.65 + 1.78229 x 0.758431 on", () => {
		// t of 95 % with 12 degrees of freedom, from tables; 0.65 and 0.758431 stand in the data's file.
		const sameAt = (margin: number) =>
			textbook(flasks, "control", margin).map((t) => t.same);
		expect(sameAt(2.0017)).toEqual([false, false]);
		expect(sameAt(2.0018)).toEqual([true, false]);
	});

	test("takes soaks for units, whatever their number of flasks", () => {
		const twice = flasks.flatMap((f) => [f, f]);
		expect(textbook(twice, "control", 2.0017)).toEqual(
			textbook(flasks, "control", 2.0017),
		);
	});

	test("says nothing where nothing is repeated", () => {
		const single = flasks.filter((f) => f.soak.endsWith(" 0"));
		expect(textbook(single, "control", 1)).toEqual([]);
	});
});
