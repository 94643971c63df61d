/** What both sides of a comparison share, on both sides of each allowance. */
import { describe, expect, test } from "vitest";
import { type TypedRow, trialFromRows } from "../../../kernel-lib/bench";
import {
	controlNamed,
	glassware,
	losses,
	order,
	reagentBlank,
	recovery,
} from "../../../kernel-lib/compare/audit/whole-trial";
import { char, soundSolutions } from "../../bench-sheet/rows";
import { brief, type Row, rows, sides, texts } from "./sides";

/** A trial of as many days as there are blanks on. */
const trialWith = (blanks: readonly TypedRow[]) =>
	trialFromRows({
		flasks: [
			char("c1", "water", 5),
			char("s1", "steam", 4, { control: "water" }),
			...blanks,
		],
		solutions: soundSolutions,
	});

const onDays = (...days: string[]): Row[] => days.map((day) => ({ day }));

describe("recovery of the blanks without char", () => {
	// 40 mL of 0.1 N, a quarter of it titrated: 10 mL of 0.1 N is all of it.
	const look = (titres: Readonly<Record<string, number>>) =>
		recovery(
			sides(onDays("1"), onDays("1", "2"), {
				trial: trialWith(
					Object.entries(titres).map(([day, titre]) => ({
						flask: `i${day}`,
						contents: "iodine blank",
						day,
						"dose 1 (mL)": 40,
						"made up to (mL)": 100,
						"aliquot (mL)": 25,
						"titre 1 (mL)": titre,
					})),
				),
			}),
		);
	test.each([
		[9.51, "within, nothing"],
		[9.49, "beyond, nothing"],
		[10.19, "within, nothing"],
		[10.21, "beyond, nothing"],
	])("a titre of %f mL: %s", (titre, is) => {
		expect(brief(look({ 1: titre }))).toBe(is);
	});
	test("every day of both sides counts, and equal ones are told once", () => {
		expect(brief(look({ 1: 9.8, 2: 9 }))).toBe("beyond, nothing");
		expect(texts(look({ 1: 9.8, 2: 9 }))).toBe("0.98 and 0.90 | 0.98 and 0.90");
		expect(texts(look({ 1: 9.8, 2: 9.8 }))).toBe("0.98 | 0.98");
	});
	test("not recorded without a blank", () => {
		expect(look({})).toEqual({ is: "not recorded" });
	});
});

describe("reagent blank", () => {
	const look = (titres: Readonly<Record<string, number>>, day = "1") =>
		reagentBlank(
			sides(onDays(day), onDays("1"), {
				trial: trialWith(
					Object.entries(titres).map(([on, titre]) => ({
						flask: `r${on}`,
						contents: "reagent blank",
						day: on,
						"titre 1 (mL)": titre,
					})),
				),
			}),
		);
	test.each([
		[0.5, "within, nothing: 0.5 mL | 0.5 mL"],
		[0.51, "beyond, nothing: 0.51 mL | 0.51 mL"],
		[0.1234, "within, nothing: 0.12 mL | 0.12 mL"],
	])("%f mL: %s", (titre, found) => {
		const blank = look({ 1: titre });
		expect(`${brief(blank)}: ${texts(blank)}`).toBe(found);
	});
	test("one day's beyond is enough", () => {
		const blank = look({ 1: 0.1, 2: 3 }, "2");
		expect(brief(blank)).toBe("beyond, nothing");
		expect(texts(blank)).toBe("3 and 0.1 mL | 3 and 0.1 mL");
	});
	test("not recorded without one", () => {
		expect(look({})).toEqual({ is: "not recorded" });
	});
});

describe("order of titration", () => {
	const at = (...hours: (number | undefined)[]): Row[] =>
		hours.map((h) => ({
			titratedAt:
				h === undefined
					? { recorded: false }
					: { recorded: true, value: new Date(Date.UTC(2031, 4, 3, h)) },
		}));
	const look = (treated: Row[], untreated: Row[]) =>
		order(sides(treated, untreated));
	test.each([
		[
			at(12, 11),
			at(9, 10),
			"beyond, nothing: all after the control | all before",
		],
		[at(9, 10), at(12, 11), "beyond, nothing: all before it | all after"],
		[at(9, 11), at(10, 12), "within, nothing: in turn | in turn"],
		[at(10, 11), at(9, 10), "within, nothing: in turn | in turn"],
		[at(9, 10), at(10, 11), "within, nothing: in turn | in turn"],
		[at(9, 12), at(10, 11), "within, nothing: in turn | in turn"],
		[at(10, 11), at(9, 12), "within, nothing: in turn | in turn"],
	])("%j against %j: %s", (treated, untreated, found) => {
		const o = look(treated, untreated);
		expect(`${brief(o)}: ${texts(o)}`).toBe(found);
	});
	test("takes two flasks with a time on each side", () => {
		for (const [a, b] of [
			[at(9, undefined), at(10, 11)],
			[at(9, 10), at(11, undefined)],
		])
			expect(look(a, b)).toEqual({ is: "not recorded" });
		expect(brief(look(at(9, 10, undefined), at(11, 12)))).toBe(
			"beyond, nothing",
		);
	});
});

describe("glassware", () => {
	const piece = (name: string, usedFor: string, named: boolean) => ({
		name,
		usedFor,
		description: name,
		toleranceSource: "",
		named,
		place: trialWith([]).flasks[0].place,
	});
	const look = (
		instruments: ReturnType<typeof piece>[],
		measuringErrorOnly = false,
	) =>
		glassware(
			sides([{}], [{}], { trial: { instruments }, measuringErrorOnly }),
		);
	const good = "good glassware (class B), for the sheet names none";

	test("all named, none, and some", () => {
		const named = look([
			piece("burette", "titre", true),
			piece("pipette", "aliquot", true),
		]);
		expect(brief(named)).toBe("within, nothing");
		expect(texts(named)).toBe("named | named");
		const none = look([
			piece("burette", "titre", false),
			piece("flask", "made up", false),
		]);
		expect(brief(none)).toBe("beyond, nothing");
		expect(texts(none)).toBe(`${good} | ${good}`);
		const some = look([
			piece("burette", "titre", true),
			piece("pipette", "aliquot", false),
			piece("dispenser", "dose 1", false),
		]);
		expect(brief(some)).toBe("beyond, nothing");
		expect(texts(some)).toMatch(
			/^class B for what the sheet does not name \(pipette and dispenser\) \|/,
		);
	});

	test("takes the word where it rests on measuring errors alone, and only if something was assumed", () => {
		expect(brief(look([piece("burette", "titre", false)], true))).toBe(
			"beyond, either",
		);
		expect(brief(look([piece("burette", "titre", true)], true))).toBe(
			"within, nothing",
		);
	});

	test("a balance is no piece that liquids are measured with", () => {
		expect(look([piece("balance", "char mass", false)])).toEqual({
			is: "not recorded",
		});
		expect(
			brief(
				look([
					piece("burette", "titre", true),
					piece("balance", "char mass", false),
				]),
			),
		).toBe("within, nothing");
	});
});

describe("losses", () => {
	const off: Row = { of: { lossesTakenOff: true } };
	const on: Row = { of: { lossesTakenOff: false } };
	const look = (treated: Row[], untreated: Row[]) =>
		losses(sides(treated, untreated, { trial: trialWith([]) }));
	test("are assumed alike where no flask had them taken off", () => {
		const told =
			"losses of iodine alike on both sides, for no blank without char shows them";
		const found = look(rows([2, on]), [on]);
		expect(brief(found)).toBe("beyond, nothing");
		expect(texts(found)).toBe(`${told} | ${told}`);
		for (const known of [look([on], [off]), look([off], [off]), look([], [])])
			expect(`${brief(known)}: ${texts(known)}`).toBe(
				"within, nothing: taken off | taken off",
			);
	});
});

describe("the control", () => {
	const look = (controlByName: string, control = "water") =>
		controlNamed(sides([{}], [{}], { control, trial: { controlByName } }));
	test("guessed by its name is told; named, or another one, is not", () => {
		expect(brief(look("water"))).toBe("beyond, nothing");
		expect(texts(look("water"))).toBe(
			'"water" as the control, by its name | "water" as the control, by its name',
		);
		for (const named of [look(""), look("raw"), look("", "")])
			expect(`${brief(named)}: ${texts(named)}`).toBe(
				"within, nothing: named | named",
			);
	});
});
