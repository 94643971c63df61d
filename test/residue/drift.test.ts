import { describe, expect, test } from "vitest";
import {
	type Flask,
	type Trial,
	type TypedRow,
	trialFromRows,
} from "../../kernel-lib/bench";
import { exactRatio } from "../../kernel-lib/quantity";
import {
	calibrationLines,
	driftChecks,
	residues,
} from "../../kernel-lib/residue";
import { driftFactor } from "../../kernel-lib/residue/by-reading/drift";
import { dyeFlask, dyeSheet, standards } from "./dye-sheet";

const again = (
	standard: string,
	concentration: number,
	absorbance: number,
	after: string,
): TypedRow => ({
	standard,
	"concentration (mg/L)": concentration,
	"absorbance 1": absorbance,
	"read after": after,
});

const three = ["1", "2", "3"].map((name) => dyeFlask(name, 0.8));
const trialWith = (
	checks: readonly TypedRow[],
	drift: "check" | "correct" = "check",
	calibration: readonly TypedRow[] = standards,
): Trial =>
	trialFromRows(dyeSheet(three, { calibration: [...calibration, ...checks] }), {
		drift,
	});

describe("a standard that was read again", () => {
	const drifted = () =>
		trialWith([again("E3", 4, 0.9, "2"), again("E0", 0, 0.004, "3")]);
	/** Zero and slope of the line. */
	const coefficients = (trial: Trial) =>
		calibrationLines(trial)[0].coefficients;

	test("stands where it was read, with what the line says and what was read", () => {
		const trial = drifted();
		const [high, zero] = driftChecks(trial);
		const [a, b] = coefficients(trial);
		expect(high).toMatchObject({
			line: "calibration",
			standard: "E3",
			after: "2",
			position: 1,
			found: 0.9,
			drifted: true,
		});
		expect(high.expected).toBeCloseTo(a + 4 * b, 12);
		expect(zero).toMatchObject({ after: "3", position: 2, drifted: false });
	});

	test("its factor is expected over found, both above the zero of the line; a blank has none", () => {
		const trial = drifted();
		const [high, zero] = driftChecks(trial);
		const [a, b] = coefficients(trial);
		if (high.factor.is !== "value") throw new Error("no factor");
		expect(high.factor.quantity.value).toBeCloseTo((4 * b) / (0.9 - a), 12);
		expect(zero.factor).toEqual({ is: "not available" });
	});

	test("on a bent line the bend counts", () => {
		const bent = [0, 1, 2, 4, 6, 8].map((c, i) => ({
			standard: `E${i}`,
			"concentration (mg/L)": c,
			"absorbance 1": 0.2 * c - 0.005 * c * c + (i % 2) * 0.001,
			model: "quadratic",
		}));
		const drifting = trialWith([again("E3", 4, 0.6, "2")], "check", bent);
		const [l] = calibrationLines(drifting);
		const [check] = driftChecks(drifting);
		const above = l.coefficients[1] * 4 + l.coefficients[2] * 16;
		if (check.factor.is !== "value") throw new Error("no factor");
		expect(check.factor.quantity.value).toBeCloseTo(
			above / (0.6 - l.coefficients[0]),
			9,
		);
	});

	test("the table says which, after which flask, and whether", () => {
		const trial = drifted();
		const [a, b] = coefficients(trial);
		const { rows, notes } = calibrationLines(trial).drift;
		expect(rows.map((row) => [row[1], row[2], row[4], row[6]])).toEqual([
			["E3", "2", "0.9000", "yes"],
			["E0", "3", "0.0040", "no"],
		]);
		expect(rows[0][3]).toBe((a + 4 * b).toFixed(4));
		expect(notes).toEqual([]);
	});

	test("none read again: a drift would go unseen", () => {
		const { rows, notes } = calibrationLines(trialWith([])).drift;
		expect(rows).toEqual([]);
		expect(notes).toEqual([expect.stringContaining("would go unseen")]);
	});
});

test("a standard whose reading is left out was not read again", () => {
	const trial = trialFromRows(
		dyeSheet(three, {
			calibration: [...standards, again("E3", 4, 0.9, "2")],
			deviations: [
				{
					standard: "E3",
					part: "reading 1",
					"what happened": "bubble",
					handling: "leave out",
				},
			],
		}),
	);
	expect(driftChecks(trial)).toEqual([]);
	expect(calibrationLines(trial)[0].points).toHaveLength(5);
});

describe("what the flasks say of it", () => {
	const cautions = (trial: Trial): string => {
		const [found] = residues(trial);
		return found.is === "read" ? found.cautions.join(" ") : "";
	};

	test("which standards drifted, and after which flasks", () => {
		expect(
			cautions(
				trialWith([
					again("E3", 4, 0.9, "2"),
					again("E0", 0, 0.004, "2"),
					again("E4", 6, 1.5, "3"),
				]),
			),
		).toContain(
			"The instrument drifted (standard E3 after flask 2, E4 after flask 3): the readings were taken as they are.",
		);
	});

	test("nothing where it was corrected, or where there is none", () => {
		expect(cautions(trialWith([again("E3", 4, 0.9, "2")], "correct"))).toBe("");
		expect(cautions(trialWith([again("E3", 4, 0.804, "2")]))).toBe("");
	});

	test("a drift of another line is none of theirs", () => {
		const lines = [
			...standards.map((s) => ({ ...s, line: "used" })),
			...standards.map((s) => ({ ...s, line: "other" })),
			{ ...again("E3", 4, 0.9, "2"), line: "other" },
		];
		const read = (drift: "check" | "correct") =>
			trialFromRows(
				dyeSheet(
					three.map((f) => ({ ...f, "read on": "used" })),
					{ calibration: lines },
				),
				{ drift },
			);
		const trial = read("correct");
		const plain = trialFromRows(dyeSheet(three));
		expect(cautions(trial)).toBe("");
		expect(cautions(read("check"))).toBe("");
		expect(residues(trial)[0].residue.quantity.value).toBeCloseTo(
			residues(plain)[0].residue.quantity.value,
			9,
		);
	});
});

describe("the factor of a flask", () => {
	const trial = { sheetOrder: ["a", "b", "c", "d", "e"] } as unknown as Trial;
	type Checks = Parameters<typeof driftFactor>[2];
	const at = (position: number, factor: number) =>
		({
			position,
			factor: { is: "value", quantity: exactRatio(factor, String(position)) },
		}) as unknown as Checks[number];
	const of = (name: string, checks: Checks): number =>
		driftFactor({ name } as Flask, trial, checks).value;

	test.each([
		["a", 0.95],
		["b", 0.9],
		["c", 0.85],
		["d", 0.8],
		["e", 0.8],
	])(
		"1 before the first flask, 0.9 after b, 0.8 after d: %s has %s",
		(name, factor) => {
			// Whatever the order of the rows.
			expect(of(name, [at(3, 0.8), at(1, 0.9)])).toBeCloseTo(factor, 12);
		},
	);

	test("two standards read after one flask count with the mean of their factors", () => {
		const both = [at(1, 0.9), at(1, 0.8)];
		expect(of("a", both)).toBeCloseTo(0.925, 12);
		expect(of("b", both)).toBeCloseTo(0.85, 12);
		expect(of("c", both)).toBeCloseTo(0.85, 12);
	});

	test("a third of the way after one flask of three", () => {
		expect(of("b", [at(0, 1), at(3, 0.7)])).toBeCloseTo(0.9, 12);
	});

	test("without a check that has a factor nothing is corrected", () => {
		const none = [
			{ position: 1, factor: { is: "not available" } },
		] as unknown as Checks;
		expect(of("c", none)).toBe(1);
		expect(of("c", [])).toBe(1);
		expect(of("not in the sheet", [at(1, 0.9)])).toBe(1);
	});
});
