import { describe, expect, test } from "vitest";
import { cellText, exact, input, tableText } from "../../kernel-lib/quantity";
import * as uptake from "../../kernel-lib/uptake";
import {
	type Condition,
	conditionsOf,
} from "../../kernel-lib/uptake/iodine-number/conditions";
import type { DosagePoint } from "../../kernel-lib/uptake/iodine-number/points";
import { type Row, steps } from "./sheets";

const solutions = (iodine = 0.1, uncertainty: number | "" = 0.1): Row[] => [
	{
		solution: "iodine",
		substance: "iodine",
		"concentration (N)": iodine,
		"uncertainty (%)": uncertainty,
	},
	{
		solution: "thiosulfate",
		substance: "sodium thiosulfate",
		"concentration (N)": 0.1,
		"uncertainty (%)": uncertainty,
	},
];

/** The standard's own steps; a titre of t mL on 50 mL is a residue of t/500 N in 110 mL. */
const dosage = (
	flask: string,
	char: number,
	titre: number,
	more: Row = {},
) => ({
	flask,
	treatment: "control",
	"char mass (g)": char,
	"mass basis": "dry",
	"liquid added (mL)": 10,
	"dose (mL)": 100,
	"aliquot (mL)": 50,
	"titre (mL)": titre,
	"first runnings discarded": "yes",
	"acid boiled": "yes",
	"ground fine": "yes",
	...more,
});

/** A dosage that took up q = factor x 1000 (C/0.02)^0.15 mg/g at C (N): of 10 mmol of equivalents 110 C are left. */
const onLine = (flask: string, c: number, factor = 1, more: Row = {}): Row =>
	dosage(
		flask,
		(126.93 * (10 - 110 * c)) / (factor * 1000 * (c / 0.02) ** 0.15),
		500 * c,
		more,
	);

const numbersOf = (
	flasks: Row[],
	more: { deviations?: Row[]; solutions?: Row[] } = {},
) =>
	uptake.iodineNumbers(
		steps(flasks, more.solutions ?? solutions(), {
			deviations: more.deviations ?? [],
		}).trial,
	);

function numberOf(...args: Parameters<typeof numbersOf>) {
	const [n] = numbersOf(...args);
	if (n.is !== "value") throw new Error(n.because);
	return n;
}

const usual = (more: Row = {}): Row[] => [
	onLine("1", 0.012, 1, more),
	onLine("2", 0.02, 1.01, more),
	onLine("3", 0.033, 1, more),
];

describe("each condition, on both sides of its limit", () => {
	const point = (normality: number): DosagePoint =>
		({
			normality: input("normality", normality, "N", exact, {}),
		}) as unknown as DosagePoint;
	const stateOf = (
		word: string,
		residues: readonly number[],
		correlation = 1,
	): Condition["state"] | undefined =>
		conditionsOf([], residues.map(point), correlation).find((c) =>
			c.condition.includes(word),
		)?.state;

	test("three dosages", () => {
		expect(stateOf("dosages", [0.01, 0.02])).toBe("not met");
		expect(stateOf("dosages", [0.01, 0.02, 0.03])).toBe("met");
	});

	test.each([
		[0.00799, "not met"],
		[0.008, "met"],
		[0.04, "met"],
		[0.0401, "not met"],
	])("a residue of %s N is one of the window: %s", (c, state) => {
		expect(stateOf("residual normality", [0.01, 0.02, c])).toBe(state);
	});

	test.each([
		[0.9949, "not met"],
		[0.995, "met"],
	])("a correlation of %s: %s", (r, state) => {
		expect(stateOf("correlation", [0.01], r)).toBe(state);
	});

	test.each([
		[0.0989, "not met"],
		[0.099, "met"],
		[0.101, "met"],
		[0.1011, "not met"],
	])("iodine of %s N: %s", (strength, state) => {
		const n = numberOf(usual(), { solutions: solutions(strength) });
		const found = n.conditions.find((c) => c.condition.includes("iodine of"));
		expect(found?.state).toBe(state);
		expect(found?.found).toBe(`${strength.toFixed(4)} N`);
	});

	test("titres of exactly 4 and 20 mL stand at the window's ends and within it", () => {
		const n = numberOf([
			onLine("1", 0.008),
			onLine("2", 0.02, 1.01),
			onLine("3", 0.04),
		]);
		expect(n.conditions[1]).toEqual({
			condition: "every residual normality between 0.008 and 0.04 N",
			state: "met",
			found: "0.0080, 0.0200, 0.0400",
		});
		expect(n.nextTrial.join()).not.toContain("repeat");
	});
});

describe("what the sheet records of each flask", () => {
	const of = (records: readonly string[], column: string) => {
		const { conditions } = numberOf(
			usual().map((row, i) => ({ ...row, [column]: records[i] })),
		);
		return conditions.find((c) =>
			c.condition.includes({ "acid boiled": "boiled" }[column] ?? "ground"),
		);
	};

	test.each<[string[], string, string]>([
		[["yes", "yes", "yes"], "met", "yes"],
		[["yes", "no", "yes"], "not met", "yes, no"],
		[["no", "no", "no"], "not met", "no"],
		[["yes", "", "yes"], "not recorded", "not in the sheet"],
		[["", "", ""], "not recorded", "not in the sheet"],
		[["yes", "no", ""], "not met", "yes, no"],
	])("%s: %s", (records, state, found) => {
		for (const column of ["acid boiled", "ground fine"])
			expect(of(records, column)).toMatchObject({ state, found });
	});

	const dry = (more: Row) =>
		numberOf(usual(more)).conditions.find((c) => c.condition.includes("dry"))
			?.state;
	test("dry char: said to be dry, or with its moisture; as weighed is not recorded", () => {
		expect(dry({})).toBe("met");
		expect(dry({ "mass basis": "", "moisture, wet basis (%)": 5 })).toBe("met");
		expect(dry({ "mass basis": "" })).toBe("not recorded");
	});

	test("first runnings", () => {
		expect(
			numberOf(usual({ "first runnings discarded": "no" })).conditions.find(
				(c) => c.condition.includes("runnings"),
			)?.state,
		).toBe("not met");
	});
});

describe("the standard's own steps", () => {
	test("have every condition met, the standard's name, and the value of the line at 0.02 N", () => {
		const n = numberOf(usual());
		expect(n.conditions.map((c) => c.state)).toEqual(Array(9).fill("met"));
		expect(n.name).toBe("iodine number (ASTM D4607)");
		expect(n.line.value.in("mg/g")).toBeGreaterThan(1000);
		expect(n.line.value.in("mg/g")).toBeLessThan(1010);
		expect(n.line.slope).toBeCloseTo(0.15, 2);
		expect(n.sentence).toMatch(
			/^"control": the iodine number \(ASTM D4607\) is 100\d mg\/g \(95 % interval .*\), from 3 dosages of char\.$/,
		);
		expect(n.conditions[3].found).toBe("100 mL, 10 mL, 50 mL");
		// a percent of scatter on three dosages: nothing else is to be said
		expect(n.remarks).toEqual([
			expect.stringMatching(/^The scatter rests on 1 degree of freedom/),
		]);
	});

	test.each<[string, Row]>([
		["another dose", { "dose (mL)": 90 }],
		["more acid", { "liquid added (mL)": 20 }],
		["another aliquot", { "aliquot (mL)": 25, "titre (mL)": 5 }],
	])("are not those of the standard with one flask of %s", (_, change) => {
		const n = numberOf(
			usual().map((row) => (row.flask === "2" ? { ...row, ...change } : row)),
		);
		expect(n.name).toContain("bench scale");
		expect(n.conditions[3].state).toBe("not met");
	});

	test("ask for the strength of every iodine that was dosed", () => {
		const [iodine, thiosulfate] = solutions();
		const n = numberOf(
			usual().map((row) => ({
				...row,
				"dose 1 of": row.flask === "2" ? "strong" : "iodine",
			})),
			{
				solutions: [
					iodine,
					thiosulfate,
					{ ...iodine, solution: "strong", "concentration (N)": 0.105 },
				],
			},
		);
		expect(n.conditions[4]).toMatchObject({
			state: "not met",
			found: "0.1000, 0.1050 N",
		});
	});

	test("with one condition not met have another name, and a remark that says which", () => {
		const n = numberOf(usual({ "acid boiled": "no" }));
		expect(n.name).toMatch(/^iodine uptake at 0.02 N by the steps of/);
		expect(n.remarks).toContain(
			"Not met: boiled in the acid before dosing (found: no).",
		);
		expect(numberOf(usual({ "acid boiled": "" })).remarks).toContain(
			"Not recorded: boiled in the acid before dosing (found: not in the sheet).",
		);
	});
});

describe("remarks on the line", () => {
	const remarksOf = (flasks: Row[], uncertainty?: number) =>
		numberOf(flasks, { solutions: solutions(0.1, uncertainty) }).remarks.join(
			" ",
		);

	test.each([
		[[0.021, 0.027, 0.035], true],
		[[0.02, 0.027, 0.035], false],
		[[0.01, 0.014, 0.0199], true],
		[[0.01, 0.014, 0.02], false],
	])("residues of %s N: read outside the points: %s", (residues, told) => {
		const flasks = residues.map((c, i) => onLine(`${i}`, c));
		expect(remarksOf(flasks).includes("this is an extrapolation")).toBe(told);
	});

	const residues = [0.01, 0.014, 0.02, 0.027, 0.035];
	const scattered = (n: number): Row[] =>
		residues
			.slice(0, n)
			.map((c, i) => onLine(`${i}`, c, i % 2 === 0 ? 0.93 : 1.07));
	test.each([
		[3, "rests on 1 degree of freedom"],
		[4, "rests on 2 degrees of freedom"],
	])("of %s dosages the scatter %s", (n, words) => {
		expect(remarksOf(scattered(n))).toContain(words);
	});
	test("of five nothing is said of it", () => {
		expect(remarksOf(scattered(5))).not.toMatch(/of freedom/);
	});

	const close = (n: number): Row[] =>
		residues.slice(0, n).map((c, i) => onLine(`${i}`, c));
	test.each([
		[3, "is luck with so few (1 degree of freedom)"],
		[4, "is luck with so few (2 degrees of freedom)"],
		[5, "is luck with so few (3 degrees of freedom)"],
	])("%s dosages closer to it than they can be read: %s", (n, words) => {
		expect(remarksOf(close(n))).toContain(words);
	});
});

describe("dosages that have no place on the line", () => {
	test("are named with the reason, those left out too", () => {
		const n = numberOf(
			[
				...usual(),
				dosage("dry", 3, 0),
				// 10 mmol dosed, 11 found
				dosage("none", 0.5, 50),
				onLine("spilt", 0.02),
			],
			{
				deviations: [
					{ flask: "spilt", "what happened": "spilt", handling: "leave out" },
				],
			},
		);
		expect(n.points.map((p) => p.flask.name)).toEqual(["1", "2", "3"]);
		expect(n.remarks).toContain(
			"Flask dry is not on the line: no residue was left to measure.",
		);
		expect(n.remarks).toContain(
			"Flask none is not on the line: no uptake was measured.",
		);
		expect(n.remarks.filter((r) => r.startsWith("Flask spilt"))).toHaveLength(
			1,
		);
		expect(n.sentence).toContain("from 3 dosages");
	});

	test("so is one whose numbers cannot all be right", () => {
		// 0.05 g where 1 g was weighed: 20 g of iodine on a gram
		const wrong = onLine("wrong", 0.02, 20);
		const n = numberOf([...usual(), wrong]);
		expect(n.points.map((p) => p.flask.name)).toEqual(["1", "2", "3"]);
		expect(n.remarks.join(" ")).toMatch(
			/Flask wrong is not on the line: its numbers cannot all be right \(.* times what the char weighs/,
		);
	});

	test("a leachate that is left out is no dosage", () => {
		const leachate = {
			...dosage("L", 2, 10),
			contents: "leachate",
			"leachate (mL)": 50,
			"leachate taken (mL)": 25,
		};
		const n = numberOf([...usual(), leachate], {
			deviations: [
				{ flask: "L", "what happened": "spilt", handling: "leave out" },
			],
		});
		expect(n.remarks.join()).not.toContain("Flask L");
	});

	test("treatments are told apart, and one without a flask in use says so", () => {
		const other = { treatment: "steam", control: "control" };
		const found = numbersOf(
			[
				...usual(),
				onLine("s1", 0.01, 1.2, other),
				onLine("s2", 0.02, 1.2, other),
				dosage("s3", 3, 0, other),
			],
			{
				deviations: [
					{ flask: "s1", "what happened": "spilt", handling: "leave out" },
				],
			},
		);
		expect(found.map((n) => [n.treatment, n.is])).toEqual([
			["control", "value"],
			["steam", "not available"],
		]);
		expect(found[0].remarks.join()).not.toContain("s1");
		expect(found[1].remarks.join(" ")).toMatch(
			/Flask s3 .*Flask s1 is left out/,
		);
		expect(found[1].sentence).toBe(
			'"steam": no value at 0.02 N, because 1 of 2 dosages gave a point; a line with an error needs three at different residues.',
		);
	});

	test("iodine withdrawn on the way was not taken up", () => {
		// 5 mL of 0.1 N titre: 0.5 of the 10 meq go out; a residue of 0.02 N in the 100 mL that are left is 2 meq.
		const [p] = uptake.dosagePoints(
			steps(
				[
					{
						flask: "w",
						treatment: "control",
						"char mass (g)": 1,
						"liquid added 1 (mL)": 10,
						"dose 2 (mL)": 100,
						"withdrawn 3 (mL)": 10,
						"withdrawn 3 titre (mL)": 5,
						"aliquot (mL)": 50,
						"titre (mL)": 10,
					},
				],
				solutions(),
			).trial,
		);
		expect(p.uptake.in("mg/g")).toBeCloseTo(126.93 * (10 - 0.5 - 2), 6);
		expect(p.normality.in("N")).toBeCloseTo(0.02, 9);
	});
});

describe("advice for the next trial", () => {
	test("masses for 0.01, 0.02 and 0.03 N by the uptake that was found, and nothing to mend where all was met", () => {
		const n = numberOf(usual());
		const q = n.line.value.in("mg/g");
		const masses = [0.01, 0.02, 0.03].map((c) =>
			((126.93 * (10 - 110 * c)) / q).toFixed(3),
		);
		expect(n.nextDosages.rows).toEqual(
			["0.01", "0.02", "0.03"].map((c, i) => [c, masses[i]]),
		);
		expect(n.nextDosages.notes).toEqual([]);
		expect(n.nextTrial).toEqual([
			`"control": weigh about ${masses[0]} g, ${masses[1]} g and ${masses[2]} g of char.`,
			expect.stringContaining(
				"most of the uncertainty comes from single flasks",
			),
		]);
	});

	test("what is shared by all dosages is not made smaller by more of them", () => {
		const advice = (percent: number) =>
			numberOf(usual(), { solutions: solutions(0.1, percent) }).nextTrial[1];
		expect(advice(5)).toContain("shared by all dosages");
		expect(advice(0.1)).toContain("comes from single flasks");
	});

	test("dosages outside the window are to be repeated, on either side of it", () => {
		const n = numberOf([
			onLine("low", 0.007),
			onLine("at", 0.02, 1.01),
			onLine("within", 0.03),
			onLine("high", 0.045),
		]);
		expect(n.nextTrial).toContain(
			'"control": repeat the dosages outside the window (flask low, high).',
		);
		expect(numberOf(usual()).nextTrial.join()).not.toContain("repeat");
	});

	test("what was not written down and what was not met are two things", () => {
		const said = numberOf(
			usual({ "acid boiled": "", "ground fine": "no" }),
		).nextTrial;
		expect(said.slice(2)).toEqual([
			'"control": write down: boiled in the acid before dosing.',
			'"control": the standard asks for: ground fine (95 % through 45 µm; from memory, check your copy).',
		]);
	});

	/** 10 mL of 0.1 N in 100 mL: no more than 0.01 N can be left. */
	const small = (flask: string, char: number, titre: number): Row =>
		dosage(flask, char, titre, {
			"liquid added (mL)": 90,
			"dose (mL)": 10,
		});

	test("a dose that cannot leave such residues is too small, and no mass is named", () => {
		const n = numberOf([
			small("1", 0.1, 1),
			small("2", 0.08, 1.5),
			small("3", 0.06, 2),
		]);
		expect(n.nextDosages.rows).toEqual([]);
		expect(n.nextDosages.notes.join()).toContain("dose more iodine");
		expect(n.nextTrial[0]).toMatch(
			/^"control": The dose of this trial cannot leave/,
		);
	});

	test("nor where all dosages ended at one residue", () => {
		const [n] = numbersOf(["1", "2", "3"].map((f) => small(f, 0.1, 1)));
		expect(n.is === "not available" && n.weighInstead).toMatch(
			/^The dose of this trial cannot leave/,
		);
	});

	test("where all dosages ended at one residue the masses stand in one sentence", () => {
		const [n] = numbersOf(["1", "2", "3"].map((f) => onLine(f, 0.02)));
		// 1000 mg/g at 0.02 N
		const [a, b, c] = [0.01, 0.02, 0.03].map((x) =>
			(0.12693 * (10 - 110 * x)).toFixed(3),
		);
		expect(n.is === "not available" && n.weighInstead).toBe(
			`From the mean of 1000 mg/g, weigh ${a} g for a residue near 0.01 N, ${b} g for a residue near 0.02 N, ${c} g for a residue near 0.03 N.`,
		);
	});

	test("two dosages are too few, with nothing else to tell", () => {
		const [n] = numbersOf([onLine("1", 0.02), onLine("2", 0.03)]);
		expect(n.nextTrial).toEqual([
			'"control": weigh three dosages or more that leave residues between 0.008 and 0.04 N.',
		]);
	});

	test("two dosages are too few: weigh three, and the flasks that gave no point are told", () => {
		const [n] = numbersOf([
			onLine("1", 0.02),
			onLine("2", 0.03),
			dosage("dry", 3, 0),
		]);
		expect(n.nextTrial).toEqual([
			'"control": weigh three dosages or more that leave residues between 0.008 and 0.04 N. Flask dry is not on the line: no residue was left to measure.',
		]);
	});

	test.each(["first", "last"])(
		"the largest dose leaves the most room, be it the %s",
		(which) => {
			const usualDoses = [onLine("1", 0.012), onLine("2", 0.02, 1.01)];
			// 15 meq in 160 mL, a residue of 0.033 N
			const large = dosage(
				"3",
				(126.93 * (15 - 160 * 0.033)) / (1000 * (0.033 / 0.02) ** 0.15),
				16.5,
				{ "dose (mL)": 150 },
			);
			const n = numberOf(
				which === "first" ? [large, ...usualDoses] : [...usualDoses, large],
			);
			const q = n.line.value.in("mg/g");
			expect(Number(n.nextDosages.rows[0][1])).toBeCloseTo(
				(126.93 * (15 - 160 * 0.01)) / q,
				2,
			);
		},
	);

	test("what is in a char that is not known is a condition on the advice", () => {
		const [n] = numbersOf(usual({ "soaked in": "kitchen magic" }));
		const said = n.nextTrial;
		expect(said[0]).toContain("weigh about");
		expect(said[said.length - 1]).toMatch(
			/^"control": Do so only if the char surely holds no ammonia/,
		);
	});

	test("of a char that may hold ammonia no mass is named, whether it has a number or not", () => {
		const ammonia = { "soaked in": "ammonia" };
		const n = numberOf(usual(ammonia));
		expect(n.nextDosages.notes.join()).toContain("do not dose");
		expect(n.nextTrial).toEqual([
			expect.stringMatching(/^"control": do not dose; rinse out/),
		]);
		const [none] = numbersOf(
			["1", "2", "3"].map((f) => onLine(f, 0.02, 1, ammonia)),
		);
		expect(none.is === "not available" && none.weighInstead).toBe("");
	});

	test.each([
		["bleach", /chlorine, which kills/],
		["sodium sulfide", /hydrogen sulfide/],
		["KCN", /hydrogen cyanide/],
	])("a char soaked in %s is not advised to be boiled in acid", (soak, why) => {
		const n = numberOf(usual({ "soaked in": soak }));
		expect(n.nextTrial).toEqual([
			expect.stringMatching(/^"control": Do not boil it in acid/),
		]);
		expect(n.nextTrial[0]).toMatch(why);
		expect(n.nextDosages.rows).toEqual([]);
		expect(n.nextDosages.notes.join()).toMatch(why);
	});

	test.each(["KNO3", "permanganate", "H2O2"])(
		"a char soaked in %s is not advised to be dried in an oven",
		(soak) => {
			const n = numberOf(usual({ "soaked in": soak }));
			expect(n.nextTrial).toEqual([
				expect.stringMatching(
					/^"control": .*Do not dry it in an oven.*gunpowder.* Nothing else is advised/,
				),
			]);
			expect(n.nextDosages.notes.join()).toMatch(/Do not dry it in an oven/);
		},
	);

	test("one soaked in potash or vinegar is", () => {
		for (const soak of ["potash", "vinegar", "water"]) {
			const n = numberOf(usual({ "soaked in": soak }));
			expect(n.nextTrial.join()).not.toMatch(/Do not (?:boil|dry)/);
			expect(n.nextDosages.rows.length).toBeGreaterThan(0);
		}
	});
});

describe("one dosage by itself, at the ends of the window", () => {
	const remarks = (titre: number) =>
		uptake
			.singleDoses(steps([dosage("1", 0.8, titre)], solutions()).trial)[0]
			.remarks.join();
	// 500 C mL
	test.each([
		[3.95, "weigh less char"],
		[4, ""],
		[20, ""],
		[20.05, "weigh more char"],
	])("a titre of %s mL", (titre, words) => {
		expect(remarks(titre) === "").toBe(words === "");
		expect(remarks(titre)).toContain(words);
	});

	const { trial } = steps(usual(), solutions());
	test.each([
		[0, 1, true],
		[0.2, 0.2, true],
		[-0.01, 0.5, false],
		[0.5, 1.01, false],
		[0.21, 0.2, false],
	])("a slope from %s to %s is one: %s", (low, high, is) => {
		const read = () => uptake.singleDoses(trial, { low, high });
		if (is) expect(read()).toHaveLength(3);
		else expect(read).toThrow(/between 0 and 1, low end first/);
	});

	test("the slope is a rectangular error of half its range over the square root of 3", () => {
		const variance = (low: number, high: number): number =>
			uptake.singleDoses(trial, { low, high })[0].at0_02N.quantity.to("mg/g")
				.standardUncertainty ** 2;
		const [{ at0_02N, point }] = uptake.singleDoses(trial, {
			low: 0.2,
			high: 0.2,
		});
		const bySlope =
			Math.log(0.02 / point.normality.in("N")) *
			at0_02N.quantity.in("mg/g") *
			(0.1 / Math.sqrt(3));
		expect(variance(0.1, 0.3) - variance(0.2, 0.2)).toBeCloseTo(
			bySlope ** 2,
			6,
		);
	});

	test("the table has a line a dosage and tells the slope once", () => {
		const text = uptake.singleDoses(trial).table;
		expect(text.rows.map((r) => [r[0], r[1]])).toEqual([
			["1", "control"],
			["2", "control"],
			["3", "control"],
		]);
		expect(text.notes[0]).toContain("along an assumed slope of 0.1 to 0.3");
		expect(text.notes).toHaveLength(2);
	});

	test("a dry flask's bound is what was dosed less what a drop could hide, at no slope", () => {
		const { trial: ran } = steps([dosage("1", 3, 0)], solutions());
		const [dry] = uptake.singleDoses(ran);
		expect(dry.at0_02N.is).toBe("at least");
		// 0.05 mL of 0.1 N on 50 mL: 0.0001 N in 110 mL
		expect(dry.at0_02N.quantity.in("mg/g")).toBeCloseTo(
			(126.93 * (10 - 0.011)) / 3,
			6,
		);
		expect(dry.remarks.join()).toContain("It ran dry");
		for (const table of [
			uptake.iodineNumbers(ran).dosages,
			uptake.singleDoses(ran).table,
		])
			expect(tableText(table)).toMatch(/at most 0\.00010*\D.*at least 422\./);
	});
});

describe("tables", () => {
	const other = { treatment: "steam", control: "control" };
	const found = () => {
		const numbers = numbersOf([...usual(), onLine("s", 0.02, 1, other)]);
		const [value, none] = numbers;
		if (value.is !== "value") throw new Error("no value");
		return { numbers, value, none };
	};

	test("numbers side by side, with what each remark is about", () => {
		const { numbers, value } = found();
		const { rows, notes } = numbers.table;
		const { line } = value;
		expect(rows[0]).toEqual([
			"control",
			value.name,
			line.value.in("mg/g").toFixed(0),
			`${line.low.toFixed(0)} to ${line.high.toFixed(0)}`,
			line.scatter.toFixed(1),
			line.readings.toFixed(1),
			line.shared.toFixed(1),
			line.slope.toFixed(3),
			line.correlation.toFixed(4),
		]);
		expect(rows[1].slice(0, 3)).toEqual([
			"steam",
			"not available",
			"1 of 1 dosages gave a point; a line with an error needs three at different residues",
		]);
		expect(notes).toEqual(value.remarks.map((r) => `"control": ${r}`));
	});

	test("conditions, or why there are none", () => {
		const { value, none } = found();
		const table = value.conditionTable;
		expect(table.rows).toHaveLength(9);
		expect(table.notes.join()).toContain("check them against your copy");
		expect(table.notes.join()).toContain("whoever signs the figure");
		const empty = none.conditionTable;
		expect(empty.rows).toEqual([]);
		expect(empty.notes.join()).toContain("1 of 1 dosages");
	});

	test("the rough area: 0.21 to 0.4 nm² for each of 2.3727e18 molecules in a milligram", () => {
		const { numbers, value } = found();
		const { rows } = numbers.roughSurfaceAreas;
		const two = (x: number) => Number(x.toPrecision(2));
		expect(rows[0][2]).toBe(
			`somewhere between ${two(value.line.low * 0.21 * 2.3727)} and ${two(value.line.high * 0.4 * 2.3727)}`,
		);
		expect(rows[1].slice(0, 2)).toEqual(["steam", "not available"]);
	});

	test("dosages, with what each left and took up", () => {
		const { rows } = numbersOf(usual()).dosages;
		expect(rows.map((r) => r[0])).toEqual(["1", "2", "3"]);
		expect(cellText(rows[1][2], "residue C (N)")).toMatch(/^0\.0200/);
		expect(cellText(rows[1][3], "uptake X/M (mg/g)")).toMatch(/^1010/);
	});
});

describe("the mass for a residue", () => {
	test("a residue that takes all of the dose is refused", () => {
		const volumes = { iodine: 100, acid: 0, iodineNormality: 0.1 };
		expect(() => uptake.dosageFor(1000, 0.1, volumes)).toThrow(
			/column "residual normality".*more iodine than is dosed/s,
		);
		expect(() => uptake.dosageFor(0, 0.02)).toThrow(
			/column "expected uptake".*0 mg\/g/s,
		);
		expect(uptake.dosageFor(1000, 0.0999, volumes)).toBeGreaterThan(0);
	});
});
