import { expect, test } from "vitest";
import { exact, input, type Quantity } from "../../kernel-lib/quantity";
import {
	aliquotConcentration,
	titrantConcentration,
} from "../../kernel-lib/solutions/standardisation";

const molar = (x: number): Quantity<"concentration"> =>
	input("concentration", x, "mol/L", exact, {});
const volume = (x: number): Quantity<"volume"> =>
	input("volume", x, "mL", exact, {});

test("equivalents of the standard over those of the titrant, whichever they are", () => {
	// Equivalents per mole: iodate 6, iodine 2, thiosulfate 1. 10 mL of 0.1 mol/L against 20 mL.
	const against = (titrant: string, standard: string): number =>
		titrantConcentration(
			titrant,
			standard,
			molar(0.1),
			volume(10),
			volume(20),
		).in("mol/L");
	expect(against("sodium thiosulfate", "potassium iodate")).toBeCloseTo(
		0.3,
		12,
	);
	expect(against("sodium thiosulfate", "iodine")).toBeCloseTo(0.1, 12);
	expect(against("iodine", "potassium iodate")).toBeCloseTo(0.15, 12);
});

test("equivalents of the titrant over those of what is in the aliquot", () => {
	const of = (analyte: string, titrant: string): number =>
		aliquotConcentration(
			analyte,
			titrant,
			molar(0.1),
			volume(10),
			volume(20),
		).in("mol/L");
	expect(of("iodine", "sodium thiosulfate")).toBeCloseTo(0.1, 12);
	expect(of("potassium iodate", "iodine")).toBeCloseTo(0.2 / 3, 12);
});
