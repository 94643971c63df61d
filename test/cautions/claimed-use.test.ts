/** Sheets that tempt: names and notes that promise a use. Nothing here tested it, and the page says so first. */
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import {
	notConcluded,
	notConcludedFromActivation,
} from "../../kernel-lib/cautions";
import { compareTreatments, marginOf } from "../../kernel-lib/compare";
import {
	methodTable,
	nextSteps,
	verdictSentence,
} from "../../kernel-lib/words";
import { kilnOf } from "../activation/firings";
import { charRow, plainSolutions, type Row } from "../uptake/sheets";

function pageOf(change: Row) {
	const trial = trialFromRows({
		flasks: [
			charRow("c"),
			charRow("t", { treatment: "steam", control: "control", ...change }),
		],
		solutions: plainSolutions,
	});
	const compared = compareTreatments(trial, { margin: marginOf(25) });
	return {
		limits: notConcluded(compared),
		said: [
			...compared.verdicts.map((v) => verdictSentence(compared, v)),
			JSON.stringify(methodTable(compared)),
			JSON.stringify(nextSteps(compared)),
		].join("\n"),
	};
}

const denied = /: the words are the sheet's; nothing here tested it\.$/;

const tempting: [string, Row][] = [
	["a treatment", { treatment: "drinking water char" }],
	["a treatment for the tap", { treatment: "tap filter grade" }],
	["a potable name", { treatment: "Potable No. 1" }],
	["a sample", { sample: "respirator char" }],
	["a mask", { sample: "for our gas mask" }],
	["a batch", { "char batch": "medical 7" }],
	["a soak", { soak: "antidote 1" }],
	["a note to swallow", { notes: "may be swallowed" }],
	["a note of safety", { notes: "safe for babies" }],
	["a certificate", { notes: "certified by the neighbour" }],
	["tablets", { treatment: "pressed into tablets" }],
	["a remedy", { treatment: "grandfather's remedy" }],
	["detox", { treatment: "DETOX blend" }],
	["food", { sample: "food grade shells" }],
	["poisoning", { notes: "against poisoning" }],
	["no poison", { notes: "non-toxic" }],
	["harmless", { notes: "quite harmless" }],
	["German water", { treatment: "Trinkwasserkohle" }],
	["German breath", { sample: "Atemschutz" }],
	["French water", { notes: "pour eau potable" }],
	["Spanish water", { notes: "agua potable" }],
	["a column of one's own", { use: "hospital" }],
];

describe("a name or a note that claims a use", () => {
	test.each(tempting)("%s", (_, change) => {
		const { limits, said } = pageOf(change);
		expect(limits[0]).toMatch(denied);
		expect(limits[0]).toContain(`"${Object.values(change)[0]}"`);
		// The three limits stand as ever, and nothing is called fit.
		for (const words of [/drinking water/, /breathing/, /poisoning/])
			expect(limits.slice(1).join("\n")).toMatch(words);
		expect(said).not.toMatch(/\bis (?:fit|safe|suitable) for\b/);
	});

	test("is quoted up to three times, more are counted", () => {
		const { limits } = pageOf({
			treatment: "safe a",
			sample: "safe b",
			soak: "safe c",
			notes: "safe d",
		});
		expect(limits[0]).toContain('"safe a", "safe b", "safe c" and 1 more');
	});

	test("of a solution too, cut at eighty letters", () => {
		const trial = trialFromRows({
			flasks: [
				charRow("c"),
				charRow("t", { treatment: "steam", control: "control" }),
			],
			solutions: plainSolutions.map((s, i) =>
				i === 0 ? { ...s, notes: `safe ${"x".repeat(100)}` } : s,
			),
		});
		const [first] = notConcluded(compareTreatments(trial, {}));
		expect(first).toBe(
			`The sheet says "safe ${"x".repeat(75)}…": the words are the sheet's; nothing here tested it.`,
		);
	});

	test("ordinary words are none", () => {
		for (const change of [
			{ treatment: "steam, 30 min" },
			{ notes: "filter slow, jar shaken" },
			{ sample: "hazelnut shell" },
			{ notes: "heated to 100 °C" },
		] as Row[])
			expect(pageOf(change).limits.join("\n")).not.toMatch(
				/nothing here tested it/,
			);
	});

	test("of a firing too", () => {
		expect(
			notConcludedFromActivation(
				kilnOf([
					{ firing: "A", "precursor mass (g)": 5, notes: "for drinking water" },
				]),
			)[0],
		).toMatch(denied);
	});
});
