/** What the scatter of a difference is made of and what one repetition more would leave of it, by hand from components that a test sets. */
import { describe, expect, test } from "vitest";
import type { Flask } from "../../../kernel-lib/bench";
import type {
	Component,
	LevelName,
	Scatter,
} from "../../../kernel-lib/compare/scatter/components";
import { scatterOfPairs } from "../../../kernel-lib/compare/scatter/repetition";
import type { Comparison } from "../../../kernel-lib/compare/verdict";
import { type Row, sideOf } from "../audit/sides";

const titrated = (soak: string, titrations: number, charBatch = "A"): Row => ({
	soak,
	charBatch,
	titrations: Array.from(
		{ length: titrations },
		() => ({}) as Flask["titrations"][number],
	),
});
/** Steam: a soak with flasks of one and two titrations, and one with a flask of two, of another batch. Water: two soaks of a flask each. */
const flasks = [
	...sideOf("steam", [
		titrated("s1", 1),
		titrated("s1", 2),
		titrated("s2", 2, "B"),
	]),
	...sideOf("water", [titrated("w1", 1), titrated("w2", 1)]),
];
const component = (name: LevelName, estimate: number): Component => ({
	name,
	is: estimate > 0 ? "seen" : "none seen",
	estimate,
	low: 0,
	high: 1,
	degreesOfFreedom: 3,
	holds: [],
});
const unknown = (name: LevelName): Component => ({
	name,
	is: "not known",
	why: "nothing repeated",
});
const seen = [
	component("batch", 20),
	component("soak", 12),
	component("flask", 8),
	component("titration", 4),
];
const pairsOf = (
	components: readonly Component[] = seen,
	more: object = {},
	of = flasks,
) =>
	scatterOfPairs(
		{
			scope: "treatment",
			at: { is: "carried" },
			confidence: 0.95,
			degreesOfFreedom: 4,
			groups: [{}, {}],
			verdicts: [
				{
					treatment: "steam",
					control: "water",
					difference: { is: "estimate" },
				},
			],
			...more,
		} as unknown as Comparison,
		{ components, reading: 0, flasks: of } as Scatter,
	);

/** t of 0.975 with 4 and with 6 degrees of freedom (tables). */
const t4 = 2.776445;
const t6 = 2.446912;
// Batch A half in steam and all of water, B half in steam: twice a quarter of 20.
const batch = 10;
const soak = 12 * (1 / 2 + 1 / 2);
const flask = 8 * ((1 / 2 + 1) / 2 / 2 + 1 / 2);
const titration = 4 * ((0.75 / 2 + 1 / 2) / 2 / 2 + 1 / 2);
const total = batch + soak + flask + titration;

describe("shares", () => {
	test("of each level: a mean of soaks, of their flasks, of their titrations", () => {
		const [{ treatment, shares }] = pairsOf();
		expect(treatment).toBe("steam");
		expect([...shares]).toEqual(
			(
				[
					["batch", batch],
					["soak", soak],
					["flask", flask],
					["titration", titration],
				] as const
			).map(([level, part]) => [level, expect.closeTo(part / total, 10)]),
		);
	});
	test("a batch that both sides have alike cancels", () => {
		const alike = [
			...sideOf("steam", [titrated("s1", 1), titrated("s2", 1, "B")]),
			...sideOf("water", [titrated("w1", 1), titrated("w2", 1, "B")]),
			...sideOf("smoke", [titrated("k1", 1, "C")]),
		];
		expect(pairsOf(seen, {}, alike)[0].shares.get("batch")).toBeCloseTo(0, 12);
	});
	test("batches of a third treatment are no matter of the pair", () => {
		const third = [
			...flasks,
			...sideOf("smoke", [titrated("k1", 1, "C"), titrated("k2", 1, "D")]),
		];
		expect(pairsOf(seen, {}, third)[0].shares.get("batch")).toBeCloseTo(
			batch / total,
			10,
		);
	});
	test("what is not known, or came out below nothing, has none", () => {
		const [{ shares }] = pairsOf([
			component("soak", 12),
			component("flask", -3),
			unknown("titration"),
		]);
		expect([...shares.values()]).toEqual([0, 1, 0, 0]);
	});
});

describe("one more", () => {
	const leaves = (components: readonly Component[] = seen) =>
		new Map(pairsOf(components)[0].oneMore.map((m) => [m.of, m.leaves]));
	test("titration of each flask, batches and all else as they were", () => {
		const after = 4 * (((1 / 2 + 1 / 3) / 2 / 2 + 1 / 3) / 2 / 2 + 1 / 4);
		expect(leaves().get("titration")).toBeCloseTo(
			Math.sqrt((batch + soak + flask + after) / total),
			10,
		);
	});
	test("flask in each soak, titrated as often as those that there are", () => {
		const flasksAfter = 8 * ((1 / 3 + 1 / 2) / 2 / 2 + 1 / 4);
		// One and two titrations, and two again; two and two
		const titrationsAfter = 4 * (((1 + 1 / 2 + 1 / 2) / 9 + 1 / 4) / 4 + 1 / 4);
		expect(leaves().get("flask")).toBeCloseTo(
			Math.sqrt((batch + soak + flasksAfter + titrationsAfter) / total),
			10,
		);
	});
	test("soak of each treatment, made like those that there are, and a smaller t", () => {
		const after = ((soak + flask + titration) * 2) / 3;
		expect(leaves().get("soak")).toBeCloseTo(
			(Math.sqrt((batch + after) / total) * t6) / t4,
			6,
		);
	});
	test("the best first", () => {
		const order = pairsOf()[0].oneMore.map((m) => m.leaves);
		expect(order).toEqual([...order].sort((a, b) => a - b));
		expect(order).toHaveLength(3);
	});
	test("nothing is promised of a level that nothing tells from the one around it", () => {
		expect([
			...leaves([component("soak", 12), unknown("flask")]).keys(),
		]).toEqual(["soak"]);
	});
});

describe("nothing is said", () => {
	test("of lots, without a scatter of soaks, or where nothing scatters", () => {
		expect(pairsOf(seen, { scope: "these lots" })).toEqual([]);
		expect(pairsOf([unknown("soak"), component("flask", 8)])).toEqual([]);
		expect(pairsOf([component("flask", 8)])).toEqual([]);
		expect(pairsOf([component("soak", 0), component("flask", -1)])).toEqual([]);
	});
	test("of a pair without an interval", () => {
		const verdict = (is: string) => ({
			treatment: "steam",
			control: "water",
			difference: { is },
		});
		const verdicts = [verdict("at least"), verdict("estimate")];
		expect(pairsOf(seen, { verdicts })).toHaveLength(1);
		expect(pairsOf(seen, { verdicts: [verdict("not available")] })).toEqual([]);
	});
});
