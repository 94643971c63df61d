import { describe, expect, test } from "vitest";
import { type TypedRows, trialFromRows } from "../../kernel-lib/bench/index";
import { brief, char, problemsOf, soundSolutions } from "./rows";

/** One flask for each pair of treatment and control. */
const sheet = (
	...pairs: readonly (readonly [string, string])[]
): TypedRows => ({
	flasks: pairs.map(([treatment, control], i) =>
		char(String(i + 1), treatment, 5, { control }),
	),
	solutions: soundSolutions,
});

const bare = (...treatments: readonly string[]): TypedRows =>
	sheet(...treatments.map((t) => [t, ""] as const));

const isControl = [
	"control",
	"Control",
	"control 2",
	"water control",
	"control (water)",
	"Untreated",
	"untreated charcoal",
	"not treated",
	"raw",
	"raw biochar",
	"blank char",
	"unsoaked",
	"water",
	"water only",
	"Tap water",
	"water-soaked",
	"soaked in water",
];

const isNone = [
	"water glass",
	"waterglass",
	"limewater",
	"lime water",
	"chlorine water",
	"rosewater",
	"water-soaked twice",
	"hot water",
	"water, then soda",
	"uncontrolled",
	"pest control",
	"controlled burn",
	"steam, for control of ash",
	"raw sugar",
	"raw honey",
	"untreated sewage",
	"blank",
	"soda",
];

describe("a control that no row names", () => {
	test.each(isControl)("%s is by its whole name the control", (name) => {
		for (const names of [
			["soda", name],
			[name, "soda"],
		]) {
			const trial = trialFromRows(bare(...names));
			expect(trial.flasks.map((f) => f.control)).toEqual(
				names.map((n) => (n === name ? "" : name)),
			);
			expect(trial.assumptions.join()).toContain(
				`"${name}" is taken as the control`,
			);
		}
	});

	test.each(isNone)("%s is not, and the sheet is asked", (name) => {
		const [asked] = problemsOf(bare("potash", name));
		expect(asked.code).toBe("control-missing");
		expect(asked.found).toContain(`"potash", "${name}"`);
		expect(asked.mend).toContain("in the column `control`");
	});

	test.each(isNone)("%s stands beside a control as a treatment", (name) => {
		const trial = trialFromRows(bare("raw", name));
		expect(trial.flasks.map((f) => f.control)).toEqual(["", "raw"]);
	});

	test.each(["untreated", "raw", "water"])(
		"control outranks %s, because the sheet calls it so",
		(other) => {
			const trial = trialFromRows(bare(other, "control", "soda"));
			expect(trial.flasks.map((f) => f.control)).toEqual([
				"control",
				"",
				"control",
			]);
		},
	);

	test.each([
		["raw", "water"],
		["untreated", "water-soaked"],
		["control A", "control B"],
		["control", "water control"],
		["water", "tap water"],
	])("%s beside %s: which is meant is asked", (one, other) => {
		const problems = problemsOf(bare(one, other, "soda"));
		expect(problems.map(brief)).toEqual([
			"flasks 1 control: control-ambiguous",
		]);
		expect(problems[0].found).toContain(`"${one}", "${other}"`);
		expect(problems[0].expected).toContain(`"${one}", "${other}", "soda"`);
		expect(problems[0].mend).toContain("Fill the column `control`");
	});
});

describe("a control that the column names", () => {
	test.each(isNone)("%s is the control where the sheet says so", (name) => {
		const trial = trialFromRows(sheet([name, ""], ["potash", name]));
		expect(trial.flasks.map((f) => f.control)).toEqual(["", name]);
		expect(trial.assumptions.join()).not.toContain("taken as the control");
	});

	test.each(isControl)("%s is a treatment where the sheet says so", (name) => {
		const trial = trialFromRows(sheet([name, "soda"], ["soda", ""]));
		expect(trial.flasks.map((f) => f.control)).toEqual(["soda", ""]);
	});
});
