import { type Finding, findingsOf, type TreatmentVerdict } from "../compare";
import { listed } from "../quantity";

/** "contact time (72 h treated, 1 h control)" */
export function findingText({
	condition,
	treated,
	untreated,
}: Finding): string {
	return treated === untreated
		? `${condition} (${treated})`
		: `${condition} (${treated} treated, ${untreated} control)`;
}

/** What was recorded beyond its allowance and what was assumed, where neither takes the word away: for the head, beside the word; none where there is no word. */
export function findingsClosing({ audited, word }: TreatmentVerdict): string[] {
	if (word === "cannot tell") return [];
	const findings = findingsOf(audited);
	const told = findings.filter((f) => f.is === "recorded").map(findingText);
	const assumed = findings
		.filter((f) => f.is === "assumed")
		.map((f) => f.treated);
	return [
		...(told.length > 0 ? [`Recorded beside it: ${listed(told)}`] : []),
		...(assumed.length > 0 ? [`Assumed: ${listed(assumed)}`] : []),
	];
}
