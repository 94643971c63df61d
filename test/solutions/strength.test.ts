import { describe, expect, test } from "vitest";
import { exact, input } from "../../kernel-lib/quantity";
import { strengthContradiction } from "../../kernel-lib/solutions/strength";

const molar = (c: number) => input("concentration", c, "mol/L", exact, {});

const judged = (substance: string, found: number, nominal?: number) =>
	strengthContradiction(
		"S",
		substance,
		molar(found),
		nominal === undefined ? [] : [molar(nominal)],
	);

describe("what dissolves, and what can be titrated", () => {
	test.each<[string, number, string]>([
		["iodine", 2, ""],
		["iodine", 2.01, "more than dissolves"],
		["sodium thiosulfate", 4.5, ""],
		["sodium thiosulfate", 4.51, "more than dissolves"],
		["sodium thiosulfate", 5e-4, ""],
		["sodium thiosulfate", 4.99e-4, "too weak"],
		["iodine", 4e-4, ""],
		["potassium iodate", 0.6, ""],
		["potassium iodate", 0.61, "more than dissolves"],
		["methylene blue", 25, ""],
		["methylene blue", 25.1, "more than dissolves"],
	])("%s of %s mol/L", (substance, found, says) => {
		const { found: told, likelyCause } = judged(substance, found);
		expect(told === "").toBe(says === "");
		expect(told).toContain(says);
		expect(likelyCause === "").toBe(says === "");
	});
});

describe("a strength found beside the one called nominal", () => {
	test.each<[number, string]>([
		[0.15, ""],
		[0.1501, "1.5 times as much"],
		[0.1 / 1.5, ""],
		[0.1 / 1.51, "1.51 times as little"],
		[1, "10 times as much"],
	])("0.1 mol/L found, nominally %s", (nominal, says) => {
		const { found } = judged("sodium thiosulfate", 0.1, nominal);
		expect(found === "").toBe(says === "");
		expect(found).toContain(says);
	});
	test("the likely cause is the usual slip, or another solution where there is none", () => {
		expect(judged("iodine", 0.1, 1).likelyCause).toMatch(/decimal point/);
		expect(judged("iodine", 0.1, 0.4).likelyCause).toMatch(/another solution/);
	});
	test("what cannot dissolve is told first", () => {
		expect(judged("iodine", 3, 0.1).found).toMatch(/more than dissolves/);
	});
});
