import { expect, test } from "vitest";
import { halfDrop, trialFromRows } from "../../kernel-lib/bench/index";
import {
	budget,
	exact,
	input,
	minus,
	nowhere,
} from "../../kernel-lib/quantity/index";
import { titreVolume } from "../../kernel-lib/solutions/index";
import { blankVolume } from "../../kernel-lib/solutions/titre";

/** One flask typed into a cell, with this titre. */
function titreOf(titre: number): ReturnType<typeof titreVolume> {
	const trial = trialFromRows({
		flasks: [
			{
				flask: "1",
				treatment: "control",
				"char mass (g)": 1.02,
				"dose (mL)": 40,
				"made up to (mL)": 100,
				"aliquot (mL)": 25,
				"titre (mL)": titre,
			},
		],
		solutions: [
			{ solution: "iodine", substance: "iodine", "concentration (N)": 0.1 },
			{
				solution: "thiosulfate",
				substance: "sodium thiosulfate",
				"concentration (N)": 0.1,
			},
		],
	});
	return titreVolume(trial.flasks[0].titrations[0], halfDrop);
}

/** Contributions of end points to the difference of two titres, mL. */
function endPoints(a: number, b: number): number[] {
	return budget(minus(titreOf(a), titreOf(b)))
		.rows.filter((row) => row.meaning.startsWith("end point"))
		.map((row) => row.contribution);
}

test("the end points of two runs that were typed into one notebook are two errors", () => {
	expect(endPoints(5.35, 4.1)).toEqual([
		expect.closeTo(0.025, 12),
		expect.closeTo(0.025, 12),
	]);
	// The same rows typed twice are the same titration.
	expect(endPoints(5.35, 5.35).every((c) => c === 0)).toBe(true);
});

test("the blanks of two standardisations have an end point each", () => {
	const place = (row: number) => ({
		...nowhere,
		sheet: "solutions",
		row,
		column: "titre 1 (mL)",
	});
	const read = input("volume", 0.1, "mL", exact, {});
	const difference = (rowOfOther: number): number =>
		minus(
			blankVolume(read, place(2), halfDrop),
			blankVolume(read, place(rowOfOther), halfDrop),
		).standardUncertainty;
	// half a drop, 0.025 mL, twice
	expect(difference(3)).toBeCloseTo(Math.hypot(0.025, 0.025), 12);
	expect(difference(2)).toBe(0);
	const titration = {
		is: "titre" as const,
		number: 1,
		marks: [],
		titre: read,
		calibration: input("volume", 0, "mL", exact, {}),
		titrant: "thiosulfate",
		place: place(2),
	};
	expect(
		minus(
			titreVolume(titration, halfDrop),
			blankVolume(read, place(2), halfDrop),
		).standardUncertainty,
	).toBeCloseTo(Math.hypot(0.025, 0.025), 12);
});
