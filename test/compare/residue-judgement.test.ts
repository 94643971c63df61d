/** From two curves at the stated residue to the word, with intervals that a test sets. */
import { describe, expect, test } from "vitest";
import type { Audited } from "../../kernel-lib/compare/audit";
import type {
	CurveEstimate,
	CurveOrNot,
} from "../../kernel-lib/compare/curve-estimate";
import { observationsOf } from "../../kernel-lib/compare/observations";
import type { CurveDifferences } from "../../kernel-lib/compare/residue-differences";
import {
	type JudgedAtResidue,
	judgeAtResidue,
	noCommonDay,
} from "../../kernel-lib/compare/residue-judgement";
import type { Interval, Rule } from "../../kernel-lib/compare/word";
import { known, notKnown } from "../../kernel-lib/quantity";
import { type FlaskFixture, flasks, group } from "./fixtures";

const pair = { treatment: "steam", control: "water" };
const other = { treatment: "ash", control: "water" };
const at = (low: number, high: number): Interval => ({ low, high });

const sound = (
	treated: Partial<FlaskFixture> = {},
	control: Partial<FlaskFixture> = {},
) => [
	...group("water", "", [100, 101], control),
	...group("steam", "water", [120, 121], treated),
];
const curve = (uptake: number): CurveEstimate =>
	({
		uptake,
		scatterVariance: 9,
		shared: new Map([
			["titrant", 4],
			["blank", 12],
		]),
	}) as unknown as CurveEstimate;

interface Given {
	readonly interval?: Interval;
	readonly oneSided?: Interval;
	readonly rule?: Partial<Rule>;
	readonly fixtures?: readonly FlaskFixture[];
	readonly curves?: ReadonlyMap<string, CurveOrNot>;
	readonly pair?: typeof pair;
	readonly family?: readonly (typeof pair)[];
	readonly audit?: readonly Audited[];
}

/** Two differences, ours the second of them. */
function judged({
	interval = at(26, 40),
	oneSided = interval,
	rule = {},
	fixtures = sound(),
	curves = new Map(),
	pair: of = pair,
	family = [other, of],
	audit = [],
}: Given) {
	const differences = {
		family: family.map((p, i) => ({
			pair: p,
			treated: curve(330),
			control: curve(300),
			estimate: 30 + i,
			scatterVariance: 18,
			sharedVariance: 7,
			variance: 25 + i,
			degreesOfFreedom: i === 0 ? 3 : Number.POSITIVE_INFINITY,
		})),
		joint: { criticalValues: [2.1, 2.5] },
		intervals: [at(-900, 900), interval],
		oneSided: [at(-800, 800), oneSided],
	} as unknown as CurveDifferences;
	const ground: JudgedAtResidue = {
		curves,
		differences,
		list: observationsOf(flasks(fixtures)).list,
		ruleFor: () => ({
			margin: known(25),
			claim: "difference",
			sameness: "one-sided tests",
			...rule,
		}),
		auditFor: () => audit,
	};
	return judgeAtResidue(of, ground);
}
const obstacles = (given: Given) => judged(given).obstacles.map((o) => o.is);

describe("an interval", () => {
	test("is judged by its one-sided limits, or as a whole; the other way is told", () => {
		const given = { interval: at(-26, 26), oneSided: at(-24, 24) };
		const grounds = (sameness: Rule["sameness"]) =>
			judged({ ...given, rule: { sameness } });
		expect(grounds("one-sided tests")).toMatchObject({
			word: "no difference that matters",
			otherwise: "cannot tell",
			ground: {
				claim: "difference",
				judged: [{ interval: at(-26, 26), within: at(-24, 24) }],
				provable: "any",
				forbidden: [],
			},
		});
		expect(grounds("interval")).toMatchObject({
			word: "cannot tell",
			otherwise: "no difference that matters",
			ground: { judged: [{ interval: at(-26, 26), within: at(-26, 26) }] },
		});
	});

	test("keeps its estimate, its variance, its limits and its place in the family", () => {
		const found = judged({ oneSided: at(28, 38) });
		expect(found.residues).toEqual({ is: "unknown" });
		expect(found.difference).toMatchObject({
			is: "interval",
			estimate: 31,
			interval: at(26, 40),
			oneSided: at(28, 38),
			errors: { variance: 26, degreesOfFreedom: Number.POSITIVE_INFINITY },
			index: 1,
		});
	});

	test("is reckoned by the uptakes on both curves, each with scatter and shared errors together", () => {
		const { difference } = judged({});
		if (difference.is !== "interval") throw new Error(difference.is);
		const { estimate, low, high } = difference.reckoned;
		expect(estimate).toEqual({
			estimate: 31,
			variances: { scatter: 18, shared: 7, slopes: 0, readings: 0 },
			degreesOfFreedom: 0,
			criticalValue: 2.5,
			ofLimits: 0,
			weighed: {
				is: "isotherms",
				// 9 + 16 + 144
				treated: { uptake: 330, standardError: 13 },
				control: { uptake: 300, standardError: 13 },
			},
		});
		expect([low, high]).toEqual([estimate, estimate]);
	});

	test("surely beyond the margin, where the word is said", () => {
		expect(judged({}).exceedsMargin).toBe(true);
		expect(judged({ interval: at(24, 40) }).exceedsMargin).toBe(false);
		const unlike = { fixtures: sound({ perGram: "char as weighed" }) };
		expect(judged(unlike)).toMatchObject({
			word: "cannot tell",
			numbersSay: "higher",
			exceedsMargin: false,
		});
	});

	test("without a margin tells higher and lower alone", () => {
		const rule = { margin: notKnown("none was set") };
		expect(judged({ rule }).word).toBe("higher");
		expect(judged({ rule, interval: at(-1, 1) }).word).toBe("cannot tell");
		expect(judged({ rule }).margin).toEqual(rule.margin);
	});
});

describe("room for what soaks may have left", () => {
	const soaked = (more: number) =>
		sound({
			demand: {
				is: "suspected",
				looksLike: "more uptake",
				because: "",
				ceiling: { more: known(more), less: known(0), steps: ["rinsed"] },
			},
		});

	test("widens the interval; a word that outlasts it is said", () => {
		const given = { interval: at(5, 60), fixtures: soaked(4) };
		expect(judged(given)).toMatchObject({
			word: "higher",
			difference: { interval: at(1, 60), oneSided: at(1, 60) },
			allowance: { low: 4, high: 0 },
		});
	});

	test("one that does not is told with what it lacks", () => {
		const given = { interval: at(5, 60), fixtures: soaked(6) };
		expect(judged(given)).toMatchObject({
			word: "cannot tell",
			numbersSay: "higher",
		});
		expect(judged(given).obstacles).toMatchObject([
			{ is: "soak allowance", word: "higher", low: 6 },
		]);
	});

	test("sameness is judged with it too, by the limits that are asked for", () => {
		const given = {
			interval: at(-26, 20),
			oneSided: at(-20, 18),
			fixtures: soaked(6),
		};
		expect(judged(given)).toMatchObject({
			word: "cannot tell",
			numbersSay: "no difference that matters",
		});
		expect(obstacles(given)).toEqual(["soak allowance"]);
		expect(
			judged({ ...given, rule: { sameness: "interval" } }).numbersSay,
		).toBe("cannot tell");
		expect(judged({ ...given, fixtures: soaked(4) }).word).toBe(
			"no difference that matters",
		);
	});
});

describe("what forbids a word", () => {
	test("whatever makes the two sides unlike", () => {
		for (const [treated, is] of [
			[{ perGram: "char as weighed" }, "unlike grams"],
			[{ lossesTakenOff: false }, "unlike losses"],
			[{ batch: "B" }, "unlike batches"],
			[{ contradiction: "less than nothing was left" }, "contradiction"],
		] as const) {
			const fixtures = sound({ batch: "A", ...treated }, { batch: "A" });
			expect(obstacles({ fixtures })).toContain(is);
			const { word, ground } = judged({ fixtures });
			expect(word).toBe("cannot tell");
			expect(ground.forbidden.map((f) => [f.word, f.upTo])).toContainEqual([
				"lower",
				"every margin",
			]);
		}
		expect(obstacles({})).toEqual([]);
	});

	test("what a soak without a limit could feign, and nothing else", () => {
		const fixtures = sound({
			demand: { is: "suspected", looksLike: "more uptake", because: "" },
		});
		expect(obstacles({ fixtures })).toEqual(["soak remains"]);
		expect(obstacles({ fixtures, interval: at(-60, -30) })).toEqual([]);
	});

	test("a condition that could have made it", () => {
		const audit = [
			{
				condition: { name: "lid", is: "recorded" },
				found: {
					is: "beyond",
					feigns: "higher",
					treated: "open",
					untreated: "closed",
					harmless: { above: 50, by: "a later look" },
				},
			},
		] as unknown as Audited[];
		expect(obstacles({ audit })).toEqual(["unlike conditions"]);
		expect(obstacles({ audit, interval: at(-60, -30) })).toEqual([]);
		expect(judged({ audit }).ground.forbidden).toMatchObject([
			{ word: "no difference that matters", upTo: 50 },
			{ word: "higher", upTo: 50 },
		]);
		// At a larger margin the sheet shows that it does no harm.
		const rule = { margin: known(60) };
		expect(obstacles({ audit, rule })).toEqual([]);
		expect(judged({ audit, rule }).audited[0].found).toMatchObject({
			feigns: "nothing",
		});
	});
});

describe("without a difference", () => {
	const none = (is: string): CurveOrNot =>
		({ is: "none", obstacle: { is } }) as unknown as CurveOrNot;

	test("no control is told before everything else", () => {
		const alone = { treatment: "steam", control: "" };
		const found = judged({
			pair: alone,
			curves: new Map([["steam", none("too few doses")]]),
		});
		expect(found.obstacles).toMatchObject([{ is: "no control" }]);
		expect(found).toMatchObject({
			pair: alone,
			difference: { is: "missing", why: "no curve" },
			numbersSay: "cannot tell",
			word: "cannot tell",
			otherwise: "cannot tell",
			ground: {
				claim: "difference",
				judged: [],
				provable: "any",
				forbidden: [],
			},
			exceedsMargin: false,
			residues: { is: "unknown" },
			margin: known(25),
		});
	});

	test("why each side has no curve, the treated first; a flask that contradicts itself before", () => {
		const curves = new Map([
			["water", none("too few doses")],
			["steam", none("residue not reached")],
			["ash", none("isotherm not determined")],
		]);
		expect(obstacles({ curves })).toEqual([
			"residue not reached",
			"too few doses",
		]);
		expect(
			obstacles({ curves, fixtures: sound({ contradiction: "wrong" }) })[0],
		).toBe("contradiction");
	});

	test("sides that stood on different days", () => {
		const fixtures = sound({ day: "Mon" }, { day: "Tue" });
		expect(obstacles({ fixtures })).toEqual(["no common day"]);
		const { list } = observationsOf(
			flasks([
				...fixtures,
				...group("steam", "water", [130], { day: "Tue", soak: "third" }),
			]),
		);
		expect(noCommonDay(list, pair)).toBe(false);
		// One day in common is enough, whatever a third treatment did.
		const days = (treatment: string, ...names: string[]) =>
			names.map(
				(day, i): FlaskFixture => ({
					flask: `${treatment}${i}`,
					treatment,
					uptake: 100,
					day,
				}),
			);
		const standing = (...fixtures: FlaskFixture[][]) =>
			noCommonDay(observationsOf(flasks(fixtures.flat())).list, pair);
		expect(
			standing(days("water", "Mon", "Tue"), days("steam", "Tue", "Wed")),
		).toBe(false);
		expect(
			standing(
				days("water", "Mon"),
				days("steam", "Wed"),
				days("ash", "Mon", "Wed"),
			),
		).toBe(true);
	});

	test("where nothing scatters", () => {
		expect(obstacles({ family: [other] })).toEqual(["no spread"]);
	});

	test("with what is audited all the same", () => {
		const audit = [
			{ condition: { name: "lid" }, found: { is: "not recorded" } },
		] as unknown as Audited[];
		expect(judged({ family: [other], audit }).audited).toEqual(audit);
	});
});
