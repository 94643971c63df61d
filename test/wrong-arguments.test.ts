/** What a notebook, which is not compiled strictly, may hand to any function: nothing, an object of another kind, a number, a list. */
import { describe, expect, test } from "vitest";
import * as library from "../kernel-lib/index";
import { ProblemError } from "../kernel-lib/quantity/index";
import { callsOfExamples } from "./examples";

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

/** What is right in some places and wrong in most. */
const mostlyWrong: readonly unknown[] = [
	{},
	undefined,
	3,
	Number.NaN,
	"text",
	[],
	[{}],
	[null],
	library.quantity.input("mass", 3, "g", library.quantity.exact),
	library.quantity.table("Masses", ["char (g)"], [[1.02]]),
];

/** What no public function takes anywhere, an option that none has among it. */
const alwaysWrong: readonly unknown[] = [null, () => 1, { optoin: 1 }];

function shown(given: unknown): string {
	return typeof given === "function" ? "a function" : JSON.stringify(given);
}

/** What came of a call: "" for a problem in words. */
function outcome(call: () => unknown): string {
	try {
		call();
		return "an answer";
	} catch (error) {
		return error instanceof ProblemError ? "" : String(error);
	}
}

/** Calls that came to neither an answer nor a problem in words. */
function bareErrors(
	given: readonly unknown[],
	call: (given: unknown) => unknown,
): string[] {
	return given.flatMap((wrong) => {
		const came = outcome(() => call(wrong));
		return ["", "an answer"].includes(came) ? [] : [`${shown(wrong)}: ${came}`];
	});
}

/** Calls that came to no problem in words. */
function notRefused(
	given: readonly unknown[],
	call: (given: unknown) => unknown,
): string[] {
	return given.flatMap((wrong) => {
		const came = outcome(() => call(wrong));
		return came === "" ? [] : [`${shown(wrong)}: ${came}`];
	});
}

test("the functions are found", () => {
	expect(functions.length).toBeGreaterThan(120);
});

describe("wrong arguments in all places get a sentence", () => {
	test.each(functions)("$name", ({ call }) => {
		expect(
			bareErrors([...mostlyWrong, ...alwaysWrong], (given) =>
				call(given, given, given),
			),
		).toEqual([]);
	});
});

/** Works for seconds when it is given no options: there only what is always wrong is tried. */
const slow = ["isotherms.repeatTrial"];

/** The call of each function with the most arguments among all examples, one test for each of its places. */
const places = [...(await callsOfExamples())].flatMap(([name, args]) => {
	const found = functions.find((f) => f.name === name);
	return found === undefined
		? []
		: args.map((_, place) => ({
				name,
				place,
				withWrong: (given: unknown) =>
					found.call(...args.map((arg, i) => (i === place ? given : arg))),
			}));
});

test("the examples have places to put something wrong into", () => {
	expect(places.length).toBeGreaterThan(150);
});

describe("one wrong argument among right ones gets a sentence", () => {
	test.each(places)("$name, place $place", ({ name, withWrong }) => {
		if (!slow.includes(name))
			expect(bareErrors(mostlyWrong, withWrong)).toEqual([]);
		expect(notRefused(alwaysWrong, withWrong)).toEqual([]);
	});
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
	expect(() => of("stats", "mean")("1.02, 1.05")).toThrow(
		/^a mean: found the text "1\.02, 1\.05"; expected a list of numbers\. Put the numbers into square brackets/,
	);
	expect(() => of("solutions", "waterDensity")(20)).toThrow(
		/^waterDensity: found 20; expected a quantity of the kind temperature/,
	);
	expect(() => of("quantity", "input")(undefined, 3, "g")).toThrow(
		/found nothing \(undefined\); expected one of ratio, mass/,
	);
	expect(() =>
		of("bench", "trialFromRows")({ flasks: [{ flask: ["1"] }] }),
	).toThrow(
		/^a row typed in, "flask": found a list; expected a text, a number, true or false, a date or null/,
	);
	expect(() =>
		of("quantity", "table")(
			"Doses",
			["flask", "char (g)"],
			[["C1", undefined]],
		),
	).toThrow(
		/^Doses: found nothing \(undefined\) in a cell under "char \(g\)"; expected a text, a number or a quantity/,
	);
	expect(() =>
		of("temperature", "dimensionless")({ value: 0.05, unit: "L/mg" }),
	).toThrow(
		/^found no "convention" for dimensionless; expected convention: one of "affinity", "distribution"\. Add it\./,
	);
});
