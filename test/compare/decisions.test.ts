/** The switches of a comparison by hand: what was taken, what else could have been, and when it plays no part. */
import { describe, expect, test } from "vitest";
import { trialFromRows, withSettings } from "../../kernel-lib/bench";
import {
	unusualDecisions,
	withDecisions,
} from "../../kernel-lib/compare/decisions/decisions";
import {
	type Asked,
	type Compared,
	type DecisionRule,
	decisionRules,
} from "../../kernel-lib/compare/decisions/rules";
import type { CompareOptions } from "../../kernel-lib/compare/settings";
import type { TreatmentVerdict } from "../../kernel-lib/compare/verdict";
import { charRow, plainSolutions } from "../uptake/sheets";

const trial = trialFromRows({
	flasks: [charRow("w1", { treatment: "water", "titre (mL)": 5 })],
	solutions: plainSolutions,
});
const [losses, displacement, endPoint, slopes, spread, sameness] =
	decisionRules;
const asked = (options: CompareOptions = {}): Asked => ({ trial, options });
const others = (rule: DecisionRule, options: CompareOptions = {}) =>
	rule.others(asked(options)).map((o) => ({
		text: o.text,
		options: o.by === "another comparison" ? o.asked.options : {},
	}));

describe("of reading", () => {
	const otherwise = withSettings(trial, { losses: "from the dose" });
	const settings = (rule: DecisionRule, of = trial) =>
		rule
			.others({ trial: of, options: {} })
			.flatMap((o) =>
				o.by === "another comparison" ? [o.asked.trial.settings] : [],
			);

	test("the usual one is taken unless another was set", () => {
		for (const rule of [losses, displacement, endPoint])
			expect(rule.taken(asked())).toBe(rule.usual(asked()));
		const set = { trial: otherwise, options: {} };
		expect(losses.taken(set)).not.toBe(losses.usual(set));
	});

	test("what else could have been: all but the one that was taken, the usual one first", () => {
		expect(settings(losses).map((s) => s.losses)).toEqual([
			"from the dose",
			"from what is left",
			"the blank is the dose",
		]);
		expect(settings(losses, otherwise).map((s) => s.losses)).toEqual([
			"between the extremes",
			"from what is left",
			"the blank is the dose",
		]);
		expect(settings(displacement).map((s) => s.displacement)).toEqual([0]);
		expect(settings(endPoint).map((s) => s.endPoint)).toEqual([0]);
	});

	const flask = (
		of: object,
		titrations: unknown[] = [],
		events: unknown[] = [],
	) =>
		({
			flask: { ...of, flask: { titrations, events } },
		}) as unknown as Compared["compared"][number];
	const idle = (rule: DecisionRule, ...compared: Compared["compared"]) =>
		rule.idle({ compared } as unknown as Compared);

	test("losses play a part where a blank showed one, of any flask", () => {
		const [off, none] = [true, false].map((lossesTakenOff) =>
			flask({ lossesTakenOff }),
		);
		expect(idle(losses, none, off)).toBe("");
		expect(idle(losses, none)).toBe("no blank shows a loss");
	});

	test("displacement where a flask was made up with its char in it", () => {
		const made = (charIn: boolean) =>
			flask({}, [], [{ is: "dose" }, { is: "made up", charIn }]);
		expect(idle(displacement, made(false), made(true))).toBe("");
		expect(idle(displacement, made(false))).toBe(
			"none made up with the char in it",
		);
		expect(
			idle(displacement, flask({}, [], [{ is: "dose", charIn: true }])),
		).not.toBe("");
	});

	test("the end point where something was titrated", () => {
		expect(idle(endPoint, flask({}), flask({}, [{}]))).toBe("");
		expect(idle(endPoint, flask({}))).toBe("nothing was titrated");
	});
});

describe("slopes", () => {
	test("in words", () => {
		const taken = (low: number, high: number) =>
			slopes.taken(asked({ slopes: { low, high } }));
		expect(slopes.taken(asked())).toBe("in the whole range of the probe");
		expect(taken(0, 0)).toBe("all 0, residues not regarded");
		expect(taken(0.2, 0.2)).toBe("0.2");
		expect(taken(0, 0.5)).toBe("from 0 to 0.5");
		expect(slopes.name).toBe("slopes 1/n");
	});

	test("what else: the whole range, where chars mostly lie, none; with all other options as they are", () => {
		expect(others(slopes, { confidence: 0.9 })).toEqual([
			{
				text: "from 0.1 to 0.5",
				options: { confidence: 0.9, slopes: { low: 0.1, high: 0.5 } },
			},
			{
				text: "all 0, residues not regarded",
				options: { confidence: 0.9, slopes: { low: 0, high: 0 } },
			},
		]);
		expect(
			others(slopes, { slopes: { low: 0.3, high: 0.3 } }).map((o) => o.text),
		).toEqual([
			"in the whole range of the probe",
			"from 0.1 to 0.5",
			"all 0, residues not regarded",
		]);
	});

	test("play no part on isotherms, nor where doses have measured all of them", () => {
		const idle = (...is: string[]) =>
			slopes.idle({
				at: {
					is: "carried",
					slopes: new Map(is.map((s, i) => [String(i), { is: s }])),
				},
			} as unknown as Compared);
		expect(idle("measured", "range")).toBe("");
		expect(idle("measured", "measured")).toBe(
			"the sheet shows it: doses by design",
		);
		expect(
			slopes.idle({ at: { is: "isotherms" } } as unknown as Compared),
		).toBe("the sheet shows it: isotherms");
	});
});

describe("scatter", () => {
	test("in words, and what else", () => {
		expect(spread.name).toBe("scatter");
		expect(spread.taken(asked({ spread: "pooled" }))).toBe(
			"alike in all treatments",
		);
		expect(others(spread)).toEqual([
			{ text: "alike in all treatments", options: { spread: "pooled" } },
		]);
		expect(others(spread, { spread: "pooled" })).toEqual([
			{
				text: "of each treatment, drawn to that of all",
				options: { spread: undefined },
			},
		]);
	});

	test("plays a part where there is some to judge by, on isotherms that of soaks with curves of their own", () => {
		const idle = (method: object) =>
			spread.idle({ method } as unknown as Compared);
		const carried = (degreesOfFreedom: number) =>
			idle({ is: "carried", spread: { degreesOfFreedom } });
		expect(carried(2)).toBe("");
		expect(carried(0)).toBe("no scatter to judge by");
		expect(idle({ is: "isotherms", bySoak: true })).toBe("");
		expect(idle({ is: "isotherms", bySoak: false })).toBe(
			"that about each curve",
		);
	});
});

describe("sameness", () => {
	test("in words, and the other way, which the comparison holds already", () => {
		expect(sameness.taken(asked())).toBe("by two one-sided tests");
		expect(sameness.usual(asked())).toBe("by two one-sided tests");
		expect(sameness.name).toBe('"no difference that matters" judged');
		const whole = asked({ sameness: "interval" });
		expect(sameness.taken(whole)).toBe("by the whole interval");
		const [other, ...more] = sameness.others(asked());
		expect(more).toEqual([]);
		expect(other.text).toBe("by the whole interval");
		expect(sameness.others(whole)[0].text).toBe("by two one-sided tests");
		if (other.by !== "this comparison") throw new Error(other.by);
		const verdict = {
			difference: { is: "x" },
			word: "higher",
			otherwise: "lower",
		};
		expect(other.outcomeOf(verdict as unknown as TreatmentVerdict)).toEqual({
			difference: { is: "x" },
			word: "lower",
		});
	});

	test("plays no part without a margin", () => {
		const idle = (is: string) =>
			sameness.idle({ margin: { is } } as unknown as Compared);
		expect(idle("not set")).toBe("no margin was set");
		expect(idle("uptake")).toBe("");
	});
});

describe("a comparison's decisions", () => {
	const compared = {
		trial: withSettings(trial, { losses: "from the dose" }),
		compared: [],
		at: { is: "isotherms" },
		method: { is: "isotherms", bySoak: true },
		margin: { is: "not set" },
	} as unknown as Compared;

	test("each with what was taken, what is usual, and why it plays no part", () => {
		const { decisions, ...rest } = withDecisions(compared, {
			spread: "pooled",
		});
		expect(rest).toEqual(compared);
		expect(decisions.map((d) => d.name)).toEqual(
			decisionRules.map((d) => d.name),
		);
		expect(decisions[4]).toEqual({
			name: "scatter",
			taken: "alike in all treatments",
			usual: "of each treatment, drawn to that of all",
			idle: "",
		});
	});

	test("unusual are those that were taken otherwise and play a part", () => {
		const unusual = unusualDecisions(
			withDecisions(compared, { spread: "pooled", sameness: "interval" }),
		);
		// Losses were taken otherwise too, but no blank shows one; sameness, but there is no margin.
		expect(unusual.map((d) => d.name)).toEqual(["scatter"]);
		expect(unusualDecisions(withDecisions(compared, {}))).toEqual([]);
	});
});
