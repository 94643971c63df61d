/** Uptake at each withdrawal: the balance as it stood just before a portion was taken. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { minus, plus } from "../../kernel-lib/quantity";
import { uptakes as uptakesOf } from "../../kernel-lib/uptake";
import { charRow, plainSolutions, type Row, steps } from "./sheets";

/** g/mol: twice the abridged standard atomic weight, 126.90 (IUPAC 2021, from memory). */
const iodine = 253.8;

/** 2 mmol of iodine in 100 mL over a gram of char; 10 mL taken twice, then 20 of 80 mL titrated. */
const kinetics = (change: Row = {}): Row =>
	charRow("a", {
		"withdrawn 1 (mL)": 10,
		"withdrawn 1 titre (mL)": 3,
		"withdrawn 2 (mL)": 10,
		"withdrawn 2 titre (mL)": 2.5,
		"aliquot (mL)": 20,
		"titre (mL)": 4,
		...change,
	});

const blank = (titre: number): Row => ({
	flask: "i",
	contents: "iodine blank",
	"dose (mL)": 40,
	"made up to (mL)": 100,
	"aliquot (mL)": 25,
	"titre (mL)": titre,
});

const hours = (dosed: string, taken: string, titrated: string): Row => ({
	"dosed at": `2031-05-03 ${dosed}`,
	"withdrawn 1 at": `2031-05-03 ${taken}`,
	"titrated at": `2031-05-03 ${titrated}`,
});

describe("by hand", () => {
	test("two withdrawals and the end", () => {
		const { uptakes } = steps([kinetics()]);
		const [u] = uptakes;
		// 0.15 mmol in 10 of 100 mL, 1.5 left; 0.125 in 10 of 90, 1.125 left beside 0.15 withdrawn; 0.2 in 20 of 80, 0.8 left beside 0.275
		const mmol = u.atWithdrawals.map(
			(w) => w.uptake.quantity.in("mg/g") / iodine,
		);
		expect(mmol[0]).toBeCloseTo(0.5, 4);
		expect(mmol[1]).toBeCloseTo(2 - 0.15 - 1.125, 4);
		expect(u.uptake.quantity.in("mg/g") / iodine).toBeCloseTo(
			2 - 0.275 - 0.8,
			4,
		);
		expect(u.atWithdrawals.map((w) => w.uptake.is)).toEqual(["value", "value"]);
		expect(u.atWithdrawals[1].residue.quantity.in("mg/L")).toBeCloseTo(
			0.0125 * iodine * 1000,
			0,
		);
		expect(u.atWithdrawals.map((w) => w.undisturbed)).toEqual([true, true]);
	});

	test("a part of the withdrawn portion was titrated", () => {
		const { uptakes } = steps([
			kinetics({
				"withdrawn 1 aliquot (mL)": 5,
				"withdrawn 1 titre (mL)": 1.5,
			}),
		]);
		expect(
			uptakes[0].atWithdrawals[0].uptake.quantity.in("mg/g") / iodine,
		).toBeCloseTo(0.5, 4);
	});

	test("a colourless withdrawal is a bound: 0.05 mL could be hidden in 10 of 100 mL", () => {
		const { uptakes } = steps([kinetics({ "withdrawn 1 titre (mL)": 0 })]);
		const [w] = uptakes[0].atWithdrawals;
		expect(w.uptake.is).toBe("at least");
		expect(w.uptake.quantity.in("mg/g") / iodine).toBeCloseTo(2 - 0.025, 4);
		expect(w.residue.is).toBe("at most");
		expect(w.residue.quantity.in("mg/L")).toBeCloseTo(
			0.00025 * iodine * 1000,
			1,
		);
	});

	test.each([
		["0.05", 0.05, "value"],
		["0.04", 0.04, "at least"],
	])("a titre of %s mL, one drop or less", (_, titre, is) => {
		const { uptakes } = steps([kinetics({ "withdrawn 1 titre (mL)": titre })]);
		expect(uptakes[0].atWithdrawals[0].uptake.is).toBe(is);
	});

	test("later doses and liquids are not counted before they came, and disturb", () => {
		const { uptakes } = steps([
			kinetics({ "dose 2 (mL)": 20, "liquid added 1 (mL)": 10 }),
		]);
		const [first, second] = uptakes[0].atWithdrawals;
		expect(first.balance.added.in("mg") / iodine).toBeCloseTo(2, 4);
		expect([first.undisturbed, second.undisturbed]).toEqual([false, false]);
	});
});

describe("what was lost by then", () => {
	// (1 - R)/(1 + R) (A + L) with R = 0.9, A = 2, L = 1.5
	const whole = (0.1 / 1.9) * 3.5;
	test.each([
		["half of it where no times are recorded", {}, 0.5],
		[
			"a quarter after a quarter of the time",
			hours("08:00", "10:00", "16:00"),
			0.25,
		],
		["all of it at the end", hours("08:00", "16:00", "16:00"), 1],
		["nothing at once", hours("08:00", "08:00", "16:00"), 0],
	])("%s", (_, times, share) => {
		const { uptakes } = steps([kinetics(times), blank(9)]);
		const [{ balance }] = uptakes[0].atWithdrawals;
		expect(balance.lost.in("mg") / iodine).toBeCloseTo(share * whole, 4);
		expect(balance.takenUp.in("mg") / iodine).toBeCloseTo(
			0.5 - share * whole,
			4,
		);
	});

	test("a bound takes all of it, and no gain", () => {
		const least = (titre: number): number =>
			steps([
				kinetics({ "withdrawn 1 titre (mL)": 0 }),
				blank(titre),
			]).uptakes[0].atWithdrawals[0].uptake.quantity.in("mg/g") / iodine;
		expect(least(9)).toBeCloseTo(2 * 0.9 - 0.025, 4);
		expect(least(10.5)).toBeCloseTo(2 - 0.025, 4);
	});

	test("where the blank is the dose nothing is lost on the way: a tenth was never there", () => {
		const trial = trialFromRows(
			{ flasks: [kinetics(), blank(9)], solutions: plainSolutions },
			{ losses: "the blank is the dose" },
		);
		const [{ balance }] = uptakesOf(trial)[0].atWithdrawals;
		expect(balance.lost.in("mg") / iodine).toBeCloseTo(0.2, 4);
	});

	test("half-way anything from none to all of it may be gone", () => {
		const u = steps([kinetics(hours("08:00", "12:00", "16:00")), blank(9)])
			.uptakes[0].atWithdrawals[0].balance;
		expect(u.lost.standardUncertainty).toBeGreaterThan(
			(0.45 * u.lost.value) / Math.sqrt(3),
		);
	});
});

test("added = taken up + left + withdrawn before + lost at each withdrawal, exactly", () => {
	const amount = fc.double({ min: 0.2, max: 9, noNaN: true });
	fc.assert(
		fc.property(
			fc.array(
				fc.oneof(
					fc.record({ dose: amount }),
					fc.record({ liquid: amount }),
					fc.record({ out: amount }),
				),
				{ minLength: 1, maxLength: 6 },
			),
			fc.double({ min: 8, max: 10.5, noNaN: true }),
			(events, blankTitre) => {
				const row: Row = {
					flask: "a",
					treatment: "control",
					"char mass (g)": 1.2,
					"dose 1 (mL)": 60,
				};
				events.forEach((e, i) => {
					const n = i + 2;
					if ("dose" in e) row[`dose ${n} (mL)`] = e.dose;
					else if ("liquid" in e) row[`liquid added ${n} (mL)`] = e.liquid;
					else {
						row[`withdrawn ${n} (mL)`] = e.out;
						row[`withdrawn ${n} titre (mL)`] = i % 2 === 0 ? e.out / 3 : 0;
					}
				});
				row["aliquot (mL)"] = 5;
				row["titre (mL)"] = 1;
				const [u] = steps([row, blank(blankTitre)]).uptakes;
				expect(u.atWithdrawals.length).toBe(
					events.filter((e) => "out" in e).length,
				);
				for (const { balance: b } of u.atWithdrawals) {
					const sum = plus(b.takenUp, b.left, b.withdrawn, b.lost);
					expect(Math.abs(sum.in("mg") / b.added.in("mg") - 1)).toBeLessThan(
						1e-12,
					);
					expect(minus(sum, b.added).standardUncertainty).toBeLessThan(
						1e-9 * b.added.in("mg"),
					);
				}
			},
		),
		{ numRuns: 40 },
	);
});

describe("the table", () => {
	test("has each withdrawal and the end, and says what is a decision", () => {
		const { uptakes } = steps([
			kinetics(hours("08:00", "10:00", "16:00")),
			charRow("b"),
		]);
		const { rows, notes } = uptakes.withdrawals;
		expect(rows.map((r) => [r[0], r[2]])).toEqual([
			["a", "1"],
			["a", "2"],
			["a", "end"],
		]);
		expect(notes.join(" ")).toContain("a decision of ours");
	});

	test("has no rows where nothing was withdrawn", () => {
		const { uptakes } = steps([charRow("b")]);
		expect(uptakes.withdrawals.rows).toEqual([]);
		expect(uptakes.withdrawals.notes).toEqual([
			"Nothing was withdrawn from a flask with char.",
		]);
	});
});
