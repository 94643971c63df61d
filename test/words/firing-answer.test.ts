import { describe, expect, test } from "vitest";
import { firingYields } from "../../kernel-lib/activation/index";
import { grouped } from "../../kernel-lib/quantity/index";
import {
	type FiringUptake,
	firingName,
	linkFirings,
	unlinkedSentences,
} from "../../kernel-lib/uptake/index";
import { answerOf, firingAnswer, firingWords } from "../../kernel-lib/words";
import { kilnOf } from "../activation/firings";
import {
	dry,
	impossibleKiln,
	kiln,
	one,
	three,
	two,
	uptakes,
} from "../uptake/kiln-flasks";
import { charRow, type Row, steps } from "../uptake/sheets";

/** What flasks took up, a sentence for each firing, treatment and soak; those without a firing last. */
function uptakeSentences(list: readonly FiringUptake[]): string[] {
	const linked = list.filter((u) => u.firing.is === "linked");
	return [
		...[...grouped(linked, firingName)].flatMap(([name, own]) =>
			firingWords(own).map((words) => `${name}: ${words}.`),
		),
		...unlinkedSentences(list),
	];
}

describe("what the flasks of a firing took up", () => {
	test("a sentence a firing", () => {
		const said = uptakeSentences([one, { ...one }, two]);
		expect(said[0]).toMatch(
			/^potash 1: 2 flasks: [\d.]+ mg\/g \([\d.]+ to [\d.]+\) of iodine at a residue of \d+ mg\/L; per gram of dry feedstock [\d.]+ mg\/g \(/,
		);
		const u95 = 1.96 * one.uptake.quantity.to("mg/g").standardUncertainty;
		const [, low, high] =
			/\(([\d.]+) to ([\d.]+)\)/.exec(uptakeSentences([one])[0]) ?? [];
		expect((Number(high) - Number(low)) / 2 / u95).toBeCloseTo(1, 1);
		expect(said[1]).toMatch(
			/^kiln 3: 1 flask, firing taken from the char batch, as the soak "water 1" is no firing: /,
		);
		expect(uptakeSentences([one, dry])[0]).toContain("1 of 2 only at least");
		expect(uptakeSentences([three])).toEqual([
			'Flask 3: no firing is known; neither the soak "water 1" nor the char batch "kiln 9" is the name of a firing.',
		]);
	});

	test("a soak that nearly is a firing gets none and asks; no mean over treatments or unlike residues", () => {
		const made = linkFirings(
			steps([
				charRow("a", { soak: "potash1", "char batch": "kiln 3" }),
				charRow("b", { "char batch": "kiln 3", treatment: "one" }),
				charRow("c", { "char batch": "kiln 3", treatment: "other" }),
				charRow("d", { soak: "potash 1" }),
				charRow("e", { soak: "potash 1", "titre (mL)": 3 }),
			]).uptakes,
			kiln,
		);
		const said = uptakeSentences(made);
		expect(said.filter((s) => s.startsWith("kiln 3: "))).toEqual([
			expect.stringMatching(/^kiln 3: "one", 1 flask: /),
			expect.stringMatching(/^kiln 3: "other", 1 flask: /),
		]);
		expect(said.filter((s) => s.startsWith("potash 1: "))).toEqual([
			expect.stringMatching(
				/^potash 1: 2 flasks: \d+ to \d+ mg\/g, not averaged at residues so unlike/,
			),
		]);
		expect(said.at(-1)).toBe(
			'Flask a: no firing is known; the soak "potash1" is no firing (did you mean "potash 1"?).',
		);
	});

	test("a yield that cannot be carries its word to what was taken up per feedstock", () => {
		const made = linkFirings(uptakes, impossibleKiln);
		const answer = answerOf(impossibleKiln.firings.map(firingYields), made);
		expect(answer.filter((s) => s.includes("does not close"))).toEqual([
			expect.stringMatching(
				/^"potash 1": .*not to be relied on, for its balance does not close \(more dry product than dry precursor\)\..* per gram of dry feedstock .*, on a balance that does not close\.$/,
			),
		]);
	});

	test("without a yield nothing is said per feedstock", () => {
		const [u] = linkFirings(
			steps([charRow("a", { soak: "last" })]).uptakes,
			kilnOf([
				{ firing: "first", precursor: "char", "precursor mass (g)": 100 },
				{
					firing: "last",
					precursor: "char",
					"precursor mass (g)": 100,
					"precursor batch": "first",
					"product mass (g)": 40,
				},
			]),
		);
		expect(uptakeSentences([u])[0]).not.toContain("per gram of dry feedstock");
	});
});

describe("what the flasks of a firing took up, in words", () => {
	const said = (...rows: Row[]): string[] =>
		uptakeSentences(
			linkFirings(
				steps(
					rows.map((row, i) => charRow(`${i}`, { soak: "potash 1", ...row })),
				).uptakes,
				kiln,
			),
		);

	test("one flask stands at its one residue", () => {
		expect(said({})[0]).toMatch(
			/^potash 1: 1 flask: \d+ mg\/g \(\d+ to \d+\) of iodine at a residue of 2540 mg\/L; per gram/,
		);
	});
	test("two flasks at residues a little apart are averaged, with both residues", () => {
		expect(said({}, { "titre (mL)": 5.5 })[0]).toMatch(
			/^potash 1: 2 flasks: \d+ mg\/g \(\d+ to \d+\) of iodine at a residue of 2540 to 2790 mg\/L/,
		);
	});
	test("bounds are counted by what they are", () => {
		// 10 mL would find the whole dose again
		expect(
			said(
				{ "titre (mL)": 0 },
				{ "titre (mL)": 10.01 },
				{ "titre (mL)": 0 },
			)[0],
		).toContain("2 of 3 only at least, 1 of 3 only at most");
	});
	test("bounds are not averaged, be their residues ever so alike", () => {
		expect(said({ "titre (mL)": 0 }, { "titre (mL)": 0 })[0]).toMatch(
			/^potash 1: 2 flasks: \d+ mg\/g \(2 of 2 only at least\)/,
		);
	});
	test("a balance that does not close on the way is named, with the firing that it is of", () => {
		const gain = kilnOf([
			{ firing: "gain", "precursor mass (g)": 20, "product mass (g)": 26 },
			{
				firing: "after",
				"precursor batch": "gain",
				"precursor mass (g)": 20,
				"product mass (g)": 15,
			},
		]);
		const words = (soak: string): string =>
			uptakeSentences(
				linkFirings(steps([charRow("1", { soak })]).uptakes, gain),
			)[0];
		expect(words("gain")).toMatch(/on a balance that does not close\.$/);
		expect(words("after")).toMatch(
			/on a balance that does not close \("gain"\)\.$/,
		);
	});
	test("soaks of one name are one group whatever their case, others are not averaged with them", () => {
		const words = said(
			{ "char batch": "kiln 3", soak: "water 1" },
			{ "char batch": "kiln 3", soak: "Water  1" },
			{ "char batch": "kiln 3", soak: "water 2" },
		);
		expect(words).toEqual([
			expect.stringMatching(
				/^kiln 3: "control", 2 flasks, firing taken from the char batch, as the soak "water 1"/,
			),
			expect.stringMatching(/^kiln 3: "control", 1 flask, firing taken/),
		]);
	});
	test("flasks without a firing are told together where the reason is one", () => {
		expect(said({ soak: "" }, { soak: "" })).toEqual([
			"Flasks 0, 1: no firing is known; neither a soak nor a char batch is named.",
		]);
	});
	test("the answer has a line a firing, those without flasks too", () => {
		const lines = answerOf(kiln.firings.map(firingYields), [one, three]);
		expect(lines).toHaveLength(3);
		expect(lines[0]).toMatch(/^"kiln 3": char yield/);
		expect(lines[0]).not.toContain("mg/g");
		expect(lines[1]).toMatch(/^"potash 1": .* 1 flask: .*mg\/g/);
		expect(lines[2]).toMatch(/^Flask 3: no firing/);
	});
});

describe("the answer of a trial", () => {
	const activation: Row[] = [
		{
			firing: "kiln 3",
			precursor: "hazelnut shell",
			"precursor mass (g)": 500,
			"fired mass (g)": 138,
		},
		{
			firing: "steam 1",
			precursor: "char of kiln 3",
			"precursor batch": "kiln 3",
			"precursor mass (g)": 20,
			"product mass (g)": 15,
		},
	];

	test("names a firing that is left out, and has no line for it", () => {
		const { trial } = steps(
			[
				charRow("1", { soak: "steam 1" }),
				charRow("2", { "char batch": "kiln 3" }),
			],
			undefined,
			{
				activation,
				deviations: [{ firing: "steam 1", "what happened": "lid open" }],
			},
		);
		const { statements } = firingAnswer(trial);
		expect(statements.some((s) => s.startsWith('"steam 1": '))).toBe(false);
		expect(statements).toContain('Left out: "steam 1" (lid open).');
	});

	test("a sheet of firings alone says that it holds no flasks", () => {
		const told = /holds no flasks, so there are no uptakes/;
		const { finding, statements } = firingAnswer(kiln);
		expect(statements.filter((s) => told.test(s))).toHaveLength(1);
		expect(finding).toMatch(/^No flask belongs to these firings/);
	});
});
