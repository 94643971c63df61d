import { describe, expect, test } from "vitest";
import { type Audited, auditedAt } from "../../kernel-lib/compare/audit";
import {
	firstTold,
	liesBeyond,
	type Rule,
	wordFor,
} from "../../kernel-lib/compare/word";
import {
	forbiddenWords,
	type WordGround,
	wordAt,
} from "../../kernel-lib/compare/word-at";
import { known, notKnown } from "../../kernel-lib/quantity";

const same = "no difference that matters";
const rule = (
	margin: Rule["margin"],
	claim: Rule["claim"] = "difference",
): Rule => ({ margin, claim, sameness: "interval" });

describe("the first word that says something", () => {
	test("of the widest interval that has one", () => {
		expect(firstTold(["cannot tell", "higher", same])).toBe("higher");
		expect(firstTold(["higher", same, same])).toBe("higher");
		expect(firstTold(["cannot tell", "cannot tell"])).toBe("cannot tell");
		expect(firstTold([])).toBe("cannot tell");
	});
});

describe("an end of an interval on its limit", () => {
	test.each([
		[-25, 25, same],
		[-25.1, 25, "cannot tell"],
		[-25, 25.1, "cannot tell"],
		[0, 30, "cannot tell"],
		[0.1, 30, "higher"],
		[-30, 0, "cannot tell"],
		[-30, -0.1, "lower"],
	])("%s to %s at a margin of 25", (low, high, word) => {
		expect(wordFor({ low, high }, rule(known(25)))).toBe(word);
	});
	test("at least the margin more lies beyond the margin, and cannot be shown without one", () => {
		const claim = "at least the margin more";
		const words = [25, 26].map((low) =>
			wordFor({ low, high: 40 }, rule(known(25), claim)),
		);
		expect(words).toEqual(["cannot tell", "higher"]);
		const none = rule(notKnown("none was set"), claim);
		expect(wordFor({ low: 26, high: 40 }, none)).toBe("cannot tell");
		expect(wordFor({ low: 0, high: 0 }, none)).toBe("cannot tell");
	});
	test.each([
		[25, 40, false],
		[25.1, 40, true],
		[-40, -25, false],
		[-40, -25.1, true],
		[-40, 40, false],
		[0, 10, false],
	])("%s to %s is surely beyond 25: %s", (low, high, beyond) => {
		expect(liesBeyond({ low, high }, known(25))).toBe(beyond);
		expect(liesBeyond({ low, high }, notKnown("none was set"))).toBe(false);
	});
});

const interval = (low: number, high: number) => ({
	interval: { low, high },
	within: { low, high },
});
const ground = (more: Partial<WordGround>): WordGround => ({
	claim: "difference",
	judged: [interval(5, 20)],
	provable: "any",
	forbidden: [],
	...more,
});

describe("the word at another margin", () => {
	test("is said where all that is judged gives it", () => {
		expect(wordAt(ground({}), 10)).toBe("higher");
		expect(wordAt(ground({}), 20)).toBe(same);
		const judged = [interval(5, 20), interval(-1, 22)];
		expect(wordAt(ground({ judged }), 20)).toBe("cannot tell");
		expect(wordAt(ground({ judged }), 22)).toBe(same);
		expect(wordAt(ground({ judged: [] }), 22)).toBe("cannot tell");
	});
	test("of a bound is the one that the bound can prove", () => {
		expect(wordAt(ground({ provable: "higher" }), 10)).toBe("higher");
		expect(wordAt(ground({ provable: "lower" }), 10)).toBe("cannot tell");
		expect(wordAt(ground({ provable: "higher" }), 20)).toBe("cannot tell");
	});
	test("is not said where it is forbidden, up to the margin that its obstacles reach", () => {
		const forbidding = (
			word: typeof same | "higher",
			upTo: number | "every margin",
		) => ground({ forbidden: [{ word, obstacles: [], upTo }] });
		expect(wordAt(forbidding("higher", "every margin"), 10)).toBe(
			"cannot tell",
		);
		expect(wordAt(forbidding("higher", 10), 10)).toBe("cannot tell");
		expect(wordAt(forbidding("higher", 9.9), 10)).toBe("higher");
		expect(wordAt(forbidding(same, "every margin"), 10)).toBe("higher");
	});
});

describe("what the sheet shows to do no harm at larger margins", () => {
	const audited: readonly Audited[] = [
		{
			condition: {
				name: "contact time",
				is: "recorded",
				allowance: "",
				effect: "",
			},
			found: {
				is: "beyond",
				feigns: "higher",
				treated: "72 h",
				untreated: "24 h",
				harmless: { above: 15, by: "a plateau shown" },
			},
		},
	];
	const at = (margin: Parameters<typeof auditedAt>[1]) =>
		auditedAt(audited, margin)[0].found;
	test("feigns nothing above, and tells why; all else is as it was found", () => {
		const told = { is: "beyond", treated: "72 h" };
		const harm = { ...told, feigns: "higher", untreated: "24 h" };
		expect(at(known(15))).toEqual(harm);
		expect(at(notKnown("none was set"))).toEqual(harm);
		expect(at(known(15.1))).toEqual({
			...told,
			feigns: "nothing",
			untreated: "24 h, a plateau shown",
		});
	});
	test("forbids up to there; what no margin mends forbids at every one, what forbids nothing is not listed", () => {
		const obstacle = {} as WordGround["forbidden"][number]["obstacles"][number];
		const found = forbiddenWords(audited, (word, list) => {
			const feigns = list.some(
				(a) => a.found.is === "beyond" && a.found.feigns === word,
			);
			return word === "lower" || feigns ? [obstacle] : [];
		});
		expect(found.map(({ word, upTo }) => [word, upTo])).toEqual([
			["higher", 15],
			["lower", "every margin"],
		]);
	});
});
