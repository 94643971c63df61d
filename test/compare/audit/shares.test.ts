/** Shares of the flasks of two sides that have something, on both sides of the half from which on it counts. */
import { describe, expect, test } from "vitest";
import {
	type Having,
	shares,
	texts as textsOf,
} from "../../../kernel-lib/compare/audit/shares";
import { shareWith } from "../../../kernel-lib/compare/audit/sides";
import { brief, type Row, rows, sides, texts } from "./sides";

const lid: Having = {
	has: (f) => f.lid === "no",
	says: (f) => f.lid !== "not recorded",
	looksLike: "more uptake",
	with: "open",
	without: "closed",
	spoils: false,
};
const open: Row = { lid: "no" };
const closed: Row = { lid: "yes" };
const look = (treated: Row[], untreated: Row[], having: Partial<Having> = {}) =>
	shares({ ...lid, ...having })(sides(treated, untreated));

describe("something that the two sides should have alike", () => {
	test.each([
		[2, 0, "beyond, higher"],
		[1, 0, "beyond, nothing"],
		[0, 2, "beyond, lower"],
		[0, 1, "beyond, nothing"],
		[3, 1, "beyond, higher"],
		[1, 3, "beyond, lower"],
		[4, 4, "within, nothing"],
		[2, 2, "within, nothing"],
		[0, 0, "within, nothing"],
	])("open in %i of 4 treated and %i of 4 control: %s", (a, b, is) => {
		const side = (n: number) => rows([n, open], [4 - n, closed]);
		expect(brief(look(side(a), side(b)))).toBe(is);
	});

	test("what looks like less uptake on the treated side makes it look lower; either stays either", () => {
		const found = (looksLike: Having["looksLike"]) =>
			brief(look([open], [closed], { looksLike }));
		expect(found("less uptake")).toBe("beyond, lower");
		expect(found("either")).toBe("beyond, either");
	});

	test("each side in its own words: all, some, none, not recorded", () => {
		expect(texts(look([open, open], [closed, {}]))).toBe("open | closed");
		expect(texts(look([open, {}], [{}, {}]))).toBe(
			"open in 1 of 2 | not recorded",
		);
	});

	test("where neither side says anything it is not recorded; a word on one side is enough", () => {
		expect(look([{}, {}], [{}])).toEqual({ is: "not recorded" });
		expect(brief(look([{}], [closed, {}]))).toBe("within, nothing");
		expect(brief(look([closed, {}], [{}]))).toBe("within, nothing");
	});
});

describe("something that spoils the titration of a flask, alike on both sides or not", () => {
	test.each([
		[2, 2, "beyond, either"],
		[4, 4, "beyond, either"],
		[2, 1, "beyond, higher"],
		[1, 2, "beyond, lower"],
		[0, 4, "beyond, lower"],
		[4, 0, "beyond, higher"],
		[1, 0, "beyond, nothing"],
		[1, 1, "within, nothing"],
	])("in %i of 4 treated and %i of 4 control: %s", (a, b, is) => {
		const side = (n: number) => rows([n, open], [4 - n, closed]);
		expect(brief(look(side(a), side(b), { spoils: true }))).toBe(is);
	});
});

test("no flask has nothing", () => {
	expect(shareWith([], () => true)).toBe(0);
});

describe("a text that both sides should have alike", () => {
	const size = textsOf((f) => f.particleSize);
	const cuts = (...list: string[]): Row[] =>
		list.map((particleSize) => ({ particleSize }));
	const found = (treated: Row[], untreated: Row[]) =>
		size(sides(treated, untreated));

	test("alike however it is written", () => {
		expect(brief(found(cuts("0.5 – 1  mm"), cuts("0.5-1 MM", "0.5—1mm")))).toBe(
			"within, nothing",
		);
	});

	test("a cut that the other side does not have, in one of four and in two", () => {
		const two = cuts("fine", "fine", "fine", "fine");
		expect(brief(found(cuts("coarse", "fine", "fine", "fine"), two))).toBe(
			"beyond, nothing",
		);
		expect(brief(found(cuts("coarse", "coarse", "fine", "fine"), two))).toBe(
			"beyond, either",
		);
		expect(brief(found(two, cuts("coarse", "coarse", "fine", "fine")))).toBe(
			"beyond, either",
		);
	});

	test("each cut is told once", () => {
		expect(texts(found(cuts("a", "b", "a"), cuts("b")))).toBe("a, b | b");
	});

	test("flasks without one do not count, and a side without any is not recorded", () => {
		expect(brief(found(cuts("fine", "", ""), cuts("fine", "")))).toBe(
			"within, nothing",
		);
		expect(texts(found(cuts("fine", ""), cuts("", "fine")))).toBe(
			"fine | fine",
		);
		expect(found(cuts("fine"), cuts(""))).toEqual({ is: "not recorded" });
		expect(found(cuts(""), cuts("fine"))).toEqual({ is: "not recorded" });
	});
});
