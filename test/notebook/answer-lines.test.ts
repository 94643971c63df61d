/** What a run says at the end in a terminal. */
import { expect, test } from "vitest";
import { marginOf } from "../../kernel-lib/compare";
import type { Notebook } from "../../kernel-lib/notebook/ipynb";
import { answerLines } from "../../kernel-lib/notebook/run/answer-lines";
import { compareTreatments, flasks, group } from "../compare/fixtures";
import { notebookReporting } from "./samples";

const compared = compareTreatments(
	flasks([
		...group("water", "", [98, 99, 100, 101, 102]),
		...group("like", "water", [99, 100, 101, 100, 100]),
		...group("more", "water", [158, 159, 160, 161, 162]),
	]),
	{ margin: marginOf(25) },
);

const of = (...results: [string, unknown][]): string[] =>
	answerLines(notebookReporting(...results) as Notebook);

test("the finding first, then a line a verdict, the clearest first", () => {
	const lines = of(["verdict", compared]);
	expect(lines).toHaveLength(3);
	expect(lines[0]).toMatch(
		/^"more" took up 60\.0 mg\/g more iodine than its control\. "like" made no difference/,
	);
	expect(lines[1]).toMatch(
		/^ {2}"more" against "water": higher, \+60\.0 \(\+[\d.]+ to \+[\d.]+\) mg\/g$/,
	);
	expect(lines[2]).toMatch(/^ {2}"like" against "water": no difference/);
});

test("what must not be done before the answer, the next step after it", () => {
	expect(
		of(
			["verdict", ["It is so."]],
			["cautions", ["Must not be done: a and b.", "Danger, c: d."]],
			["what to do next", ["One more soak.", "And another."]],
		),
	).toEqual([
		"Must not be done: a and b.",
		"It is so.",
		"Next: One more soak.",
	]);
});

test("beyond eight lines under the finding the rest is counted", () => {
	const many = (n: number): string[] =>
		Array.from({ length: n }, (_, i) => `Answer ${i}.`);
	expect(of(["verdict", many(9)])).toHaveLength(9);
	expect(of(["verdict", many(10)])).toHaveLength(10);
	expect(of(["verdict", many(10)])[9]).toBe("  1 more on the page");
});

test("an answer tells its finding and its statements", () => {
	expect(
		of(["verdict", { finding: "It holds more.", statements: ["By much."] }]),
	).toEqual(["It holds more.", "  By much."]);
});

test("a name cannot steer the terminal", () => {
	expect(of(["verdict", ["\u001b[2Jall\r is well\u0007."]])).toEqual([
		" [2Jall  is well .",
	]);
});

test("nothing reported, nothing said", () => {
	expect(of()).toEqual([]);
});
