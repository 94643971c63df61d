import { describe, expect, test } from "vitest";
import { agentsIn } from "../../kernel-lib/activation";

describe("what a soak's name tells", () => {
	test.each([
		["potash, 10 % w/w", ["potash"], true],
		["K2CO3 1 mol/L", ["potash"], true],
		["Washing soda", ["washing soda"], true],
		["wood vinegar", ["wood vinegar"], false],
		["0.1 % ascorbic acid", ["ascorbic acid"], false],
	])("%s", (text, names, alkaline) => {
		const agents = agentsIn(text);
		expect(agents.map((a) => a.name)).toEqual(names);
		expect(agents[0].alkaline).toBe(alkaline);
		expect(agents[0].consumesIodine).not.toBe("");
	});

	test.each(["tap water", "water", "", "limestone tray", "second firing"])(
		"%s names none",
		(text) => {
			expect(agentsIn(text)).toEqual([]);
		},
	);
});
