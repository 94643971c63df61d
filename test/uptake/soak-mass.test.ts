import { describe, expect, test } from "vitest";
import { charRow, type Row, steps } from "./sheets";

/** Grams of soak remains per gram of char at most; "not known" without a limit. */
function share(change: Row, activation: Row[] = []): number | string {
	const { uptakes } = steps([charRow("a", change)], undefined, { activation });
	const { soakMass } = uptakes[0];
	return soakMass.is === "value" ? soakMass.value.most : soakMass.is;
}

const neutral: Row = { "final pH": 7, "soak consumes iodine": "no" };

describe("what the remains of a soak may weigh", () => {
	test("nothing without a soak, of water, and of what leaves with warm air", () => {
		expect(share({})).toBe(0);
		expect(share({ "soaked in": "water" })).toBe(0);
		expect(share({ "soaked in": "hydrochloric acid" })).toBe(0);
	});

	test("3 mL of liquor per gram, as strong as the soak: 50 g/L leave 0.15 g", () => {
		expect(
			share({ "soaked in": "table salt", "soak strength (g/L)": 50 }),
		).toBeCloseTo(0.15, 10);
		expect(share({ "soaked in": "table salt" })).toBe("not known");
		expect(share({ "soaked in": "xylozan" })).toBe("not known");
	});

	test("a salt that is named twice, with and without its water, counts once", () => {
		const once = share({ ...neutral, "soaked in": "Na2CO3" });
		// 1 mmol/L in 100 mL beside a gram: 0.1 mmol of 105.988 mg
		expect(once).toBeCloseTo(0.0105988, 6);
		expect(
			share({
				...neutral,
				"soaked in": "washing soda (Na2CO3)",
			}),
		).toBeCloseTo(0.0105988, 6);
	});

	test("more than all of the char is no limit", () => {
		expect(share({ "soaked in": "table salt", "soak strength (%)": 26 })).toBe(
			"not known",
		);
	});

	describe("the ash of the char", () => {
		const fired = (agent: string, more: Row = {}) =>
			share({ soak: "k1", ...more }, [
				{
					firing: "k1",
					"precursor mass (g)": 5,
					agent,
					"product ash (%)": 12,
				},
			]);

		test("holds all of its salts: no more than that", () => {
			expect(fired("KOH")).toBeCloseTo(0.12, 12);
		});
		test("counts only where nothing else says less, and not for what burns", () => {
			expect(fired("none")).toBe(0);
			expect(fired("none", { ...neutral, "soaked in": "Na2CO3" })).toBeCloseTo(
				0.0105988,
				6,
			);
			expect(
				fired("none", { "soaked in": "table salt", "soak strength (g/L)": 50 }),
			).toBeCloseTo(0.12, 12);
			expect(fired("none", { "soaked in": "sugar" })).toBe("not known");
			expect(fired("none", { "soaked in": "xylozan" })).toBe("not known");
		});
	});

	test("two salts add up, and the one without a limit decides", () => {
		const both = { "soaked in": "table salt and potassium chloride" };
		// by 1 mol/L each: 3 mmol of 58.44 and of 74.548 mg
		expect(share({ ...both, "soak strength (mol/L)": 1 })).toBeCloseTo(
			(3 * (58.44 + 74.548)) / 1000,
			5,
		);
		expect(share(both)).toBe("not known");
	});

	test("a firing at 600 °C leaves nothing of what burns off", () => {
		const fired = (temperature: number) =>
			share({
				"soaked in": "citric acid",
				"fired after soak (°C)": temperature,
			});
		expect(fired(599)).toBe("not known");
		expect(fired(600)).toBe(0);
	});

	test("what a neutral flask may hold is shared by all of its char", () => {
		expect(
			share({ ...neutral, "soaked in": "Na2CO3", "char mass (g)": 2 }),
		).toBeCloseTo(0.0105988 / 2, 6);
	});

	test("an alkaline flask, or a salt that is none, is not limited by the pH", () => {
		expect(share({ ...neutral, "final pH": 7.6, "soaked in": "Na2CO3" })).toBe(
			"not known",
		);
		expect(share({ ...neutral, "soaked in": "table salt" })).toBe("not known");
	});
});
