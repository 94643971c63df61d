import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import { type FlaskUptake, uptakes } from "../../kernel-lib/uptake";
import type { Row } from "./sheets";

/** 0.01 a mg/L up to 100 mg/L, each standard an error of its own beside the line. */
const calibration: Row[] = [0, 20, 40, 60, 80, 100].map((c, i) => ({
	standard: `E${i}`,
	"concentration (mg/L)": c,
	"absorbance 1": 0.01 * c + (i % 2 === 0 ? 0.002 : -0.002),
}));

/** 10 mg of dye in 100 mL on 0.1 g of char: 100 mg/L without it. */
const flask = (absorbance: number | "", change: Row = {}): Row => ({
	flask: "a",
	treatment: "control",
	"char mass (g)": 0.1,
	"dose (mL)": 50,
	"made up to (mL)": 100,
	"char in when made up": "no",
	"absorbance 1": absorbance,
	...change,
});

const blank = (absorbance: number): Row => ({
	flask: "i",
	contents: "dye blank",
	"dose (mL)": 50,
	"made up to (mL)": 100,
	"absorbance 1": absorbance,
});

const blue: Row[] = [
	{
		solution: "blue",
		substance: "methylene blue",
		"concentration (mg/L)": 200,
	},
];
const iodine: Row[] = [
	{ solution: "iodine", substance: "iodine", "concentration (mg/L)": 200 },
];

const read = (flasks: Row[], solutions: Row[] = blue): FlaskUptake =>
	uptakes(trialFromRows({ flasks, solutions, calibration }))[0];

describe("a residue on the line", () => {
	test("10 mg dosed, 40 mg/L in 100 mL left: 6 mg on 0.1 g", () => {
		const u = read([flask(0.4)]);
		expect(u.uptake.is).toBe("value");
		expect(u.computedUptake.in("mg/g")).toBeCloseTo(60, 0);
		expect(u.balance.lost.in("mg")).toBe(0);
		expect(u.lossesTakenOff).toBe(false);
		expect(u.demand.is).toBe("none expected");
		expect([u.contradiction, u.nextDose]).toEqual(["", ""]);
	});

	test("what a blank without char lost is taken off", () => {
		// recovery 0.8: a loss of (0.2/1.8)(10 + 4) mg
		const u = read([flask(0.4), blank(0.8)]);
		expect(u.lossesTakenOff).toBe(true);
		expect(u.balance.lost.in("mg")).toBeCloseTo((0.2 / 1.8) * 14, 1);
		expect(u.computedUptake.in("mg/g")).toBeCloseTo(
			(6 - (0.2 / 1.8) * 14) / 0.1,
			0,
		);
	});

	test("first runnings that were not discarded are a caution; discarded or not recorded they are none", () => {
		const cautions = (change: Row) => read([flask(0.4, change)]).cautions;
		expect(cautions({ "first runnings discarded": "no" }).join()).toContain(
			"the filter itself takes up methylene blue",
		);
		expect(cautions({ "first runnings discarded": "yes" })).toEqual([]);
		expect(cautions({})).toEqual([]);
	});
});

describe("a residue that is a bound makes the uptake one", () => {
	test("nothing left that could be measured: at least, and the advice is to dose again", () => {
		const u = read([flask(0)]);
		expect(u.uptake.is).toBe("at least");
		expect(u.uptake.is === "at least" && u.uptake.because).toContain(
			"no methylene blue was left",
		);
		expect(u.uptake.quantity.in("mg/g")).toBeLessThan(100);
		expect(u.uptake.quantity.in("mg/g")).toBeGreaterThan(90);
		expect(u.uptake.quantity.name.meaning).toBe(
			"least methylene blue uptake per gram of char as weighed, flask a",
		);
		expect(u.nextDose).toBe(
			"Dose flask a again (the same dose of 10.0 mg methylene blue, or half the char), wait as before and read again.",
		);
	});

	test("read above the line: at most, and the advice is to dilute", () => {
		const u = read([flask(2, { "dose (mL)": 100 })]);
		// 20 mg dosed, at least 10 mg left
		expect(u.uptake.quantity.name.meaning).toMatch(/^most methylene blue/);
		expect(u.uptake.is).toBe("at most");
		expect(u.uptake.quantity.in("mg/g")).toBeCloseTo(100, 0);
		expect(u.nextDose).toBe(
			"Dilute the filtrate of flask a and read it again.",
		);
	});

	test("read above the line with no more dosed than the line reaches: at most, and never less than nothing", () => {
		// a hair less than 100 mg/L was dosed in all
		const u = read([flask(2, { "dose (mL)": 49.99 })]);
		expect(u.uptake.is).toBe("at most");
		expect(u.computedUptake.value).toBeLessThan(0);
		expect(u.uptake.quantity.value).toBeGreaterThan(0);
		expect(u.contradiction).toBe("");
	});

	test("read above the line with far less dosed: the numbers cannot be right, and stay as they are", () => {
		const u = read([flask(2, { "dose (mL)": 25 })]);
		expect(u.uptake.is).toBe("at most");
		expect(u.uptake.quantity.in("mg/g")).toBeCloseTo(-50, 0);
		expect(u.contradiction).toContain("More methylene blue was found");
		expect(u.nextDose).toBe("");
	});
});

describe("an uptake about zero", () => {
	test("within its error is at most; weigh more char", () => {
		const u = read([flask(0.98, { "dose (mL)": 49 })]);
		expect(u.uptake.is).toBe("at most");
		expect(u.uptake.quantity.value).toBeGreaterThan(u.computedUptake.value);
		expect(u.nextDose).toContain("Weigh more char, or dose less");
	});

	test("clearly below none it keeps its value, and says so", () => {
		const u = read([flask(0.9, { "dose (mL)": 25 })]);
		expect(u.uptake.is).toBe("value");
		expect(u.uptake.quantity.in("mg/g")).toBeCloseTo(-40, 0);
		expect(u.contradiction).toContain("More methylene blue was found");
		expect(u.nextDose).toBe("");
	});
});

describe("a reading that no liquid gives", () => {
	test("is told, and nothing is advised on it", () => {
		const u = read([flask(-0.2)]);
		expect(u.contradiction).toMatch(
			/^It read clearly below the zero of its line.*read it again\.$/,
		);
		expect(u.nextDose).toBe("");
	});

	test("beside a law that its flask breaks: both are told", () => {
		const u = read([
			flask(-0.2, {
				"char mass (g)": "",
				"char mass (mg)": 5,
				"dose (mL)": 100,
			}),
		]);
		expect(u.contradiction).toMatch(
			/below the zero of its line.*\. .* of methylene blue on 5 mg of char would be/,
		);
	});
});

describe("iodine and ammonia are kept apart, a dye need not be", () => {
	const soaked = { "soaked in": "ammonia" };
	test.each([0, 0.98])("absorbance %s", (absorbance) => {
		const ofIodine = read(
			[flask(absorbance, { "dose (mL)": 49, ...soaked })],
			iodine,
		);
		expect(ofIodine.ammonia).toBe("named");
		expect(ofIodine.nextDose).toMatch(/do not dose/);
		expect(read([flask(absorbance, soaked)]).nextDose).not.toContain("ammonia");
	});

	test("what remains of a soak consumes iodine, and no dye as far as is known", () => {
		const potash = { "soaked in": "potash" };
		expect(read([flask(0.4, potash)], iodine).demand.is).toBe("suspected");
		expect(read([flask(0.4, potash)]).demand.is).toBe("none expected");
	});

	test("to dilute a filtrate is no dosing", () => {
		expect(
			read([flask(2, { "dose (mL)": 100, ...soaked })], iodine).nextDose,
		).toBe("Dilute the filtrate of flask a and read it again.");
	});
});
