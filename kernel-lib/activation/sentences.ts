import { expandedText } from "../quantity";
import { balanceFaults } from "./balance-faults";
import type { Drying } from "./drying";
import type { NoBalance, StageBalance } from "./mass-balance";
import type { RinsesNeeded } from "./rinses-needed";
import type { FiringYields } from "./yields";

/** One run in a sentence: yield and burn-off with their 95 % intervals after the ±, and whether its weighings balance. */
export function activationSentence(
	figures: FiringYields,
	stages: readonly (StageBalance | NoBalance)[],
): string {
	const said = (
		[
			["char yield", figures.charYield],
			["burn-off", figures.burnOff],
		] as const
	).flatMap(([name, finding]) =>
		finding.is === "not known"
			? []
			: [
					`${name} ${finding.is === "value" ? "" : `${finding.is} `}${expandedText(finding.quantity)}`,
				],
	);
	const faults = balanceFaults(figures, stages);
	return `${figures.firing.name}: ${said.length === 0 ? "no yield is known" : said.join(", ")}${faults.length === 0 ? "" : `, not to be relied on, for its balance does not close (${faults.join("; ")})`}.`;
}

/** What to do next at the washtub, the oven and the balance: one sentence for each thing that is not finished or that a better record would settle. */
export function activationNextSteps(found: {
	readonly balances: readonly {
		readonly run: string;
		readonly stages: readonly (StageBalance | NoBalance)[];
	}[];
	readonly washings: readonly {
		readonly run: string;
		readonly needed: RinsesNeeded;
	}[];
	readonly dryings: readonly Drying[];
}): string[] {
	const stages = found.balances.flatMap(({ run, stages }) =>
		stages.flatMap((s) =>
			s.is === "balance" && s.stage !== "whole run" ? [{ run, s }] : [],
		),
	);
	const unmeasured = new Map<string, string[]>();
	for (const { run, s } of stages)
		if (s.verdict === "left open")
			for (const what of s.notMeasured)
				unmeasured.set(what, [...(unmeasured.get(what) ?? []), run]);
	return [
		...stages.flatMap(({ run, s }) =>
			s.verdict === "does not close" ? [`${run}: ${s.sentence}`] : [],
		),
		...found.washings.flatMap(({ needed }) =>
			needed.is === "refused" || needed.more > 0 || needed.moreHigh > 0
				? [needed.sentence]
				: [],
		),
		...found.dryings.flatMap((d) =>
			d.verdict === "dry"
				? []
				: [
						d.curve.is === "refused"
							? `${d.firing.name}: weigh the drying more often; ${d.curve.because}.`
							: d.sentence,
					],
		),
		...[...unmeasured].map(
			([what, runs]) =>
				`To close the balance of ${runs.join(", ")}, measure: ${what}.`,
		),
	];
}
