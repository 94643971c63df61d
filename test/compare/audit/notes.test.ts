/** What is read out of notes, and on which side of each decision. */
import { describe, expect, test } from "vitest";
import {
	isMishap,
	mishapNotes,
	otherNotes,
} from "../../../kernel-lib/compare/audit/notes";
import { brief, type Row, rows, sides, texts } from "./sides";

describe("words that tell of a mishap", () => {
	test.each([
		"spilt",
		"Spilled a drop",
		"some spillage",
		"splash on the bench",
		"lost a little",
		"losses of liquid",
		"it leaked",
		"broken flask",
		"beaker cracked",
		"overflowed",
		"boiled over",
		"ran dry",
		"dropped",
		"knocked",
		"dirty pipette",
		"wrong flask",
		"forgot the timer",
		"FORGET",
		"mixed up",
		"not sure of the titre",
		"odd colour",
		"not rinsed",
		"un-washed",
		"unstirred",
		"without filtered water",
		"overshot",
		"over-titrated by 0.1 mL",
		"left overnight",
		"lid off",
		"jar open",
		"too late",
		"cloudy",
		"fines",
		"titre estimated",
		"approximately 40 mL",
	])("%s", (note) => expect(isMishap(note)).toBe(true));

	test.each([
		"",
		"a fine morning",
		"rinsed three times",
		"washed and dried",
		"stood in the sun",
		"spinning plate",
		"glossy surface",
		"pebbles",
		"overnight in the dark",
		"the jar was closed",
		"addition in one pour",
		"terror of the bench",
	])("not: %s", (note) => expect(isMishap(note)).toBe(false));
});

const spilt: Row = { notes: "spilt" };
const sun: Row = { notes: "stood in the sun" };

describe("notes of a mishap", () => {
	const found = (a: number, b: number) => {
		const side = (n: number) => rows([n, spilt], [4 - n, sun]);
		return mishapNotes(sides(side(a), side(b)));
	};
	test.each([
		[0, 0, "within, nothing"],
		[1, 0, "beyond, nothing"],
		[2, 0, "beyond, either"],
		[0, 2, "beyond, either"],
		[2, 1, "beyond, nothing"],
		[4, 4, "beyond, nothing"],
	])("on %i of 4 treated and %i of 4 control: %s", (a, b, is) => {
		expect(brief(found(a, b))).toBe(is);
	});

	test("is not recorded where no flask has a note, whatever people write for none", () => {
		const none = ["", " ", "-", "–", "none", "No", "nil", "n/a", "NA", "ok."];
		const saying = (list: readonly string[]) =>
			brief(
				mishapNotes(
					sides(
						list.map((notes) => ({ notes })),
						[{}],
					),
				),
			);
		expect(saying(none.slice(0, -1))).toBe("not recorded");
		expect(saying(["OK", "okay", "fine", "..", " none "])).toBe("not recorded");
		expect(saying(none)).toBe("within, nothing");
		expect(saying(["none spilt"])).toBe("beyond, either");
		expect(saying(["all fine"])).toBe("within, nothing");
		expect(brief(mishapNotes(sides([{}], [sun])))).toBe("within, nothing");
	});

	test("are shown in quotation marks, each once, how many flasks have one, and the first to 80 signs", () => {
		expect(
			texts(
				mishapNotes(
					sides(
						[spilt, spilt, { notes: "lid off" }, { notes: "dropped" }, sun],
						[spilt],
					),
				),
			),
		).toBe('"spilt" and 2 more (4 of 5) | "spilt" (1 of 1)');
		const long = (n: number) => `spilt ${"x".repeat(n - 6)}`;
		expect(
			texts(mishapNotes(sides([{ notes: long(80) }], [{ notes: long(81) }]))),
		).toBe(`"${long(80)}" (1 of 1) | "${long(80)}…" (1 of 1)`);
		expect(texts(mishapNotes(sides([spilt], [{}])))).toBe(
			'"spilt" (1 of 1) | none',
		);
	});
});

describe("other notes", () => {
	test.each([
		[0, 0, "not recorded"],
		[1, 0, "within, nothing"],
		[2, 0, "beyond, nothing"],
		[0, 2, "beyond, nothing"],
		[0, 1, "within, nothing"],
		[3, 1, "beyond, nothing"],
		[4, 4, "within, nothing"],
	])("on %i of 4 treated and %i of 4 control: %s", (a, b, is) => {
		const side = (n: number) => rows([n, sun], [4 - n, {}]);
		expect(brief(otherNotes(sides(side(a), side(b))))).toBe(is);
	});

	test("a note of a mishap is told there and not here", () => {
		expect(brief(otherNotes(sides([spilt], [{}])))).toBe("not recorded");
		expect(texts(otherNotes(sides([spilt, sun], [{}])))).toBe(
			'"stood in the sun" (1 of 2) | none',
		);
	});
});
