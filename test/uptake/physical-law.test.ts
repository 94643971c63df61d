import { describe, expect, test } from "vitest";
import { compareTreatments, marginOf } from "../../kernel-lib/compare";
import { isothermPoints } from "../../kernel-lib/isotherms/index";
import { exact, input, normal } from "../../kernel-lib/quantity";
import { recoveryContradiction } from "../../kernel-lib/uptake/physical-law";
import {
	nextSteps,
	verdictReasons,
	verdictSentence,
} from "../../kernel-lib/words";
import { charRow, plainSolutions, type Row, steps } from "./sheets";

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
			const { uptakes } = steps([charRow("a", { "titre (mL)": titre })]);
			const [u] = uptakes;
			expect(u.uptake.is).toBe("value");
			expect(u.uptake.quantity.in("mg/g")).toBeCloseTo(
				dosed * (1 - titre / wholeDose),
				6,
			);
			expect(u.contradiction).toContain("More iodine was found than was dosed");
			expect(u.contradiction).toContain("507.6 mg dosed");
			expect(u.nextDose).toBe("");
			const [row] = uptakes.table.rows;
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

describe("what blanks without char held of their dose", () => {
	const recovery = (share: number, u = 0) =>
		recoveryContradiction(
			"iodine",
			["i", "j"],
			input("ratio", share, "1", u === 0 ? exact : normal(u), {}),
		);

	test.each([
		[0.599, 0, "Without char, i, j held 59.9 % of the iodine dosed."],
		[0.6, 0, ""],
		[1.25, 0, ""],
		[1.26, 0, "Without char, i, j held 126 % of the iodine dosed."],
		// three standard uncertainties are allowed for
		[0.571, 0.01, ""],
		[0.569, 0.01, "held 56.9 %"],
		[1.279, 0.01, ""],
		[1.281, 0.01, "held 128 %"],
	])("a recovery of %s with an error of %s", (share, u, words) => {
		expect(recovery(share, u).found === "").toBe(words === "");
		expect(recovery(share, u).found).toContain(words);
	});

	test("a usual slip is named, and nothing is made up where there is none", () => {
		expect(recovery(0.5).likelyCause).toMatch(
			/^Likely cause: normality for molarity.*\. Look at the dose/,
		);
		// a third is no slip that is known
		expect(recovery(0.33).likelyCause).toMatch(/^Look at the dose/);
	});

	const blank = (flask: string, day: string, titre: number): Row => ({
		flask,
		contents: "iodine blank",
		day,
		"dose (mL)": 40,
		"made up to (mL)": 100,
		"aliquot (mL)": 25,
		"titre (mL)": titre,
	});

	test("count for the flasks of their day, and for no others", () => {
		const { uptakes } = steps([
			charRow("a", { day: "1" }),
			charRow("b", { day: "2" }),
			charRow("c", { day: "3" }),
			blank("i", "1", 5),
			blank("j", "2", 0),
			blank("k", "2", 0),
			blank("l", "3", 9),
		]);
		expect(uptakes.map((u) => u.contradiction)).toEqual([
			"Without char, i held 50 % of the iodine dosed.",
			"j, k, without char, held no iodine that could be measured.",
			"",
		]);
		expect(uptakes[1].likelyCause).toContain("the unit of the titres");
	});

	test("nothing is advised to a dry flask on such a day", () => {
		const { uptakes } = steps([
			charRow("a", { day: "1", "titre (mL)": 0 }),
			charRow("b", { day: "2", "titre (mL)": 0 }),
			blank("i", "1", 0),
		]);
		expect(uptakes.map((u) => u.nextDose === "")).toEqual([true, false]);
	});

	test("one that ran dry counts though another of its day did not", () => {
		const { uptakes } = steps([
			charRow("a", { day: "1" }),
			blank("i", "1", 9),
			blank("j", "1", 0),
		]);
		expect(uptakes[0].contradiction).toBe(
			"j, without char, held no iodine that could be measured.",
		);
	});
});

describe("the strengths of solutions", () => {
	const [iodine, thiosulfate] = plainSolutions;
	const strong: Row = {
		...iodine,
		solution: "strong",
		"concentration (mol/L)": 50,
	};
	/** Found to be 0.1 mol/L, nominally 1. */
	const odd: Row = {
		...thiosulfate,
		solution: "odd",
		"concentration (mol/L)": 1,
		"standardised against": "iodine",
		"aliquot (mL)": 10,
		"titre 1 (mL)": 10,
	};
	const found = (change: Row) =>
		steps(
			[
				charRow("a", {
					"dose 1 of": "iodine",
					"titrated with": "thiosulfate",
					...change,
				}),
			],
			[iodine, thiosulfate, strong, odd],
		).uptakes[0].contradiction;

	test("count where the flask was dosed or titrated with them", () => {
		expect(found({})).toBe("");
		expect(found({ "dose 1 of": "strong" })).toContain(
			'"strong" would hold 50 mol/L',
		);
		expect(found({ "titrated with": "odd" })).toContain(
			'"odd" was found to be 0.1 mol/L',
		);
	});

	test("come first, for they explain what follows from them", () => {
		// 2 mmol in the flask would take a hundredth of the titre: more is found than was dosed.
		const weak: Row = {
			...strong,
			solution: "weak",
			"concentration (mol/L)": 0.0005,
		};
		const { contradiction } = steps(
			[charRow("a", { "dose 1 of": "weak", "titrated with": "odd" })],
			[iodine, weak, odd],
		).uptakes[0];
		expect(contradiction).toContain('"odd" was found to be 0.1 mol/L');
		expect(contradiction).not.toContain("More iodine");
	});
});

describe("the likely cause goes with the law", () => {
	test.each<[string, Row, RegExp]>([
		["more found than dosed", { "titre (mL)": 30 }, /the dose \(its unit/],
		[
			"more on the char than it can hold",
			{ "char mass (g)": "", "char mass (mg)": "6.2" },
			/g typed under mg/,
		],
		["nothing", {}, /^$/],
	])("%s", (_, change, cause) => {
		expect(one(change).likelyCause).toMatch(cause);
	});
});
