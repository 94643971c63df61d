/** Sheets whose numbers cannot all be right: the likely cause is named, once for a whole column, and no word is said. */
import { describe, expect, test } from "vitest";
import file from "../../data/simulation/designs.json";
import { designsOf, simulate } from "../../data/simulation/simulate.mjs";
import { trialFromRows } from "../../kernel-lib/bench";
import { compareTreatments, marginOf } from "../../kernel-lib/compare";
import { exact, input } from "../../kernel-lib/quantity";
import { concentrations } from "../../kernel-lib/solutions";
import { strengthContradiction } from "../../kernel-lib/solutions/strength";
import { uptakes } from "../../kernel-lib/uptake";
import { nextSteps } from "../../kernel-lib/words";
import { problemsOf } from "../bench-sheet/rows";
import { charRow, plainSolutions, type Row } from "../uptake/sheets";
import { told } from "./fixtures";

const reagentBlank: Row = {
	flask: "r",
	contents: "reagent blank",
	"titre (mL)": 0.1,
};
const iodineBlank: Row = {
	...charRow("i", { contents: "iodine blank", "titre (mL)": 9.9 }),
	treatment: "",
	"char mass (g)": "",
	"char in when made up": "",
};

/** Four control flasks at 5 mL, four steamed ones at 3 mL, each of a firing of its own, with their blanks. */
const sheet: readonly Row[] = [
	...[5.1, 5.2, 5.3, 5.0].map((titre, i) =>
		charRow(`c${i}`, { "titre (mL)": titre, soak: `C${i}` }),
	),
	...[3.1, 3.2, 3.3, 3.0].map((titre, i) =>
		charRow(`s${i}`, {
			treatment: "steam",
			control: "control",
			"titre (mL)": titre,
			soak: `S${i}`,
		}),
	),
	reagentBlank,
	iodineBlank,
];

function judged(
	flasks: readonly Row[],
	solutions: readonly Row[] = plainSolutions,
) {
	const trial = trialFromRows({
		flasks: [...flasks],
		solutions: [...solutions],
	});
	const comparison = told(compareTreatments(trial, { margin: marginOf(10) }));
	return { trial, comparison, verdict: comparison.verdicts[0] };
}

/** The same sheet with one column of every row changed where it is filled. */
const column = (name: string, change: (x: number) => Row): Row[] =>
	sheet.map((row) =>
		typeof row[name] === "number"
			? { ...row, ...change(row[name] as number) }
			: row,
	);

const solutionsWith = (thiosulfate: Row): Row[] => [
	plainSolutions[0],
	{
		solution: "thiosulfate",
		substance: "sodium thiosulfate",
		...thiosulfate,
	},
];

const standardised = (nominal: number): Row[] => [
	{
		solution: "iodine",
		substance: "iodine",
		"concentration (mol/L)": 0.05,
		counts: "I2",
	},
	{
		...solutionsWith({})[1],
		"concentration (mol/L)": nominal,
		"standardised against": "iodine",
		"aliquot (mL)": 10,
		"titre 1 (mL)": 10,
	},
];

test("the sheet as it should be says its word", () => {
	expect(judged(sheet).verdict.word).toBe("higher");
	expect(judged(sheet, standardised(0.1)).verdict.word).toBe("higher");
});

describe("no word until it is settled", () => {
	test.each<[string, Row[], readonly Row[], string, string]>([
		[
			"doses in L under a header in mL",
			column("dose (mL)", (v) => ({ "dose (mL)": v / 1000 })),
			plainSolutions,
			"Without char, i held 98000 % of the iodine dosed",
			"mL for L",
		],
		[
			"titres in L under a header in mL",
			column("titre (mL)", (v) => ({ "titre (mL)": v / 1000 })),
			plainSolutions,
			"i, without char, held no iodine that could be measured",
			"the unit of the titres",
		],
		[
			"an aliquot factor of ten",
			column("aliquot (mL)", (v) => ({ "aliquot (mL)": v / 10 })),
			plainSolutions,
			"Without char, i held 980 % of the iodine dosed",
			"an aliquot factor",
		],
		[
			"normality for molarity",
			[...sheet],
			[
				plainSolutions[0],
				{ ...plainSolutions[1], "concentration (mol/L)": 0.05 },
			],
			"Without char, i held 49 % of the iodine dosed",
			"normality for molarity",
		],
		[
			"a nominal strength ten times the one found",
			[...sheet],
			standardised(1),
			'"thiosulfate" was found to be 0.1 mol/L by its standardisation and is nominally 1 mol/L, 10 times as much',
			"a slip of the decimal point",
		],
		[
			"iodine in mmol/L under a header in mol/L",
			[...sheet],
			[
				{ ...plainSolutions[0], "concentration (mol/L)": 50 },
				plainSolutions[1],
			],
			'"iodine" would hold 50 mol/L, more than dissolves',
			"mmol/L for mol/L",
		],
		[
			"a reagent blank larger than every titre",
			sheet.map((row) =>
				row === reagentBlank ? { ...row, "titre (mL)": 8 } : row,
			),
			plainSolutions,
			"Without char, i held 19",
			"blank",
		],
	])("%s", (_, flasks, solutions, found, cause) => {
		const { trial, comparison, verdict } = judged(flasks, solutions);
		expect(verdict.word).toBe("cannot tell");
		expect(verdict.sentence).toContain("cannot tell");
		expect(verdict.sentence).toContain(
			"the numbers of 8 flasks cannot all be right",
		);
		expect(verdict.reasons[0]).toMatch(
			/^All 8 flasks, so that most likely a whole column is wrong; of flask c0: /,
		);
		expect(verdict.reasons[0]).toContain(found);
		expect(verdict.reasons[0]).toContain(cause);
		// told once for all flasks, and all flasks are shown
		const rows = nextSteps(comparison).rows.filter(([of]) => of === "numbers");
		expect(rows).toHaveLength(1);
		const table = uptakes(trial).table;
		expect(table.rows).toHaveLength(8);
		expect(table.notes.filter((n) => n.startsWith("All 8"))).toHaveLength(1);
		expect(
			uptakes(trial).every((u) => Number.isFinite(u.computedUptake.in("mg/g"))),
		).toBe(true);
	});

	test.each<[string, (g: number) => Row, string]>([
		[
			"char masses in mg under a header in g",
			(g) => ({ "char mass (g)": 1000 * g }),
			"char-mass-in-milligrams",
		],
		[
			"char masses in g under a header in mg",
			(g) => ({ "char mass (g)": "", "char mass (mg)": g }),
			"char-mass-in-grams",
		],
	])(
		"%s: refused when it is read, with the likely cause",
		(_, change, code) => {
			const problems = problemsOf({
				flasks: column("char mass (g)", change),
				solutions: [...plainSolutions],
			});
			expect([...new Set(problems.map((p) => p.code))]).toEqual([code]);
		},
	);

	test("one flask whose titre lies below the reagent blank: less than nothing is left", () => {
		const { verdict } = judged(
			sheet
				.filter((row) => row !== iodineBlank)
				.map((row) =>
					row === reagentBlank
						? { ...row, "titre (mL)": 2 }
						: row.flask === "s3"
							? { ...row, "titre (mL)": 0.2 }
							: row,
				),
		);
		expect(verdict.word).toBe("cannot tell");
		expect(verdict.reasons[0]).toContain(
			"Flask s3: Less than no iodine was left",
		);
		expect(verdict.reasons[0]).toContain(
			"a reagent blank larger than the titre",
		);
	});
});

describe("limits of the sheet as a whole", () => {
	const strength = (nominal: number): string =>
		concentrations(
			trialFromRows({ flasks: [...sheet], solutions: standardised(nominal) }),
		).byName("thiosulfate").contradiction.found;

	test.each([
		[0.066, "nominally 0.066 mol/L, 1.52 times as little"],
		[0.067, ""],
		[0.1499, ""],
		[0.151, "nominally 0.151 mol/L, 1.51 times as much"],
	])("0.1 mol/L found, nominally %s", (nominal, words) => {
		expect(strength(nominal) === "").toBe(words === "");
		expect(strength(nominal)).toContain(words);
	});

	test("a factor of 1.57 is the water of crystallisation", () => {
		const { contradiction } = concentrations(
			trialFromRows({ flasks: [...sheet], solutions: standardised(0.157) }),
		).byName("thiosulfate");
		expect(contradiction.likelyCause).toContain("pentahydrate");
	});

	test.each<[string, number, boolean]>([
		["iodine", 2, true],
		["iodine", 2.01, false],
		["sodium thiosulfate", 4.5, true],
		["sodium thiosulfate", 4.51, false],
		["sodium thiosulfate", 5e-4, true],
		["sodium thiosulfate", 4.99e-4, false],
		["potassium iodate", 0.6, true],
		["potassium iodate", 0.61, false],
	])("%s of %s mol/L: %s", (substance, strengthOf, expected) => {
		const { found } = strengthContradiction(
			"it",
			substance,
			input("concentration", strengthOf, "mol/L", exact, {}),
			[],
		);
		expect(found === "").toBe(expected);
	});
});

describe("honest sheets pass", () => {
	test.each(designsOf(file).map((design) => ({ design, name: design.name })))(
		"simulated trials of design $name",
		({ design }) => {
			for (let seed = 9001; seed <= 9015; seed++) {
				const { truth: _, ...rows } = simulate(design, seed);
				expect(
					uptakes(trialFromRows(rows)).map((u) => u.contradiction),
				).toEqual(uptakes(trialFromRows(rows)).map(() => ""));
			}
		},
	);
});

describe("leachates", () => {
	const withLeachate = (titre: number) =>
		judged([
			...sheet,
			charRow("l", {
				contents: "leachate",
				treatment: "steam",
				"char mass (g)": 2,
				"leachate (mL)": 50,
				"leachate taken (mL)": 25,
				"dose (mL)": 10,
				"char in when made up": "",
				"titre (mL)": titre,
			}),
		]).verdict;

	test.each([
		[
			2.4,
			/consumed by what is left of a soak was measured on a leachate and taken off/,
			/was added/,
		],
		[
			2.57,
			/a little more iodine than it was given.* was added/,
			/taken off \(/,
		],
	])("one that takes %s mL is told as what it did", (titre, said, unsaid) => {
		const reasons = withLeachate(titre).reasons.join(" ");
		expect(reasons).toMatch(said);
		expect(reasons).not.toMatch(unsaid);
	});
});

describe("repeats that scatter more than reading explains speak", () => {
	const toldOf = (flasks: readonly Row[]) => {
		const { verdict, trial } = judged(flasks);
		return {
			reasons: verdict.reasons.join(" "),
			u: uptakes(trial)[0].computedUptake.standardUncertainty,
			notes: uptakes(trial).table.notes.join(" "),
		};
	};
	const titres = (one: number, other: number): Row[] =>
		sheet.map((row) =>
			row.flask === "c0"
				? {
						...row,
						"titre (mL)": "",
						"titre 1 (mL)": one,
						"titre 2 (mL)": other,
					}
				: row,
		);
	const blanks = (blank: Row, name: string, a: number, b: number): Row[] => [
		...sheet.filter((row) => row !== blank),
		{ ...blank, flask: `${name}1`, "titre (mL)": a },
		{ ...blank, flask: `${name}2`, "titre (mL)": b },
	];

	test("duplicate titres of 4.10 and 6.10 mL are not 5.10 and 5.10 mL", () => {
		const alike = toldOf(titres(5.1, 5.1));
		const apart = toldOf(titres(4.1, 6.1));
		expect(apart.u).toBeGreaterThan(3 * alike.u);
		expect(apart.reasons).toContain(
			"Titres of flask c0 lie from 4.1 to 6.1 mL",
		);
		expect(alike.reasons).not.toContain("further apart");
	});

	test("reagent blanks of 0.00 and 0.60 mL are not 0.30 and 0.30 mL", () => {
		// without a recovery, which the same blank corrects and which would take part of its error back
		const without = (rows: readonly Row[]) =>
			rows.filter((row) => row !== iodineBlank);
		const alike = toldOf(without(blanks(reagentBlank, "r", 0.3, 0.3)));
		const apart = toldOf(without(blanks(reagentBlank, "r", 0, 0.6)));
		// The mean of two titres 0.6 mL apart is good to 0.3 mL: 0.3 mL x 0.1 mmol/mL / 2 x 253.8 mg/mmol x 100/25 = 15.2 mg on about a gram, less what reading them twice takes already.
		const more = Math.sqrt(apart.u ** 2 - alike.u ** 2);
		expect(more).toBeGreaterThan(14.5);
		expect(more).toBeLessThan(15.5);
		expect(apart.reasons).toContain(
			"Titres of the reagent blanks (r1, r2) lie from 0 to 0.6 mL",
		);
		expect(apart.notes.match(/reagent blanks \(r1, r2\)/g)).toHaveLength(1);
		expect(alike.reasons).not.toContain("further apart");
	});

	test("iodine blanks of 70 and 98 % recovery are not 84 and 84 %", () => {
		const alike = toldOf(blanks(iodineBlank, "i", 8.5, 8.5));
		const apart = toldOf(blanks(iodineBlank, "i", 7.1, 9.9));
		expect(apart.u).toBeGreaterThan(3 * alike.u);
		expect(apart.reasons).toContain(
			"Recoveries of the blanks without char (i1, i2) lie from 70 to 98 %",
		);
		expect(apart.notes.match(/\(i1, i2\)/g)).toHaveLength(1);
		expect(alike.reasons).not.toContain("further apart");
	});
});
