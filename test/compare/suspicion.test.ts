/** Which soak remains can have feigned which word. */
import { describe, expect, test } from "vitest";
import { observationsOf } from "../../kernel-lib/compare/observations";
import { forbiddenBy, suspicionOf } from "../../kernel-lib/compare/suspicion";
import { known, notKnown } from "../../kernel-lib/quantity";
import type { LooksLike } from "../../kernel-lib/uptake";
import { type FlaskFixture, flasks } from "./fixtures";

const suspected = (
	looksLike: LooksLike,
	because = "remains",
	limited: { more?: boolean; less?: boolean } = {},
): FlaskFixture["demand"] => ({
	is: "suspected",
	looksLike,
	because,
	ceiling: {
		more: limited.more ? known(1) : notKnown("no limit"),
		less: limited.less ? known(1) : notKnown("no limit"),
		steps: [],
	},
});
const listOf = (
	...demands: readonly (readonly [string, FlaskFixture["demand"]])[]
) =>
	observationsOf(
		flasks(
			demands.map(([treatment, demand], i) => ({
				flask: `${treatment}${i}`,
				treatment,
				uptake: 100,
				demand,
			})),
		),
	).list;
const names = (list: ReturnType<typeof listOf>, asked?: LooksLike) =>
	suspicionOf(list, "steam", asked).flasks;

describe("the flasks of a treatment that are suspected", () => {
	test("of what is asked for, or of what may be either; all where anything is asked for", () => {
		const list = listOf(
			["steam", suspected("more uptake")],
			["steam", suspected("less uptake")],
			["steam", suspected("either")],
			["steam", { is: "none expected" }],
			["water", suspected("more uptake")],
		);
		expect(names(list, "more uptake")).toEqual(["steam0", "steam2"]);
		expect(names(list, "less uptake")).toEqual(["steam1", "steam2"]);
		expect(names(list)).toEqual(["steam0", "steam1", "steam2"]);
	});

	test("not where what is asked for has a limit; that widens the interval", () => {
		const list = listOf(
			["steam", suspected("either", "", { more: true })],
			["steam", suspected("either", "", { less: true })],
			["steam", suspected("either", "", { more: true, less: true })],
		);
		expect(names(list, "more uptake")).toEqual(["steam1"]);
		expect(names(list, "less uptake")).toEqual(["steam0"]);
		expect(names(list)).toEqual(["steam0", "steam1"]);
	});

	test("each reason once, and what they look like together", () => {
		const list = listOf(
			["steam", suspected("more uptake", "alkali")],
			["steam", suspected("more uptake", "alkali")],
			["steam", suspected("either", "sugar")],
		);
		expect(suspicionOf(list, "steam", "more uptake")).toMatchObject({
			treatment: "steam",
			looksLike: "either",
			because: ["alkali", "sugar"],
		});
		const consuming = listOf(["steam", suspected("more uptake")]);
		expect(suspicionOf(consuming, "steam").looksLike).toBe("more uptake");
		expect(suspicionOf(consuming, "water", "less uptake").looksLike).toBe(
			"less uptake",
		);
	});
});

describe("a word is forbidden by remains that look like it", () => {
	const pair = { treatment: "steam", control: "water" };
	const by = (
		word: Parameters<typeof forbiddenBy>[0],
		treated: LooksLike,
		control: LooksLike,
	) =>
		forbiddenBy(
			word,
			listOf(["steam", suspected(treated)], ["water", suspected(control)]),
			pair,
		).map((s) => s.treatment);
	const [more, less] = ["more uptake", "less uptake"] as const;
	test.each<
		[Parameters<typeof forbiddenBy>[0], LooksLike, LooksLike, string[]]
	>([
		["higher", more, less, ["steam", "water"]],
		["higher", less, more, []],
		["lower", less, more, ["steam", "water"]],
		["lower", more, less, []],
		["higher", "either", more, ["steam"]],
		["lower", more, "either", ["water"]],
		["no difference that matters", more, less, ["steam", "water"]],
		["cannot tell", more, less, []],
	])("%s: treated looks like %s, control like %s", (word, a, b, found) => {
		expect(by(word, a, b)).toEqual(found);
	});
	test("not where nothing is suspected", () => {
		const free = listOf(["steam", undefined], ["water", undefined]);
		expect(forbiddenBy("no difference that matters", free, pair)).toEqual([]);
	});
});
