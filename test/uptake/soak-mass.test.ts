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
});
