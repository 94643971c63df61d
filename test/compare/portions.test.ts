/** The flasks of a comparison as deviations leave them, handled in three ways. */
import { describe, expect, test } from "vitest";
import { trialFromRows } from "../../kernel-lib/bench";
import {
	deviationsOf,
	inEachWay,
	type Portions,
	portionsAsDecided,
	portionsOf,
} from "../../kernel-lib/compare/portions";
import { char, soundSolutions } from "../bench-sheet/rows";
import { type FlaskFixture, flasks, portions } from "./fixtures";

const trial = trialFromRows({
	flasks: [
		char("c1", "water", 5),
		char("c2", "water", 5.1),
		char("s1", "steam", 4, { control: "water" }),
		char("s2", "steam", 4.1, { control: "water" }),
		{ flask: "r1", contents: "reagent blank", day: "1", "titre 1 (mL)": 0.1 },
	],
	solutions: soundSolutions,
	deviations: [
		{ flask: "s1", "what happened": "spilt", handling: "leave out" },
		{ flask: "c2", "what happened": "lid off", handling: "keep" },
		{ flask: "c1", "what happened": "lid off", handling: "keep" },
		{ flask: "r1", "what happened": "late", handling: "keep" },
	],
});
const names = (list: Portions["main"]) => list.map((u) => u.flask.name);

test("as decided, all kept, and all left out; what was touched, in the order of the sheet, and the rest in words", () => {
	const found = portionsOf(trial);
	expect(names(found.main)).toEqual(["c1", "c2", "s2"]);
	expect(names(found.kept)).toEqual(["c1", "c2", "s1", "s2"]);
	expect(names(found.leftOut)).toEqual(["s2"]);
	expect(names(found.every)).toEqual(["c1", "c2", "s1", "s2"]);
	expect(found.trial).toBe(trial);
	const touched = {
		flasks: ["c1", "c2", "s1"],
		happened: ["spilt", "lid off"],
		elsewhere: [expect.stringContaining("r1")],
	};
	expect(deviationsOf(found)).toEqual(touched);
	// Where nobody asks, all three are as decided.
	const decided = portionsAsDecided(trial);
	expect(names(decided.kept)).toEqual(names(decided.main));
	expect(names(decided.leftOut)).toEqual(names(decided.main));
	expect(deviationsOf(decided)).toEqual(touched);
});

test("nothing is left where a solution goes with the deviation", () => {
	const spoilt = trialFromRows({
		flasks: [char("c1", "water", 5), char("s1", "steam", 4)],
		solutions: soundSolutions,
		deviations: [
			{ solution: "thio", "what happened": "stood open", handling: "keep" },
		],
	});
	const { leftOut, main, flasks: touched, elsewhere } = portionsOf(spoilt);
	expect(main).toHaveLength(2);
	expect(leftOut).toEqual([]);
	expect(touched).toEqual([]);
	expect(elsewhere).toEqual([expect.stringContaining("thio")]);
});

describe("ways that come to the same flasks are read once", () => {
	const flask: FlaskFixture = {
		flask: "a",
		treatment: "steam",
		uptake: 100,
		reading: 1,
	};
	const read = (
		other: readonly FlaskFixture[],
		decided: readonly FlaskFixture[] = [flask],
	) => {
		const main = flasks(decided);
		const ways = { ...portions(main), kept: flasks(other), leftOut: main };
		let times = 0;
		const found = inEachWay(ways, (list) => {
			times += 1;
			return names(list).join();
		});
		return { times, ...found };
	};
	test("alike in every name, side, value and uncertainty", () => {
		expect(read([flask])).toEqual({
			times: 1,
			main: "a",
			kept: "a",
			leftOut: "a",
		});
	});
	test("one of two that moved is enough", () => {
		const second = { ...flask, flask: "b" };
		const moved = [flask, { ...second, uptake: 7 }];
		expect(read(moved, [flask, second]).times).toBe(2);
	});
	test.each<[string, FlaskFixture[]]>([
		["another name", [{ ...flask, flask: "b" }]],
		["a bound", [{ ...flask, is: "at least" }]],
		["another value", [{ ...flask, uptake: 101 }]],
		["another uncertainty", [{ ...flask, reading: 2 }]],
		["one flask more", [flask, { ...flask, flask: "b" }]],
		["none", []],
	])("%s is read by itself", (_, other) => {
		const { times, kept } = read(other);
		expect(times).toBe(2);
		expect(kept).toBe(other.map((f) => f.flask).join());
	});
});
