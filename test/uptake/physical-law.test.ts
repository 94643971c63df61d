import { describe, expect, test } from "vitest";
import { compareTreatments, marginOf } from "../../kernel-lib/compare";
import { isothermPoints } from "../../kernel-lib/isotherms/index";
import { uptakeTable } from "../../kernel-lib/uptake";
import {
	nextSteps,
	verdictReasons,
	verdictSentence,
} from "../../kernel-lib/words";
import { charRow, type Row, steps } from "./sheets";

/** 40 mL of 0.05 mol/L on 25 of 100 mL: 10.0 mL of 0.1 mol/L would find the whole dose again. */
const wholeDose = 10;
const dosed = 2 * 253.8;

function one(change: Row) {
	return steps([charRow("a", change)]).uptakes[0];
}

describe("more found than was dosed", () => {
	test.each([11.2, 30])(
		"a titre of %s mL keeps its negative uptake and says so",
		(titre) => {
			const { trial, uptakes } = steps([charRow("a", { "titre (mL)": titre })]);
			const [u] = uptakes;
			expect(u.uptake.is).toBe("value");
			expect(u.uptake.quantity.in("mg/g")).toBeCloseTo(
				dosed * (1 - titre / wholeDose),
				6,
			);
			expect(u.contradiction).toContain("More iodine was found than was dosed");
			expect(u.contradiction).toContain("507.6 mg dosed");
			expect(u.nextDose).toBe("");
			const [row] = uptakeTable(trial).rows;
			expect(row[row.length - 1]).toContain(u.contradiction);
		},
	);

	test("within its error of zero it is at most, as before, and nothing contradicts", () => {
		const u = one({ "titre (mL)": 10.02 });
		expect(u.uptake.is).toBe("at most");
		expect(u.contradiction).toBe("");
		expect(u.nextDose).toMatch(/times as much char/);
	});

	test("without any stated error a rounding below zero is no finding", () => {
		const u = one({ "titre (mL)": wholeDose });
		expect(Math.abs(u.computedUptake.in("mg/g"))).toBeLessThan(1e-6);
		expect(u.contradiction).toBe("");
	});
});

describe("a mass in the wrong unit", () => {
	const grams = one({ "char mass (g)": "1.02" });
	const slip = one({ "char mass (g)": "", "char mass (mg)": "6.2" });

	test("is asked about, and advises no more char", () => {
		expect(slip.contradiction).toMatch(
			/253\.8 mg of iodine on 6\.2 mg of char would be 41 times what the char weighs: is the unit of its mass right\?/,
		);
		expect(slip.nextDose).toBe("");
		expect(grams.contradiction).toBe("");
	});

	test("leaves no doubt that iodine was taken up: that is told in milligrams", () => {
		expect(slip.balance.takenUp.in("mg")).toBeCloseTo(dosed / 2, 6);
		// The mass alone is unsure, by more than the uptake is large.
		const loose = steps(
			[charRow("a", { "char mass (g)": "", "char mass (mg)": "6.2" })],
			undefined,
			{
				glassware: [
					{
						piece: "balance",
						"used for": "char mass",
						"readability (g)": 0.02,
					},
				],
			},
		).uptakes[0];
		const q = loose.computedUptake;
		expect(q.value).toBeLessThan(1.645 * q.standardUncertainty);
		expect(loose.uptake.is).toBe("value");
	});
});

describe("what stands on such a flask", () => {
	const sheet = (titre: number): Row[] => [
		...[5.1, 5.2, 5.3].map((t, i) => charRow(`c${i}`, { "titre (mL)": t })),
		...[3.1, 3.2, titre].map((t, i) =>
			charRow(`s${i}`, {
				treatment: "steam",
				control: "control",
				"titre (mL)": t,
			}),
		),
	];
	const judged = (titre: number) => {
		const { trial } = steps(sheet(titre));
		const comparison = compareTreatments(trial, { margin: marginOf(10) });
		return { trial, comparison, verdict: comparison.verdicts[0] };
	};

	test("no word is said of its treatment, and the page tells why and what to do", () => {
		expect(judged(3.3).verdict.word).toBe("higher");
		const { verdict, comparison } = judged(11.2);
		expect(verdict.word).toBe("cannot tell");
		expect(verdictSentence(comparison, verdict)).toContain(
			"the numbers of flask s2 cannot all be right",
		);
		expect(verdictReasons(comparison, verdict)[0]).toContain(
			"More iodine was found than was dosed",
		);
		expect(JSON.stringify(nextSteps(comparison).rows)).toContain(
			"Find out first what is wrong with them.",
		);
	});

	test("it does not enter an isotherm", () => {
		const { trial } = judged(11.2);
		const steam = isothermPoints(trial).find((p) => p.name === "steam");
		expect(steam?.leftOut.map((l) => l.flask)).toEqual(["s2"]);
		expect(steam?.leftOut[0].because).toContain("cannot all be right");
	});
});
