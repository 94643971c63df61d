/** What a notebook, which is not compiled strictly, may hand to a function in place of a trial. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import * as library from "../../kernel-lib/index";
import { ProblemError } from "../../kernel-lib/quantity/index";

const face = readFileSync(
	join(import.meta.dirname, "../public-face.txt"),
	"utf8",
);

/** Every public function whose first argument is a trial, by its name in a notebook. */
const functions = [
	...face.matchAll(
		/^(\w+)\.(\w+)\n\t(?:function \w+|const \w+: )\(trial: Trial\b/gm,
	),
].map(([, room, name]) => ({ room, name }));

function call(room: string, name: string, given: unknown): unknown {
	const rooms = library as unknown as Record<
		string,
		Record<string, (...args: unknown[]) => unknown>
	>;
	return rooms[room][name](given, {});
}

const trial = readTrial("data/demo-run/hazelnut.csv");

const wrong: readonly [string, unknown, string][] = [
	[
		"a path",
		"data/demo-run/hazelnut.csv",
		'found the text "data/demo-run/hazelnut.csv"; expected the trial that bench.readTrial returns. Read the sheet first: const trial = bench.readTrial("data/demo-run/hazelnut.csv");',
	],
	["null", null, "found nothing (null); expected the trial"],
	["undefined", undefined, "found nothing (undefined); expected the trial"],
	["a list", [trial], "found a list; expected the trial"],
	["the flasks", trial.flasks, "found a list; expected the trial"],
	[
		"a table",
		trial.table,
		"found an object of another kind; expected the trial",
	],
	["a number", 3, "found 3; expected the trial"],
];

test("the list is not empty", () => {
	expect(functions.length).toBeGreaterThan(20);
});

describe.each(functions)("$room.$name", ({ room, name }) => {
	test.each(wrong)(
		"says what it needs when it is given %s",
		(_, given, said) => {
			let thrown: unknown;
			try {
				call(room, name, given);
			} catch (error) {
				thrown = error;
			}
			expect(thrown).toBeInstanceOf(ProblemError);
			expect(String(thrown)).toContain(said);
		},
	);
});
