import { expect, test } from "vitest";
import { exact, input } from "../../kernel-lib/quantity/index";
import {
	equivalentsPerMole,
	molarityOf,
	normalityOf,
} from "../../kernel-lib/solutions/redox";
import { substances } from "../../kernel-lib/substances";

test("equivalents per mole", () => {
	const z = Object.fromEntries(
		substances
			.filter((s) => s.titrimetry !== "none")
			.map((s) => [s.name, equivalentsPerMole(s.name).value]),
	);
	expect(z).toEqual({
		iodine: 2,
		"sodium thiosulfate": 1,
		"sodium thiosulfate anhydrous": 1,
		"sodium thiosulfate pentahydrate": 1,
		"potassium iodate": 6,
		"potassium dichromate": 6,
	});
});

test("they say what they count, and of what", () => {
	expect(equivalentsPerMole("iodine").name.meaning).toBe(
		"equivalents per mole of I2",
	);
});

test("0.1 N iodine is 0.05 mol/L of I2; for thiosulfate the numbers are the same", () => {
	const tenth = input("normality", 0.1, "N", exact, {});
	expect(molarityOf(tenth, "iodine").in("mol/L")).toBeCloseTo(0.05, 15);
	expect(molarityOf(tenth, "Thiosulfate ").in("mol/L")).toBeCloseTo(0.1, 15);
	const back = normalityOf(molarityOf(tenth, "KIO3"), "potassium iodate");
	expect(back.in("N")).toBeCloseTo(0.1, 15);
});

test("a substance that is not on record is refused with those that are", () => {
	const asked = () => equivalentsPerMole("ascorbic acid");
	expect(asked).toThrow(
		/found the substance "ascorbic acid".*iodine, sodium thiosulfate/,
	);
	// On the list of substances, but not in the titration.
	expect(asked).not.toThrow(/methylene blue/);
	expect(() => equivalentsPerMole("moonshine")).toThrow(/"moonshine"/);
});
