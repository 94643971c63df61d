/** Whether what is compared is alike, on the flasks of a pair alone. */
import { describe, expect, test } from "vitest";
import {
	lossesOf,
	perGramOf,
	takesAs,
} from "../../kernel-lib/compare/likeness";
import { observationsOf } from "../../kernel-lib/compare/observations";
import { probeOf } from "../../kernel-lib/compare/probe";
import type { FlaskUptake } from "../../kernel-lib/uptake";
import { type FlaskFixture, flaskUptake } from "./fixtures";

const pair = { treatment: "steam", control: "water" };
type Made = Partial<FlaskFixture> & Pick<Partial<FlaskUptake>, "takenAs">;
const listOf = (...made: readonly Made[]) =>
	observationsOf(
		made.map(({ takenAs = [], ...f }, i) => ({
			...flaskUptake({ flask: String(i), treatment: "steam", uptake: 1, ...f }),
			takenAs,
		})),
	).list;
const water = { treatment: "water" };
const smoke = { treatment: "smoke" };

test("what was taken up: each probe once, iodine where no flask says", () => {
	const dye = observationsOf([
		{
			...flaskUptake({ flask: "a", treatment: "steam", uptake: 1 }),
			probe: "methylene blue",
		},
	]).list;
	expect(probeOf(listOf({}, water))).toBe("iodine");
	expect(probeOf([...dye, ...listOf({}), ...dye])).toBe(
		"methylene blue, iodine",
	);
	expect(probeOf([])).toBe("iodine");
});

test("what uptakes are per gram of", () => {
	const weighed = { perGram: "char as weighed" } as const;
	expect(perGramOf(listOf({}, water), pair)).toBe("dry char");
	expect(
		perGramOf(listOf(weighed, { ...water, ...weighed }, smoke), pair),
	).toBe("char as weighed");
	expect(perGramOf(listOf({}, { ...water, ...weighed }), pair)).toBe("both");
});

test("one flask of either side that rests on a decision is enough", () => {
	const [what, other] = ["losses of jars", "moisture"] as const;
	const takenAs = [what];
	expect(takesAs(listOf({ takenAs }, {}, water), pair, what)).toBe(true);
	expect(takesAs(listOf({}, { ...water, takenAs }), pair, what)).toBe(true);
	expect(takesAs(listOf({ takenAs }, water), pair, other)).toBe(false);
	expect(takesAs(listOf({}, water, { ...smoke, takenAs }), pair, what)).toBe(
		false,
	);
});

describe("losses", () => {
	const flask = (
		treatment: string,
		day: string,
		lossesTakenOff: boolean,
	): Made => ({ treatment, day, lossesTakenOff });
	const of = (...made: readonly Made[]) => lossesOf(listOf(...made), pair);
	test("taken off all, or none", () => {
		expect(of(flask("steam", "1", true), flask("water", "1", true))).toBe(
			"taken off",
		);
		expect(of(flask("steam", "1", false), flask("water", "1", false))).toBe(
			"included",
		);
	});
	test("by day, where both sides of each day are alike", () => {
		expect(
			of(
				flask("steam", "1", true),
				flask("water", "1", true),
				flask("steam", "2", false),
				flask("water", "2", false),
			),
		).toBe("by day");
	});
	test("unlike where on any day they are not", () => {
		expect(
			of(
				flask("steam", "1", true),
				flask("water", "1", true),
				flask("steam", "2", true),
				flask("water", "2", false),
			),
		).toBe("unlike");
	});
	test("a third treatment has no say", () => {
		expect(
			of(
				flask("steam", "1", true),
				flask("water", "1", true),
				flask("smoke", "1", false),
			),
		).toBe("taken off");
	});
});
