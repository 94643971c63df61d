/** Every condition of the table that is read off the rows of flasks: what counts as having it, and as saying anything of it. */
import { describe, expect, test } from "vitest";
import type { Flask } from "../../../kernel-lib/bench";
import { conditions } from "../../../kernel-lib/compare/audit/conditions";
import { exact, input } from "../../../kernel-lib/quantity";
import { brief, type Row, sides, texts } from "./sides";

function look(name: string, treated: Row, untreated: Row) {
	const condition = conditions.find((c) => c.name === name);
	if (!condition) throw new Error(`No condition "${name}".`);
	const found = condition.look(sides([treated], [untreated]));
	return `${brief(found)}: ${texts(found)}`;
}

const pH = (value: number, acidified: Flask["acidified"]): Row => ({
	titrations: [{} as Flask["titrations"][number]],
	finalPH: { recorded: true, value: input("pH", value, "pH", exact, {}) },
	acidified,
});

describe("yes, no and not recorded", () => {
	const opened: Row = { lid: "no" };
	const kept: Row = { firstRunningsDiscarded: "no" };
	test.each<[string, Row, Row, string]>([
		["lid", opened, { lid: "yes" }, "beyond, higher: open | closed"],
		["lid", { lid: "yes" }, opened, "beyond, lower: closed | open"],
		["lid", opened, {}, "beyond, higher: open | not recorded"],
		[
			"first runnings of the filter",
			kept,
			{ firstRunningsDiscarded: "yes" },
			"beyond, higher: not discarded | discarded",
		],
		[
			"first runnings of the filter",
			{},
			kept,
			"beyond, lower: not recorded | not discarded",
		],
		[
			"grinding",
			{ groundFine: "yes" },
			{ groundFine: "no" },
			"beyond, either: ground fine | not ground fine",
		],
		[
			"grinding",
			{},
			{ groundFine: "no" },
			"within, nothing: not recorded | not ground fine",
		],
		[
			"boiling in acid",
			{ acidBoiled: "yes" },
			{ acidBoiled: "no" },
			"beyond, either: boiled | not boiled",
		],
		[
			"boiling in acid",
			{},
			{ acidBoiled: "yes" },
			"beyond, either: not recorded | boiled",
		],
		[
			"blue that returned after the end point",
			{ blueReturned: "yes" },
			{ blueReturned: "no" },
			"beyond, either: returned | did not return",
		],
		[
			"blue that returned after the end point",
			{ blueReturned: "yes" },
			{ blueReturned: "yes" },
			"beyond, either: returned | returned",
		],
		[
			"particle size",
			{ particleSize: "fine" },
			{ particleSize: "coarse" },
			"beyond, either: fine | coarse",
		],
	])("%s, %j against %j", (name, treated, untreated, found) => {
		expect(look(name, treated, untreated)).toBe(found);
	});

	test.each([
		"lid",
		"first runnings of the filter",
		"grinding",
		"boiling in acid",
		"blue that returned after the end point",
		"alkaline liquid titrated as it was",
		"strongly acid liquid",
		"particle size",
		"contact time",
		"order of titration",
		"notes of a mishap",
		"notes",
	])("%s: nothing written is not recorded", (name) => {
		expect(look(name, {}, {})).toBe("not recorded: not recorded");
	});
});

describe("final pH, from the limits of titrating on", () => {
	const alkaline = "alkaline liquid titrated as it was";
	const acid = "strongly acid liquid";
	const neutral = pH(6, "no");
	test.each<[string, Row, Row, string]>([
		[
			alkaline,
			pH(7.6, "no"),
			neutral,
			"beyond, higher: alkaline and not acidified | no",
		],
		[
			alkaline,
			pH(7.6, "not recorded"),
			neutral,
			"beyond, higher: alkaline and not acidified | no",
		],
		[
			alkaline,
			neutral,
			pH(7.6, "no"),
			"beyond, lower: no | alkaline and not acidified",
		],
		[alkaline, pH(7.6, "yes"), neutral, "within, nothing: no | no"],
		[alkaline, pH(7.5, "no"), neutral, "within, nothing: no | no"],
		[
			alkaline,
			pH(11, "no"),
			pH(11, "no"),
			"beyond, either: alkaline and not acidified | alkaline and not acidified",
		],
		[alkaline, neutral, {}, "within, nothing: no | not recorded"],
		[acid, pH(1.9, "yes"), neutral, "beyond, either: pH below 2 | no"],
		[acid, pH(2, "yes"), neutral, "within, nothing: no | no"],
		[acid, pH(11, "no"), neutral, "within, nothing: no | no"],
	])("%s, %j against %j", (name, treated, untreated, found) => {
		expect(look(name, treated, untreated)).toBe(found);
	});

	test("says nothing of flasks that were read and not titrated", () => {
		const read = (value: number): Row => ({
			...pH(value, "no"),
			titrations: [],
		});
		expect(look(alkaline, read(11), read(6))).toBe(
			"not recorded: not recorded",
		);
		expect(look(acid, read(1), read(6))).toBe("not recorded: not recorded");
		expect(look(alkaline, read(11), neutral)).toBe(
			"within, nothing: not recorded | no",
		);
		expect(look(acid, read(1), neutral)).toBe(
			"within, nothing: not recorded | no",
		);
	});
});

test("what was assumed is four conditions, all others were written in the sheet", () => {
	expect(
		conditions.filter((c) => c.is === "assumed").map((c) => c.name),
	).toEqual([
		"mass of what a soak left in the char",
		"losses",
		"glassware",
		"control",
	]);
	expect(new Set(conditions.map((c) => c.name)).size).toBe(conditions.length);
});
