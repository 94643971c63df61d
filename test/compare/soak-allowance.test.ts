import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { compareTreatments, marginOf } from "../../kernel-lib/compare";
import type { PairDifference } from "../../kernel-lib/compare/differences";
import { observationsOf } from "../../kernel-lib/compare/observations";
import {
	soakAllowance,
	withAllowance,
} from "../../kernel-lib/compare/soak-allowance";
import { known, notKnown } from "../../kernel-lib/quantity";
import { methodTable, verdictSentence } from "../../kernel-lib/words";
import { plainSolutions, type Row } from "../uptake/sheets";
import { type FlaskFixture, flasks } from "./fixtures";

/** Six flasks of each, three soaks of two; the treated char takes up about `more` mg/g beyond the control's 350. */
function kitchenTrial(treated: Row, more: number, control: Row = {}): Row[] {
	// left / mL of 0.1 mol/L thiosulfate on 25 of 100 mL: 12.69 mg of iodine a mL, times 4
	const titre = (extra: number): number => 10 - extra / 50.76;
	return [1, 2, 3].flatMap((soak) =>
		[-0.05, 0.05].flatMap((scatter, i): Row[] => [
			{
				flask: `c${soak}${i}`,
				treatment: "water",
				soak: `water ${soak}`,
				"char mass (g)": 1,
				"dose (mL)": 60,
				"made up to (mL)": 100,
				"char in when made up": "no",
				"aliquot (mL)": 25,
				"titre (mL)": titre(0) + scatter + soak / 50,
				...control,
			},
			{
				flask: `t${soak}${i}`,
				treatment: "treated",
				control: "water",
				soak: `treated ${soak}`,
				"char mass (g)": 1,
				"dose (mL)": 60,
				"made up to (mL)": 100,
				"char in when made up": "no",
				"aliquot (mL)": 25,
				"titre (mL)": titre(more) + scatter + soak / 50,
				...treated,
			},
		]),
	);
}

function verdict(treated: Row, more = 60, control: Row = {}) {
	const trial = trialFromRows({
		flasks: kitchenTrial(treated, more, control),
		solutions: plainSolutions,
	});
	const compared = compareTreatments(trial, { margin: marginOf(25) });
	const v = compared.verdicts[0];
	return { ...v, sentence: verdictSentence(compared, v), compared };
}

const largestOf = (v: ReturnType<typeof verdict>): number =>
	Math.max(
		...v.compared.compared
			.filter((o) => o.treatment === "treated")
			.map((o) => o.value),
	);

const soda: Row = {
	"soaked in": "washing soda",
	"soak strength (g/L)": 50,
	"rinse 1 (mL)": 400,
	"rinse 2 (mL)": 400,
	"rinse 3 (mL)": 400,
	"char rinsed (g)": 10,
};

describe("what soaks may have left, in the interval of a difference", () => {
	test("washing soda, three good rinses and a reading of the last one: a word", () => {
		const v = verdict({ ...soda, "last rinse pH": 7.1 }, 60, {
			"last rinse pH": 7,
		});
		expect(v.word).toBe("higher");
		// 0.5 mol/L carbonate, 3 mL/g, (30/430)^3 of it, ten times that, one I2 a mole: 1.2 mg/g
		expect(v.soakAllowance.low).toBeCloseTo(
			(50 / 105.99) * 3 * (30 / 430) ** 3 * 10 * 253.81,
			2,
		);
		// As mass: 50 g/L, 3 mL/g, the same part of it: half a milligram a gram of char
		expect(v.soakAllowance.high).toBeCloseTo(
			largestOf(v) * ((50 * 3 * (30 / 430) ** 3 * 10) / 1e3),
			3,
		);
		expect(v.sentence).toMatch(
			/the interval is wider by 1.2 mg\/g at its lower end and 0.16 mg\/g at its upper end/,
		);
	});
	test("the interval has the room in it, and the head and the method say so", () => {
		const without = verdict({});
		const v = verdict(soda);
		if (v.difference.is !== "estimate" || without.difference.is !== "estimate")
			throw new Error("no interval");
		expect(without.difference.low - v.difference.low).toBeCloseTo(
			v.soakAllowance.low,
			9,
		);
		expect(v.difference.high - without.difference.high).toBeCloseTo(
			v.soakAllowance.high,
			9,
		);
		expect(v.difference.estimate).toBeCloseTo(without.difference.estimate, 9);
		expect(JSON.stringify(methodTable(v.compared))).toMatch(
			/raised the difference by up to 1.2 mg\/g and lowered it by up to 0.16 mg\/g.*decisions of this program/,
		);
	});
	test("nothing is said to be harmless where the sheet itself says that the soak consumes iodine", () => {
		const v = verdict({
			...soda,
			acidified: "yes",
			"soak consumes iodine": "yes",
		});
		expect(v.word).toBe("cannot tell");
		expect(v.soakAllowance.complete).toBe(false);
		expect(JSON.stringify(methodTable(v.compared))).not.toMatch(
			/changed nothing/,
		);
	});
	test("an acidified aliquot limits alkali to nothing, and the method says on what that rests", () => {
		const v = verdict({ ...soda, acidified: "yes" });
		expect(v.word).toBe("higher");
		expect(JSON.stringify(methodTable(v.compared))).toMatch(
			/This rests on: sodium carbonate: the aliquot was acidified.*; as mass, sodium carbonate: .*3 rinses/,
		);
	});
	test("an unknown soak and nothing measured: no word", () => {
		const v = verdict({ ...soda, "soaked in": "xylozan" });
		expect(v.word).toBe("cannot tell");
		expect(v.obstacles.map((o) => o.is)).toContain("soak remains");
	});
	test("washing soda that was not rinsed: the room is larger than the difference", () => {
		const v = verdict({
			"soaked in": "washing soda",
			"soak strength (g/L)": 50,
		});
		expect(v.word).toBe("cannot tell");
		expect(v.numbersSay).toBe("higher");
		expect(v.obstacles.map((o) => o.is)).toEqual(["soak allowance"]);
		expect(v.sentence).toMatch(/may have made the difference/);
	});
	test("a char that frees iodine may be higher all the more, and is not called lower", () => {
		const iron: Row = { "soaked in": "FeCl3", "soak strength (g/L)": 20 };
		expect(verdict(iron, 60).word).toBe("higher");
		const lower = verdict(iron, -35);
		expect(lower.numbersSay).toBe("lower");
		expect(lower.word).toBe("cannot tell");
	});
	test("no difference that matters needs both ends within the margin, room and all", () => {
		const rinsed = verdict(soda, 0);
		expect(rinsed.word).toBe("no difference that matters");
		const once = verdict(
			{ ...soda, "rinse 2 (mL)": "", "rinse 3 (mL)": "" },
			0,
		);
		expect(once.numbersSay).toBe("no difference that matters");
		expect(once.word).toBe("cannot tell");
	});
	test("the soak of the control counts on the other side", () => {
		const v = verdict({}, 60, soda);
		expect(v.soakAllowance.low).toBeLessThan(0.2);
		expect(v.soakAllowance.high).toBeGreaterThan(1);
		expect(v.word).toBe("higher");
	});
});

describe("salt that is weighed with the char", () => {
	const brine: Row = {
		"soaked in": "table salt",
		"soak strength (g/L)": 50,
		"soak consumes iodine": "no",
	};
	const rinsed: Row = {
		"rinse 1 (mL)": 400,
		"rinse 2 (mL)": 400,
		"char rinsed (g)": 10,
	};

	test("not rinsed: 3 mL of 50 g/L are 0.15 g in a gram, which hides 0.15/0.85 of the uptake", () => {
		const v = verdict(brine, -35);
		expect(v.soakAllowance.low).toBe(0);
		expect(v.soakAllowance.high).toBeCloseTo((largestOf(v) * 0.15) / 0.85, 1);
		expect(v.numbersSay).toBe("lower");
		expect(v.word).toBe("cannot tell");
	});
	test("rinsed: ten times what ideal rinses leave", () => {
		const v = verdict({ ...brine, ...rinsed }, -60);
		const share = 0.15 * (30 / 430) ** 2 * 10;
		expect(v.soakAllowance.high).toBeCloseTo(
			(largestOf(v) * share) / (1 - share),
			2,
		);
		expect(v.word).toBe("lower");
		expect(JSON.stringify(methodTable(v.compared))).toMatch(
			/may have lowered the difference by up to/,
		);
	});
	test("a rinse that conducts like the control's leaves less room than rinses that were not read", () => {
		const read: Row = { "last rinse conductivity (µS/cm)": 20 };
		const v = verdict({ ...brine, ...rinsed, ...read }, -60, read);
		expect(v.soakAllowance.high).toBeLessThan(
			verdict({ ...brine, ...rinsed }, -60).soakAllowance.high,
		);
	});
	test("nothing limits it: taken to be nothing, and the head says so", () => {
		const v = verdict({ ...brine, "soak strength (g/L)": "" }, -60);
		expect(v.soakAllowance.high).toBe(0);
		expect(v.word).toBe("lower");
		expect(v.sentence).toMatch(
			/Assumed: .*nothing of the soak is weighed with the char, for nothing limits it/,
		);
		expect(verdict({}, -60).sentence).not.toMatch(/weighed with the char/);
	});
	test("what leaves with warm air leaves no mass", () => {
		const v = verdict({ "soaked in": "hydrochloric acid" }, -60);
		expect(v.soakAllowance.high).toBe(0);
		expect(v.sentence).not.toMatch(/weighed with the char/);
	});
	test("a flask that ended neutral holds 1 mmol/L of an alkali at most", () => {
		const potash: Row = {
			"soaked in": "potassium carbonate",
			"soak consumes iodine": "no",
		};
		const neutral = verdict({ ...potash, "final pH": 7.5 }, -60);
		// 0.1 mmol of 138.2 mg in 100 mL, beside a gram of char
		const share = 0.0138204;
		expect(neutral.soakAllowance.high).toBeCloseTo(
			(largestOf(neutral) * share) / (1 - share),
			1,
		);
		const alkaline = verdict({ ...potash, "final pH": 7.6 }, -60);
		expect(alkaline.soakAllowance.high).toBe(0);
		expect(
			alkaline.audited.find((a) => a.condition.name.startsWith("mass of what"))
				?.found.is,
		).toBe("beyond");
	});
});

describe("limits of both sides, by hand", () => {
	const limit = (mg: number | null) =>
		mg === null ? notKnown("no limit") : known(mg);
	const remains = (
		more: number | null,
		less: number | null,
		step = "",
	): FlaskFixture["demand"] => ({
		is: "suspected",
		looksLike: "either",
		because: "",
		ceiling: { more: limit(more), less: limit(less), steps: [step] },
	});
	const of = (
		treated: readonly Partial<FlaskFixture>[],
		control: readonly Partial<FlaskFixture>[] = [{}],
	) =>
		soakAllowance(
			observationsOf(
				flasks(
					[treated, control, [{ demand: remains(900, 900) }]].flatMap(
						(side, k) =>
							side.map((f, i) => ({
								flask: `${k}${i}`,
								treatment: ["steam", "water", "smoke"][k],
								uptake: 100,
								...f,
							})),
					),
				),
			).list,
			{ treatment: "steam", control: "water" },
		);

	test("the worst flask of each side: what looks like uptake of the treated and hides that of the control lowers the low end, and the mirror", () => {
		const found = of(
			[{ demand: remains(3, 1) }, { demand: remains(2, 5) }],
			[{ demand: remains(10, 20) }, {}],
		);
		expect(found).toMatchObject({ low: 3 + 20, high: 5 + 10, complete: true });
		expect(of([{}], [{}])).toEqual({
			low: 0,
			high: 0,
			complete: true,
			steps: [],
		});
	});

	test("what is not limited adds nothing here, and makes the allowance incomplete", () => {
		const found = of([
			{ demand: remains(3, null, "half known") },
			{ demand: remains(2, 1, "rinsed") },
		]);
		expect(found).toEqual({
			low: 3,
			high: 1,
			complete: false,
			steps: ["rinsed"],
		});
	});

	test("mass hides uptake: a fifth of the weight hides a quarter, on its own side, of a char that takes up something", () => {
		const salt = (most: number): Partial<FlaskFixture> => ({
			soakMass: known({ most, steps: ["5 % salt"] }),
		});
		expect(of([salt(0.2)])).toEqual({
			low: 0,
			high: 25,
			complete: true,
			steps: ["as mass, 5 % salt"],
		});
		expect(of([{}], [salt(0.2), salt(0.1)])).toMatchObject({
			low: 25,
			high: 0,
		});
		expect(of([{ ...salt(0.2), uptake: -100 }])).toMatchObject({
			high: 0,
			low: 0,
		});
		expect(of([salt(0)])).toMatchObject({ high: 0, steps: [] });
		expect(of([{ soakMass: notKnown("nothing limits it") }])).toEqual({
			low: 0,
			high: 0,
			complete: true,
			steps: [],
		});
		expect(
			of(
				[{ ...salt(0.2), demand: remains(3, 4) }],
				[{ demand: remains(7, 8) }],
			),
		).toMatchObject({ low: 3 + 8, high: 4 + 7 + 25 });
	});

	test("every interval of a difference is wider by them; one that is not there stays as it is", () => {
		const allowance = { low: 1, high: 2, complete: true, steps: [] };
		const wide = (d: object) =>
			withAllowance(d as PairDifference, allowance) as unknown;
		const at = { low: 10, high: 20 };
		const wider = { low: 9, high: 22 };
		expect(wide({ is: "missing", why: "no spread" })).toEqual({
			is: "missing",
			why: "no spread",
		});
		expect(
			wide({ is: "interval", estimate: 15, interval: at, oneSided: at }),
		).toEqual({
			is: "interval",
			estimate: 15,
			interval: wider,
			oneSided: wider,
		});
		expect(
			wide({ is: "one-sided", side: "at least", without: at, atLimit: at }),
		).toEqual({
			is: "one-sided",
			side: "at least",
			without: wider,
			atLimit: wider,
		});
	});
});
