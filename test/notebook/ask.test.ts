/** The question on a page, at a margin of the reader's own: its functions against the comparison itself. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Claim, marginOf, wordAt } from "../../kernel-lib/compare";
import { askFunctions } from "../../kernel-lib/notebook/page/ask-script";
import {
	answerMarkup,
	comparisonMarkup,
} from "../../kernel-lib/notebook/page/comparison";
import type { ReportedWordGround } from "../../kernel-lib/notebook/reported";
import { resultOf } from "../../kernel-lib/notebook/result";
import {
	compareTreatments,
	type FlaskFixture,
	flasks,
	group,
	verdictOf,
} from "../compare/fixtures";

interface Asked {
	readonly treatment: string;
	readonly ground: ReportedWordGround;
	readonly said: Readonly<Record<string, string>>;
}

const { marginIn, onPage, answersAt } = new Function(
	`${askFunctions}; return { marginIn: marginIn, onPage: wordAt, answersAt: answersAt };`,
)() as {
	marginIn(text: string): number;
	onPage(
		ground: ReportedWordGround,
		margin: number,
	): { word: string; because: string };
	answersAt(asked: readonly Asked[], text: string): string[];
};

/** The verdict on potash, three soaks against three, as compared and as reported. */
function potash(
	treated: readonly FlaskFixture[],
	claim: Claim = "difference",
	margin = 25,
) {
	const c = compareTreatments(
		flasks([...group("water", "", [98, 100, 102]), ...treated]),
		{ margin: marginOf(margin), claim },
	);
	const { content } = resultOf("verdict", c, "");
	if (content.kind !== "comparison") throw new Error("no comparison");
	return { ...verdictOf(c, "potash"), reported: content.verdicts[0] };
}

const suspected = {
	is: "suspected",
	looksLike: "more uptake",
	because: "alkali left in the char consumes iodine",
} as const;

describe("the word on the page", () => {
	test("is the comparison's own at every margin", () => {
		fc.assert(
			fc.property(
				fc.integer({ min: 20, max: 220 }),
				fc.constantFrom(300, 500, 1000),
				fc.constantFrom<NonNullable<FlaskFixture["is"]>>(
					"value",
					"at least",
					"at most",
				),
				fc.boolean(),
				fc.constantFrom<Claim>("difference", "at least the margin more"),
				(mean, residue, is, remains, claim) => {
					const rows = group("potash", "water", [mean - 2, mean, mean + 2], {
						residue,
						...(remains ? { demand: suspected } : {}),
					});
					const v = potash(
						rows.map((f, i) => (i === 0 ? { ...f, is } : f)),
						claim,
					);
					for (const margin of [
						0.5, 1, 2, 3, 5, 8, 10, 15, 20, 25, 40, 70, 120,
					]) {
						const said = onPage(v.reported.wordGround, margin);
						expect(said.word).toBe(wordAt(v.ground, margin));
						expect(said.because === "").toBe(said.word !== "cannot tell");
					}
					expect(onPage(v.reported.wordGround, 25).word).toBe(v.word);
				},
			),
			{ numRuns: 100 },
		);
	});

	test("stays cannot tell where something forbids it, with the reason", () => {
		const v = potash(
			group("potash", "water", [198, 200, 202], { demand: suspected }),
		);
		expect(onPage(v.reported.wordGround, 10)).toEqual({
			word: "cannot tell",
			because: "what is left of its soak may consume iodine",
		});
	});
});

describe("what is typed", () => {
	test.each([
		["15", 15],
		[" 2,5 ", 2.5],
		["0.5", 0.5],
		[".5", 0.5],
		["7.", 7],
		["0", 0],
		["-3", 0],
		["1e3", 0],
		["1,000.5", 0],
		["fifteen", 0],
		["NaN", 0],
		["Infinity", 0],
		["9".repeat(400), 0],
		["", 0],
	])("%s", (typed, margin) => {
		expect(marginIn(typed)).toBe(margin);
	});

	const asked = (): Asked[] => {
		const { reported, treatment } = potash(
			group("potash", "water", [109, 111, 113]),
		);
		const said = Object.fromEntries(
			["no difference that matters", "higher", "lower", "cannot tell"].map(
				(w) => [w, w],
			),
		);
		return [{ treatment, ground: reported.wordGround, said }];
	};

	test("gets the words, a sentence where it is no margin, and nothing where nothing is typed", () => {
		expect(answersAt(asked(), "15,5")).toEqual([
			"potash: no difference that matters",
		]);
		expect(answersAt(asked(), "5")).toEqual(["potash: higher"]);
		expect(answersAt(asked(), "five")).toEqual([
			"Write a number above 0 in mg/g, such as 15 or 2.5.",
		]);
		expect(answersAt(asked(), " ")).toEqual([]);
	});

	test("never an answer with no number in it", () => {
		fc.assert(
			fc.property(fc.string(), (typed) => {
				expect(answersAt(asked(), typed).join()).not.toMatch(
					/NaN|Infinity|undefined|null/,
				);
			}),
			{ numRuns: 50 },
		);
	});
});

test("the question is asked once, under the working's table of the verdict", () => {
	const { content } = resultOf(
		"verdict",
		compareTreatments(
			flasks([
				...group("water", "", [98, 100, 102]),
				...group("potash", "water", [198, 200, 202]),
			]),
			{},
		),
		"",
	);
	if (content.kind !== "comparison") throw new Error("no comparison");
	expect(comparisonMarkup(content)).toContain('class="ask');
	expect(answerMarkup(content)).not.toContain('class="ask');
});
