import type { Drying } from "./drying";
import { findingText } from "./finding";
import type { NoBalance, StageBalance } from "./mass-balance";
import type { RinsesNeeded } from "./rinses-needed";
import type { ActivationFigures } from "./yields";

/** One run in a sentence: yield, burn-off, ratio, and whether its weighings balance. */
export function activationSentence(
	figures: ActivationFigures,
	stages: readonly (StageBalance | NoBalance)[],
): string {
	const said = (
		[
			["char yield", figures.charYield],
			["burn-off", figures.burnOff],
			["impregnation ratio", figures.impregnationRatio],
		] as const
	).flatMap(([name, finding]) =>
		finding.is === "not known" ? [] : [`${name} ${findingText(finding)}`],
	);
	const astray = stages.flatMap((s) =>
		s.is === "balance" &&
		s.verdict === "does not close" &&
		s.stage !== "whole run"
			? [
					`${s.stage}, ${s.unaccounted.value < 0 ? "excess" : "missing"} ${String(s.unaccounted).replace("-", "")}`,
				]
			: [],
	);
	return `${figures.run.name}: ${said.length === 0 ? "no yield is known" : said.join(", ")}.${astray.length === 0 ? "" : ` Its balance does not close (${astray.join("; ")}): do not rely on its yield before that is explained.`}`;
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
							? `${d.run.name}: weigh the drying more often; ${d.curve.because}.`
							: d.sentence,
					],
		),
		...[...unmeasured].map(
			([what, runs]) =>
				`To close the balance of ${runs.join(", ")}, measure: ${what}.`,
		),
	];
}
