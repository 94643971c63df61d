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

/** What was recorded, each once. */
const values = (
	same: readonly AuditedOf[],
	side: "treated" | "untreated",
): string =>
	[
		...new Set(
			same.flatMap(({ found }) =>
				found.is === "not recorded" ? [] : [found[side]],
			),
		),
	].join("; ");

/** Treatments of which the same is found share a row; "all" stands for every treatment. */
function rowOf(same: readonly AuditedOf[], treatments: number): string[] {
	const [{ condition, found }] = same;
	if (found.is === "not recorded") return [];
	return [
		`${condition.name}: ${condition.allowance}`,
		same.length === treatments && treatments > 1
			? "all"
			: same.map((a) => a.treatment).join("; "),
		values(same, "treated"),
		values(same, "untreated"),
		found.is === "within"
			? "within"
			: `beyond, ${effects[found.feigns]}: ${condition.effect}`,
	];
}

/**
 * Everything that the sheet records and that limits the word: what was found on both sides, what is allowed, and what lies beyond does. Conditions of which it says nothing are named below.
 * @example
 * const compared = compare.compareTreatments(trial, { margin: compare.marginOf(25) });
 * words.auditTable(compared).columns[0] // => "condition, and what is allowed"
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
			"condition, and what is allowed",
			"treatment",
			"treated",
			"control",
			"found",
		],
		conditions
			.flatMap((own) => [
				...grouped(own, ({ found }) =>
					found.is === "beyond" ? `beyond, ${found.feigns}` : found.is,
				).values(),
			])
			.map((same) => rowOf(same, verdicts.length))
			.filter((row) => row.length > 0),
		silent.length === 0
			? []
			: [
					`Not recorded, so that nothing is known of them: ${listed(silent.map(([a]) => a.condition.name))}.`,
				],
	);
}
