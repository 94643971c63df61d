import { type Firing, firingsInUse, isLeftOut, type Trial } from "../bench";
import { type NotKnown, notKnown, type Table, withTable } from "../quantity";
import { type AgentLeft, agentLeft } from "./agent-left";
import type { WashReading } from "./rinse-readings";
import { type RinsesNeeded, rinsesNeeded } from "./rinses-needed";
import { type FiringTargets, requireTargets } from "./targets";
import { type FittedWashout, type Washout, washout } from "./washout";
import { washoutTable } from "./washout-table";

/** The washing of one firing: the model, the rinses that the target takes, and the agent still in the char. */
export interface Washing {
	readonly firing: Firing;
	readonly washout: Washout;
	readonly needed: RinsesNeeded | NotKnown;
	readonly agentLeft: AgentLeft | NotKnown;
	/** Rinses needed and agent left in words; empty where no model could be fitted. */
	readonly sentences: readonly string[];
	/** Readings of the rinses beside the model. */
	readonly table: Table;
}

/** Conductivity where any was read, for it tells grams; else pH. */
function readingOf({ rinses }: Firing): WashReading {
	return rinses.some((r) => r.conductivity.recorded && !isLeftOut(r))
		? "conductivity"
		: "pH";
}

function neededFor(
	washed: FittedWashout,
	targets: FiringTargets,
): RinsesNeeded | NotKnown {
	const target = targets[washed.reading];
	return target === undefined
		? notKnown(`no target for the ${washed.reading} is set`)
		: rinsesNeeded(washed, target);
}

function washingOf(
	firing: Firing,
	targets: FiringTargets,
): Omit<Washing, "table"> {
	const washed = washout(firing, readingOf(firing), targets.rinseVolume);
	if (washed.is === "not known") {
		const none = notKnown(washed.because);
		return {
			firing,
			washout: washed,
			needed: none,
			agentLeft: none,
			sentences: [],
		};
	}
	const needed = neededFor(washed, targets);
	const left = agentLeft(washed);
	return {
		firing,
		washout: washed,
		needed,
		agentLeft: left,
		sentences: [
			...("sentence" in needed ? [needed.sentence] : []),
			left.sentence,
		],
	};
}

/**
 * The washout of every firing that was rinsed: well-mixed rinses fitted to the readings (conductivity in µS/cm where any was read, else pH), the liquor retained (mL), the rinses that the target takes with their 95 %
 * interval, and the agent still in the char (mg), which is always "at least". Each is shown as a table, a row a rinse.
 *
 * @param targets conductivity or pH at which the washing is done, and the volume of rinses still to come
 * @throws ProblemError where the trial has no firing, and for a target that it does not know
 * @example
 * const target = quantity.input("conductivity", 50, "µS/cm", quantity.exact, {});
 * const washed = activation.washouts(kilnTrial, { conductivity: target });
 * washed.map((w) => w.firing.name) // => ["potash 0.5", "potash 1", "phosphoric 1"]
 */
export function washouts(
	trial: Trial,
	targets: FiringTargets = {},
): readonly Washing[] {
	requireTargets(targets, "washouts");
	return firingsInUse(trial)
		.filter((firing) => firing.rinses.length > 0)
		.map((firing) => withTable(washingOf(firing, targets), washoutTable));
}
