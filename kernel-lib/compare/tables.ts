import { decimalsFor, fixed, type Table, table } from "../quantity";
import { contradictionsTold } from "../uptake";
import type {
	Comparison,
	Difference,
	Replicates,
	TreatmentVerdict,
} from "./verdict";
import { capital, counted } from "./words";

function differenceCells(d: Difference): [string, string, string] {
	switch (d.is) {
		case "estimate": {
			const places = Math.max(0, decimalsFor((d.high - d.low) / 2));
			return [
				fixed(d.estimate, places),
				`${fixed(d.low, places)} to ${fixed(d.high, places)}`,
				pText(d.adjustedP),
			];
		}
		case "not available":
			return ["not available", "", ""];
		default:
			return [
				`${d.is} ${fixed(d.limit, Math.max(0, decimalsFor(Math.abs(d.limit) / 4)))}`,
				"",
				"",
			];
	}
}

function pText(p: number): string {
	return p < 0.0001 ? "below 0.0001" : p.toPrecision(2);
}

function replicatesCell(r: Replicates): string {
	switch (r.is) {
		case "enough":
			return "decided";
		case "number":
			return String(r.units);
		case "at least":
			return `at least ${r.units}`;
		case "not given":
			return "not given";
	}
}

/** The verdicts, a row for each treatment. */
export function comparisonTable(comparison: Comparison): Table {
	return table(
		"Each treatment against its control",
		[
			"treatment",
			"control",
			"verdict",
			"difference (mg/g)",
			"simultaneous interval (mg/g)",
			"adjusted p",
			"surely beyond the margin",
			"units that would tell",
			"with deviations kept",
			"with deviations left out",
		],
		comparison.verdicts.map((v) => [
			v.treatment,
			v.control === "" ? "none named" : v.control,
			v.word,
			...differenceCells(v.difference),
			v.exceedsMargin ? "yes" : "no",
			replicatesCell(v.replicates),
			v.withDeviations,
			v.withoutDeviations,
		]),
		comparison.verdicts.map((v) => v.sentence),
	);
}

/** The groups that were compared. */
export function groupTable(comparison: Comparison): Table {
	const unit = comparison.scope === "treatment" ? "soaks" : "flasks as units";
	return table(
		"Groups",
		[
			"treatment",
			unit,
			"flasks",
			"mean uptake (mg/g)",
			"interval of the mean (mg/g)",
			"mean residue (mg/L)",
			"flasks with a bound",
		],
		comparison.groups.map((g) => {
			const places = Math.max(0, decimalsFor((g.high - g.low) / 2));
			return [
				g.treatment,
				g.units,
				g.flasks,
				`${g.is === "value" ? "" : `${g.is} `}${fixed(g.mean, places)}`,
				`${fixed(g.low, places)} to ${fixed(g.high, places)}`,
				Number(g.residue.toPrecision(4)),
				g.boundFlasks.join(", "),
			];
		}),
		[
			"The intervals are each group's own, scatter and shared errors together: overlap of two of them does not judge their difference.",
		],
	);
}

/** How it was done, as one text. */
export function methodText(comparison: Comparison): string {
	return comparison.method.join("\n");
}

/** How it was done, and for each verdict why it is this word. */
export function methodTable(comparison: Comparison): Table {
	return table(
		"How the verdicts were reached",
		["concerns", "what was done, and why"],
		[
			...comparison.method.map((text) => ["all treatments", text]),
			...comparison.verdicts.flatMap((v) =>
				v.reasons.map((text) => [v.treatment, text]),
			),
		],
	);
}

function stepsFor(v: TreatmentVerdict): [string, string][] {
	const steps: [string, string][] = [];
	if (v.comparableDose !== "") steps.push([v.comparableDose, v.sentence]);
	if (v.replicates.is === "number" || v.replicates.is === "at least")
		steps.push([
			`Make ${v.replicates.is === "at least" ? "at least " : ""}${counted(v.replicates.units, "soak")} (or firings) of each treatment and of the control.`,
			v.replicates.because,
		]);
	if (v.withDeviations !== v.withoutDeviations)
		steps.push(["Repeat the flasks that a deviation touched.", v.reasons[0]]);
	else if (
		v.word === "cannot tell" &&
		v.replicates.is === "not given" &&
		v.comparableDose === "" &&
		v.reasons.length > 0
	)
		steps.push([v.reasons[0], v.replicates.because]);
	return steps;
}

/** What would tell where the word is "cannot tell", and which flasks to dose again, each with its reason. */
export function nextSteps(comparison: Comparison): Table {
	const rows: string[][] = [];
	for (const v of comparison.verdicts)
		for (const [what, why] of stepsFor(v)) rows.push([v.treatment, what, why]);
	for (const why of contradictionsTold(comparison.flasks))
		rows.push(["numbers", "Find out first what is wrong with them.", why]);
	for (const u of comparison.flasks)
		if (u.nextDose !== "")
			rows.push([
				`flask ${u.flask.name}`,
				capital(u.nextDose),
				u.uptake.is === "value" ? "" : capital(u.uptake.because),
			]);
	if (comparison.scope !== "treatment")
		rows.push([
			"all treatments",
			"Make every treatment, and its control, in several soaks or firings of their own.",
			comparison.scope === "these lots"
				? "The verdicts are about these lots only: how one soak differs from the next was not seen."
				: "Only the measuring error is covered: no scatter from flask to flask could be judged.",
		]);
	return table(
		"What to do next",
		["concerns", "what to do", "why"],
		rows.length > 0
			? rows
			: [["all treatments", "Nothing more is needed for these verdicts.", ""]],
	);
}
