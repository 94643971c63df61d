import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	checkRows,
	type Trial,
	type TrialOptions,
	type TypedRow,
	type TypedRows,
	trialFromRows,
} from "../../kernel-lib/bench/index";
import { isothermPoints } from "../../kernel-lib/isotherms/index";
import {
	correlation,
	sharedErrors,
	working,
} from "../../kernel-lib/quantity/index";
import {
	calibrationLines,
	driftChecks,
	readingCautions,
	residues,
} from "../../kernel-lib/residue/index";
import { uptakes as uptakesOf } from "../../kernel-lib/uptake/index";

/** A straight line that every standard stands on but for ± 0.001. */
const slope = 0.2;
const intercept = 0.004;
const standards = [0, 1, 2, 4, 6, 8].map((c, i) => ({
	standard: `E${i}`,
	"concentration (mg/L)": c,
	"absorbance 1": intercept + slope * c + (i % 2 === 0 ? 0.001 : -0.001),
}));

const dye: TypedRow = {
	solution: "blue",
	substance: "methylene blue",
	"concentration (mg/L)": 200,
	"uncertainty (%)": 1,
};

function flask(name: string, cells: TypedRow): TypedRow {
	return {
		flask: name,
		treatment: "control",
		"char mass (g)": 0.2,
		"dose (mL)": 50,
		"made up to (mL)": 100,
		"char in when made up": "no",
		...cells,
	};
}

function rows(
	flasks: readonly TypedRow[],
	more: Partial<TypedRows> = {},
): TypedRows {
	return { flasks, solutions: [dye], calibration: standards, ...more };
}

const readOf = (trial: Trial) => residues(trial).filter((r) => r.is === "read");

const uptakesIn = (typed: TypedRows) => uptakesOf(trialFromRows(typed));

function residuesOf(typed: TypedRows, options: TrialOptions = {}) {
	return readOf(trialFromRows(typed, options));
}

const milligrams = (found: ReturnType<typeof residuesOf>, i = 0): number =>
	found[i].residue.quantity.in("mg/L");

test("a sheet without standards is told which table to write, and what in it", () => {
	const trial = trialFromRows({
		flasks: [flask("1", { "absorbance 1": 0.5 })],
		solutions: [dye],
	});
	const ask = () => calibrationLines({ ...trial, file: "spring/dye.csv" });
	expect(ask).toThrow(/no calibration table/);
	expect(ask).toThrow(/write spring\/dye\.calibration\.csv/);
	expect(ask).toThrow(/"concentration \(mg\/L\)"/);
});

describe("from a reading to a residue", () => {
	const [a, b] = calibrationLines(
		trialFromRows(rows([flask("1", { "absorbance 1": 0.5 })])),
	)[0].coefficients;

	test("blank and dilution by hand: c = D (S - a - (S_blank - a) D_blank/D)/b", () => {
		fc.assert(
			fc.property(
				// From 0.4 on every reading is clear of the largest blank; nearer to it the residue is a bound, not a value.
				fc.double({ min: 0.4, max: 1.4, noNaN: true }),
				fc.double({ min: 0.01, max: 0.05, noNaN: true }),
				fc.integer({ min: 1, max: 50 }),
				fc.integer({ min: 1, max: 5 }),
				(s, blank, dilution, blankDilution) => {
					const found = residuesOf(
						rows([
							{
								flask: "W",
								contents: "reagent blank",
								"absorbance 1": blank,
								dilution: blankDilution,
							},
							flask("1", { "absorbance 1": s, dilution }),
						]),
					);
					const excess = (blank - a) * blankDilution;
					const byHand = (dilution * (s - a - excess / dilution)) / b;
					expect(milligrams(found)).toBeCloseTo(byHand, 9);
				},
			),
			{ numRuns: 40 },
		);
	});

	test("without a blank the line's own zero is taken, and the table says so", () => {
		const found = residuesOf(rows([flask("1", { "absorbance 1": 0.5 })]));
		expect(found[0].reagentBlank).toBe("none");
		expect(milligrams(found)).toBeCloseTo((0.5 - a) / b, 9);
	});

	test("a blank of another day is used where the own day has none", () => {
		const found = residuesOf(
			rows([
				{
					flask: "W",
					contents: "reagent blank",
					day: "1",
					"absorbance 1": 0.03,
				},
				flask("1", { "absorbance 1": 0.5, day: "1" }),
				flask("2", { "absorbance 1": 0.5, day: "2" }),
			]),
		);
		expect(found.map((r) => r.reagentBlank)).toEqual([
			"same day",
			"other days",
		]);
		expect(milligrams(found, 0)).toBeCloseTo(milligrams(found, 1), 12);
	});

	test("a dilution by volumes has the errors of its glassware and the value of its factor", () => {
		const typed = rows([
			flask("1", { "absorbance 1": 0.5, dilution: 20 }),
			flask("2", {
				"absorbance 1": 0.5,
				"diluted from (mL)": 5,
				"diluted to (mL)": 100,
			}),
		]);
		const found = residuesOf(typed);
		expect(milligrams(found, 0)).toBeCloseTo(milligrams(found, 1), 9);
		expect(found[1].residue.quantity.standardUncertainty).not.toBeCloseTo(
			found[0].residue.quantity.standardUncertainty,
			4,
		);
	});

	test("turbidity: the second absorbance, times a share between the two extremes, is taken off", () => {
		const typed = rows(
			[
				flask("1", {
					"absorbance 1": 0.5 + 1.5 * 0.02,
					"absorbance at second wavelength": 0.02,
				}),
				flask("2", { "absorbance 1": 0.5 }),
			],
			{
				calibration: standards.map((s) => ({
					...s,
					"wavelength (nm)": 600,
					"second wavelength (nm)": 600 * 2 ** 0.25,
				})),
			},
		);
		const [turbid, clear] = residuesOf(typed);
		// (1 + 2)/2 = 1.5
		expect(turbid.residue.quantity.value).toBeCloseTo(
			clear.residue.quantity.value,
			9,
		);
		expect(turbid.residue.quantity.standardUncertainty).toBeGreaterThan(
			clear.residue.quantity.standardUncertainty,
		);
	});

	test("flasks share line and stock: their residues go together", () => {
		const typed = rows(
			[
				flask("1", { "absorbance 1": 0.9 }),
				flask("2", { "absorbance 1": 0.91 }),
			],
			{ calibration: standards.map((s) => ({ ...s, "made from": "blue" })) },
		);
		const [x, y] = residuesOf(typed).map((r) => r.residue.quantity);
		expect(correlation(x, y)).toBeGreaterThan(0.5);
		// Standards from the dosed stock: what is left over what was dosed does not depend on the stock.
		expect(x.standardUncertainty / x.value).toBeGreaterThan(0.01);
	});

	test("a molar absorptivity in place of standards, in grams by the molar mass of the dye", () => {
		const absorptivities = [
			{
				molarAbsorptivity: 74_000,
				standardUncertainty: 3_700,
				source: "a table; from memory",
			},
		];
		const read = (absorbance: number) =>
			residuesOf(
				{
					flasks: [flask("1", { "absorbance 1": absorbance })],
					solutions: [dye],
				},
				{ absorptivities },
			)[0];
		const found = read(0.37);
		// 5 µmol/L of C16H18ClN3S, 319.85 g/mol
		expect(found.residue.quantity.in("mg/L")).toBeCloseTo(1.59927, 4);
		// No standards that would hold the same dimers.
		expect(found.cautions).toEqual([]);
		expect(read(0.95).cautions.join()).toContain("dimers");
	});
});

describe("other instruments", () => {
	test("transmittance and a picture read as the absorbance that they are", () => {
		const channel = (light: number): number =>
			255 *
			(light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);
		const white = 0.9;
		const line = { read: "", ...standards[0] };
		expect(line.standard).toBe("E0");
		const photo = standards.map((s) => ({
			standard: s.standard,
			"concentration (mg/L)": s["concentration (mg/L)"],
			"intensity 1": channel(white * 10 ** -s["absorbance 1"]),
			"white intensity": channel(white),
		}));
		const absorbance = residuesOf(rows([flask("1", { "absorbance 1": 0.5 })]));
		const transmittance = residuesOf(
			rows([flask("1", { "transmittance 1 (%)": 100 * 10 ** -0.5 })]),
		);
		const picture = residuesOf(
			rows(
				[
					flask("1", {
						// Another lighting: the white reference beside it takes that out.
						"intensity 1": channel(0.6 * 10 ** -0.5),
						"white intensity": channel(0.6),
					}),
				],
				{ calibration: photo },
			),
		);
		expect(milligrams(transmittance)).toBeCloseTo(milligrams(absorbance), 9);
		expect(milligrams(picture)).toBeCloseTo(milligrams(absorbance), 6);
	});

	test("conductivity is read on a line of standards like any colour", () => {
		const salt = {
			solution: "salt",
			substance: "NaCl",
			"concentration (g/L)": 2,
		};
		const [found] = residuesOf({
			flasks: [flask("1", { "conductivity 1 (mS/cm)": 1.01 })],
			solutions: [salt],
			calibration: [0.1, 0.25, 0.5, 1].map((c, i) => ({
				standard: `E${i}`,
				"concentration (g/L)": c,
				"conductivity 1 (µS/cm)": 10 + 2000 * c + (i % 2),
			})),
		});
		expect(found.probe).toBe("NaCl");
		expect(found.residue.quantity.in("g/L")).toBeCloseTo(0.5, 2);
	});

	test("a dry residue needs no line: mass over aliquot, less the blank's", () => {
		const salt = {
			solution: "salt",
			substance: "NaCl",
			"concentration (g/L)": 2,
		};
		const dried = (mass: number, more: TypedRow = {}): TypedRow => ({
			"dry residue 1 (g)": mass,
			"aliquot (mL)": 25,
			...more,
		});
		const trial = trialFromRows({
			flasks: [
				{ flask: "W", contents: "reagent blank", ...dried(0.0005) },
				flask("1", dried(0.0205)),
				flask("2", dried(0.0005)),
			],
			solutions: [salt],
			glassware: [
				{ piece: "balance", "used for": "weighed", "readability (g)": 0.0001 },
			],
		});
		const found = readOf(trial);
		expect(found[0].residue.quantity.in("mg/L")).toBeCloseTo(800, 6);
		expect(found[0].left.in("mg")).toBeCloseTo(80, 6);
		expect(found.map((r) => r.residue.is)).toEqual(["value", "at most"]);
		expect(working(found[1].residue.quantity).text).toContain(
			"what the error of weighing could hide (one-sided 95 %)",
		);
		const [taken] = uptakesOf(trial);
		// 2 g/L x 50 mL = 100 mg dosed, 80 mg left, 0.2 g of char
		expect(taken.computedUptake.in("mg/g")).toBeCloseTo(100, 6);
	});

	test("weighings of dry residues and blanks that lie apart say so in their error", () => {
		const dried = (...masses: number[]): TypedRow => ({
			"aliquot (mL)": 25,
			...Object.fromEntries(
				masses.map((mass, i) => [`dry residue ${i + 1} (g)`, mass]),
			),
		});
		const errorOf = (own: number[], blanks: number[]): number => {
			const trial = trialFromRows({
				flasks: [
					...blanks.map((mass, i) => ({
						flask: `W${i}`,
						contents: "reagent blank",
						...dried(mass),
					})),
					flask("1", dried(...own)),
				],
				solutions: [
					{
						solution: "salt",
						substance: "NaCl",
						"concentration (g/L)": 2,
					},
				],
			});
			return readOf(trial)[0].residue.quantity.to("mg/L").standardUncertainty;
		};
		const alike = errorOf([0.02, 0.02], [0.0005, 0.0005]);
		// 2 mg apart: the mean is good to 1 mg, in 25 mL 40 mg/L
		expect(errorOf([0.019, 0.021], [0.0005, 0.0005])).toBeCloseTo(40, -1);
		expect(errorOf([0.02, 0.02], [0, 0.002])).toBeCloseTo(40, -1);
		expect(alike).toBeLessThan(20);
	});
});

describe("the mass balance", () => {
	const typed = rows([
		{ flask: "W", contents: "reagent blank", "absorbance 1": 0.014 },
		{
			flask: "B",
			contents: "dye blank",
			"dose (mL)": 50,
			"made up to (mL)": 100,
			"absorbance 1": 0.994,
			dilution: 20,
		},
		flask("1", { "absorbance 1": 0.8, dilution: 10 }),
		flask("2", { "absorbance 1": 0.006 }),
		flask("3", { "absorbance 1": 2.4 }),
	]);
	const trial = trialFromRows(typed);
	const uptakes = uptakesOf(trial);

	test("added = taken up + left + withdrawn + lost", () => {
		for (const { balance } of uptakes)
			expect(
				balance.takenUp.in("mg") +
					balance.left.in("mg") +
					balance.withdrawn.in("mg") +
					balance.lost.in("mg"),
			).toBeCloseTo(balance.added.in("mg"), 9);
	});

	test("below the line the uptake is at least, above it at most", () => {
		expect(uptakes.map((u) => [u.residue.is, u.uptake.is])).toEqual([
			["value", "value"],
			["at most", "at least"],
			["at least", "at most"],
		]);
		expect(uptakes[2].uptake.quantity.value).toBeLessThan(
			uptakes[1].uptake.quantity.value,
		);
		expect(uptakes[2].nextDose).toContain("Dilute the filtrate of flask 3");
	});

	test("standards made from the dosed stock: its error scales the uptake and does no more", () => {
		const made = rows(typed.flasks ?? [], {
			calibration: standards.map((s) => ({ ...s, "made from": "blue" })),
		});
		const [shared] = uptakesIn(made);
		const q = shared.computedUptake;
		expect(q.value).toBeCloseTo(uptakes[0].computedUptake.value, 9);
		const stock = (of: typeof q) =>
			sharedErrors([of]).shared.find(
				(column) =>
					column.input.source.is === "cell" &&
					column.input.source.sheet === "solutions",
			)?.effect[0];
		// 1 % of the stock is 1 % of everything that was counted in it.
		expect(stock(q)).toBeCloseTo(0.01 * q.in("mg/g"), 9);
	});

	test("a withdrawn portion takes dye and liquid away", () => {
		const trial = trialFromRows(
			rows([
				flask("1", {
					"withdrawn 1 (mL)": 10,
					"withdrawn 1 reading": 1.204,
					"absorbance 1": 0.8,
				}),
			]),
		);
		const once = readOf(trial);
		expect(once[0].account.liquid.in("mL")).toBeCloseTo(90, 9);
		expect(once[0].account.withdrawn.in("mg")).toBeCloseTo(0.06, 3);
		const [u] = uptakesOf(trial);
		expect(
			u.balance.takenUp.in("mg") +
				u.balance.left.in("mg") +
				u.balance.withdrawn.in("mg") +
				u.balance.lost.in("mg"),
		).toBeCloseTo(10, 9);
		// 0.06 mg in 10 of 100 mL: 0.6 mg were left, the rest of the 10 mg was taken up
		const [w] = u.atWithdrawals;
		expect(w.residue.quantity.in("mg/L")).toBeCloseTo(6, 1);
		expect(w.balance.left.in("mg")).toBeCloseTo(0.6, 2);
		expect(w.balance.takenUp.in("mg") + w.balance.lost.in("mg")).toBeCloseTo(
			10 - w.balance.left.in("mg"),
			9,
		);
	});
});

describe("what follows the mass balance", () => {
	test("an isotherm leaves out a flask above the line, and keeps one that cannot be distinguished from a blank as a bound", () => {
		const trial = trialFromRows(
			rows([
				flask("1", { "absorbance 1": 0.4 }),
				flask("2", { "absorbance 1": 0.9 }),
				flask("3", { "absorbance 1": 0.004 }),
				flask("4", { "absorbance 1": 2 }),
			]),
		);
		const [points] = isothermPoints(trial);
		expect(points.points.map((p) => [p.flask, p.is])).toEqual([
			["1", "reading"],
			["2", "reading"],
			["3", "below detection"],
		]);
		expect(points.leftOut.map((l) => l.flask)).toEqual(["4"]);
	});
});

describe("iodine by its colour", () => {
	test("dosed in normality, read against standards in mg/L of I2", () => {
		const [found] = residuesOf({
			flasks: [flask("1", { "absorbance 1": 0.6, dilution: 100 })],
			solutions: [
				{ solution: "iodine", substance: "iodine", "concentration (N)": 0.01 },
			],
			calibration: standards,
		});
		expect(found.probe).toBe("iodine");
		// 0.005 mol/L of I2 at 2 x 126.90 g/mol (abridged), 50 mL
		expect(found.account.added.in("mg")).toBeCloseTo(63.45, 9);
		expect(found.residue.quantity.in("mg/L")).toBeCloseTo(298, -1);
	});

	test("its cautions tell the colour of triiodide from that with starch", () => {
		const trial = (line: string) =>
			trialFromRows({
				flasks: [flask("1", { "absorbance 1": 0.6 })],
				solutions: [
					{
						solution: "iodine",
						substance: "iodine",
						"concentration (N)": 0.01,
					},
				],
				calibration: standards.map((s) => ({ ...s, line })),
			});
		const own = readingCautions(trial("own colour")).join();
		const starch = readingCautions(trial("with starch")).join();
		expect(own).toContain("triiodide");
		expect(own).not.toContain("starch");
		expect(starch).toContain("order of mixing");
	});
});

describe("pH", () => {
	test("is read on a line over its short range", () => {
		const [found] = residuesOf({
			flasks: [flask("1", { "pH reading 1": 4.5 })],
			solutions: [
				{
					solution: "acid",
					substance: "citric acid",
					"concentration (mg/L)": 200,
				},
			],
			calibration: [10, 20, 30, 40].map((c, i) => ({
				standard: `E${i}`,
				"concentration (mg/L)": c,
				"pH reading 1": 5.25 - 0.03 * c + (i % 2) * 0.002,
			})),
		});
		expect(found.residue.is).toBe("value");
		expect(milligrams([found])).toBeCloseTo(25, 0);
	});
});

describe("drift", () => {
	const drifting = (factor: number) =>
		rows(
			[
				flask("1", { "absorbance 1": 0.5 }),
				flask("2", { "absorbance 1": intercept + factor * 0.5 }),
				flask("3", { "absorbance 1": 0.5 }),
			],
			{
				calibration: [
					...standards,
					{
						standard: "E3",
						"concentration (mg/L)": 4,
						"absorbance 1": intercept + factor * slope * 4,
						"read after": "2",
					},
				],
			},
		);

	test("a standard read again inside its interval is no drift, outside it is, and the flasks say so", () => {
		for (const [factor, drifted] of [
			[1.001, false],
			[1.05, true],
		] as const) {
			const trial = trialFromRows(drifting(factor));
			const lines = calibrationLines(trial);
			expect(lines[0].points).toHaveLength(6);
			expect(driftChecks(trial).map((c) => c.drifted)).toEqual([drifted]);
			const [first] = readOf(trial);
			expect(first.cautions.join().includes("drifted")).toBe(drifted);
		}
	});

	test("corrected on request, in proportion between the readings of the standard", () => {
		const plain = residuesOf(drifting(1.05));
		const corrected = residuesOf(drifting(1.05), { drift: "correct" });
		// Flask 2 stands at the check itself: its factor is 1/1.05, but for the scatter of the line's own coefficients.
		expect(milligrams(corrected, 1) / milligrams(plain, 1)).toBeCloseTo(
			1 / 1.05,
			3,
		);
		expect(milligrams(corrected, 0) / milligrams(plain, 0)).toBeCloseTo(
			(1 + 1 / 1.05) / 2,
			3,
		);
	});
});

describe("problems, all at once, each with its place", () => {
	const problemsOf = (typed: TypedRows) => {
		const found = checkRows(typed);
		return found.ok
			? []
			: found.problems.map((p) => [
					p.code,
					p.where.sheet,
					p.where.row,
					p.where.column,
				]);
	};

	test("in flasks and standards", () => {
		expect(
			problemsOf(
				rows(
					[
						flask("1", { "absorbance 1": 0.5, "titre 1 (mL)": 3 }),
						flask("2", { "absorbance 1": 0.5, "diluted from (mL)": 5 }),
						flask("3", { "absorbance 1": 0.5, "read on": "red" }),
						flask("4", { "intensity 1": 255, "white intensity": 200 }),
						flask("5", { "intensity 1": 100 }),
						flask("6", {}),
					],
					{
						calibration: [
							...standards,
							{ standard: "E9", "concentration (mg/L)": 1 },
							{
								standard: "E4",
								"concentration (mg/L)": 6,
								"absorbance 1": 1.2,
								"read after": "99",
								"made from": "green",
							},
						],
					},
				),
			),
		).toEqual([
			["titrated-and-read", "flasks", 2, "absorbance 1"],
			["half-filled", "flasks", 3, "diluted to"],
			["line-not-found", "flasks", 4, "read on"],
			["saturated", "flasks", 5, "intensity 1"],
			["white-missing", "flasks", 6, "white intensity"],
			["cell-missing", "flasks", 7, "absorbance 1"],
			["cell-missing", "calibration", 8, "absorbance 1"],
			["flask-not-found", "calibration", 9, "read after"],
			["solution-not-found", "calibration", 9, "made from"],
		]);
	});

	test("a flask without a reading is asked for one, not for a titration", () => {
		expect(
			problemsOf(rows([flask("1", { "absorbance 1": 0.5 }), flask("6", {})])),
		).toEqual([["cell-missing", "flasks", 3, "absorbance 1"]]);
	});

	test("a sheet without titre and without reading is asked for a titre, as ever", () => {
		expect(
			problemsOf({ flasks: [flask("1", {})], solutions: [dye] }).map(
				([code, , , column]) => [code, column],
			),
		).toEqual(
			expect.arrayContaining([
				["column-missing", "titre 1 (mL)"],
				["no-iodine", "substance"],
			]),
		);
	});

	test("a reading without a line for it names the flask", () => {
		const trial = trialFromRows(
			rows([flask("1", { "conductivity 1 (mS/cm)": 2 })]),
		);
		expect(() => residues(trial)).toThrow(/reading of conductivity/);
	});

	test("lines that disagree with themselves", () => {
		expect(
			problemsOf(
				rows([flask("1", { "absorbance 1": 0.5 })], {
					calibration: standards.map((s, i) => ({
						...s,
						model: i === 0 ? "straight" : i === 2 ? "quadratic" : "",
					})),
				}),
			),
		).toEqual([["line-disagrees", "calibration", 4, "model"]]);
	});
});

describe("readings that no liquid gives", () => {
	const read = (absorbance: number) => {
		const trial = trialFromRows(
			rows([
				{ flask: "W", contents: "reagent blank", "absorbance 1": intercept },
				flask("1", { "absorbance 1": absorbance }),
			]),
		);
		return {
			found: readOf(trial)[0],
			uptake: uptakesOf(trial)[0],
		};
	};

	test("clearly below the zero of the line: said of the flask, in residue and uptake", () => {
		const { found, uptake } = read(-0.05);
		expect(found.reading.is === "on a line" && found.reading.on.belowZero).toBe(
			true,
		);
		for (const text of [found.contradiction, uptake.contradiction])
			expect(text).toMatch(
				/clearly below the zero of its line \(absorbance −0\.0(49|50)/,
			);
		expect(uptake.uptake.is).toBe("at least");
		// It is to be read again, not dosed again.
		expect(uptake.nextDose).toBe("");
	});

	test("a blank's own scatter below zero is none", () => {
		for (const absorbance of [intercept, intercept - 0.002]) {
			const { found, uptake } = read(absorbance);
			expect(found.residue.is).toBe("at most");
			expect(uptake.contradiction).toBe("");
		}
	});

	test("above the line with less dosed than the line reaches: more left than was dosed", () => {
		const left = (dose: number) => {
			const trial = trialFromRows(
				rows([
					flask("1", { "absorbance 1": 2.4, dilution: 10, "dose (mL)": dose }),
				]),
			);
			return uptakesOf(trial)[0];
		};
		// 8 mg of the highest standard x 10 in 100 mL against 2 mg in 10 mL of dose.
		const short = left(10);
		expect(short.uptake.is).toBe("at most");
		expect(short.uptake.quantity.in("mg/g")).toBeCloseTo((2 - 8) / 0.2, 6);
		expect(short.contradiction).toContain(
			"More methylene blue was found than was dosed: 8 mg left, 2 mg dosed",
		);
		// 8 mg in 39.9 mL of dose: below zero by less than the strength of the dose is known.
		const even = left(39.9);
		expect(even.contradiction).toBe("");
		expect(even.computedUptake.value).toBeLessThan(0);
		expect(even.uptake.quantity.value).toBeGreaterThan(0);
	});
});
