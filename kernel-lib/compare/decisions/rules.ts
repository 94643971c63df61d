import {
	type ReadingDecision,
	readingDecisions,
	type Trial,
	type TrialSettings,
	usualSettings,
	withSettings,
} from "../../bench";
import { plainNumber } from "../../quantity";
import type { CompareOptions, SlopeLimits } from "../settings";
import { typicalSlopes } from "../slope-range";
import type { Comparison, Difference, TreatmentVerdict } from "../verdict";
import type { VerdictWord } from "../word";

/** What was asked of a comparison. */
export interface Asked {
	readonly trial: Trial;
	readonly options: CompareOptions;
}

/** A comparison as far as decisions are looked for in it. */
export type Compared = Omit<Comparison, "decisions">;

/** What comes of another decision for one treatment. */
export interface Outcome {
	readonly difference: Difference;
	readonly word: VerdictWord;
}

/** Another decision, and what comes of it: another comparison, or what the comparison holds already. */
export type Alternative = { readonly text: string } & (
	| { readonly by: "another comparison"; readonly asked: Asked }
	| {
			readonly by: "this comparison";
			readonly outcomeOf: (v: TreatmentVerdict) => Outcome;
	  }
);

/** A decision that nothing in a sheet takes; name and what was taken read as one: "losses from the dose only". */
export interface DecisionRule {
	readonly name: string;
	readonly taken: (asked: Asked) => string;
	readonly usual: (asked: Asked) => string;
	readonly others: (asked: Asked) => readonly Alternative[];
	/** Why it has no part in a comparison, whatever is decided; "" where it has. */
	readonly idle: (c: Compared) => string;
}

const unlike =
	(taken: string) =>
	({ text }: Alternative): boolean =>
		text !== taken;

/** A setting of the reading. */
function ofReading<K extends ReadingDecision>(
	key: K,
	others: readonly TrialSettings[K][],
	idle: DecisionRule["idle"],
): DecisionRule {
	const { what, says } = readingDecisions[key];
	const taken = ({ trial }: Asked): string => says(trial.settings[key]);
	return {
		name: what,
		taken,
		usual: () => says(usualSettings[key]),
		others: (asked) =>
			[usualSettings[key], ...others]
				.map(
					(value): Alternative => ({
						text: says(value),
						by: "another comparison",
						asked: {
							...asked,
							trial: withSettings(asked.trial, { [key]: value }),
						},
					}),
				)
				.filter(unlike(taken(asked))),
		idle,
	};
}

/** An option of the comparison; undefined: the usual one. */
function ofComparison<K extends "slopes" | "spread">(
	key: K,
	name: string,
	says: (value: CompareOptions[K]) => string,
	others: (asked: Asked) => readonly CompareOptions[K][],
	idle: DecisionRule["idle"],
): DecisionRule {
	const taken = ({ options }: Asked): string => says(options[key]);
	return {
		name,
		taken,
		usual: () => says(undefined),
		others: (asked) =>
			[undefined, ...others(asked)]
				.map(
					(value): Alternative => ({
						text: says(value),
						by: "another comparison",
						asked: { ...asked, options: { ...asked.options, [key]: value } },
					}),
				)
				.filter(unlike(taken(asked))),
		idle,
	};
}

function slopesText(slopes: SlopeLimits | undefined): string {
	if (slopes === undefined) return "in the whole range of the probe";
	const { low, high } = slopes;
	if (high === 0) return "all 0, residues not regarded";
	return low === high
		? plainNumber(low)
		: `from ${plainNumber(low)} to ${plainNumber(high)}`;
}

const samenessTexts = {
	"one-sided tests": "by two one-sided tests",
	interval: "by the whole interval",
} as const;

const sameness: DecisionRule = {
	name: '"no difference that matters" judged',
	taken: ({ options }) => samenessTexts[options.sameness ?? "one-sided tests"],
	usual: () => samenessTexts["one-sided tests"],
	others: ({ options }) => [
		{
			text: samenessTexts[
				options.sameness === "interval" ? "one-sided tests" : "interval"
			],
			by: "this comparison",
			outcomeOf: ({ difference, otherwise }) => ({
				difference,
				word: otherwise,
			}),
		},
	],
	idle: ({ margin }) => (margin.is === "not set" ? "no margin was set" : ""),
};

/** Every decision of ours that is a switch, in the order in which a comparison meets them. What a sheet itself shows (a slope that its doses measured) it decides. */
export const decisionRules: readonly DecisionRule[] = [
	ofReading(
		"losses",
		["from the dose", "from what is left", "the blank is the dose"],
		({ compared }) =>
			compared.some((o) => o.flask.lossesTakenOff)
				? ""
				: "no blank shows a loss",
	),
	ofReading("displacement", [0], ({ compared }) =>
		compared.some((o) =>
			o.flask.flask.events.some((e) => e.is === "made up" && e.charIn),
		)
			? ""
			: "none made up with the char in it",
	),
	ofReading("endPoint", [0], ({ compared }) =>
		compared.some((o) => o.flask.flask.titrations.length > 0)
			? ""
			: "nothing was titrated",
	),
	ofComparison(
		"slopes",
		"slopes 1/n",
		slopesText,
		({ trial }) => [typicalSlopes(trial.probe.name), { low: 0, high: 0 }],
		({ at }) =>
			at.is === "isotherms"
				? "the sheet shows it: isotherms"
				: [...at.slopes.values()].every((s) => s.is === "measured")
					? "the sheet shows it: doses by design"
					: "",
	),
	ofComparison(
		"spread",
		"scatter",
		(rule) =>
			rule === "pooled"
				? "alike in all treatments"
				: "of each treatment, drawn to that of all",
		() => ["pooled"],
		({ method }) =>
			method.is === "isotherms"
				? method.bySoak
					? ""
					: "that about each curve"
				: method.spread.degreesOfFreedom === 0
					? "no scatter to judge by"
					: "",
	),
	sameness,
];
