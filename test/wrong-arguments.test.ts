/** What a notebook, which is not compiled strictly, may hand to any function: nothing, an object of another kind, a number, a list. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import * as library from "../kernel-lib/index";
import { ProblemError } from "../kernel-lib/quantity/index";

type Callable = (...args: unknown[]) => unknown;

/** Every public function; those of `notebook` belong to a running kernel. */
const functions = Object.entries(
	library as unknown as Record<string, Record<string, unknown>>,
).flatMap(([room, members]) =>
	room === "notebook"
		? []
		: Object.entries(members).flatMap(([name, call]) =>
				typeof call === "function" && /^[a-z]/.test(name)
					? [{ name: `${room}.${name}`, call: call as Callable }]
					: [],
			),
);

const wrong: readonly unknown[] = [{}, undefined, 3, [], null];

/** What came of a call that is neither an answer nor a problem in words. */
function bareErrors(call: Callable): string[] {
	return wrong.flatMap((given) => {
		try {
			call(given, given, given);
			return [];
		} catch (error) {
			return error instanceof ProblemError
				? []
				: [`${JSON.stringify(given)}: ${error}`];
		}
	});
}

/** Functions that still answer with an error of the language. Names are only taken off. */
const waiting = readFileSync(
	join(import.meta.dirname, "without-door.txt"),
	"utf8",
)
	.split("\n")
	.filter((line) => line !== "" && !line.startsWith("#"));

test("the functions are found", () => {
	expect(functions.length).toBeGreaterThan(120);
});

describe("a wrong argument gets a sentence", () => {
	test.each(functions.filter(({ name }) => !waiting.includes(name)))(
		"$name",
		({ call }) => {
			expect(bareErrors(call)).toEqual([]);
		},
	);
});

test("a function that has its sentence is off the list of those that wait", () => {
	const unready = functions.flatMap(({ name, call }) =>
		bareErrors(call).length > 0 ? [name] : [],
	);
	expect(waiting.filter((name) => !unready.includes(name))).toEqual([]);
});

test("a call says what it needs", () => {
	const of = (room: string, name: string): Callable =>
		functions.find((f) => f.name === `${room}.${name}`)?.call ??
		(() => {
			throw new Error(`no ${room}.${name}`);
		});
	expect(() => of("figures", "differences")({})).toThrow(
		/^figures\.differences: found an object of another kind; expected a comparison, as compare\.compareTreatments/,
	);
	expect(() => of("isotherms", "fitIsotherm")(undefined, [])).toThrow(
		/^fitIsotherm: found nothing \(undefined\); expected an isotherm, such as isotherms\.langmuir/,
	);
	expect(() =>
		of("isotherms", "fitIsotherm")(library.isotherms.langmuir, []),
	).toThrow(/^fitIsotherm: found a list; expected the points of one treatment/);
	expect(() => of("bench", "readTrial")(3)).toThrow(
		/^found 3; expected the path of a file in quotes/,
	);
	expect(() => of("figures", "isotherms")(3)).toThrow(
		/^figures\.isotherms: found 3; expected a list; each entry a fit/,
	);
});
