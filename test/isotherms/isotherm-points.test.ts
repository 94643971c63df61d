import { describe, expect, test } from "vitest";
import {
	isothermPoints,
	plainPoints,
	pointsOfUptakes,
} from "../../kernel-lib/isotherms/index";
import { ProblemError } from "../../kernel-lib/quantity/index";
import { charRow, type Row, steps } from "../uptake/sheets";

/** mg of I2 per mmol, with the abridged atomic weight 126.90. */
const iodine = 253.8;

const pointsOf = (rows: Row[], deviations?: Row[]) => {
	const { trial } = steps(
		rows,
		undefined,
		deviations === undefined ? {} : { deviations },
	);
	return isothermPoints(trial);
};

const line = (point: ReturnType<typeof pointsOf>[number]["points"][number]) => {
	if (point.balance.is === "not known") throw new Error("no balance line");
	return point.balance;
};

describe("points of an isotherm", () => {
	test("hand-worked: 2 mmol dosed, 1 mmol left in 100 mL, 1 g of char", () => {
		// 5 mL of 0.1 mol/L are 0.25 mmol of I2 in 25 mL
		const [{ points, name }] = pointsOf([charRow("1")]);
		expect(name).toBe("control");
		expect(points[0].is).toBe("reading");
		expect(points[0].concentration).toBeCloseTo(10 * iodine, 1);
		expect(points[0].uptake).toBeCloseTo(iodine, 2);
		expect(line(points[0]).slope).toBeCloseTo(0.1, 9);
		expect(line(points[0]).intercept).toBeCloseTo(2 * iodine, 2);
	});

	test("hand-worked: char in the flask when it was made up takes the place of liquid", () => {
		const [{ points }] = pointsOf([
			charRow("1", { "char in when made up": "yes" }),
		]);
		// 99.5 mL of liquid: 0.995 mmol left, 1.005 mmol on the char
		expect(points[0].concentration).toBeCloseTo(10 * iodine, 1);
		expect(points[0].uptake).toBeCloseTo(1.005 * iodine, 2);
		expect(line(points[0]).slope).toBeCloseTo(0.0995, 9);
	});

	test("hand-worked: what was withdrawn is neither in solution nor on the char", () => {
		const [{ points }] = pointsOf([
			{
				flask: "1",
				treatment: "control",
				"char mass (g)": 1,
				"dose (mL)": 40,
				"made up to (mL)": 100,
				"char in when made up": "no",
				"withdrawn (mL)": 10,
				"withdrawn titre (mL)": 2,
				"aliquot (mL)": 25,
				"titre (mL)": 5,
			},
		]);
		// 0.1 mmol withdrawn, 0.9 mmol left in 90 mL, 1 mmol on the char
		expect(points[0].uptake).toBeCloseTo(iodine, 2);
		expect(line(points[0]).slope).toBeCloseTo(0.09, 9);
		expect(line(points[0]).intercept).toBeCloseTo(1.9 * iodine, 2);
	});

	test("every point lies on its own balance line", () => {
		const rows = [5, 2, 0.5, 0].map((titre, i) =>
			charRow(String(i), { "titre (mL)": titre, "char mass (g)": 0.5 + i }),
		);
		for (const p of pointsOf(rows)[0].points)
			expect(line(p).intercept - line(p).slope * p.concentration).toBeCloseTo(
				p.uptake,
				9,
			);
	});

	test("a flask that ran dry is a bound at its detection limit", () => {
		const [{ points }] = pointsOf([
			charRow("1"),
			charRow("2", { "titre (mL)": 0 }),
		]);
		expect(points[1].is).toBe("below detection");
		// 0.05 mL of 0.1 mol/L on 25 mL: 0.0025 mmol, 25.4 mg/L
		expect(points[1].concentration).toBeCloseTo(0.1 * iodine, 2);
		expect(points[1].uptake).toBeCloseTo(1.99 * iodine, 2);
		expect(points[1].own.concentration).toBeGreaterThan(0);
		const rows = pointsOf([charRow("2", { "titre (mL)": 0 })])[0].table;
		expect(rows.rows[0].join(" ")).toMatch(/at most 25\.38.*at least/);
		expect(rows.rows[0].join(" ")).toContain("ran dry: enters as a bound");
	});

	test("residue and uptake of a flask err against each other, for they come from one titre", () => {
		const [{ points }] = pointsOf([charRow("1")]);
		const { concentration, uptake, covariance } = points[0].own;
		expect(covariance / Math.sqrt(concentration * uptake)).toBeLessThan(-0.9);
		expect(covariance ** 2).toBeLessThanOrEqual(concentration * uptake);
	});

	test("what all flasks lean on is shared, with its effect on each", () => {
		const { trial } = steps(
			[charRow("1"), charRow("2", { "char mass (g)": 2, "titre (mL)": 2 })],
			[
				{
					solution: "iodine",
					substance: "iodine",
					"concentration (mol/L)": 0.05,
					counts: "I2",
				},
				{
					solution: "thiosulfate",
					substance: "sodium thiosulfate",
					"concentration (mol/L)": 0.1,
					"uncertainty (%)": 1,
				},
			],
		);
		const [{ shared, points }] = isothermPoints(trial);
		const titrant = shared.find((s) => s.what.includes("thiosulfate"));
		// one percent of the titrant is one percent of every residue
		points.forEach((p, i) => {
			expect(titrant?.concentration[i]).toBeCloseTo(p.concentration / 100, 6);
		});
		expect(titrant?.uptake[0]).toBeCloseTo(-iodine / 100, 4);
	});

	test("a flask to be left out by a deviation is left out, with the reason", () => {
		const [points] = pointsOf(
			[charRow("1"), charRow("2"), charRow("3")],
			[
				{
					flask: "2",
					"what happened": "stopper blew off",
					handling: "leave out",
				},
			],
		);
		expect(points.points.map((p) => p.flask)).toEqual(["1", "3"]);
		expect(points.leftOut).toEqual([
			{ flask: "2", because: "a deviation: stopper blew off" },
		]);
	});

	test("a dry flask after a soak that may consume iodine bounds nothing", () => {
		const soak = {
			treatment: "potash",
			control: "control",
			"soaked in": "potassium carbonate",
			"soak consumes iodine": "not known",
		};
		const [, potash] = pointsOf([
			charRow("1", {
				control: "",
				"soaked in": "",
				"soak consumes iodine": "",
			}),
			charRow("2", soak),
			charRow("3", { ...soak, "titre (mL)": 0 }),
		]);
		expect(potash.points.map((p) => p.flask)).toEqual(["2"]);
		expect(potash.leftOut[0].because).toContain("may have used up the iodine");
	});

	test("dry and moist masses are not mixed, and no flask is no isotherm", () => {
		const mixed = () =>
			pointsOf([
				charRow("1", { "mass basis": "dry" }),
				charRow("2", { "mass basis": "as weighed" }),
			]);
		expect(mixed).toThrow(ProblemError);
		expect(mixed).toThrow(/per gram of dry char and per gram as weighed/);
		expect(() => pointsOfUptakes([])).toThrow(/no flask with char/);
	});

	test("plain points say everything that is wrong with them at once", () => {
		const wrong = () => plainPoints("p", [1, 2, Number.NaN], [1, 2]);
		try {
			wrong();
			expect.unreachable();
		} catch (error) {
			if (!(error instanceof ProblemError)) throw error;
			expect(error.problems.map((p) => p.code)).toEqual([
				"unequal-lengths",
				"not-a-number",
			]);
		}
	});
});
