import { expect, test } from "vitest";
import { selectFlasks, trialFromRows } from "../../kernel-lib/bench/index";
import { compareTreatments, marginOf } from "../../kernel-lib/compare/index";
import { nextSteps } from "../../kernel-lib/words";
import { char, soundGlassware, soundSolutions } from "../bench-sheet/rows";

const margin = marginOf(25);

function rowsOf(
	flasks: Parameters<typeof trialFromRows>[0]["flasks"],
	deviations: Parameters<typeof trialFromRows>[0]["deviations"] = [],
): string[][] {
	const trial = trialFromRows({
		flasks,
		solutions: soundSolutions,
		glassware: soundGlassware,
		deviations,
	});
	return nextSteps(compareTreatments(trial, { margin })).rows.map((r) =>
		r.map(String),
	);
}

test("one flask of each: a verdict is no reason for a step, that nothing is repeated is", () => {
	expect(rowsOf([char("c", "control", 5.35), char("s", "steam", 4.1)])).toEqual(
		[
			[
				"all treatments",
				"Make every treatment, and its control, in several soaks or firings of their own.",
				"Only the measuring error is covered: no scatter from flask to flask could be judged.",
			],
		],
	);
});

test("a deviation that decides is one step", () => {
	const steps = rowsOf(
		[char("c", "control", 5.35), char("s", "steam", 4.1)],
		[{ flask: "c", "what happened": "spilt", handling: "leave out" }],
	).filter(([concerns]) => concerns === "steam");
	expect(steps.map(([, what]) => what)).toEqual([
		"Repeat the flasks that a deviation touched.",
	]);
});

test("a selection without the control says so", () => {
	const trial = trialFromRows({
		flasks: [char("c", "control", 5.35), char("s", "steam", 4.1)],
		solutions: soundSolutions,
		glassware: soundGlassware,
	});
	expect(() =>
		compareTreatments(selectFlasks(trial, ["s"]), { margin }),
	).toThrow(
		/found the control "control" for the treatment "steam"; expected another treatment with char, and there is none\. .*select those of the control too\.$/,
	);
});
