import {
	differencePlaces,
	type GroupSummary,
	type VerdictWord,
} from "../compare";
import { confidenceText } from "../isotherms";
import { fixed, quoted, type Table, table } from "../quantity";
import type { ReportedComparison, ReportedVerdict } from "./reported";

function signed(value: number, places: number): string {
	const text = fixed(value, places);
	return value > 0 ? `+${text}` : text;
}

function uptakeText(group: GroupSummary): string {
	if (group.is !== "value") return `${group.is} ${fixed(group.mean, 0)}`;
	return group.boundFlasks.length > 0
		? `${fixed(group.mean, 0)}, flask ${group.boundFlasks.join(", ")} at its bound`
		: fixed(group.mean, 0);
}

function intervalText(group: GroupSummary): string {
	return group.is === "value" && group.boundFlasks.length === 0
		? `${fixed(group.low, 0)} to ${fixed(group.high, 0)}`
		: "not given: a bound is in it";
}

/** The difference of a verdict in mg/g, in words. */
export function differenceText(
	verdict: Pick<ReportedVerdict, "difference" | "margin">,
): string {
	const { difference } = verdict;
	const places = differencePlaces(verdict);
	const text = (value: number): string => signed(value, places);
	switch (difference.is) {
		case "estimate":
			return `${text(difference.estimate)} (${text(difference.low)} to ${text(difference.high)})`;
		case "at least":
		case "at most":
			return `${difference.is} ${text(difference.limit)}`;
		case "not available":
			return "not available";
	}
}

/** What a difference is the difference of. */
export function pairText({
	treatment,
	control,
}: Pick<ReportedVerdict, "treatment" | "control">): string {
	return `${quoted(treatment)} less ${quoted(control)}`;
}

/** The word as it stands by itself: it claims no more than the measuring error allows where nothing else was seen. */
export function verdictText({
	word,
	measuringErrorOnly,
}: ReportedVerdict): string {
	if (!measuringErrorOnly) return word;
	switch (word) {
		case "higher":
		case "lower":
			return `${word} than measuring error explains`;
		case "no difference that matters":
			return `${word}, as far as measuring error goes`;
		case "cannot tell":
			return word;
	}
}

const order: readonly VerdictWord[] = [
	"higher",
	"lower",
	"no difference that matters",
	"cannot tell",
];

/** The clearest words first, the larger difference before the smaller. */
export function sortedVerdicts({
	verdicts,
}: ReportedComparison): readonly ReportedVerdict[] {
	const size = ({ difference: d }: ReportedVerdict): number =>
		d.is === "estimate"
			? Math.abs(d.estimate)
			: d.is === "not available"
				? 0
				: Math.abs(d.limit);
	return [...verdicts].sort(
		(a, b) =>
			order.indexOf(a.word) - order.indexOf(b.word) || size(b) - size(a),
	);
}

/** The answer as a table: a row a group, the verdict beside what it rests on. */
export function verdictTable(comparison: ReportedComparison): Table {
	const percent = confidenceText(comparison.confidence);
	const verdictOf = new Map(comparison.verdicts.map((v) => [v.treatment, v]));
	const rows = comparison.groups.map((group) => {
		const verdict = verdictOf.get(group.treatment);
		return [
			group.treatment,
			uptakeText(group),
			intervalText(group),
			verdict === undefined ? "(control)" : verdictText(verdict),
			verdict === undefined ? "" : differenceText(verdict),
			verdict === undefined ? "" : verdict.control,
			fixed(group.residue, 0),
			String(group.flasks),
		];
	});
	return table(
		"",
		[
			"treatment",
			"uptake (mg/g)",
			`${percent} interval (mg/g)`,
			"verdict",
			`difference (mg/g), simultaneous ${percent} interval`,
			"compared with",
			"at a residue of (mg/L)",
			"flasks",
		],
		rows,
	);
}
