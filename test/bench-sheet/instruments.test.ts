import { describe, expect, test } from "vitest";
import type { Flask, TypedRow } from "../../kernel-lib/bench/index";
import { trialFromRows } from "../../kernel-lib/bench/index";
import {
	correlation,
	minus,
	type Quantity,
	sharedErrors,
} from "../../kernel-lib/quantity/index";
import { char, soundSolutions } from "./rows";

/** One flask after another with the given glassware; volumes as they come out. */
function flasks(
	rows: TypedRow[],
	glassware: TypedRow[] = [],
): readonly Flask[] {
	return trialFromRows({ flasks: rows, solutions: soundSolutions, glassware })
		.flasks;
}
const own = (q: Quantity): number => sharedErrors([q]).ownVariance[0] ** 0.5;
/** Standard uncertainty of the shared part. */
const shared = (q: Quantity): number =>
	Math.hypot(...sharedErrors([q]).shared.map((s) => s.effect[0]));

describe("a volume carries its reading and the calibration of its piece", () => {
	test("a 25 mL pipette of class B: 0.06 mL rectangular, a fifth of 0.03 mL for the mark", () => {
		const [f] = flasks([char("1", "control", 5)]);
		expect(shared(f.aliquot)).toBeCloseTo(0.06 / Math.sqrt(3), 12);
		expect(own(f.aliquot)).toBeCloseTo(0.2 * 0.03, 12);
	});

	test("class A from the sheet", () => {
		const [f] = flasks(
			[char("1", "control", 5)],
			[
				{
					piece: "pipette",
					"used for": "aliquot",
					"size (mL)": 25,
					class: "A",
				},
			],
		);
		expect(shared(f.aliquot)).toBeCloseTo(0.03 / Math.sqrt(3), 12);
	});

	test("a tolerance from the sheet comes before the standard's, in any unit", () => {
		const [f] = flasks(
			[char("1", "control", 5)],
			[
				{
					piece: "pipette",
					"used for": "aliquot",
					"size (mL)": 25,
					"tolerance (µL)": 12,
				},
			],
		);
		expect(shared(f.aliquot)).toBeCloseTo(0.012 / Math.sqrt(3), 12);
	});

	test("40 mL without a word on how: two fillings of one 20 mL pipette", () => {
		const [f] = flasks([char("1", "control", 5)]);
		const [dose] = f.events;
		expect(shared(dose.volume)).toBeCloseTo((2 * 0.06) / Math.sqrt(3), 12);
		expect(own(dose.volume)).toBeCloseTo(Math.SQRT2 * 0.2 * 0.03, 12);
	});

	test("a volume that no pipette makes up in whole portions: graduated pipette, then cylinder", () => {
		const [a, b] = flasks([
			char("1", "control", 5, { "dose 1 (mL)": 13.7 }),
			char("2", "control", 5, { "dose 1 (mL)": 33.3 }),
		]).map((f) => f.events[0].volume);
		expect(shared(a)).toBeCloseTo(0.2 / Math.sqrt(3), 12);
		expect(shared(b)).toBeCloseTo(1 / Math.sqrt(3), 12);
		expect(own(b)).toBeCloseTo(0.5 / Math.sqrt(3), 12);
	});

	test("up to five portions of one pipette are counted; six are not", () => {
		const [five, six] = flasks([
			char("1", "control", 5, {
				"dose 1 (mL)": 500,
				"made up to (mL)": 1000,
			}),
			char("2", "control", 5, {
				"dose 1 (mL)": 600,
				"made up to (mL)": 1000,
			}),
		]).map((f) => f.events[0].volume);
		expect(shared(five)).toBeCloseTo((5 * 0.15) / Math.sqrt(3), 12);
		// A measuring cylinder of 1000 mL, class B.
		expect(shared(six)).toBeCloseTo(10 / Math.sqrt(3), 12);
	});

	test("the piece of the fitting size is the one that was used", () => {
		const [a, b] = flasks(
			[
				char("1", "control", 5, { "dose 1 (mL)": 10 }),
				char("2", "control", 5, { "dose 1 (mL)": 25 }),
			],
			[
				{
					piece: "large",
					"used for": "dose",
					"size (mL)": 25,
					"tolerance (mL)": 0.3,
				},
				{
					piece: "small",
					"used for": "dose",
					"size (mL)": 10,
					"tolerance (mL)": 0.1,
				},
			],
		).map((f) => f.events[0].volume);
		expect(shared(a)).toBeCloseTo(0.1 / Math.sqrt(3), 12);
		expect(shared(b)).toBeCloseTo(0.3 / Math.sqrt(3), 12);
		expect(correlation(a, b)).toBe(0);
	});

	test("a syringe expels with 4 % from half its volume up, and 1.5 % of its volume with 1 % below", () => {
		const [full, part] = flasks(
			[
				char("1", "control", 5, { "dose 1 (mL)": 20 }),
				char("2", "control", 5, { "dose 1 (mL)": 4 }),
			],
			[{ piece: "syringe", "used for": "dose", "size (mL)": 20 }],
		).map((f) => f.events[0].volume);
		expect(shared(full)).toBeCloseTo(0.8 / Math.sqrt(3), 12);
		expect(shared(part)).toBeCloseTo(0.34 / Math.sqrt(3), 12);
	});

	test("one pipette, two flasks: what they share cancels in the difference", () => {
		const [a, b] = flasks([char("1", "control", 5), char("2", "control", 6)]);
		expect(minus(a.aliquot, b.aliquot).standardUncertainty).toBeCloseTo(
			Math.SQRT2 * 0.2 * 0.03,
			12,
		);
	});
});

describe("titrations", () => {
	const burette = (start: number, end: number, more: TypedRow = {}): TypedRow =>
		char("1", "control", 0, {
			"titre 1 (mL)": "",
			"burette start 1 (mL)": start,
			"burette end 1 (mL)": end,
			...more,
		});
	const first = (row: TypedRow): Flask["titrations"][number] =>
		flasks([row])[0].titrations[0];

	test("a reading is good to half a division, a titre written as one number to two readings", () => {
		const t = first(burette(1, 9));
		expect(t.is === "burette" && own(t.start)).toBeCloseTo(
			0.05 / Math.sqrt(3),
			12,
		);
		const w = first(char("1", "control", 8));
		expect(w.is === "titre" && own(w.titre)).toBeCloseTo(
			Math.SQRT2 * (0.05 / Math.sqrt(3)),
			12,
		);
		expect(w.is === "titre" && shared(w.titre)).toBe(0);
	});

	test("the calibration is there once, whole from a tenth of the burette up, nothing for nothing", () => {
		const u = (row: TypedRow): number =>
			first(row).calibration.standardUncertainty;
		const whole = 0.1 / Math.sqrt(3);
		expect(first(burette(1, 9)).calibration.value).toBe(0);
		expect(u(burette(1, 9))).toBeCloseTo(whole, 12);
		expect(u(char("1", "control", 30))).toBeCloseTo(whole, 12);
		expect(u(char("1", "control", 2.5))).toBeCloseTo(whole / 2, 12);
		expect(u(char("1", "control", 0))).toBe(0);
	});

	test("and once for each filling", () => {
		const u = (row: TypedRow): number =>
			first(row).calibration.standardUncertainty;
		const whole = 0.1 / Math.sqrt(3);
		expect(
			u(
				burette(30, 20, {
					"refilled at 1 (mL)": 48,
					"refilled to 1 (mL)": 0,
				}),
			),
		).toBeCloseTo(2 * whole, 12);
		expect(u(char("1", "control", 70))).toBeCloseTo(2 * whole, 12);
	});

	test("one burette for flasks and standardisation unless the sheet names two", () => {
		const trial = trialFromRows({
			flasks: [char("1", "control", 8)],
			solutions: [
				soundSolutions[0],
				{
					solution: "thio",
					substance: "sodium thiosulfate",
					"standardised against": "iodine",
					"aliquot (mL)": 10,
					"titre 1 (mL)": 10.1,
				},
			],
		});
		const { basis } = trial.solutions[1];
		expect(
			basis.is === "standardised" &&
				correlation(
					basis.titrations[0].calibration,
					trial.flasks[0].titrations[0].calibration,
				),
		).toBeCloseTo(1, 12);
	});
});

describe("masses", () => {
	const mass = (f: Flask): Quantity<"mass"> => {
		if (!f.charMass.recorded) throw new Error("no mass");
		return f.charMass.value;
	};

	test("tare and load to the last digit, and one step of the display for the balance", () => {
		const [f] = flasks(
			[char("1", "control", 5)],
			[
				{
					piece: "balance",
					"used for": "char mass",
					"readability (g)": 0.01,
					"tolerance (g)": 0.02,
				},
			],
		);
		expect(own(mass(f))).toBeCloseTo(0.01 / Math.sqrt(6), 12);
		expect(shared(mass(f))).toBeCloseTo(0.02 / Math.sqrt(3), 12);
	});

	test("a balance that is not named reads to the finest place that three different masses show", () => {
		const read = (...masses: number[]): number =>
			own(
				mass(
					flasks(
						masses.map((m, i) =>
							char(String(i), "control", 5, { "char mass (g)": m }),
						),
					)[0],
				),
			) * Math.sqrt(6);
		expect(read(1.02, 0.98, 1.1)).toBeCloseTo(0.01, 12);
		expect(read(1.2, 1, 1.1)).toBeCloseTo(0.1, 12);
		expect(read(1.02, 0.981, 1.1)).toBeCloseTo(0.001, 12);
		expect(read(1.0213, 0.981, 1.1)).toBeCloseTo(0.0001, 12);
		expect(read(1, 1, 1, 1)).toBeCloseTo(0.001, 12);
	});
});

test("a sheet that is read twice gives the same inputs, not independent ones", () => {
	const rows = { flasks: [char("1", "control", 5)], solutions: soundSolutions };
	const [a, b] = [trialFromRows(rows), trialFromRows(rows)].map(
		(r) => r.flasks[0].aliquot,
	);
	expect(correlation(a, b)).toBeCloseTo(1, 12);
	const other = trialFromRows({
		...rows,
		flasks: [char("1", "control", 5.1)],
	}).flasks[0].aliquot;
	expect(correlation(a, other)).toBe(0);
});

test("every assumed piece is named with its tolerance and where that is from", () => {
	const trial = trialFromRows({
		flasks: [char("1", "control", 5)],
		solutions: soundSolutions,
	});
	expect(trial.instruments.map((i) => i.usedFor).sort()).toEqual([
		"aliquot",
		"char mass",
		"dose",
		"made up",
		"titre",
	]);
	for (const i of trial.instruments) {
		expect(i.toleranceSource).toMatch(/from memory: ISO|no source/);
		expect(trial.assumptions.join("\n")).toContain(i.description);
	}
});
