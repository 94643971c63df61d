/** Which levels of repetition can be told apart, and what they are made of. */
import { describe, expect, test } from "vitest";
import { residueOf } from "../../../kernel-lib/compare";
import { observationsOf } from "../../../kernel-lib/compare/observations";
import {
	repetitionOf,
	scatterOfTrial,
} from "../../../kernel-lib/compare/scatter/components";
import type { Comparison } from "../../../kernel-lib/compare/verdict";
import { sideOf } from "../audit/sides";
import { type FlaskFixture, flasks } from "../fixtures";

type Made = Omit<FlaskFixture, "flask">;
const flat = { is: "range", low: 0, high: 0 };
const carried = {
	is: "carried",
	slopes: new Map(["steam", "water"].map((t) => [t, flat])),
};
const scatterOf = (made: readonly Made[], at: object = carried) =>
	scatterOfTrial({
		at: { residue: residueOf(300), ...at },
		trial: { settings: { endPoint: 0 } },
		compared: observationsOf(
			flasks(made.map((f, i) => ({ flask: String(i), ...f }))),
		).list,
		confidence: 0.95,
	} as unknown as Comparison);
/** "soak (flask, titration)" for a level that holds others, "day: not recorded" for one that is not known. */
const levels = (made: readonly Made[]) =>
	scatterOf(made)?.components.map((c) =>
		c.is === "not known"
			? `${c.name}: ${c.why}`
			: `${c.name} (${c.holds.join(", ")})`,
	);
const uptakes = [100, 104, 97, 109];
const with_ = (more: (i: number) => Partial<Made>): Made[] =>
	["steam", "water"].flatMap((treatment) =>
		uptakes.map((uptake, i) => ({ treatment, uptake, ...more(i) })),
	);

describe("levels", () => {
	test("soaks of one flask each hold flask and titration", () => {
		expect(levels(with_((i) => ({ soak: String(i) })))).toEqual([
			"batch: not recorded",
			"day: not recorded",
			"soak (flask, titration)",
			"flask: nothing repeated",
			"titration: nothing repeated",
		]);
	});
	test("soaks of several flasks hold neither; the flasks hold their titration", () => {
		expect(levels(with_((i) => ({ soak: String(i % 2) })))?.slice(2)).toEqual([
			"soak ()",
			"flask (titration)",
			"titration: nothing repeated",
		]);
	});
	test("soaks that are not recorded, be it of one flask, are no level", () => {
		const none = [
			"soak: not recorded",
			"flask (titration)",
			"titration: nothing repeated",
		];
		expect(levels(with_(() => ({})))?.slice(2)).toEqual(none);
		expect(
			levels(with_((i) => ({ soak: i === 0 ? "" : String(i) })))?.slice(2),
		).toEqual(none);
	});
	test("a day for each flask holds none of them: the two cannot be told apart", () => {
		expect(
			levels(
				["a", "b", "c", "d"].map((day, i) => ({
					treatment: i < 2 ? "steam" : "water",
					uptake: uptakes[i],
					day,
				})),
			),
		).toEqual([
			"batch: not recorded",
			"day: confounded",
			"soak: not recorded",
			"flask: nothing repeated",
			"titration: nothing repeated",
		]);
	});
	test("a soak for each day is a level of its own, beside the day", () => {
		const found = levels(
			with_((i) => ({
				day: i < 2 ? "a" : "b",
				soak: i < 2 ? "1" : "2",
			})),
		);
		expect(found?.[1]).toMatch(/^day/);
		expect(found?.[2]).toMatch(/^soak/);
	});
});

describe("what it is taken from", () => {
	const soaked = with_((i) => ({ soak: String(i) }));
	test("values, not bounds", () => {
		const bound = { ...soaked[0], uptake: 900, is: "at least" as const };
		expect(scatterOf([...soaked, bound])).toMatchObject({
			components: scatterOf(soaked)?.components,
			flasks: { length: 8 },
		});
	});
	test("nothing where no flask lies on an isotherm", () => {
		expect(scatterOf(soaked, { is: "isotherms", fits: [] })).toBeNull();
	});
	test("without titrations no error of reading them", () => {
		expect(scatterOf(soaked)?.reading).toBe(0);
	});
});

test("a treatment's repetition: soaks, their flasks, the titrations of each, one for a flask that was read", () => {
	const [one, two] = [1, 2].map((n) => ({
		titrations: Array.from({ length: n }, () => ({})) as never,
	}));
	const list = [
		...sideOf("steam", [
			{ soak: "1", ...two },
			{ soak: "2", ...one },
			{ soak: "1" },
		]),
		...sideOf("water", [{ soak: "3", ...two }]),
	];
	expect(repetitionOf(list, "steam")).toEqual([[2, 1], [1]]);
	expect(repetitionOf(list, "water")).toEqual([[2]]);
});
