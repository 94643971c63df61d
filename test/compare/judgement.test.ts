/** From the interval of a pair to its word and what stands beside it, with intervals that a test sets. */
import { describe, expect, test } from "vitest";
import { carriableOf } from "../../kernel-lib/compare/carriable";
import type { PairDifference } from "../../kernel-lib/compare/differences";
import {
	type Judged,
	judge,
	limitOf,
	shownDifference,
} from "../../kernel-lib/compare/judgement";
import { observationsOf } from "../../kernel-lib/compare/observations";
import type { Reckoning } from "../../kernel-lib/compare/reckoning";
import type { Slope } from "../../kernel-lib/compare/slope";
import type { Interval, Rule } from "../../kernel-lib/compare/word";
import { known, notKnown } from "../../kernel-lib/quantity";
import { type FlaskFixture, flasks, group } from "./fixtures";

const pair = { treatment: "steam", control: "water" };
const at = (low: number, high: number): Interval => ({ low, high });

/** Nothing is weighed where a test sets the interval. */
const reckoning: Reckoning = {
	estimate: 0,
	variances: { scatter: 16, shared: 0, slopes: 0, readings: 0 },
	degreesOfFreedom: Number.POSITIVE_INFINITY,
	criticalValue: 2,
	ofLimits: 0,
	weighed: {
		is: "isotherms",
		treated: { uptake: 0, standardError: 0 },
		control: { uptake: 0, standardError: 0 },
	},
};

const interval = (
	outer: Interval,
	oneSided: Interval = outer,
): PairDifference => ({
	is: "interval",
	estimate: (outer.low + outer.high) / 2,
	interval: outer,
	oneSided,
	errors: { variance: 16, degreesOfFreedom: Number.POSITIVE_INFINITY },
	reckoned: {
		is: "interval",
		estimate: reckoning,
		low: reckoning,
		high: reckoning,
	},
	index: 1,
});
type OneSided = Extract<PairDifference, { is: "one-sided" }>;
const oneSided = (
	side: "at least" | "at most",
	without: Interval,
	atLimit: Interval,
): OneSided => ({
	is: "one-sided",
	side,
	flasks: ["steam1"],
	without,
	atLimit,
	errors: {} as OneSided["errors"],
	reckoned: { without: reckoning, atLimit: reckoning },
	index: 0,
});

/** Two soaks of each, on which nothing is wrong unless a test says so. */
const sound = (
	treated: Partial<FlaskFixture> = {},
	control: Partial<FlaskFixture> = {},
) => [
	...group("water", "", [100, 101], control),
	...group("steam", "water", [120, 121], treated),
];

function judgedBy(
	difference: PairDifference,
	rule: Partial<Rule> = {},
	fixtures: readonly FlaskFixture[] = sound(),
): Judged {
	const uptakes = flasks(fixtures);
	const range: Slope = { is: "range", low: 0, high: 0.6 };
	return {
		middle: difference,
		difference,
		list: observationsOf(uptakes).list,
		carrier: {
			carriable: carriableOf(uptakes, 300),
			at: 300,
			slopes: new Map([
				["steam", range],
				["water", range],
			]),
			used: new Map(),
			spread: "moderated",
		},
		level: "soak",
		rule: {
			margin: known(25),
			claim: "difference",
			sameness: "one-sided tests",
			...rule,
		},
		audit: [],
	};
}
const judgement = (...given: Parameters<typeof judgedBy>) =>
	judge(pair, judgedBy(...given));
const obstacles = (...given: Parameters<typeof judgedBy>) =>
	judgement(...given).obstacles.map((o) => o.is);

describe("an interval", () => {
	test("is judged by its one-sided limits, or as a whole; the other way is told", () => {
		const d = interval(at(-26, 26), at(-24, 24));
		expect(judgement(d)).toMatchObject({
			word: "no difference that matters",
			otherwise: "cannot tell",
		});
		expect(judgement(d, { sameness: "interval" })).toMatchObject({
			word: "cannot tell",
			otherwise: "no difference that matters",
		});
	});
	test("is what the word at another margin follows from, with what must lie inside it", () => {
		const d = interval(at(-26, 26), at(-24, 24));
		const grounds = (sameness: Rule["sameness"]) =>
			judgement(d, { sameness }).ground;
		for (const [sameness, within] of [
			["one-sided tests", at(-24, 24)],
			["interval", at(-26, 26)],
		] as const) {
			const { judged, provable, claim } = grounds(sameness);
			expect(judged.length).toBeGreaterThan(0);
			for (const j of judged)
				expect(j).toEqual({ interval: at(-26, 26), within });
			expect([provable, claim]).toEqual(["any", "difference"]);
		}
	});
	test("surely beyond the margin, where the word is said", () => {
		expect(judgement(interval(at(26, 40))).exceedsMargin).toBe(true);
		expect(judgement(interval(at(24, 40))).exceedsMargin).toBe(false);
		expect(judgement(interval(at(-40, -26))).exceedsMargin).toBe(true);
		const forbidden = judgement(
			interval(at(26, 40)),
			{},
			sound({ contradiction: "more left than added" }),
		);
		expect(forbidden.word).toBe("cannot tell");
		expect(forbidden.exceedsMargin).toBe(false);
	});
	test("is shown with its standard error, its p by its place in the family, and no degrees of freedom where none limit it", () => {
		const j = judgement(interval(at(10, 30), at(12, 28)));
		expect(shownDifference(j, [], [0.5, 0.01])).toEqual({
			is: "estimate",
			estimate: 20,
			standardError: 4,
			low: 10,
			high: 30,
			oneSided: at(12, 28),
			degreesOfFreedom: 0,
			adjustedP: 0.01,
		});
	});
});

describe("one end that is known", () => {
	test("without the bounds and with them, whichever says less", () => {
		expect(limitOf(oneSided("at least", at(5, 9), at(7, 9)))).toBe(5);
		expect(limitOf(oneSided("at least", at(7, 9), at(5, 9)))).toBe(5);
		expect(limitOf(oneSided("at most", at(-9, -5), at(-9, -7)))).toBe(-5);
		expect(limitOf(oneSided("at most", at(-9, -7), at(-9, -5)))).toBe(-5);
	});
	test("proves its own side only, and only where both say so", () => {
		const word = (...d: Parameters<typeof oneSided>) =>
			judgement(oneSided(...d)).word;
		expect(word("at least", at(1, 90), at(2, 90))).toBe("higher");
		expect(word("at least", at(1, 90), at(-1, 90))).toBe("cannot tell");
		expect(word("at least", at(-1, 90), at(1, 90))).toBe("cannot tell");
		expect(word("at least", at(-9, -1), at(-9, -1))).toBe("cannot tell");
		expect(word("at least", at(-9, 9), at(-9, 9))).toBe("cannot tell");
		expect(word("at most", at(-90, -1), at(-90, -1))).toBe("lower");
		expect(word("at most", at(1, 90), at(1, 90))).toBe("cannot tell");
	});
	test("surely beyond the margin by that end alone", () => {
		const exceeds = (...d: Parameters<typeof oneSided>) =>
			judgement(oneSided(...d)).exceedsMargin;
		expect(exceeds("at least", at(26, 90), at(30, 90))).toBe(true);
		expect(exceeds("at least", at(24, 90), at(30, 90))).toBe(false);
		expect(exceeds("at most", at(-90, -30), at(-90, -26))).toBe(true);
		expect(exceeds("at most", at(-90, -30), at(-90, -24))).toBe(false);
	});
	test("gives the ground with the one word that it can prove, and both intervals to lie inside the margin", () => {
		const both = [at(1, 90), at(2, 80)] as const;
		const { judged, provable } = judgement(
			oneSided("at least", ...both),
		).ground;
		expect(provable).toBe("higher");
		for (const i of both)
			expect(judged).toContainEqual({ interval: i, within: i });
		expect(judgement(oneSided("at most", ...both)).ground.provable).toBe(
			"lower",
		);
	});
	test("tells which bounds fail, after what forbids the word that they could prove", () => {
		const open = oneSided("at least", at(-1, 90), at(1, 90));
		expect(obstacles(open)).toEqual(["only bounds"]);
		const suspected = {
			is: "suspected",
			looksLike: "more uptake",
			because: "",
		} as const;
		expect(obstacles(open, {}, sound({ demand: suspected }))).toEqual([
			"soak remains",
			"only bounds",
		]);
		expect(obstacles(open, {}, sound({}, { demand: suspected }))).toEqual([
			"only bounds",
		]);
	});
	test("is shown, unless a flask contradicts itself or what a dry flask used up may be the soak's", () => {
		const suspected = {
			is: "suspected",
			looksLike: "more uptake",
			because: "",
		} as const;
		const shown = (
			side: "at least" | "at most",
			treated: Partial<FlaskFixture>,
		) => {
			const d = oneSided(side, at(-9, -1), at(-9, -2));
			const by = judgedBy(d, {}, sound(treated));
			return shownDifference(judge(pair, by), by.list, []);
		};
		expect(shown("at least", {})).toEqual({
			is: "at least",
			limit: -9,
			flasks: ["steam1"],
			without: at(-9, -1),
			atLimit: at(-9, -2),
		});
		expect(shown("at least", { demand: suspected })).toEqual({
			is: "not available",
			why: "soak remains",
			flasks: ["steam1"],
		});
		expect(shown("at most", { demand: suspected })).toMatchObject({
			is: "at most",
			limit: -1,
		});
		expect(shown("at most", { contradiction: "wrong" })).toEqual({
			is: "not available",
			why: "contradiction",
		});
	});
});

describe("no difference", () => {
	test("has no word, no interval and its reason; what contradicts itself is told before", () => {
		const missing = { is: "missing", why: "no spread" } as const;
		const j = judgement(missing, { claim: "difference" });
		expect(j).toMatchObject({
			word: "cannot tell",
			numbersSay: "cannot tell",
			exceedsMargin: false,
		});
		expect(j.ground.judged).toEqual([]);
		expect(j.obstacles.map((o) => o.is)).toEqual(["no spread"]);
		expect(obstacles(missing, {}, sound({ contradiction: "wrong" }))).toEqual([
			"contradiction",
			"no spread",
		]);
		expect(shownDifference(j, [], [])).toEqual({
			is: "not available",
			why: "nothing to compare",
		});
	});
	test("residues of a pair are known where both have flasks", () => {
		const none = { is: "missing", why: "no treated flask" } as const;
		const present = [
			...group("water", "", [100, 101]),
			...group("smoke", "water", [90, 91]),
		];
		expect(judgement(none, {}, present).residues).toEqual({ is: "unknown" });
		expect(judgement(none).residues).toMatchObject({
			is: "known",
			treated: 300,
			control: 300,
		});
	});
});

describe("what makes two groups unlike", () => {
	test("is told where the numbers say a word, and where they do not", () => {
		const unlike = sound({ perGram: "char as weighed" });
		for (const d of [interval(at(26, 40)), interval(at(-40, 40))]) {
			const j = judgement(d, {}, unlike);
			expect(j.word).toBe("cannot tell");
			expect(j.obstacles.map((o) => o.is)).toEqual(["unlike grams"]);
		}
		expect(judgement(interval(at(26, 40)), {}, unlike).numbersSay).toBe(
			"higher",
		);
	});
	test("forbids every word at every margin; one soak does too", () => {
		const forbidden = (fixtures: readonly FlaskFixture[]) =>
			judgement(interval(at(26, 40)), {}, fixtures).ground.forbidden.map(
				({ word, upTo }) => [word, upTo],
			);
		const every = [
			["no difference that matters", "every margin"],
			["higher", "every margin"],
			["lower", "every margin"],
		];
		expect(forbidden(sound())).toEqual([]);
		expect(forbidden(sound({ perGram: "char as weighed" })).sort()).toEqual(
			[...every].sort(),
		);
		expect(
			forbidden([
				...group("water", "", [100, 101]),
				...group("steam", "water", [120]),
			]).sort(),
		).toEqual([...every].sort());
	});
});

describe("a word that does not outlast what is not known", () => {
	test("of the slopes", () => {
		const by = judgedBy(interval(at(1, 40)));
		const wide = { ...by, difference: interval(at(-1, 50)) };
		const j = judge(pair, wide);
		expect(j).toMatchObject({ word: "cannot tell", numbersSay: "higher" });
		expect(j.obstacles).toMatchObject([
			{ is: "unlike residues", word: "higher", slopes: { low: 0, high: 0.6 } },
		]);
		expect(judge(pair, { ...by, difference: interval(at(1, 50)) }).word).toBe(
			"higher",
		);
	});
	test("of the soaks, within their limits", () => {
		const soaked = (more: number) =>
			sound({
				demand: {
					is: "suspected",
					looksLike: "more uptake",
					because: "",
					ceiling: { more: known(more), less: known(0), steps: ["rinsed"] },
				},
			});
		const j = judgement(interval(at(5, 40)), {}, soaked(6));
		expect(j).toMatchObject({
			word: "cannot tell",
			numbersSay: "higher",
			difference: { interval: at(-1, 40) },
		});
		expect(j.obstacles).toMatchObject([
			{ is: "soak allowance", word: "higher", low: 6, steps: ["rinsed"] },
		]);
		expect(judgement(interval(at(5, 40)), {}, soaked(4)).word).toBe("higher");
	});
});

test("without a margin no word of it, whichever way sameness is judged", () => {
	const none = notKnown("none was set");
	expect(judgement(interval(at(-1, 1)), { margin: none })).toMatchObject({
		word: "cannot tell",
		otherwise: "cannot tell",
		margin: none,
		exceedsMargin: false,
	});
});
