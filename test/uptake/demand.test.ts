import { describe, expect, test } from "vitest";
import type { IodineDemand } from "../../kernel-lib/uptake";
import { charRow, type Row, steps } from "./sheets";

/** g/mol, from the abridged standard atomic weights (IUPAC 2021, from memory). */
const iodine = 253.81;

/** 0.5 mmol dosed to half of the leachate of 2 g; a titre of 2.5 mL finds all of it again, one of 2 mL four fifths. */
const leachate = (flask: string, change: Row = {}): Row => ({
	flask,
	contents: "leachate",
	treatment: "wood vinegar",
	"char mass (g)": 2,
	"leachate (mL)": 50,
	"leachate taken (mL)": 25,
	"dose (mL)": 10,
	"made up to (mL)": 100,
	"aliquot (mL)": 25,
	"titre (mL)": 2,
	...change,
});

/** A treated flask with 1 g of char, beside a control and what else is in the sheet. */
function treated(rows: Row[], change: Row = {}) {
	return steps([
		charRow("w", { treatment: "wood vinegar", control: "control", ...change }),
		charRow("c"),
		...rows,
	]).uptakes[0];
}

function measured(demand: IodineDemand) {
	if (demand.is !== "measured") throw new Error(demand.is);
	return { mmol: demand.mass.in("mg") / iodine, how: demand.how };
}

function suspected(demand: IodineDemand) {
	if (demand.is !== "suspected") throw new Error(demand.is);
	return demand;
}

const mmolOf = (rows: Row[], change: Row = {}): number =>
	measured(treated(rows, change).demand).mmol;

describe("leachates that lie apart", () => {
	test("say so in the error of what they measured", () => {
		const errorOf = (...titres: number[]): number => {
			const { demand } = treated(
				titres.map((t, i) => leachate(`L${i}`, { "titre (mL)": t })),
			);
			if (demand.is !== "measured") throw new Error(demand.is);
			return demand.mass.to("mg").standardUncertainty / iodine;
		};
		// 0.1 and 0.3 mmol in half of the leachate of 2 g: their mean for a gram is good to half of what lies between 0.1 and 0.3
		expect(errorOf(1, 2)).toBeCloseTo(0.1, 2);
		expect(errorOf(1.5, 1.5)).toBeLessThan(0.02);
	});
});

describe("which leachates speak for a flask", () => {
	test("those of its treatment, and no others", () => {
		const other = charRow("o", { treatment: "potash", control: "control" });
		expect(
			mmolOf([
				other,
				leachate("L"),
				leachate("M", { treatment: "potash", "titre (mL)": 1 }),
			]),
		).toBeCloseTo(0.1, 4);
		expect(
			suspected(treated([other, leachate("M", { treatment: "potash" })]).demand)
				.because,
		).toMatch(/wood vinegar/);
	});

	test("those of its soak, where there are any; else all of the treatment", () => {
		const rows = [
			leachate("L", { soak: "1" }),
			leachate("M", { soak: "2", "titre (mL)": 1.5 }),
		];
		expect(mmolOf(rows, { soak: "1" })).toBeCloseTo(0.1, 4);
		expect(mmolOf(rows, { soak: "2" })).toBeCloseTo(0.2, 4);
		expect(mmolOf(rows, { soak: "3" })).toBeCloseTo(0.15, 4);
		expect(mmolOf(rows)).toBeCloseTo(0.15, 4);
	});

	test("soaks without a name are not one soak", () => {
		const rows = [
			leachate("L"),
			leachate("M", { soak: "2", "titre (mL)": 1.5 }),
		];
		expect(mmolOf(rows)).toBeCloseTo(0.15, 4);
	});
});

describe("what a leachate consumed", () => {
	test("is a mean over the leachates, each with its own scale", () => {
		const { mmol, how } = measured(
			treated(
				[
					leachate("L", { "liquor retained (mL)": 4 }),
					leachate("M", { "char mass (g)": 4 }),
				],
				{ "liquor retained (mL)": 0.5 },
			).demand,
		);
		// 0.2 mmol for 4 mL, and for 4 g
		expect(mmol).toBeCloseTo((0.2 * (0.5 / 4) + 0.2 / 4) / 2, 4);
		expect(how).toBe(
			"scaled by the liquor retained, from leachate L; scaled by mass of char, as if every gram retained the same liquor, from leachate M",
		);
	});

	test("goes by mass of char where only the leached char's liquor is known", () => {
		const { mmol, how } = measured(
			treated([leachate("L", { "liquor retained (mL)": 4 })]).demand,
		);
		expect(mmol).toBeCloseTo(0.1, 4);
		expect(how).toContain("by mass of char");
	});

	test("goes by dry char", () => {
		expect(
			mmolOf([leachate("L", { "moisture, wet basis (%)": 20 })]),
		).toBeCloseTo(0.2 / 1.6, 4);
	});

	test("leaves out what was withdrawn from it", () => {
		// 20 of 100 mL take 0.1 mmol away; 2 mL for 25 of the other 80 find 0.32 of the 0.4 mmol that are left.
		expect(
			mmolOf([
				{
					...leachate("L", { "aliquot (mL)": "", "titre (mL)": "" }),
					"withdrawn 2 (mL)": 20,
					"withdrawn 2 titre (mL)": 2,
					"aliquot (mL)": 25,
					"titre (mL)": 2,
				},
			]),
		).toBeCloseTo(0.08, 4);
	});

	test("leaves out what its day loses without any char", () => {
		const blank: Row = {
			flask: "i",
			contents: "iodine blank",
			day: "1",
			"dose (mL)": 40,
			"made up to (mL)": 100,
			"aliquot (mL)": 25,
			"titre (mL)": 9,
		};
		// of 0.5 mmol dosed and 0.4 left with a recovery of 0.9, (0.1/1.9) x 0.9 is a loss
		const lost = (0.1 / 1.9) * 0.9;
		expect(mmolOf([leachate("L", { day: "1" }), blank])).toBeCloseTo(
			0.1 - lost,
			4,
		);
		expect(mmolOf([leachate("L", { day: "2" }), blank])).toBeCloseTo(0.1, 4);
	});

	test("is taken off the bound of a flask that ran dry as well", () => {
		const { uptake } = treated([leachate("L")], { "titre (mL)": 0 });
		expect(uptake.is).toBe("at least");
		// 2 mmol dosed; a drop of 0.05 mL hides 0.01 mmol
		expect(uptake.quantity.in("mg/g") / iodine).toBeCloseTo(2 - 0.01 - 0.1, 3);
	});

	test("and more than a flask took up leaves no uptake that can be told, without any law broken", () => {
		// 0.1 mmol gone, and 0.3 mmol a gram consumed
		const { uptake, contradiction, nextDose, computedUptake } = treated(
			[leachate("L", { "titre (mL)": 1 })],
			{ "titre (mL)": 9.5 },
		);
		expect(computedUptake.in("mg/g") / iodine).toBeCloseTo(0.1 - 0.3, 3);
		expect(uptake.is).toBe("at most");
		expect(uptake.quantity.value).toBeGreaterThan(0);
		expect(contradiction).toBe("");
		expect(nextDose).toContain("times as much char");
	});
});

describe("a leachate that gives no number", () => {
	test("used up all its iodine: more has no limit, less is nothing, and only that one is named", () => {
		const { looksLike, because, ceiling } = suspected(
			treated([leachate("L"), leachate("D", { "titre (mL)": 0 })]).demand,
		);
		expect(looksLike).toBe("more uptake");
		expect(because).toContain("the leachate D used up all the iodine");
		expect(because).toMatch(/dose it with more$/);
		expect(ceiling).toMatchObject({
			more: {
				is: "not known",
				because: "the leachate used up all the iodine it was given",
			},
			less: { is: "value", value: 0 },
			steps: [],
		});
	});

	test("held more than it was given: less has no limit, more is nothing, and only that one is named", () => {
		const { looksLike, because, ceiling } = suspected(
			treated([leachate("L"), leachate("F", { "titre (mL)": 3 })]).demand,
		);
		expect(looksLike).toBe("less uptake");
		expect(because).toContain("the leachate F held more iodine");
		expect(ceiling).toMatchObject({
			more: { is: "value", value: 0 },
			less: {
				is: "not known",
				because: "the leachate held more iodine than it was given",
			},
			steps: [],
		});
	});
});
