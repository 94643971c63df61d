import {
	dryings,
	type FiringTargets,
	type MassBalance,
	massBalances,
	requireTargets,
	washouts,
} from "../activation";
import type { Trial } from "../bench";
import { quoted } from "../quantity";
import { dangersNamedIn, whyNot } from "../substances";

/** Balances that do not close, a sentence each. */
function openBalances(balances: readonly MassBalance[]): string[] {
	return balances.flatMap(({ firing, stages }) =>
		stages.flatMap((s) =>
			s.is === "balance" &&
			s.stage !== "whole firing" &&
			s.verdict === "does not close"
				? [`${quoted(firing.name)}: ${s.sentence}`]
				: [],
		),
	);
}

/** What to measure so that balances that are left open could close, a sentence for each thing. */
function thingsToMeasure(balances: readonly MassBalance[]): string[] {
	const firingsOf = new Map<string, string[]>();
	for (const { firing, stages } of balances)
		for (const s of stages)
			if (
				s.is === "balance" &&
				s.stage !== "whole firing" &&
				s.verdict === "left open"
			)
				for (const what of s.notMeasured)
					firingsOf.set(what, [...(firingsOf.get(what) ?? []), firing.name]);
	return [...firingsOf].map(
		([what, names]) =>
			`To close the balance of ${names.map(quoted).join(", ")}, measure: ${what}.`,
	);
}

function rinsesToCome(trial: Trial, targets: FiringTargets): string[] {
	return washouts(trial, targets).flatMap(({ needed }) => {
		if (!("sentence" in needed)) return [];
		const reached =
			needed.is === "foretold" &&
			needed.more === 0 &&
			needed.moreHigh.is === "value" &&
			needed.moreHigh.value === 0;
		return reached ? [] : [needed.sentence];
	});
}

function dryingsToCome(trial: Trial, targets: FiringTargets): string[] {
	return dryings(trial, targets).flatMap((d) => {
		if (d.verdict === "dry") return [];
		const because = whyNot(
			"drying oven",
			dangersNamedIn(d.firing.agent).map((n) => n.dangers),
		);
		if (because !== "")
			return [
				`${quoted(d.firing.name)}: do not go on drying it in an oven. Must not be done: ${because}`,
			];
		return [
			d.curve.is === "not known"
				? `${quoted(d.firing.name)}: weigh the drying more often; ${d.curve.because}.`
				: d.sentence,
		];
	});
}

/**
 * What to do next at the washtub, the oven and the balance: one sentence for each thing that is not finished or that a better record would settle.
 *
 * @param targets where washing and drying are to end, as for `washouts` and `dryings`
 * @throws ProblemError where the trial has no firing, and for a target that it does not know
 * @example
 * words.firingNextSteps(kilnTrial)[0].startsWith('"potash 1": Washing and drying: the balance does not close.') // => true
 */
export function firingNextSteps(
	trial: Trial,
	targets: FiringTargets = {},
): string[] {
	requireTargets(targets, "firingNextSteps");
	const balances = massBalances(trial);
	return [
		...openBalances(balances),
		...rinsesToCome(trial, targets),
		...dryingsToCome(trial, targets),
		...thingsToMeasure(balances),
	];
}
