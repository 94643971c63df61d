/** A margin that was not set, one that is a share of the control, and a claim of at least the margin. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench";
import {
	chosenClaim,
	chosenMargin,
	compareTreatments as compareTrial,
	marginOf,
	percentOfControl,
	residueOf,
	wordAt,
} from "../../kernel-lib/compare";
import { tableText } from "../../kernel-lib/quantity";
import {
	comparisonTable,
	methodTable,
	nextSteps,
	wordsAtThreeMargins,
} from "../../kernel-lib/words";
import {
	compareAtResidue,
	compareTreatments,
	type FlaskFixture,
	flasks,
	group,
	verdictOf,
} from "./fixtures";

type Options = Parameters<typeof compareTreatments>[1];

/** Three soaks each of standard deviation 2: standard error 1.633, t of 4 degrees of freedom 2.776: 4.53 to both sides; one-sided 2.132: 3.48. */
const threeSoaks = (mean: number): number[] => [mean - 2, mean, mean + 2];

const against = (
	mean: number,
	options: Options,
	control: readonly FlaskFixture[] = group("water", "", threeSoaks(100)),
) =>
	compareTreatments(
		flasks([...control, ...group("potash", "water", threeSoaks(mean))]),
		options,
	);

describe("no margin set", () => {
	test("higher, lower or cannot tell, never no difference that matters", () => {
		const word = (mean: number) => verdictOf(against(mean, {}), "potash").word;
		expect(word(100 + 4.6)).toBe("higher");
		expect(word(100 + 4.4)).toBe("cannot tell");
		expect(word(100)).toBe("cannot tell");
		expect(word(100 - 4.4)).toBe("cannot tell");
		expect(word(100 - 4.6)).toBe("lower");
	});

	test("the sentence says so, and speaks of no margin", () => {
		const v = verdictOf(against(140, {}), "potash");
		expect(v.sentence).toBe(
			'"potash": at 300 mg/L iodine left, higher than its control by 40.0 mg/g (95 % interval 35.5 to 44.5). No margin was set. With 3 soaks against 3 this rests in part on soaks of all treatments scattering alike.',
		);
		expect(v.exceedsMargin).toBe(false);
		const open = verdictOf(against(100, {}), "potash");
		expect(open.sentence).toContain(
			"cannot tell whether it differs from its control (0.0 mg/g, 95 % interval −4.5 to 4.5, takes in zero). No margin was set",
		);
		expect(open.replicates).toEqual({
			is: "not given",
			why: { is: "no margin", because: "no margin was set" },
		});
		expect(open.reasons.join(" ")).not.toContain("undefined");
	});

	test("the words at 5, 10 and 20 % of the control, to two digits, are those of a comparison with that margin", () => {
		const c = against(111, {});
		const rows = wordsAtThreeMargins(c).rows;
		expect(rows).toEqual([
			["potash", "5", "higher"],
			["potash", "10", "higher"],
			["potash", "20", "no difference that matters"],
		]);
		for (const [, margin, word] of rows)
			expect(
				verdictOf(against(111, { margin: marginOf(Number(margin)) }), "potash")
					.word,
			).toBe(word);
		expect(tableText(wordsAtThreeMargins(c))).toContain(
			"A margin that is chosen after the results were seen proves nothing",
		);
		expect(
			wordsAtThreeMargins(against(111, { margin: marginOf(10) })).rows,
		).toEqual([]);
	});

	test("a control that may take up nothing gives no three margins, and says why", () => {
		const nothing = group("water", "", [-2, 1, 4]);
		expect(wordsAtThreeMargins(against(40, {}, nothing)).rows).toEqual([
			[
				"potash",
				"not given",
				expect.stringMatching(
					/^not given: the interval of the control's uptake \(−\d.* to \d.* mg\/g\) reaches zero$/,
				),
			],
		]);
	});

	test("no table has a margin in it that nobody set", () => {
		const c = against(111, {});
		const text = [comparisonTable(c), methodTable(c), nextSteps(c)]
			.map(tableText)
			.join("\n");
		expect(text).toContain("Order of the words, with no margin set");
		expect(text).toContain("no margin");
		expect(text).not.toMatch(/NaN|Infinity|undefined|null|beyond \d/);
	});
});

describe("a margin in per cent of the control", () => {
	const tenth = percentOfControl(10);

	test("is taken of what the control takes up, to three digits", () => {
		const v = verdictOf(
			against(111, { margin: tenth }, group("water", "", threeSoaks(101.28))),
			"potash",
		);
		expect(v.margin).toEqual({ is: "value", value: 10.1 });
		expect(v.sentence).toContain(
			"whether it is more than the 10.1 mg/g (10 % of the control) that would matter is open",
		);
	});

	test("gives the word of the same margin in mg/g", () => {
		for (const mean of [100, 106.4, 106.6, 112, 120])
			expect(verdictOf(against(mean, { margin: tenth }), "potash").word).toBe(
				verdictOf(against(mean, { margin: marginOf(10) }), "potash").word,
			);
	});

	test("is refused where the control's interval reaches zero, and stands just above", () => {
		// The interval of one group's mean: 4.303 (t of 0.975, 2 degrees of freedom) is the widest that its spread could have; the pooled one is narrower.
		const at = (mean: number) =>
			verdictOf(
				against(40, { margin: tenth }, group("water", "", threeSoaks(mean))),
				"potash",
			);
		const c = against(40, { margin: tenth }, group("water", "", threeSoaks(4)));
		const [low] = c.groups.map((g) => g.low - g.mean);
		expect(at(-low + 0.01).margin.is).toBe("value");
		const refused = at(-low - 0.01);
		expect(refused.margin.is).toBe("not known");
		expect(refused.word).toBe("higher");
		expect(refused.sentence).toMatch(
			/\. A margin of 10 % of the control is not to be had: the interval of the control's uptake \(.* to .* mg\/g\) reaches zero\./,
		);
	});

	test("is refused where the control has a bound in it", () => {
		const control = group("water", "", threeSoaks(100));
		const bound = [
			{ ...control[0], is: "at least" as const },
			...control.slice(1),
		];
		expect(
			verdictOf(against(200, { margin: tenth }, bound), "potash").margin,
		).toEqual({
			is: "not known",
			because:
				"a margin of 10 % of the control is not to be had: the uptake of the control has a bound in it",
		});
	});

	test("is above 0", () => {
		expect(() => against(100, { margin: percentOfControl(0) })).toThrow(
			/found a margin of 0 % of the control; expected a difference above 0/,
		);
		expect(() => against(100, { margin: marginOf(-1) })).toThrow(
			/found a margin of -1 mg\/g/,
		);
	});
});

describe("the claim of at least the margin more", () => {
	const claim = "at least the margin more";
	const at = (mean: number, options: Options = {}) =>
		verdictOf(
			against(mean, { margin: marginOf(10), claim, ...options }),
			"potash",
		);

	test("higher only where the whole interval lies beyond the margin", () => {
		expect(at(100 + 10 + 4.6).word).toBe("higher");
		expect(at(100 + 10 + 4.4).word).toBe("cannot tell");
		expect(at(100 - 10 - 4.4).word).toBe("lower");
	});

	test("no difference that matters as without it", () => {
		expect(at(100 + 10 - 3.5).word).toBe("no difference that matters");
		expect(at(100 + 10 - 3.4).word).toBe("cannot tell");
		expect(at(100 + 10 - 4.4, { sameness: "interval" }).word).toBe(
			"cannot tell",
		);
	});

	test("the sentence and the method say which claim it was, and what is shown of it", () => {
		const open = at(112);
		expect(open.sentence).toContain(
			'cannot tell whether it is higher than its control by the 10 mg/g that would matter or more (12.0 mg/g, 95 % interval 7.5 to 16.5, surely higher, by how much is open). The claim set beforehand was "at least 10 mg/g more"',
		);
		expect(open.replicates).toEqual({ is: "not given", why: { is: "claim" } });
		const c = against(140, { margin: marginOf(10), claim });
		expect(c.methodSaid.join(" ")).toContain(
			"The claim was at least the margin more",
		);
		expect(
			against(140, { margin: marginOf(10) }).methodSaid.join(" "),
		).toContain("The claim was a difference");
	});

	test("needs a margin; where a share of the control is refused, higher is not said", () => {
		expect(() => compareTrial({} as never, { claim })).toThrow();
		expect(() =>
			compareTrial(readTrial("data/demo-run/small-trial.csv"), { claim }),
		).toThrow(/found the claim "at least the margin more", and no margin/);
		const c = against(
			400,
			{ margin: percentOfControl(10), claim },
			group("water", "", [-2, 1, 4]),
		);
		expect(verdictOf(c, "potash").word).toBe("cannot tell");
	});
});

describe("what a notebook's parameters choose", () => {
	test("one margin or none, and never two", () => {
		expect(chosenMargin({ mgPerG: 0, percent: 0 })).toBeUndefined();
		expect(chosenMargin({ mgPerG: 0, percent: 10 })).toEqual(
			percentOfControl(10),
		);
		expect(chosenMargin({ mgPerG: 25, percent: 0 })).toMatchObject({
			value: 25,
			unit: "mg/g",
		});
		expect(() => chosenMargin({ mgPerG: 25, percent: 10 })).toThrow(
			/found two margins, 25 mg\/g and 10 % of the control; expected one of them/,
		);
		expect(() => chosenMargin({ mgPerG: -25, percent: 0 })).toThrow(/-25/);
	});

	test("a claim that there is", () => {
		expect(chosenClaim("difference")).toBe("difference");
		expect(() => chosenClaim("at least the margin")).toThrow(
			/Did you mean "at least the margin more"/,
		);
	});
});

describe("the word at any margin, from what a verdict carries", () => {
	const suspected = {
		is: "suspected",
		looksLike: "more uptake",
		because: "alkali left in the char consumes iodine",
	} as const;
	const treated = fc.record({
		mean: fc.integer({ min: 20, max: 220 }),
		residue: fc.constantFrom(300, 250, 500, 1000),
		is: fc.constantFrom("value", "value", "at least", "at most"),
		demand: fc.constantFrom<FlaskFixture["demand"]>(
			{ is: "none expected" },
			suspected,
		),
		perGram: fc.constantFrom<FlaskFixture["perGram"]>(
			"dry char",
			"char as weighed",
		),
	} as const);

	test("is that of a comparison with this margin, claim and way of judging sameness", () => {
		fc.assert(
			fc.property(
				treated,
				fc.integer({ min: 1, max: 120 }),
				fc.constantFrom("difference", "at least the margin more"),
				fc.constantFrom("one-sided tests", "interval"),
				({ mean, is, ...more }, margin, claim, sameness) => {
					const rows = group("potash", "water", threeSoaks(mean), more);
					const list = flasks([
						...group("water", "", threeSoaks(100)),
						...rows.map((f, i) => (i === 0 ? { ...f, is } : f)),
					]);
					const at = (mg: number) =>
						verdictOf(
							compareTreatments(list, {
								margin: marginOf(mg),
								claim,
								sameness,
							}),
							"potash",
						);
					expect(wordAt(at(7).ground, margin)).toBe(at(margin).word);
				},
			),
			{ numRuns: 300 },
		);
	});

	test("on isotherms too", () => {
		const doses = (treatment: string, control: string, times: number) =>
			[100, 200, 400, 800].flatMap((residue, i) =>
				["a", "b"].map((soak, k) => ({
					flask: `${treatment}${i}${soak}`,
					treatment,
					control,
					soak,
					residue,
					uptake: times * 20 * residue ** 0.3 + (k === 0 ? 1 : -1) * (i - 1),
				})),
			);
		const list = flasks([
			...doses("water", "", 1),
			...doses("steam", "water", 1.1),
		]);
		const at = (margin: number) =>
			verdictOf(
				compareAtResidue(list, {
					margin: marginOf(margin),
					residue: residueOf(300),
				}),
				"steam",
			);
		const words = [5, 15, 40].map((m) => [wordAt(at(3).ground, m), at(m).word]);
		for (const [asked, set] of words) expect(asked).toBe(set);
		expect(new Set(words.flat()).size).toBeGreaterThan(1);
	});
});
