/** The head of a page: a stamp, the finding, a row a verdict, what to know before it is quoted. */
import { describe, expect, test } from "vitest";
import { marginOf } from "../../kernel-lib/compare";
import { findingText } from "../../kernel-lib/notebook/finding";
import { answerRows } from "../../kernel-lib/notebook/page/answer-rows";
import { answerMarkup } from "../../kernel-lib/notebook/page/comparison";
import { leadMarkup } from "../../kernel-lib/notebook/page/head";
import { stampMarkup } from "../../kernel-lib/notebook/page/stamp";
import type {
	ReportedComparison,
	ReportedDifference,
	ReportedResult,
	ReportedVerdict,
} from "../../kernel-lib/notebook/reported";
import { resultOf } from "../../kernel-lib/notebook/result";
import type { RunRecord } from "../../kernel-lib/notebook/run-record";
import { sortedVerdicts } from "../../kernel-lib/notebook/verdict-table";
import { compareTreatments, flasks, group } from "../compare/fixtures";

/** Water against four treatments, none of which is near another. */
function reported(margin = 25): ReportedComparison {
	const c = compareTreatments(
		flasks([
			...group("water", "", [98, 99, 100, 101, 102]),
			...group("like", "water", [99, 100, 101, 100, 100]),
			...group("less", "water", [38, 39, 40, 41, 42]),
			...group("more", "water", [158, 159, 160, 161, 162]),
			...group("most", "water", [258, 259, 260, 261, 262]),
		]),
		margin === 0 ? {} : { margin: marginOf(margin) },
	);
	const { content } = resultOf("verdict", c, "");
	if (content.kind !== "comparison") throw new Error("no comparison");
	return content;
}

/** The first verdict with other words or another difference. */
function changed(
	change: Partial<ReportedVerdict>,
	comparison = reported(),
): ReportedComparison {
	const [first] = sortedVerdicts(comparison);
	return { ...comparison, verdicts: [{ ...first, ...change }] };
}

const statementsOf = (name: string, statements: string[]): ReportedResult =>
	({
		name,
		note: "",
		content: { kind: "statements", statements },
	}) as unknown as ReportedResult;

describe("the finding", () => {
	test("says each word once, the clearest first, with how much more or less", () => {
		expect(findingText(reported())).toMatch(
			/^Higher: "most" by 160\.0 mg\/g and "more" by 60\.0 mg\/g\. Lower: "less" by 60\.0 mg\/g\. No difference that matters: "like"\.$/,
		);
	});

	test("is not said without the flask that the word hangs on", () => {
		expect(
			findingText(
				changed({
					word: "higher",
					withDeviations: "cannot tell",
					withoutDeviations: "higher",
				}),
			),
		).toContain("(with the flasks that a deviation touched: cannot tell)");
		expect(
			findingText(
				changed({
					word: "higher",
					withDeviations: "higher",
					withoutDeviations: "lower",
				}),
			),
		).toContain("(without the flasks that a deviation touched: lower)");
		expect(findingText(reported())).not.toContain("deviation");
	});

	test("claims no more than the measuring error allows", () => {
		expect(findingText(changed({ measuringErrorOnly: true }))).toMatch(
			/^Higher than measuring error explains: "most"/,
		);
	});

	test("of a bound says at least", () => {
		expect(
			findingText(changed({ difference: { is: "at least", limit: 40 } })),
		).toContain('"most" by at least 40 mg/g');
		expect(
			findingText(
				changed({ difference: { is: "not available", because: "" } }),
			),
		).toBe('Higher: "most".');
	});
});

describe("what the finding must not hide", () => {
	const estimate = (low: number, best: number, high: number) => ({
		...(sortedVerdicts(reported())[0].difference as object),
		estimate: best,
		low,
		high,
	});
	const of = (
		low: number,
		best: number,
		high: number,
		change: object,
	): string =>
		findingText(
			changed({
				difference: estimate(low, best, high) as ReportedDifference,
				...change,
			}),
		);

	test("a small difference has the digits that it needs", () => {
		expect(of(0.277, 0.3, 0.323, {})).toContain("by 0.300 mg/g");
	});

	test("that only these lots were looked at", () => {
		expect(findingText({ ...reported(), scope: "these lots" })).toMatch(
			/^In these lots only\. Higher/,
		);
		expect(findingText(reported())).not.toContain("lots");
	});

	test("whether it is more than matters", () => {
		expect(of(16, 28, 40, { exceedsMargin: false })).toContain(
			"(whether by more than matters is open)",
		);
		expect(of(26, 38, 50, { exceedsMargin: true })).not.toContain("open");
		expect(
			of(16, 28, 40, {
				exceedsMargin: false,
				margin: { is: "not known", because: "" },
			}),
		).not.toContain("open");
	});

	test("that what does not matter may yet be sure", () => {
		const word = "no difference that matters";
		expect(of(5.4, 6, 6.6, { word })).toContain('"most" (yet surely higher)');
		expect(of(-6.6, -6, -5.4, { word })).toContain("(yet surely lower)");
		expect(of(-1, 0, 1, { word })).not.toContain("surely");
	});

	test("which control, where one treatment has several", () => {
		const c = reported();
		const [first] = sortedVerdicts(c);
		expect(
			findingText({
				...c,
				verdicts: [first, { ...first, control: "other" }],
			}),
		).toMatch(/"most" against "water".*"most" against "other"/);
	});

	test("a word that leans on a deviation is never only counted", () => {
		const c = reported();
		const [first] = sortedVerdicts(c);
		const verdicts = Array.from({ length: 9 }, (_, i) => ({
			...first,
			treatment: `t${i}`,
			withDeviations: i === 8 ? ("cannot tell" as const) : first.word,
			withoutDeviations: first.word,
		}));
		expect(findingText({ ...c, verdicts })).toMatch(/^Higher: "t8".*touched/);
	});

	test("an interval by its own confidence, and of the measuring error alone", () => {
		expect(answerRows({ ...reported(), confidence: 0.995 })).toContain(
			"99.5 % interval",
		);
		expect(answerRows(changed({ measuringErrorOnly: true }))).toContain(
			"interval of the measuring error alone",
		);
	});

	test("that a margin could not be had: no band, and a notice", () => {
		const none = changed({ margin: { is: "not known", because: "" } });
		expect(answerRows(none)).not.toMatch(/Band:|class="band"/);
		expect(answerMarkup(none)).toContain("The margin cannot be had for");
		expect(answerMarkup(reported())).not.toContain("cannot be had");
	});
});

describe("many treatments", () => {
	/** Its first verdict so many times over, under other names. */
	function many(count: number): ReportedComparison {
		const comparison = reported();
		const [first] = sortedVerdicts(comparison);
		return {
			...comparison,
			verdicts: Array.from({ length: count }, (_, i) => ({
				...first,
				treatment: `t${i}`,
			})),
		};
	}

	test("of a word are named up to six, more are counted", () => {
		expect(findingText(many(6))).toMatch(
			/"t4" by [\d.]+ mg\/g and "t5" by [\d.]+ mg\/g\.$/,
		);
		expect(findingText(many(8))).toMatch(/"t5" by [\d.]+ mg\/g and 2 more\.$/);
	});

	test("stand open up to forty, more are folded", () => {
		expect(answerRows(many(40))).not.toContain("<details");
		const html = answerRows(many(42));
		expect(html).toContain("<summary>2 more treatments</summary>");
		expect(html.match(/<tr class="row">/g)).toHaveLength(42);
	});
});

describe("the rows", () => {
	const rows = (c: ReportedComparison): string[] =>
		answerRows(c).match(/<tr class="row">.*?<\/tr>/gs) ?? [];

	test("stand in the order of the finding, each with glyph, word, numbers and sentence", () => {
		const found = rows(reported());
		expect(found).toHaveLength(4);
		expect(found[0]).toContain("most");
		expect(found[0]).toMatch(/▲<\/span> higher/);
		expect(found[2]).toMatch(/▼<\/span> lower.*−60\.0 \(−/s);
		expect(found[3]).toMatch(/●<\/span> no difference that matters/);
		for (const v of reported().verdicts)
			expect(answerRows(reported())).toContain(
				v.sentence.replaceAll('"', "&quot;"),
			);
	});

	/** x of the bar's ends and of zero in a row's picture. */
	function picture(row: string) {
		const [, low, high] =
			/class="bar" d="M([\d.]+) 18H([\d.]+)/.exec(row) ?? [];
		const [, zero] = /class="zero" d="M([\d.]+)/.exec(row) ?? [];
		const [, dot] = /class="dot" cx="([\d.]+)"/.exec(row) ?? [];
		return { low: +low, high: +high, zero: +zero, dot: +dot };
	}

	test("draw each difference on one axis: its side of zero, its ends about its middle", () => {
		const [most, more, less, like] = rows(reported()).map(picture);
		for (const p of [most, more, less, like]) {
			expect(p.low).toBeLessThan(p.dot);
			expect(p.dot).toBeLessThan(p.high);
			expect(p.zero).toBe(most.zero);
		}
		expect(most.low).toBeGreaterThan(more.high);
		expect(more.low).toBeGreaterThan(more.zero);
		expect(less.high).toBeLessThan(less.zero);
		// 160 lies as far from 60 as 60 from -40 would: the axis is even.
		const unit = (more.dot - more.zero) / 60;
		expect(most.dot - most.zero).toBeCloseTo(160 * unit, 0);
		expect(less.dot - less.zero).toBeCloseTo(-60 * unit, 0);
	});

	test("a bound is an arrow away from its limit, no difference no bar", () => {
		const of = (difference: ReportedDifference): string =>
			rows(changed({ difference }))[0];
		const tip = (row: string): number[] =>
			(/M([\d.]+) 18H([\d.]+)/.exec(row) ?? []).slice(1).map(Number);
		const [from, to] = tip(of({ is: "at least", limit: 40 }));
		expect(to).toBeGreaterThan(from);
		const [start, end] = tip(of({ is: "at most", limit: -40 }));
		expect(end).toBeLessThan(start);
		for (const row of [of({ is: "at least", limit: 40 })])
			expect(row).not.toContain('class="dot"');
		expect(of({ is: "not available", because: "" })).not.toContain("bar");
	});

	test("one bar of millions is cut off with heads at the edges, its numbers beside it, and leaves the others their length", () => {
		const whole = reported();
		const verdicts = whole.verdicts.map((v) =>
			v.treatment === "most"
				? {
						...v,
						difference: {
							is: "estimate",
							estimate: 160,
							low: -2e6,
							high: 3e6,
						} as ReportedDifference,
					}
				: v,
		);
		const cut = { ...whole, verdicts };
		const row = rows(cut).find((r) => r.includes(">most<")) ?? "";
		// Zero, and a head at either end.
		expect(row.match(/L[\d.]+ 18L/g)).toHaveLength(2);
		expect(row).toContain("3000000");
		expect(answerRows(cut)).toContain("the bar goes on");
		expect(answerRows(whole)).not.toContain("the bar goes on");
		const less = picture(rows(cut).find((r) => r.includes(">less<")) ?? "");
		expect(less.zero - less.dot).toBeGreaterThan(30);
	});

	test("the band of what would not matter is there only where a margin was set", () => {
		expect(answerRows(reported())).toContain('class="band"');
		expect(answerRows(reported())).toContain("Band:");
		expect(answerRows(reported(0))).not.toMatch(/class="band"|Band:/);
	});

	test("what was judged is thick only under no difference that matters", () => {
		const found = rows(reported());
		expect(found.map((r) => r.includes('class="judged"'))).toEqual([
			false,
			false,
			false,
			true,
		]);
		expect(answerRows(reported(0))).not.toContain("Thick");
	});

	test("nothing drawn is other than a number", () => {
		for (const margin of [0, 1e-6, 25, 1e6])
			expect(answerRows(reported(margin))).not.toMatch(
				/NaN|Infinity|undefined/,
			);
	});
});

describe("before it is quoted", () => {
	const page = (statements: string[]): string =>
		leadMarkup([statementsOf("not concluded", statements)]);
	const general = "This does not show that a char is fit for drinking water.";

	test("what the trial leaves open is in sight, what no trial shows in short", () => {
		const html = page([general, "One soak only.", "No blank."]);
		const open = html.slice(0, html.indexOf("<details"));
		expect(open).toContain("One soak only.");
		expect(open).toContain("No blank.");
		expect(open).not.toContain("This does not show");
		expect(html).toMatch(
			/<summary>No test for drinking water, breathing or treating poisoning.*This does not show/,
		);
	});

	test("where the sheet promises a use, that and the limits stand before the answer", () => {
		const claim =
			'The sheet says "safe": the words are the sheet\'s; nothing here tested it.';
		const html = leadMarkup([
			statementsOf("verdict", ["It holds more."]),
			statementsOf("not concluded", [claim, general, "One soak only."]),
		]);
		const before = html.slice(0, html.indexOf("It holds more."));
		expect(before).toContain("nothing here tested it");
		expect(before).toContain(general);
		expect(html.split("nothing here tested it")).toHaveLength(2);
		expect(
			leadMarkup([
				statementsOf("verdict", ["It holds more."]),
				statementsOf("not concluded", [general]),
			]).indexOf(general),
		).toBeGreaterThan(html.indexOf("answers"));
	});

	test("beyond three the rest is folded with its count; four stand whole", () => {
		const many = (n: number): string[] =>
			Array.from({ length: n }, (_, i) => `Left open ${i}.`);
		expect(page(many(4))).not.toContain("<details");
		expect(page(many(5))).toContain("<summary>2 more of this trial</summary>");
	});
});

describe("the stamp", () => {
	const record: RunRecord = {
		id: "0123456789abcdef",
		settings: [],
		inputs: [
			{ file: "mine.csv", hash: "a", sha256: "" },
			{ file: "mine.solutions.csv", hash: "b", sha256: "" },
		],
		versions: { is: "known", library: "9.9.9", node: "22", tslab: "1" },
		times: {
			is: "recorded",
			started: "2026-02-03T04:05:06.000Z",
			ended: "2026-02-03T04:05:07.000Z",
		},
	};
	const comparison = (margin: number): ReportedResult =>
		({
			name: "verdict",
			note: "",
			content: reported(margin),
		}) as ReportedResult;

	test("has sheet, margin, day, version and run", () => {
		expect(stampMarkup(record, [comparison(25)], false)).toBe(
			'<p class="stamp">mine.csv and 1 more · margin 25 mg/g · computed 2026-02-03 · Charledger 9.9.9 · run 0123456789ab</p>',
		);
	});

	test("says that no margin was set, and that data are invented only where they are", () => {
		expect(stampMarkup(record, [comparison(0)], false)).toContain(
			"no margin set",
		);
		expect(stampMarkup(record, [], true)).toContain("Invented demo data");
		expect(stampMarkup(record, [], false)).not.toMatch(/invented|margin/i);
	});

	test("leaves out what is not known", () => {
		const html = stampMarkup(
			{
				...record,
				inputs: [],
				versions: { is: "not known", because: "" },
				times: { is: "not known", because: "" },
			},
			[],
			false,
		);
		expect(html).toBe('<p class="stamp">run 0123456789ab</p>');
	});
});
