import { type Audited, type Comparison, requireComparison } from "../compare";
import { grouped, listed, type Table, table } from "../quantity";

const effects = {
	higher: "could look higher",
	lower: "could look lower",
	either: "could look either way",
	nothing: "told in the head",
} as const;

interface AuditedOf extends Audited {
	readonly treatment: string;
}

/** Treatments with the same finding share a row; "all" stands for every treatment. */
function rowsOf(same: readonly AuditedOf[], treatments: number): string[] {
	const [{ condition, found }] = same;
	if (found.is === "not recorded") return [];
	return [
		condition.name,
		same.length === treatments && treatments > 1
			? "all"
			: listed(same.map((a) => a.treatment)),
		found.treated,
		found.untreated,
		condition.allowance,
		found.is === "within" ? "within" : effects[found.feigns],
		condition.effect,
	];
}

/**
 * Everything that the sheet records and that limits the word: what was found on both sides, what is allowed, and what lies beyond does. Conditions of which it says nothing are named below.
 * @example
 * const compared = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * words.auditTable(compared).columns[0] // => "condition"
 */
export function auditTable(comparison: Comparison): Table {
	requireComparison(comparison, "words.auditTable");
	const { verdicts } = comparison;
	const all = verdicts.flatMap((v) =>
		v.audited.map((a): AuditedOf => ({ ...a, treatment: v.treatment })),
	);
	const conditions = [...grouped(all, (a) => a.condition.name).values()];
	const silent = conditions.filter((own) =>
		own.every((a) => a.found.is === "not recorded"),
	);
	return table(
		"What the sheet records of the conditions, and what that does to the word",
		[
			"condition",
			"treatment",
			"treated",
			"control",
			"allowed",
			"found",
			"what lies beyond does",
		],
		conditions
			.flatMap((own) => [
				...grouped(own, (a) => JSON.stringify(a.found)).values(),
			])
			.map((same) => rowsOf(same, verdicts.length))
			.filter((row) => row.length > 0),
		silent.length === 0
			? []
			: [
					`Not recorded, so that nothing is known of them: ${listed(silent.map(([a]) => a.condition.name))}.`,
				],
	);
}
