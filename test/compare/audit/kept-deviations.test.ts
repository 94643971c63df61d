import { expect, test } from "vitest";
import type { Flask } from "../../../kernel-lib/bench";
import { keptDeviations } from "../../../kernel-lib/compare/audit/kept-deviations";
import { brief, sides, texts } from "./sides";

type Mark = readonly [handling: "keep" | "leave out", whatHappened: string];

/** Three flasks of steam and two of water, with the marks that the sheet has on some of them. */
function look(marks: Readonly<Record<string, readonly Mark[]>>) {
	const flasks = Object.entries(marks).map(([name, own]) => ({
		name,
		marks: own.map(([handling, whatHappened]) => ({ handling, whatHappened })),
	})) as unknown as Flask[];
	const of = (...names: string[]) => names.map((name) => ({ name }));
	return keptDeviations(
		sides(of("s1", "s2", "s3"), of("w1", "w2"), { trial: { flasks } }),
	);
}
const spilt: Mark = ["keep", "spilt"];

test("none, and those that are left out, are within", () => {
	expect(brief(look({}))).toBe("within, nothing");
	expect(texts(look({ s1: [["leave out", "spilt"]] }))).toBe("none | none");
	expect(brief(look({ s1: [["leave out", "spilt"]] }))).toBe("within, nothing");
});

test("on all flasks of one side they may have made the difference; on some, or on all of both, they have not", () => {
	const all = { s1: [spilt], s2: [spilt], s3: [spilt] };
	expect(brief(look(all))).toBe("beyond, either");
	expect(brief(look({ s1: [spilt], s2: [spilt] }))).toBe("beyond, nothing");
	expect(brief(look({ w1: [spilt], w2: [spilt] }))).toBe("beyond, either");
	expect(brief(look({ w2: [spilt] }))).toBe("beyond, nothing");
	expect(brief(look({ ...all, w1: [spilt], w2: [spilt] }))).toBe(
		"beyond, nothing",
	);
});

test("what happened is told once, with how many flasks it touched", () => {
	expect(
		texts(
			look({
				s1: [spilt, ["keep", "lid off"], ["leave out", "broken"]],
				s3: [spilt],
				w1: [["keep", "late"]],
			}),
		),
	).toBe('"spilt" and "lid off" in 2 of 3 | "late" in 1 of 2');
});

test("a side without flasks has none on all of them", () => {
	const of = (names: string[]) => names.map((name) => ({ name }));
	const flasks = [{ name: "s1", marks: [] }] as unknown as Flask[];
	expect(
		brief(keptDeviations(sides(of(["s1"]), [], { trial: { flasks } }))),
	).toBe("within, nothing");
});
