import type { MaybeKnown } from "../../quantity";
import type { Observation } from "../observations";
import type { Pair } from "../pairs";
import type { VerdictWord } from "../word";
import { type Condition, conditions } from "./conditions";
import type { Feigns, Looked, Sides } from "./sides";

/** One condition of the audit, and what the two sides had. */
export interface Audited {
	readonly condition: Omit<Condition, "look">;
	readonly found: Looked;
}

/** A condition beyond its allowance, in plain words. */
export interface Finding {
	/** "contact time" */
	readonly condition: string;
	/** Whether the sheet says so, or nothing did and it was taken for granted. */
	readonly is: Condition["is"];
	/** Which difference it could have made; "nothing" for what is only told. */
	readonly feigns: Feigns;
	/** What was recorded on each side, as "72 h". */
	readonly treated: string;
	readonly untreated: string;
}

function sidesOf(
	{ treatment, control }: Pair,
	list: readonly Observation[],
): Pick<Sides, "treated" | "untreated"> {
	return {
		treated: list.filter((o) => o.treatment === treatment),
		untreated: list.filter((o) => o.treatment === control),
	};
}

/** Every condition, looked at on a treatment and its control. */
export function audit(
	pair: Pair,
	list: readonly Observation[],
	around: Pick<Sides, "trial" | "measuringErrorOnly">,
): readonly Audited[] {
	const sides: Sides = {
		...around,
		control: pair.control,
		...sidesOf(pair, list),
	};
	return conditions.map(({ look, ...condition }) => ({
		condition,
		found: look(sides),
	}));
}

/** The audit at a margin, mg/g: what is shown to do no harm at it feigns nothing; without one nothing is shown. */
export function auditedAt(
	audited: readonly Audited[],
	margin: MaybeKnown<number>,
): readonly Audited[] {
	return audited.map(({ condition, found }) => {
		if (found.is === "not recorded" || found.harmless === undefined)
			return { condition, found };
		const { harmless, ...rest } = found;
		return {
			condition,
			found:
				margin.is === "value" && margin.value > harmless.above
					? {
							...rest,
							feigns: "nothing",
							untreated: `${rest.untreated}, ${harmless.by}`,
						}
					: rest,
		};
	});
}

/** At larger margins than this, mg/g, all that the sheet shows to do no harm does none. */
export function harmlessAbove(audited: readonly Audited[]): number {
	return Math.max(
		0,
		...audited.map(({ found }) =>
			found.is !== "not recorded" && found.harmless !== undefined
				? found.harmless.above
				: 0,
		),
	);
}

/** Those that lie beyond their allowance. */
export function findingsOf(audited: readonly Audited[]): readonly Finding[] {
	return audited.flatMap(({ condition, found }) =>
		found.is === "beyond"
			? [
					{
						condition: condition.name,
						is: condition.is,
						feigns: found.feigns,
						treated: found.treated,
						untreated: found.untreated,
					},
				]
			: [],
	);
}

/** The findings that could have made a word; sameness could be feigned in either direction. */
export function feigning(
	findings: readonly Finding[],
	word: VerdictWord,
): readonly Finding[] {
	if (word === "cannot tell") return [];
	return findings.filter(({ feigns }) =>
		word === "no difference that matters"
			? feigns !== "nothing"
			: feigns === "either" || feigns === word,
	);
}
