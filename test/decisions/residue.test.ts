/** What is decided between a titre or a reading and a residue, just below and just above each limit. */
import { describe, expect, test } from "vitest";
import { usualSettings } from "../../kernel-lib/bench";
import { exact, input, type Quantity } from "../../kernel-lib/quantity";
import { charMassOf, reagentBlanks } from "../../kernel-lib/residue";
import {
	type CalibrationLine,
	calibrate,
	detectionLimits,
} from "../../kernel-lib/residue/colorimetry";
import {
	bendTest,
	evenScatter,
	lackOfFit,
} from "../../kernel-lib/residue/colorimetry/shape-tests";
import {
	detectionLimit,
	displacementOf,
} from "../../kernel-lib/residue/detection";
import {
	dimerCaution,
	dimerShare,
} from "../../kernel-lib/residue/methylene-blue";
import { charRow, steps } from "../uptake/sheets";

describe("a titre is measurable from 0.05 mL on", () => {
	test.each([
		[0.04, false],
		[0.05, true],
		[0.06, true],
	])("%s mL: %s", (titre, measurable) => {
		const { found } = steps([charRow("a", { "titre (mL)": titre })]);
		expect(found[0].measurable).toBe(measurable);
		expect(found[0].residue.is).toBe(measurable ? "value" : "at most");
	});

	test("what could hide is what 0.05 mL would mean: 2.5 µmol in 25 of 100 mL are 10 µmol", () => {
		const { found } = steps([charRow("a", { "titre (mL)": 0.02 })]);
		expect(found[0].hidden.in("mmol")).toBeCloseTo(0.01, 12);
		// 10 µmol of 253.8 g/mol in 100 mL
		expect(found[0].residue.quantity.in("mg/L")).toBeCloseTo(25.38, 1);
		// the number itself stays: 0.02 mL are 4 µmol
		expect(found[0].left.in("mmol")).toBeCloseTo(0.004, 12);
	});

	test("the limit itself carries no error", () => {
		expect(detectionLimit.in("mL")).toBe(0.05);
		expect(detectionLimit.standardUncertainty).toBe(0);
	});

	test("the blank counts first: 0.12 less 0.08 mL is not measurable", () => {
		const blank = {
			flask: "r",
			contents: "reagent blank",
			"aliquot (mL)": 25,
			"titre (mL)": 0.08,
		};
		const of = (titre: number) =>
			steps([charRow("a", { "titre (mL)": titre }), blank]).found.find(
				(r) => r.flask.name === "a",
			)?.measurable;
		expect(of(0.12)).toBe(false);
		expect(of(0.14)).toBe(true);
	});
});

describe("reagent blanks", () => {
	const blank = (flask: string, day: string, titre: number) => ({
		flask,
		contents: "reagent blank",
		day,
		"aliquot (mL)": 25,
		"titre (mL)": titre,
	});
	const titreOf = (...blanks: ReturnType<typeof blank>[]): number =>
		steps([charRow("a", { day: "1" }), ...blanks])
			.found.find((r) => r.flask.name === "a")
			?.titre.in("mL") ?? Number.NaN;

	test("without any nothing is taken off", () => {
		expect(titreOf()).toBeCloseTo(5, 12);
	});

	test("the mean of the day's own, whatever other days had", () => {
		expect(
			titreOf(
				blank("r1", "1", 0.1),
				blank("r2", "1", 0.2),
				blank("r3", "2", 9),
			),
		).toBeCloseTo(4.85, 12);
	});

	test("where the day has none, the mean of all other days", () => {
		expect(titreOf(blank("r2", "2", 0.1), blank("r3", "3", 0.4))).toBeCloseTo(
			4.75,
			12,
		);
	});

	test("which one it was is told", () => {
		const is = (...blanks: ReturnType<typeof blank>[]) =>
			steps([charRow("a", { day: "1" }), ...blanks]).found.find(
				(r) => r.flask.name === "a",
			)?.reagentBlank;
		expect(is()).toBe("none");
		expect(is(blank("r", "1", 0.1))).toBe("same day");
		expect(is(blank("r", "2", 0.1))).toBe("other days");
	});
});

describe("a gram of char displaces 0.5 ± 0.1 mL", () => {
	test("value and width", () => {
		const { displacement: usual } = usualSettings;
		expect(usual).toBe(0.5);
		const displacement = displacementOf(usual);
		expect(displacement.in("mL/g")).toBe(0.5);
		expect(displacement.standardUncertainty).toBeCloseTo(
			0.1 / Math.sqrt(3),
			12,
		);
	});

	test("only where it was in when the volume was made up", () => {
		const liquid = (when: string): number =>
			steps([
				charRow("a", { "char in when made up": when, "char mass (g)": 3 }),
			]).found[0].account.liquid.in("mL");
		expect(liquid("yes")).toBeCloseTo(98.5, 12);
		expect(liquid("no")).toBeCloseTo(100, 12);
	});
});

describe("the account of additions and withdrawals", () => {
	const row = {
		flask: "a",
		treatment: "control",
		"char mass (g)": 1,
		"dose 1 (mL)": 40,
		"withdrawn 2 (mL)": 10,
		"withdrawn 2 aliquot (mL)": 5,
		"withdrawn 2 titre (mL)": 2,
		"dose 3 (mL)": 20,
		"liquid added 4 (mL)": 30,
		"aliquot (mL)": 20,
		"titre (mL)": 4,
	};
	const [found] = steps([row]).found;
	const [uptake] = steps([row]).uptakes;

	test("added: 60 mL of 0.05 mol/L", () => {
		expect(found.account.added.in("mmol")).toBeCloseTo(3, 12);
	});

	test("withdrawn: 2 mL of 0.1 mol/L are 0.1 mmol in 5 mL, 0.2 mmol in the 10 mL that went out", () => {
		expect(found.account.withdrawn.in("mmol")).toBeCloseTo(0.2, 12);
	});

	test("liquid: 40 - 10 + 20 + 30 mL", () => {
		expect(found.account.liquid.in("mL")).toBeCloseTo(80, 12);
	});

	test("left: 0.2 mmol in 20 of 80 mL; taken up is the rest", () => {
		expect(found.left.in("mmol")).toBeCloseTo(0.8, 12);
		expect(uptake.balance.takenUp.in("mg")).toBeCloseTo(
			(3 - 0.2 - 0.8) * 253.8,
			9,
		);
	});
});

describe("names of what the account holds", () => {
	const { found } = steps([
		charRow("a", { day: "1" }),
		{
			flask: "r",
			contents: "reagent blank",
			day: "1",
			"aliquot (mL)": 25,
			"titre (mL)": 0.1,
		},
	]);
	const [flask] = found;

	test("moles have an n, with the flask", () => {
		expect(flask.account.added.name).toMatchObject({
			symbol: "n_{added}",
			meaning: "iodine (I2) added to flask a",
		});
	});

	test("a blank is of its day, where days have names", () => {
		const own = reagentBlanks(
			steps([
				charRow("a", { day: "1" }),
				{
					flask: "r",
					contents: "reagent blank",
					day: "1",
					"aliquot (mL)": 25,
					"titre (mL)": 0.1,
				},
			]).trial,
		).forDay("1");
		if (own.is === "none") throw new Error("no blank");
		expect(own.titre.name.meaning).toBe("reagent blank of day 1");
		expect(own.flasks).toEqual(["r"]);
		const nameless = reagentBlanks(
			steps([
				charRow("a"),
				{
					flask: "r",
					contents: "reagent blank",
					"aliquot (mL)": 25,
					"titre (mL)": 0.1,
				},
			]).trial,
		).forDay("");
		if (nameless.is === "none") throw new Error("no blank");
		expect(nameless.titre.name.meaning).toBe("reagent blank");
	});
});

test("a flask without a char mass has none to divide by", () => {
	const { trial } = steps([
		charRow("a"),
		{
			flask: "r",
			contents: "reagent blank",
			"aliquot (mL)": 25,
			"titre (mL)": 0.1,
		},
	]);
	const blank = trial.flasks.find((f) => f.name === "r");
	if (blank === undefined) throw new Error("no blank");
	expect(() => charMassOf(blank)).toThrow(/Flask r has no char mass/);
});

describe("wet char", () => {
	const dry = (change: Record<string, string | number>) => {
		const { uptakes } = steps([
			charRow("a", { "char mass (g)": 2, ...change }),
		]);
		return [uptakes[0].charMass.in("g"), uptakes[0].perGram];
	};

	test("a fifth of water on the wet basis leaves 1.6 of 2 g", () => {
		const [mass, per] = dry({ "moisture, wet basis (%)": 20 });
		expect(mass).toBeCloseTo(1.6, 12);
		expect(per).toBe("dry char");
	});

	test("a quarter on the dry basis leaves 1.6 of 2 g", () => {
		const [mass, per] = dry({ "moisture, dry basis (%)": 25 });
		expect(mass).toBeCloseTo(1.6, 12);
		expect(per).toBe("dry char");
	});

	test("not measured: as weighed, and called so", () => {
		expect(dry({})).toEqual([2, "char as weighed"]);
	});

	test("weighed dry: as it is, and dry", () => {
		expect(dry({ "mass basis": "dry" })).toEqual([2, "dry char"]);
	});

	test("its water dilutes by its volume at 0.998 g/mL, known to 0.001", () => {
		const { found } = steps([
			{
				...charRow("a", {
					"char mass (g)": 4,
					"moisture, wet basis (%)": 25,
				}),
				"made up to (mL)": "",
				"char in when made up": "",
			},
		]);
		expect(found[0].account.liquid.in("mL")).toBeCloseTo(40 + 1 / 0.998, 9);
	});
});

describe("methylene blue in dimers", () => {
	const inCuvette = (mgPerL: number): Quantity<"massConcentration"> =>
		input("massConcentration", mgPerL, "mg/L", exact, {});

	test("half of it where 8 K c = 8: 1 - 2/(1 + 3)", () => {
		expect(dimerShare(1 / 4000)).toBeCloseTo(0.5, 12);
		expect(dimerShare(2e-4, 5000)).toBeCloseTo(0.5, 12);
		expect(dimerShare(0)).toBe(0);
	});

	// 5 % at 8 K c = (2/0.95 - 1)^2 - 1 = 0.22161, c = 6.925 µmol/L, 2.215 mg/L with 319.85 g/mol
	test.each([
		[2.2, false],
		[2.23, true],
	])("a page warns from 5 % on: %s mg/L: %s", (c, warns) => {
		expect(dimerCaution("methylene blue", inCuvette(c)) !== "").toBe(warns);
	});

	test("with a constant of 0 there are none; a negative one or a negative concentration is refused", () => {
		expect(dimerShare(1, 0)).toBe(0);
		expect(() => dimerShare(1, -1)).toThrow(/-1 L\/mol/);
		expect(() => dimerShare(-1)).toThrow(/"concentration".*-1 mol\/L/);
	});

	test("the page says how large the share is: half of it at 0.25 mmol/L, 79.96 mg/L", () => {
		expect(dimerCaution("methylene blue", inCuvette(79.96))).toContain(
			"About 50 %",
		);
	});

	test("no other dye is spoken of", () => {
		expect(dimerCaution("iodine", inCuvette(100))).toBe("");
	});
});

describe("calibration lines", () => {
	const points = (signals: readonly (readonly [number, number])[]) =>
		signals.map(([concentration, signal]) => ({ concentration, signal }));

	/** Residuals of a straight line through 0 to 4 that a bent one takes up, beside others that it does not. */
	const bent = (bend: number): CalibrationLine =>
		calibrate(
			points(
				[0, 1, 2, 3, 4].map((x, i) => [
					x,
					x + bend * [2, -1, -2, -1, 2][i] + 0.01 * [-1, 2, 0, -2, 1][i],
				]),
			),
		);

	test("a bend contradicts a straight line at 5 %: F(1; 2) = 18.51", () => {
		// Squares: 14 bend² gained, 10 × 0.01² left on 2 degrees of freedom.
		const bendAt = (F: number): number => Math.sqrt((F * 10 * 1e-4) / 2 / 14);
		const verdict = (F: number) => {
			const found = bendTest(bent(bendAt(F)));
			if (found.is !== "value") throw new Error(found.because);
			expect(found.F).toBeCloseTo(F, 6);
			expect(found.degreesOfFreedom).toEqual([1, 2]);
			return found.contradicts;
		};
		expect(verdict(18.5)).toBe(false);
		expect(verdict(18.53)).toBe(true);
	});

	test("a bend takes four readings at three concentrations", () => {
		const is = (xs: readonly number[]): string =>
			bendTest(calibrate(points(xs.map((x, i) => [x, x + 0.01 * (i % 2)])))).is;
		expect(is([0, 1, 2])).toBe("not available");
		expect(is([0, 0, 1, 1])).toBe("not available");
		expect(is([0, 1, 2, 2])).toBe("value");
	});

	test("lack of fit at 5 %: F(1; 3) = 10.13", () => {
		// Three levels twice each: s apart within a level; the middle lies d off.
		const of = (F: number) => {
			const s = 0.01;
			// pure error 3 × 2 s² on 3 degrees of freedom; a middle off by d leaves 4/3 d² of lack of fit on 1.
			const d = Math.sqrt((F * 2 * s * s * 3) / 4);
			const line = calibrate(
				points([
					[0, -s],
					[0, s],
					[1, 1 + d - s],
					[1, 1 + d + s],
					[2, 2 - s],
					[2, 2 + s],
				]),
			);
			const found = lackOfFit(line);
			if (found.is !== "value") throw new Error(found.because);
			expect(found.F).toBeCloseTo(F, 6);
			expect(found.degreesOfFreedom).toEqual([1, 3]);
			return found.contradicts;
		};
		expect(of(10.12)).toBe(false);
		expect(of(10.14)).toBe(true);
	});

	test("uneven scatter of the ends at 5 %, both ways: F(2; 2) = 39", () => {
		const of = (ratio: number) => {
			const s = 0.01;
			const h = s * Math.sqrt(ratio);
			const line = calibrate(
				points([
					[0, -s],
					[0, 0],
					[0, s],
					[4, 4 - h],
					[4, 4],
					[4, 4 + h],
				]),
			);
			const found = evenScatter(line);
			if (found.is !== "value") throw new Error(found.because);
			expect(found.F).toBeCloseTo(ratio > 1 ? ratio : 1 / ratio, 6);
			return found.contradicts;
		};
		expect(of(38.9)).toBe(false);
		expect(of(39.1)).toBe(true);
		expect(of(1 / 39.1)).toBe(true);
	});

	test("limits: 5 % either way and a third of the value unless told otherwise", () => {
		const line = bent(0);
		expect(detectionLimits(line)).toEqual(
			detectionLimits(line, {
				definition: "DIN 32645",
				errorProbability: 0.05,
				readings: 1,
				quantificationFactor: 3,
			}),
		);
		for (const other of [
			{ errorProbability: 0.04 },
			{ errorProbability: 0.06 },
			{ readings: 2 },
			{ quantificationFactor: 2 },
			{ quantificationFactor: 4 },
			{ definition: "ISO 11843" as const },
		])
			expect(detectionLimits(line, other)).not.toEqual(detectionLimits(line));
	});
});
