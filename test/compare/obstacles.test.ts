/** What takes a word away, each by itself: on both sides of its decision, and all that it tells. */
import { describe, expect, test } from "vitest";
import type { Audited } from "../../kernel-lib/compare/audit";
import { carriableOf } from "../../kernel-lib/compare/carriable";
import type { PairDifference } from "../../kernel-lib/compare/differences";
import { observationsOf } from "../../kernel-lib/compare/observations";
import {
	allowanceObstacle,
	ammoniaIn,
	batchesOf,
	batchObstacle,
	boundObstacle,
	conditionObstacle,
	contradicted,
	contradictionObstacle,
	demandObstacles,
	farObstacles,
	lossObstacle,
	missingObstacle,
	oneSoakObstacle,
	perGramObstacle,
	slopeObstacle,
} from "../../kernel-lib/compare/obstacles";
import type { Carrier } from "../../kernel-lib/compare/over-slopes";
import type { Slope } from "../../kernel-lib/compare/slope";
import { type FlaskFixture, flasks, flaskUptake, group } from "./fixtures";

const pair = { treatment: "steam", control: "water" };
const observed = (...fixtures: readonly FlaskFixture[]) =>
	observationsOf(flasks(fixtures)).list;
const water = (more: Partial<FlaskFixture> = {}): FlaskFixture => ({
	flask: "w1",
	treatment: "water",
	uptake: 100,
	...more,
});
const steam = (more: Partial<FlaskFixture> = {}): FlaskFixture => ({
	flask: "s1",
	treatment: "steam",
	uptake: 120,
	...more,
});
/** A third treatment, which is no matter of the pair. */
const smoke = (more: Partial<FlaskFixture> = {}): FlaskFixture => ({
	flask: "k1",
	treatment: "smoke",
	uptake: 90,
	...more,
});

describe("ammonia", () => {
	test("of the flasks concerned, of both sides of a pair and of no third treatment", () => {
		const list = observed(
			water(),
			steam({ ammonia: "not known" }),
			smoke({ ammonia: "named" }),
		);
		expect(ammoniaIn(list, (o) => o.treatment === "smoke")).toBe("named");
		expect(ammoniaIn(list, (o) => o.treatment === "water")).toBe("none named");
		expect(missingObstacle("no control flask", list, pair)).toEqual({
			is: "no control flask",
			...pair,
			ammonia: "not known",
		});
		expect(
			missingObstacle("no spread", observed(water({ ammonia: "named" })), pair),
		).toMatchObject({ ammonia: "named" });
	});
});

describe("only bounds", () => {
	const oneSided = (
		side: "at least" | "at most",
		names: readonly string[],
	): Extract<PairDifference, { is: "one-sided" }> =>
		({ is: "one-sided", side, flasks: names }) as never;
	const words = ["higher", "cannot tell"] as const;

	test("prove higher or lower, by their side, and the ammonia is that of the bounds", () => {
		const list = observed(
			water({ ammonia: "named" }),
			steam({ is: "at least", ammonia: "not known" }),
		);
		expect(boundObstacle(list, oneSided("at least", ["s1"]), words)).toEqual({
			is: "only bounds",
			flasks: ["s1"],
			provable: "higher",
			found: words,
			dilute: false,
			ammonia: "not known",
		});
		expect(
			boundObstacle(list, oneSided("at most", ["s1"]), words),
		).toMatchObject({ provable: "lower" });
	});

	test("another dilution is all that is wanted where every one of them was too strong to read", () => {
		const tooStrong = flaskUptake(water({ is: "at most" }));
		const unread = {
			...tooStrong,
			residue: { ...tooStrong.residue, is: "at least", because: "" },
		} as typeof tooStrong;
		const { list } = observationsOf([unread, flaskUptake(steam())]);
		const dilute = (...names: string[]) =>
			(
				boundObstacle(list, oneSided("at most", names), words) as {
					dilute: boolean;
				}
			).dilute;
		expect(dilute("w1")).toBe(true);
		expect(dilute("w1", "s1")).toBe(false);
		expect(dilute("gone")).toBe(false);
	});
});

describe("unlike grams, losses, batches", () => {
	test("per gram of dry char against per gram as weighed, on the pair alone", () => {
		const weighed = { perGram: "char as weighed" } as const;
		expect(perGramObstacle(observed(water(), steam(weighed)), pair)).toEqual([
			{ is: "unlike grams", treatments: ["steam", "water"] },
		]);
		expect(
			perGramObstacle(observed(water(), steam(), smoke(weighed)), pair),
		).toEqual([]);
	});

	test("losses taken off one side of a day", () => {
		const off = { lossesTakenOff: true, day: "1" };
		const on = { lossesTakenOff: false, day: "1" };
		expect(lossObstacle(observed(water(off), steam(on)), pair)).toEqual([
			{ is: "unlike losses", ...pair, probe: "iodine" },
		]);
		expect(lossObstacle(observed(water(on), steam(on)), pair)).toEqual([]);
		expect(
			lossObstacle(observed(water(off), steam({ ...on, day: "2" })), pair),
		).toEqual([]);
	});

	test("batches of a treatment, each once", () => {
		const list = observed(
			steam({ batch: "A" }),
			steam({ batch: "B" }),
			steam({ batch: "A" }),
			water({ batch: "C" }),
		);
		expect(batchesOf(list, "steam")).toEqual(["A", "B"]);
	});

	test.each([
		[["A"], ["B"], true],
		[["A", "B"], ["C"], true],
		[["A"], ["A"], false],
		[["A", "B"], ["B"], false],
		[["A"], ["B", "A"], false],
		[[""], ["B"], false],
		[["A"], [""], false],
		[["A", ""], ["B"], false],
		[["A"], ["B", ""], false],
		[[""], [""], false],
		[[], ["B"], false],
		[["A"], [], false],
	])("treated %j against control %j apart: %s", (treated, control, apart) => {
		const list = observed(
			...treated.map((batch) => steam({ batch })),
			...control.map((batch) => water({ batch })),
			smoke({ batch: "A" }),
		);
		expect(batchObstacle(list, pair)).toEqual(
			apart ? [{ is: "unlike batches", treated, control }] : [],
		);
	});
});

describe("one soak", () => {
	test("of either side, where soaks are what counts, however many flasks it has", () => {
		const list = observed(
			...group("water", "", [100, 101]),
			steam({ soak: "s" }),
			steam({ flask: "s2", soak: "s" }),
		);
		expect(oneSoakObstacle(list, pair, "soak")).toEqual([
			{ is: "one soak", treatments: ["steam"] },
		]);
		expect(oneSoakObstacle(list, pair, "flask")).toEqual([]);
		expect(
			oneSoakObstacle(list, { treatment: "water", control: "steam" }, "soak"),
		).toEqual([{ is: "one soak", treatments: ["steam"] }]);
		expect(
			oneSoakObstacle(observed(water(), steam()), pair, "soak"),
		).toMatchObject([{ treatments: ["steam", "water"] }]);
		expect(
			oneSoakObstacle(
				observed(
					...group("water", "", [100, 101]),
					...group("steam", "water", [120, 121]),
					smoke(),
				),
				pair,
				"soak",
			),
		).toEqual([]);
	});
});

describe("contradictions", () => {
	const wrong = { contradiction: "more left than added" };
	test("of a flask of the pair, with what is said of all its flasks", () => {
		const list = observed(water(), steam(wrong), smoke(wrong));
		expect(contradicted(list, pair).map((o) => o.name)).toEqual(["s1"]);
		expect(contradictionObstacle(list, pair)).toEqual([
			{
				is: "contradiction",
				flasks: ["s1"],
				ofPair: [
					{ flask: { name: "w1" }, contradiction: "", likelyCause: "" },
					{ flask: { name: "s1" }, ...wrong, likelyCause: "" },
				],
			},
		]);
		expect(
			contradictionObstacle(observed(water(wrong), steam()), pair),
		).toHaveLength(1);
		expect(
			contradictionObstacle(observed(water(), steam(), smoke(wrong)), pair),
		).toEqual([]);
	});
});

describe("conditions", () => {
	const audited = (feigns: "higher" | "lower" | "nothing"): Audited[] => [
		{
			condition: { name: "lid", is: "recorded", allowance: "", effect: "" },
			found: { is: "beyond", feigns, treated: "open", untreated: "closed" },
		},
	];
	test("only the word that they could have made", () => {
		const list = observed(water(), steam({ ammonia: "named" }));
		expect(conditionObstacle("higher", list, pair, audited("higher"))).toEqual([
			{
				is: "unlike conditions",
				word: "higher",
				...pair,
				findings: [
					{
						condition: "lid",
						is: "recorded",
						feigns: "higher",
						treated: "open",
						untreated: "closed",
					},
				],
				ammonia: "named",
			},
		]);
		for (const feigns of ["lower", "nothing"] as const)
			expect(conditionObstacle("higher", list, pair, audited(feigns))).toEqual(
				[],
			);
	});
});

describe("soak remains", () => {
	const consuming = {
		is: "suspected",
		looksLike: "more uptake",
		because: "alkali",
	} as const;
	test("of the treated char may only feign higher, of the control only lower; sameness needs both free of them", () => {
		const treated = observed(
			water({ ammonia: "not known" }),
			steam({ demand: consuming, ammonia: "named" }),
		);
		expect(demandObstacles("higher", treated, pair)).toEqual([
			{
				is: "soak remains",
				word: "higher",
				treatment: "steam",
				ofControl: false,
				looksLike: "more uptake",
				flasks: ["s1"],
				because: ["alkali"],
				ammonia: "named",
			},
		]);
		expect(demandObstacles("lower", treated, pair)).toEqual([]);
		expect(
			demandObstacles("no difference that matters", treated, pair),
		).toMatchObject([{ treatment: "steam", ofControl: false }]);
		expect(demandObstacles("cannot tell", treated, pair)).toEqual([]);
		const control = observed(
			water({ demand: consuming, ammonia: "not known" }),
			steam({ ammonia: "named" }),
		);
		expect(demandObstacles("higher", control, pair)).toEqual([]);
		expect(demandObstacles("lower", control, pair)).toMatchObject([
			{ treatment: "water", ofControl: true, ammonia: "not known" },
		]);
	});

	test("their limits, where the word does not outlast them", () => {
		expect(
			allowanceObstacle("higher", pair, {
				complete: true,
				low: 1,
				high: 2,
				steps: ["rinsed"],
			}),
		).toEqual({
			is: "soak allowance",
			word: "higher",
			...pair,
			low: 1,
			high: 2,
			steps: ["rinsed"],
		});
	});
});

describe("residues and slopes", () => {
	const range = (low: number, high: number): Slope => ({
		is: "range",
		low,
		high,
	});
	const measured: Slope = {
		is: "measured",
		value: 0.3,
		standardUncertainty: 0.01,
		degreesOfFreedom: 4,
		response: new Float64Array(2),
		withinSoaks: true,
	};
	const carrier = (
		fixtures: readonly FlaskFixture[],
		slopes: Readonly<Record<string, Slope>>,
		at = 300,
	): Carrier => ({
		carriable: carriableOf(flasks(fixtures), at),
		at,
		slopes: new Map(Object.entries(slopes)),
		used: new Map(),
		spread: "moderated",
	});

	test("the widest range of the slopes that were not measured, and the dose that would bring the residues together", () => {
		const list = observed(water(), steam({ ammonia: "not known" }));
		const residues = {
			treated: 250,
			control: 300,
			expandedUncertainty: 1,
			liquid: 0.1,
		};
		const found = (slopes: Readonly<Record<string, Slope>>) =>
			slopeObstacle("higher", list, pair, residues, carrier([], slopes));
		expect(found({ water: range(0.1, 0.5), steam: range(0.2, 0.6) })).toEqual({
			is: "unlike residues",
			word: "higher",
			...pair,
			residues,
			slopes: { low: 0.1, high: 0.6 },
			// 50 mg/L more in 0.1 L
			doseChange: 5,
			probe: "iodine",
			ammonia: "not known",
		});
		expect(found({ water: measured, steam: range(0.2, 0.6) })).toMatchObject({
			slopes: { low: 0.2, high: 0.6 },
		});
		expect(found({ steam: range(0.2, 0.6) })).toMatchObject({
			slopes: { low: 0.2, high: 0.6 },
		});
	});

	describe("carried too far", () => {
		const far = (residue: number, slope: Slope = range(0, 0.6)) =>
			farObstacles(
				pair,
				carrier([water(), steam({ residue })], {
					water: range(0, 0.6),
					steam: slope,
				}),
			);
		test.each([
			[900, false],
			[901, true],
			[100, false],
			[99.9, true],
		])("from %f mg/L to 300: %s", (residue, is) => {
			expect(far(residue).length).toBe(is ? 1 : 0);
		});
		test("a measured slope carries any distance, and a treatment that is not there is carried nowhere", () => {
			expect(far(3000, measured)).toEqual([]);
			expect(
				farObstacles(pair, carrier([steam({ residue: 3000 })], {})),
			).toEqual([]);
			expect(
				farObstacles(pair, carrier([water()], { steam: range(0, 0.6) })),
			).toEqual([]);
		});
		test("bounds are not carried", () => {
			expect(
				farObstacles(
					pair,
					carrier([water(), steam({ residue: 3000, is: "at least" })], {
						water: range(0, 0.6),
						steam: range(0, 0.6),
					}),
				),
			).toEqual([]);
		});
		test("one flask is enough, on either side; the dose is that of the nearest, carried in the middle of the range", () => {
			const found = farObstacles(
				pair,
				carrier(
					[
						water({ residue: 50 }),
						steam({ residue: 1200, uptake: 200, ammonia: "named" }),
						steam({
							flask: "s2",
							residue: 600,
							uptake: 160,
							liquid: 300,
						}),
					],
					{ water: range(0, 0.6), steam: range(0, 0.6) },
				),
			);
			expect(found.map((o) => "treatment" in o && o.treatment)).toEqual([
				"steam",
				"water",
			]);
			const uptake = 160 * 0.5 ** 0.3;
			expect(found[0]).toEqual({
				is: "carried too far",
				treatment: "steam",
				residue: 300,
				range: { low: 600, high: 1200 },
				uptake: expect.closeTo(uptake, 9),
				// 0.2 L at 300 mg/L and 1 g of char
				dose: expect.closeTo(60 + uptake, 9),
				dosing: {
					probe: "iodine",
					ammonia: "named",
					flask: { char: 1, liquid: expect.closeTo(0.2, 9) },
				},
			});
		});
		test("nearest counts in times, not in mg/L", () => {
			// 250 mg/L below and 500 above: six times and 2.67 times
			const two = [
				steam({ residue: 50, uptake: 10 }),
				steam({ flask: "s2", residue: 800, uptake: 160 }),
			];
			for (const list of [two, [...two].reverse()]) {
				const [found] = farObstacles(
					pair,
					carrier(list, { steam: range(0, 0.6) }),
				);
				expect(found).toMatchObject({
					uptake: expect.closeTo(160 * (300 / 800) ** 0.3, 9),
				});
			}
		});
	});
});
