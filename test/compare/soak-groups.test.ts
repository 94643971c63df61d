/** Which flasks of a treatment one curve goes through. */
import { describe, expect, test } from "vitest";
import {
	curveGroupsOf,
	soaksAreUnits,
} from "../../kernel-lib/compare/soak-groups";
import { flasks } from "./fixtures";

const of = (...soaks: string[]) =>
	flasks(
		soaks.map((soak, i) => ({
			flask: String(i),
			treatment: "steam",
			soak,
			uptake: 100,
		})),
	);

test("soaks are units where there are several, and one of them has several flasks", () => {
	expect(soaksAreUnits(of("a", "a", "b"))).toBe(true);
	expect(soaksAreUnits(of("a", "a", "a"))).toBe(false);
	expect(soaksAreUnits(of("a", "b", "c"))).toBe(false);
	expect(soaksAreUnits(of("a"))).toBe(false);
});

describe("curves", () => {
	const shown = (...soaks: string[]) =>
		curveGroupsOf("steam", of(...soaks)).map((g) => [
			g.treatment,
			g.name,
			g.flasks.map((u) => u.flask.name).join(" "),
		]);
	test("one for each soak, in the order of the sheet, with a name for flasks without one", () => {
		expect(shown("b", "a", "b", "")).toEqual([
			["steam", "steam, b", "0 2"],
			["steam", "steam, a", "1"],
			["steam", "steam, soak not recorded", "3"],
		]);
	});
	test("one for all where soaks are no units", () => {
		expect(shown("a", "b")).toEqual([["steam", "steam", "0 1"]]);
		expect(shown("a", "a")).toEqual([["steam", "steam", "0 1"]]);
	});
});
