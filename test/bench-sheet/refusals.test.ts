import { describe, expect, test } from "vitest";
import type { TypedRow, TypedRows } from "../../kernel-lib/bench/index";
import { trialFromRows } from "../../kernel-lib/bench/index";
import { problemText } from "../../kernel-lib/quantity/index";
import {
	brief,
	changed,
	char,
	problemsOf,
	soundFlasks,
	soundSolutions,
	withSolutions,
} from "./rows";

/** What is wrong, the rows, and all problems that must come out, each as "table row column: code". */
type Case = readonly [string, TypedRows, readonly string[]];

function all(cases: readonly Case[]): void {
	for (const [name, rows, expected] of cases)
		test(name, () => {
			expect(problemsOf(rows).map(brief)).toEqual(expected);
		});
}

const flask = (name: string, change: TypedRow): TypedRows =>
	changed(name, change);
const [iodine, thio] = soundSolutions;

test("the sound sheet has no problems", () => {
	expect(problemsOf(changed("c1", {}))).toEqual([]);
});

describe("cells", () => {
	all([
		[
			"a negative mass",
			flask("c2", { "char mass (g)": -1.02 }),
			["flasks 3 char mass (g): negative"],
		],
		[
			"a mass of zero",
			flask("c2", { "char mass (g)": 0 }),
			["flasks 3 char mass (g): char-mass-zero"],
		],
		[
			"words for nothing",
			flask("c2", { "titre 1 (mL)": "n/a" }),
			["flasks 3 titre 1 (mL): no-value"],
		],
		[
			"a dash",
			flask("c2", { "titre 1 (mL)": "-" }),
			["flasks 3 titre 1 (mL): no-value"],
		],
		[
			"less than",
			flask("c2", { "titre 1 (mL)": "<0.05" }),
			["flasks 3 titre 1 (mL): less-than"],
		],
		[
			"more than",
			flask("c2", { "titre 1 (mL)": "> 50" }),
			["flasks 3 titre 1 (mL): more-than"],
		],
		[
			"about",
			flask("c2", { "titre 1 (mL)": "ca. 5" }),
			["flasks 3 titre 1 (mL): approximate"],
		],
		[
			"about, by a sign",
			flask("c2", { "titre 1 (mL)": "~5" }),
			["flasks 3 titre 1 (mL): approximate"],
		],
		[
			"value and uncertainty",
			flask("c2", { "titre 1 (mL)": "5.2 ± 0.1" }),
			["flasks 3 titre 1 (mL): uncertainty-in-cell"],
		],
		[
			"another unit in the cell",
			flask("c2", { "char mass (g)": "1020 mg" }),
			["flasks 3 char mass (g): unit-in-cell"],
		],
		[
			"thousands and decimals",
			flask("c2", { "char mass (g)": "1.234,5" }),
			["flasks 3 char mass (g): number-ambiguous"],
		],
		[
			"a comma that may be for thousands",
			flask("c2", { "char mass (g)": "1,020" }),
			["flasks 3 char mass (g): number-ambiguous"],
		],
		[
			"a point that may be for thousands, in a table with decimal commas",
			flask("c2", { "char mass (g)": "1.020", "titre 1 (mL)": "5,3" }),
			["flasks 3 char mass (g): number-ambiguous"],
		],
		[
			"a spreadsheet error",
			flask("c2", { "char mass (g)": "#DIV/0!" }),
			["flasks 3 char mass (g): spreadsheet-error"],
		],
		[
			"a spreadsheet error in a text",
			flask("c2", { sample: "#REF!" }),
			["flasks 3 sample: spreadsheet-error"],
		],
		[
			"a word",
			flask("c2", { "char mass (g)": "heavy" }),
			["flasks 3 char mass (g): not-a-number"],
		],
		[
			"a number that is none",
			flask("c2", { "char mass (g)": Number.POSITIVE_INFINITY }),
			["flasks 3 char mass (g): cell-unreadable"],
		],
		[
			"an invalid date",
			flask("c2", { "dosed at": "2031-02-30" }),
			["flasks 3 dosed at: not-a-date"],
		],
		[
			"a date in another order",
			flask("c2", { "dosed at": "3.5.2031" }),
			["flasks 3 dosed at: not-a-date"],
		],
		[
			"an unknown word where one of a few is meant",
			flask("c2", { contents: "blank" }),
			["flasks 3 contents: not-a-choice"],
		],
		[
			"neither yes nor no",
			flask("c2", { acidified: "a little" }),
			["flasks 3 acidified: not-a-choice"],
		],
		[
			"a pH of 70",
			flask("c2", { "final pH": 70 }),
			["flasks 3 final pH: out-of-range"],
		],
		[
			"everything at once, in the order of the rows",
			{
				flasks: [
					char("a", "control", 5, { "char mass (g)": -1 }),
					char("b", "potash", 5, { "aliquot (mL)": "x", day: "" }),
				],
				solutions: [{ ...iodine, "concentration (N)": "strong" }, thio],
				deviations: [{ flask: "z", "what happened": "spilt" }],
				glassware: [{ piece: "burette", "used for": "tea", "size (mL)": 50 }],
			},
			[
				"flasks 2 char mass (g): negative",
				"flasks 3 aliquot (mL): no-value",
				"solutions 2 concentration (N): not-a-number",
				"deviations 2 flask: flask-not-found",
				"glassware 2 used for: use-unknown",
			],
		],
	]);

	test("zero is a titre, an empty cell is not", () => {
		expect(problemsOf(flask("c2", { "titre 1 (mL)": 0 }))).toEqual([]);
		expect(problemsOf(flask("c2", { "titre 1 (mL)": "" })).map(brief)).toEqual([
			"flasks 3 titre 1 (mL): cell-missing",
		]);
	});

	test("the column's own unit in a cell is fine", () => {
		expect(problemsOf(flask("c2", { "char mass (g)": "1.02 g" }))).toEqual([]);
		expect(problemsOf(flask("c2", { "aliquot (mL)": "25 ml" }))).toEqual([]);
	});

	test("identical readings in two rows are fine", () => {
		expect(
			problemsOf(flask("c2", { "titre 1 (mL)": 5.2, "char mass (g)": 1.02 })),
		).toEqual([]);
	});
});

describe("heads of columns", () => {
	const renamed = (from: string, to: string): TypedRows => ({
		flasks: soundFlasks.map((row) =>
			Object.fromEntries(
				Object.entries(row).map(([k, v]) => [k === from ? to : k, v]),
			),
		),
		solutions: soundSolutions,
	});
	all([
		[
			"no unit where one is needed",
			renamed("char mass (g)", "char mass"),
			["flasks 1 char mass: unit-missing"],
		],
		[
			"a unit of another kind",
			renamed("char mass (g)", "char mass (mL)"),
			["flasks 1 char mass (mL): unit-unknown"],
		],
		[
			"nearly a column that counts",
			renamed("dose 1 (mL)", "dosse 1 (mL)"),
			[
				"flasks 1 dosse 1 (mL): column-unclear",
				"flasks 1 dose 1 (mL): column-missing",
			],
		],
		[
			"a whole column that is missing is one problem",
			renamed("aliquot (mL)", "part (mL)"),
			["flasks 1 aliquot (mL): column-missing"],
		],
		[
			"no column of names",
			renamed("flask", "shelf"),
			["flasks 1 flask: column-missing", "flasks 1 flask: column-missing"],
		],
		[
			"two heads for one thing filled in one row",
			flask("c2", { "char mass (mg)": 1020 }),
			["flasks 3 char mass (mg): cell-twice"],
		],
	]);

	test("the units that would do are named", () => {
		const [p] = problemsOf(renamed("char mass (g)", "char mass"));
		expect(p.expected).toContain("g, mg, µg, kg");
		expect(p.mend).toContain('"char mass (g)"');
	});

	test("a near miss of a column that does not count is carried along with a question", () => {
		const trial = trialFromRows(flask("c2", { sampel: "ash" }));
		expect(trial.assumptions.join("\n")).toContain('did you mean "sample"?');
		expect(trial.flasks[1].extra).toEqual({ sampel: "ash" });
	});
});

describe("flasks", () => {
	const twice = [...soundFlasks, char("c1", "control", 5)];
	all([
		[
			"a name used twice",
			{ flasks: twice, solutions: soundSolutions },
			["flasks 9 flask: flask-twice"],
		],
		[
			"two names that differ in case",
			flask("c2", { flask: "C1 " }),
			["flasks 3 flask: flask-spelling"],
		],
		["no name", flask("c2", { flask: "" }), ["flasks 3 flask: cell-missing"]],
		[
			"no treatment",
			flask("c2", { treatment: "" }),
			["flasks 3 treatment: cell-missing"],
		],
		[
			"no char mass",
			flask("c2", { "char mass (g)": "" }),
			["flasks 3 char mass (g): cell-missing"],
		],
		[
			"no dose",
			flask("c2", { "dose 1 (mL)": "" }),
			["flasks 3 dose 1 (mL): cell-missing"],
		],
		[
			"char in an iodine blank",
			flask("i1", { "char mass (g)": 1 }),
			["flasks 7 char mass (g): blank-with-char"],
		],
		[
			"a dose in a reagent blank",
			flask("r1", { "dose 1 (mL)": 10 }),
			["flasks 6 dose 1 (mL): reagent-blank-dosed"],
		],
		[
			"a leachate without its volume",
			flask("l1", { "leachate (mL)": "" }),
			["flasks 8 leachate (mL): cell-missing"],
		],
		[
			"more leachate taken than there was",
			flask("l1", { "leachate (mL)": 20 }),
			["flasks 8 leachate taken (mL): leachate-too-small"],
		],
		[
			"a leachate of a treatment that no flask has",
			flask("l1", { treatment: "soda" }),
			["flasks 8 treatment: leachate-without-char"],
		],
		[
			"no flask with char",
			{ flasks: soundFlasks.slice(4, 6), solutions: soundSolutions },
			["flasks 0 : no-char"],
		],
	]);

	test("a name used twice names both rows", () => {
		const [p] = problemsOf({ flasks: twice, solutions: soundSolutions });
		expect(p.found).toContain("rows 2 and 9");
	});
});

describe("moisture", () => {
	all([
		[
			"without a basis",
			flask("c2", { "moisture (%)": 5 }),
			["flasks 3 moisture (%): moisture-without-basis"],
		],
		[
			"without a unit",
			flask("c2", { "moisture, wet basis": 0.5 }),
			["flasks 1 moisture, wet basis: unit-missing"],
		],
		[
			"of 100 % on the wet basis",
			flask("c2", { "moisture, wet basis (%)": 100 }),
			["flasks 3 moisture, wet basis (%): out-of-range"],
		],
		[
			"a percentage under the head of a fraction",
			flask("c2", { "moisture, wet basis (fraction)": 5 }),
			["flasks 3 moisture, wet basis (fraction): out-of-range"],
		],
		[
			"negative",
			flask("c2", { "moisture, dry basis (%)": -1 }),
			["flasks 3 moisture, dry basis (%): negative"],
		],
		[
			"on both bases",
			flask("c2", {
				"moisture, wet basis (%)": 5,
				"moisture, dry basis (%)": 5.3,
			}),
			["flasks 3 moisture, dry basis (%): moisture-twice"],
		],
	]);

	test("with its basis in a column of its own", () => {
		const trial = trialFromRows(
			flask("c2", { "moisture (%)": 5, "moisture basis": "dry" }),
		);
		const { moisture } = trial.flasks[1];
		expect(moisture.recorded && moisture.value.basis).toBe("dry");
		expect(moisture.recorded && moisture.value.fraction.in("1")).toBeCloseTo(
			0.05,
			12,
		);
	});
});

describe("liquids", () => {
	all([
		[
			"an aliquot larger than the liquid",
			flask("c2", { "made up to (mL)": "", "aliquot (mL)": 41 }),
			["flasks 3 aliquot (mL): aliquot-too-large"],
		],
		[
			"aliquots of duplicates together larger than the liquid",
			flask("c2", { "aliquot (mL)": 51, "titre 2 (mL)": 5.1 }),
			["flasks 3 aliquot (mL): aliquots-too-large"],
		],
		[
			"made up below what was in it",
			flask("c2", { "made up to (mL)": 30 }),
			["flasks 3 made up to (mL): made-up-below-liquid"],
		],
		[
			"withdrawn more than there was",
			{
				flasks: [
					{
						flask: "a",
						treatment: "control",
						"char mass (g)": 1,
						"dose 1 (mL)": 10,
						"withdrawn 1 (mL)": 12,
						"withdrawn 1 titre (mL)": 1,
						"dose 2 (mL)": 30,
						"aliquot (mL)": 5,
						"titre (mL)": 4,
					},
				],
				solutions: soundSolutions,
			},
			["flasks 2 withdrawn 1 (mL): withdrawn-too-large"],
		],
		[
			"a withdrawal without a titre",
			flask("c2", { "withdrawn 1 (mL)": 2 }),
			["flasks 3 withdrawn 1 titre: withdrawal-without-titre"],
		],
		[
			"a titre of a withdrawal without its volume",
			flask("c2", { "withdrawn 1 titre (mL)": 2 }),
			["flasks 3 withdrawn 1: half-filled"],
		],
		[
			"more titrated than withdrawn",
			flask("c2", {
				"withdrawn 1 (mL)": 2,
				"withdrawn 1 titre (mL)": 0.2,
				"withdrawn 1 aliquot (mL)": 3,
			}),
			["flasks 3 withdrawn 1 aliquot (mL): aliquot-too-large"],
		],
		[
			"made up beyond the vessel",
			{
				...changed("c1", {}),
				glassware: [
					{
						piece: "flask",
						"used for": "made up",
						"size (mL)": 50,
						class: "A",
					},
				],
			},
			[2, 3, 4, 5, 7, 8].map(
				(r) => `flasks ${r} made up to (mL): beyond-vessel`,
			),
		],
	]);

	test("the whole of the liquid may be titrated", () => {
		expect(
			problemsOf(flask("c2", { "made up to (mL)": "", "aliquot (mL)": 40 })),
		).toEqual([]);
		expect(
			problemsOf(flask("c2", { "aliquot (mL)": 50, "titre 2 (mL)": 5.1 })),
		).toEqual([]);
	});

	test("what was withdrawn is not there any more", () => {
		const [p] = problemsOf(
			flask("c2", {
				"made up to (mL)": "",
				"withdrawn 1 (mL)": 10,
				"withdrawn 1 titre (mL)": 1,
				"aliquot (mL)": 31,
			}),
		);
		expect(brief(p)).toBe("flasks 3 aliquot (mL): aliquot-too-large");
		expect(p.expected).toBe("at most 30 mL");
	});

	test("what happens later does not count for what was withdrawn before", () => {
		const before = {
			flask: "a",
			treatment: "control",
			"char mass (g)": 1,
			"dose 1 (mL)": 10,
			"dose 2 (mL)": 30,
			"withdrawn 1 (mL)": 12,
			"withdrawn 1 titre (mL)": 1,
			"aliquot (mL)": 5,
			"titre (mL)": 4,
		};
		expect(problemsOf({ flasks: [before], solutions: soundSolutions })).toEqual(
			[],
		);
	});
});

describe("burettes", () => {
	const read = (change: TypedRow): TypedRows =>
		flask("c2", { "titre 1 (mL)": "", ...change });
	all([
		[
			"backwards without a refill",
			read({ "burette start 1 (mL)": 40, "burette end 1 (mL)": 5 }),
			["flasks 3 burette end 1 (mL): burette-backwards"],
		],
		[
			"backwards before the refill",
			read({
				"burette start 1 (mL)": 40,
				"refilled at 1 (mL)": 30,
				"refilled to 1 (mL)": 0,
				"burette end 1 (mL)": 5,
			}),
			["flasks 3 refilled at 1 (mL): burette-backwards"],
		],
		[
			"backwards after the refill",
			read({
				"burette start 1 (mL)": 40,
				"refilled at 1 (mL)": 48,
				"refilled to 1 (mL)": 9,
				"burette end 1 (mL)": 5,
			}),
			["flasks 3 burette end 1 (mL): burette-backwards"],
		],
		[
			"an end beyond its size",
			read({ "burette start 1 (mL)": 40, "burette end 1 (mL)": 51 }),
			["flasks 3 burette end 1 (mL): beyond-burette"],
		],
		[
			"an end beyond the size that the sheet names",
			{
				...read({ "burette start 1 (mL)": 10, "burette end 1 (mL)": 26 }),
				glassware: [{ piece: "burette", "used for": "titre", "size (mL)": 25 }],
			},
			["flasks 3 burette end 1 (mL): beyond-burette"],
		],
		[
			"a start without an end",
			read({ "burette start 1 (mL)": 4 }),
			["flasks 3 burette end 1: half-filled"],
		],
		[
			"a refill without the reading after it",
			read({
				"burette start 1 (mL)": 4,
				"burette end 1 (mL)": 9,
				"refilled at 1 (mL)": 7,
			}),
			["flasks 3 refilled to 1: half-filled"],
		],
		[
			"a titre beside readings that make another",
			flask("c2", { "burette start 1 (mL)": 4, "burette end 1 (mL)": 9 }),
			["flasks 3 titre 1 (mL): titre-disagrees"],
		],
	]);

	test("a refilled burette may end below its start", () => {
		expect(
			problemsOf(
				read({
					"burette start 1 (mL)": 45,
					"refilled at 1 (mL)": 50,
					"refilled to 1 (mL)": 1,
					"burette end 1 (mL)": 6,
				}),
			),
		).toEqual([]);
	});

	test("a titre that agrees with the readings beside it is fine, with a refill too", () => {
		expect(
			problemsOf(
				flask("c2", {
					"burette start 1 (mL)": 47,
					"refilled at 1 (mL)": 50,
					"refilled to 1 (mL)": 0.2,
					"burette end 1 (mL)": 2.5,
				}),
			),
		).toEqual([]);
		expect(
			problemsOf(
				flask("c2", { "burette start 1 (mL)": 4, "burette end 1 (mL)": 9.3 }),
			),
		).toEqual([]);
	});
});

describe("times", () => {
	all([
		[
			"titrated before dosed",
			flask("c2", {
				"dosed at": "2031-05-03 14:00",
				"titrated at": "2031-05-03 13:59",
			}),
			["flasks 3 titrated at: titrated-before-dosed"],
		],
		[
			"titrated a day before, dates only",
			flask("c2", { "dosed at": "2031-05-03", "titrated at": "2031-05-02" }),
			["flasks 3 titrated at: titrated-before-dosed"],
		],
	]);

	const withdrawn = (one: string, two = ""): TypedRows =>
		flask("c2", {
			"withdrawn 1 (mL)": 2,
			"withdrawn 1 titre (mL)": 0.2,
			"withdrawn 1 at": one,
			"withdrawn 2 (mL)": 2,
			"withdrawn 2 titre (mL)": 0.2,
			"withdrawn 2 at": two,
			"dosed at": "2031-05-03 13:00",
			"titrated at": "2031-05-03 15:00",
		});
	all([
		[
			"withdrawn before dosed",
			withdrawn("2031-05-03 12:59"),
			["flasks 3 withdrawn 1 at: withdrawn-out-of-time"],
		],
		[
			"withdrawn after titrated",
			withdrawn("2031-05-03 15:01"),
			["flasks 3 withdrawn 1 at: withdrawn-out-of-time"],
		],
		[
			"a second withdrawal before the first",
			withdrawn("2031-05-03 14:00", "2031-05-03 13:30"),
			["flasks 3 withdrawn 2 at: withdrawn-out-of-time"],
		],
		[
			"a time of what was not withdrawn",
			flask("c2", { "withdrawn 1 at": "2031-05-03 14:00" }),
			["flasks 3 withdrawn 1: half-filled"],
		],
		[
			"withdrawn at both ends",
			withdrawn("2031-05-03 13:00", "2031-05-03 15:00"),
			[],
		],
	]);

	test("dosed and titrated on one date without times is fine", () => {
		expect(
			problemsOf(
				flask("c2", {
					"dosed at": "2031-05-03 14:00",
					"titrated at": "2031-05-03",
				}),
			),
		).toEqual([]);
	});
});

describe("treatments and controls", () => {
	const three = (
		...rows: readonly (readonly [string, string])[]
	): TypedRows => ({
		flasks: rows.map(([treatment, control], i) =>
			char(String(i + 1), treatment, 5, { control }),
		),
		solutions: soundSolutions,
	});
	all([
		[
			"a control that is not there",
			three(["water", ""], ["potash", "watre"]),
			[
				"flasks 2 control: control-not-said",
				"flasks 3 control: control-not-found",
			],
		],
		[
			"a control of a control",
			three(["water", ""], ["fired", "water"], ["potash", "fired"]),
			["flasks 4 control: control-of-control"],
		],
		[
			"two treatments, each the control of the other",
			three(["water", "potash"], ["potash", "water"]),
			[
				"flasks 2 control: control-of-control",
				"flasks 3 control: control-of-control",
			],
		],
		[
			"a treatment with two controls",
			three(["water", ""], ["dry", ""], ["potash", "water"], ["potash", "dry"]),
			[
				"flasks 3 control: control-not-said",
				"flasks 5 control: control-inconsistent",
			],
		],
		[
			"two treatments that differ in case",
			three(["control", ""], ["Potash", ""], ["potash ", ""]),
			["flasks 4 treatment: treatment-spelling"],
		],
		[
			"two treatments that differ in a hyphen",
			three(["control", ""], ["wood vinegar", ""], ["wood-vinegar", ""]),
			["flasks 4 treatment: treatment-spelling"],
		],
		[
			"no control at all",
			three(["potash", ""], ["soda", ""]),
			["flasks 1 control: control-missing"],
		],
		[
			"two treatments that could be the control",
			three(["control A", ""], ["control B", ""], ["soda", ""]),
			["flasks 1 control: control-ambiguous"],
		],
	]);

	test("the control is found by its whole name, the plainest first", () => {
		for (const [name, other] of [
			["control", "water"],
			["Untreated", "waterglass"],
			["water-soaked", "uncontrolled"],
		]) {
			const trial = trialFromRows(three([other, ""], [name, ""]));
			expect(trial.flasks.map((f) => f.control)).toEqual([name, ""]);
			expect(trial.assumptions.join()).toContain(
				`"${name}" is taken as the control`,
			);
		}
	});

	test("a control may name itself", () => {
		const trial = trialFromRows(three(["dry", "dry"], ["potash", "dry"]));
		expect(trial.flasks.map((f) => f.control)).toEqual(["", "dry"]);
	});

	test("several controls", () => {
		const trial = trialFromRows(
			three(
				["water", ""],
				["potash", "water"],
				["cold", ""],
				["fired", "cold"],
			),
		);
		expect(trial.flasks.map((f) => f.control)).toEqual([
			"",
			"water",
			"",
			"cold",
		]);
	});
});

describe("solutions", () => {
	const solutions = (...rows: TypedRow[]): TypedRows => withSolutions(rows);
	all([
		[
			"iodine in mol/L that does not say what it counts",
			solutions(
				{
					solution: "iodine",
					substance: "iodine",
					"concentration (mol/L)": 0.05,
				},
				thio,
			),
			["solutions 2 concentration (mol/L): counts-missing"],
		],
		[
			"iodine in mM that does not say what it counts",
			solutions(
				{ solution: "iodine", substance: "I2", "concentration (mM)": 50 },
				thio,
			),
			["solutions 2 concentration (mM): counts-missing"],
		],
		[
			"a normality that counts molecules",
			solutions({ ...iodine, counts: "I2" }, thio),
			["solutions 2 counts: counts-contradiction"],
		],
		[
			"a tincture in percent",
			solutions(
				{
					solution: "iodine",
					substance: "iodine tincture",
					"concentration (% w/w)": 2,
					"density (g/mL)": 0.95,
				},
				thio,
			),
			["solutions 2 concentration (% w/w): tincture"],
		],
		[
			"povidone iodine in percent",
			solutions(
				{
					solution: "iodine",
					substance: "povidone-iodine",
					"concentration (%)": 10,
				},
				thio,
			),
			["solutions 2 concentration (%): tincture"],
		],
		[
			"percent without a density",
			solutions(
				{
					solution: "iodine",
					substance: "iodine",
					"concentration (% w/w)": 1.3,
				},
				thio,
			),
			["solutions 2 density: density-missing"],
		],
		[
			"two concentrations",
			solutions({ ...iodine, "concentration (g/L)": 12.7 }, thio),
			["solutions 2 concentration (g/L): cell-twice"],
		],
		[
			"no concentration",
			solutions({ solution: "iodine", substance: "iodine" }, thio),
			["solutions 2 concentration (mol/L): cell-missing"],
		],
		[
			"a concentration of zero",
			solutions({ ...iodine, "concentration (N)": 0 }, thio),
			["solutions 2 concentration (N): out-of-range"],
		],
		[
			"a purity above 100 %",
			solutions(iodine, thio, {
				solution: "iodate",
				substance: "potassium iodate",
				"weighed (g)": 0.9,
				"purity (%)": 101,
				"made up to (mL)": 250,
			}),
			["solutions 4 purity (%): out-of-range"],
		],
		[
			"weighed and not made up",
			solutions(iodine, thio, {
				solution: "iodate",
				substance: "potassium iodate",
				"weighed (g)": 0.9,
			}),
			["solutions 1 made up to (mL): column-missing"],
		],
		[
			"weighed thiosulfate, which salt is not said",
			solutions(iodine, {
				solution: "thio",
				substance: "thiosulfate",
				"weighed (g)": 24.8,
				"made up to (mL)": 1000,
			}),
			["solutions 3 substance: which-salt"],
		],
		[
			"thiosulfate in g/L, which salt is not said",
			solutions(iodine, {
				solution: "thio",
				substance: "sodium thiosulfate",
				"concentration (g/L)": 24.8,
			}),
			["solutions 3 substance: which-salt"],
		],
		[
			"thiosulfate in percent by weight, which salt is not said",
			solutions(iodine, {
				solution: "thio",
				substance: "hypo",
				"concentration (% w/w)": 2.48,
				"density (g/mL)": 1.01,
			}),
			["solutions 3 substance: which-salt"],
		],
		[
			"a circle of standardisations",
			solutions(
				{
					solution: "iodine",
					substance: "iodine",
					"standardised against": "thio",
					"aliquot (mL)": 10,
					"titre 1 (mL)": 10.1,
				},
				{
					solution: "thio",
					substance: "sodium thiosulfate",
					"standardised against": "iodine",
					"aliquot (mL)": 10,
					"titre 1 (mL)": 10.1,
				},
			),
			["solutions 2 standardised against: standardisation-circle"],
		],
		[
			"standardised against itself",
			solutions(iodine, {
				solution: "thio",
				substance: "sodium thiosulfate",
				"standardised against": "thio",
				"aliquot (mL)": 10,
				"titre 1 (mL)": 10.1,
			}),
			["solutions 3 standardised against: standardisation-circle"],
		],
		[
			"standardised against what is not there",
			solutions(iodine, {
				solution: "thio",
				substance: "sodium thiosulfate",
				"standardised against": "iodate",
				"aliquot (mL)": 10,
				"titre 1 (mL)": 10.1,
			}),
			["solutions 3 standardised against: solution-not-found"],
		],
		[
			"a pair that does not react",
			solutions(
				{
					solution: "iodine",
					substance: "iodine",
					"standardised against": "iodate",
					"aliquot (mL)": 10,
					"titre 1 (mL)": 10,
				},
				thio,
				{
					solution: "iodate",
					substance: "KIO3",
					"weighed (g)": 0.9,
					"made up to (mL)": 250,
				},
			),
			["solutions 2 standardised against: standardisation-pair"],
		],
		[
			"a standardisation without a titre",
			solutions(
				{
					...iodine,
					"standardised against": "thio",
					"aliquot (mL)": 10,
					"titre 1 (mL)": "",
				},
				thio,
			),
			["solutions 2 titre 1 (mL): cell-missing"],
		],
		[
			"titres of a standardisation against nothing",
			solutions({ ...iodine, "titre 1 (mL)": 9 }, thio),
			["solutions 2 titre 1 (mL): standardisation-incomplete"],
		],
		[
			"an uncertainty in a unit of another kind",
			solutions({ ...iodine, "uncertainty (g/L)": 0.01 }, thio),
			["solutions 2 uncertainty (g/L): uncertainty-unit"],
		],
		[
			"a name used twice",
			solutions(iodine, thio, thio),
			["solutions 4 solution: solution-twice"],
		],
		["no iodine", solutions(thio), ["solutions 0 substance: no-iodine"]],
		[
			"no thiosulfate",
			solutions(iodine),
			["solutions 0 substance: no-thiosulfate"],
		],
		[
			"two iodine solutions and no word on which was dosed",
			{
				flasks: [char("1", "control", 5)],
				solutions: [iodine, { ...iodine, solution: "weak" }, thio],
			},
			["flasks 2 dose 1 of: solution-not-said"],
		],
		[
			"two thiosulfate solutions and no word on which was used",
			{
				flasks: [char("1", "control", 5)],
				solutions: [iodine, thio, { ...thio, solution: "weak" }],
			},
			["flasks 2 titrated with: solution-not-said"],
		],
		[
			"a dose of a solution that is not in the table",
			flask("c2", { "dose 1 of": "iodin" }),
			["flasks 3 dose 1 of: solution-not-found"],
		],
		[
			"a dose of thiosulfate",
			flask("c2", { "dose 1 of": "thio" }),
			["flasks 3 dose 1 of: solution-of-wrong-kind"],
		],
		[
			"titrated with iodine",
			flask("c2", { "titrated with": "iodine" }),
			["flasks 3 titrated with: solution-of-wrong-kind"],
		],
	]);

	test("the question of what iodine counts is put with both readings", () => {
		const [p] = problemsOf(
			solutions(
				{
					solution: "iodine",
					substance: "iodine",
					"concentration (mmol/L)": 50,
				},
				thio,
			),
		);
		expect(problemText(p)).toContain("factor of two");
		expect(p.mend).toContain("50 mmol/L of I2 is 100 of equivalents");
	});

	test("the table that is missing is asked for", () => {
		expect(
			problemsOf({ flasks: soundFlasks, solutions: [] }).map((p) => p.code),
		).toContain("table-missing");
	});
});

describe("deviations and glassware", () => {
	const more = (
		deviations: TypedRow[],
		glassware: TypedRow[] = [],
	): TypedRows => ({ ...changed("c1", {}), deviations, glassware });
	all([
		[
			"an unknown flask among several",
			more([{ flask: "c1; c9", "what happened": "spilt" }]),
			["deviations 2 flask: flask-not-found"],
		],
		[
			"no word on what happened",
			more([{ flask: "c1", "what happened": "" }]),
			["deviations 2 what happened: cell-missing"],
		],
		[
			"an unknown handling",
			more([{ flask: "c1", "what happened": "spilt", handling: "hide" }]),
			["deviations 2 handling: not-a-choice"],
		],
		[
			"a piece without a size",
			more([], [{ piece: "pipette", "used for": "aliquot", "size (mL)": "" }]),
			["glassware 2 size (mL): cell-missing"],
		],
		[
			"a piece and a size of which no standard speaks",
			more([], [{ piece: "beaker", "used for": "dose", "size (mL)": 50 }]),
			["glassware 2 tolerance: tolerance-missing"],
		],
		[
			"a tolerance in grams for a pipette",
			more(
				[],
				[
					{
						piece: "pipette",
						"used for": "aliquot",
						"size (mL)": 25,
						"tolerance (g)": 0.03,
					},
				],
			),
			["glassware 2 tolerance (g): tolerance-kind"],
		],
		[
			"a balance used for titres",
			more(
				[],
				[{ piece: "balance", "used for": "titre", "readability (g)": 0.001 }],
			),
			["glassware 2 used for: use-unknown"],
		],
		[
			"a balance without a readability",
			more([], [{ piece: "balance", "used for": "char mass" }]),
			["glassware 2 readability: cell-missing"],
		],
		[
			"two burettes for one use",
			more(
				[],
				[
					{ piece: "burette", "used for": "titre", "size (mL)": 50 },
					{ piece: "burette 2", "used for": "titre", "size (mL)": 25 },
				],
			),
			["glassware 3 used for: use-twice"],
		],
	]);

	test("several flasks separated by semicolons", () => {
		const trial = trialFromRows(
			more([{ flask: "c1; p2", "what happened": "spilt" }]),
		);
		expect(trial.deviations[0].targets.map((t) => t.name)).toEqual([
			"c1",
			"p2",
		]);
		expect(trial.deviations[0].handling).toBe("leave out");
	});
});
