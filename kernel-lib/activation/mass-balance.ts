import { type Firing, firingsInUse, step, type Trial } from "../bench";
import {
	known,
	type MaybeKnown,
	mapKnown,
	measured,
	named,
	notKnown,
	quoted,
	times,
	type WithTable,
	withTable,
} from "../quantity";
import { agentAddition, agentWashedOut } from "./agent-masses";
import { dryProduct } from "./dry-masses";
import { massBalanceTable } from "./mass-balance-table";
import {
	type NoBalance,
	noBalance,
	type StageBalance,
	type Stream,
	stageBalance,
} from "./stage-balance";

function recordedStream(name: string, mass: Firing["firedMass"]): Stream[] {
	return mass.recorded ? [{ name, mass: mass.value }] : [];
}

/** Moist precursor and what the agent brought along. */
function charge(firing: Firing): MaybeKnown<readonly Stream[]> {
	const precursor = { name: "precursor", mass: firing.precursorMass };
	if (firing.agent === "") return known([precursor]);
	const agent = agentAddition(firing);
	return agent.is === "not known"
		? agent
		: known([
				precursor,
				{ name: `${firing.agent}, with its water`, mass: agent.quantity },
			]);
}

function soakBalance(firing: Firing): StageBalance | NoBalance {
	const no = noBalance("soak");
	if (firing.agent === "") return no("nothing was impregnated", false);
	if (!firing.impregnatedMass.recorded)
		return no("the mass after the soak is not recorded");
	const into = charge(firing);
	if (into.is === "not known") return no(into.because);
	return stageBalance(
		firing.name,
		"soak",
		into.value,
		[
			{ name: "impregnated", mass: firing.impregnatedMass.value },
			...recordedStream("liquor poured off", firing.liquorDrained),
		],
		{ surely: [], perhaps: ["water that evaporated"] },
	);
}

/** Steam fed over the holds of the programme; says what is missing where steam is named and not measured. */
function steamOf(firing: Firing): {
	readonly fed: Stream[];
	readonly notMeasured: string[];
} {
	const fed: Stream[] = [];
	const notMeasured: string[] = [];
	firing.programme.forEach((step, i) => {
		if (step.steam.recorded && step.hold.recorded)
			fed.push({
				name: `steam in step ${i + 1}`,
				mass: named(
					times(step.steam.value, step.hold.value),
					"m_{\\text{steam}}",
					`steam fed in step ${i + 1}, firing ${quoted(firing.name)}`,
				).to("g"),
			});
		else if (/steam|water/i.test(step.atmosphere) || step.steam.recorded)
			notMeasured.push(`steam fed in step ${i + 1}`);
	});
	return { fed, notMeasured };
}

/** What went into the kiln: the impregnated char, or what it was made of less what was poured off. */
function kilnCharge(firing: Firing): MaybeKnown<{
	readonly into: readonly Stream[];
	readonly outOf: readonly Stream[];
}> {
	if (firing.impregnatedMass.recorded)
		return known({
			into: [{ name: "impregnated", mass: firing.impregnatedMass.value }],
			outOf: [],
		});
	return mapKnown(charge(firing), (into) => ({
		into,
		outOf: recordedStream("liquor poured off", firing.liquorDrained),
	}));
}

function kilnBalance(firing: Firing): StageBalance | NoBalance {
	const no = noBalance("kiln");
	const washed = firing.rinses.length > 0 || firing.agent !== "";
	const out = firing.firedMass.recorded
		? measured(firing.firedMass.value)
		: washed
			? notKnown("the mass out of the kiln is not recorded")
			: dryProduct(firing);
	if (out.is === "not known") return no(out.because);
	const charged = kilnCharge(firing);
	if (charged.is === "not known") return no(charged.because);
	const steam = steamOf(firing);
	return stageBalance(
		firing.name,
		"kiln",
		[...charged.value.into, ...steam.fed],
		[
			...charged.value.outOf,
			{ name: "out of the kiln", mass: out.quantity },
			...recordedStream("tar and water caught", firing.condensate),
			...recordedStream("gas", firing.gasMass),
		],
		{
			surely: [
				...steam.notMeasured,
				...(firing.condensate.recorded ? [] : ["tar and water"]),
				...(firing.gasMass.recorded ? [] : ["gas"]),
			],
			perhaps: [],
		},
	);
}

function washingBalance(firing: Firing): StageBalance | NoBalance {
	const no = noBalance("washing and drying");
	if (firing.rinses.length === 0)
		return no("no rinse is recorded", firing.agent !== "");
	if (!firing.firedMass.recorded)
		return no("the mass out of the kiln is not recorded");
	const product = dryProduct(firing);
	if (product.is === "not known") return no(product.because);
	const washedOut = agentWashedOut(firing);
	const notMeasured =
		firing.agent === ""
			? []
			: washedOut.is === "not known"
				? ["agent carried off by the rinses"]
				: washedOut.is === "at least"
					? ["agent in the rinses that were not read"]
					: [];
	return stageBalance(
		firing.name,
		"washing and drying",
		[{ name: "out of the kiln", mass: firing.firedMass.value }],
		[
			{ name: "dry product", mass: product.quantity },
			...recordedStream("fines caught", firing.finesCaught),
			...(washedOut.is === "not known"
				? []
				: [{ name: "agent in the rinses", mass: washedOut.quantity }]),
		],
		{
			surely: notMeasured,
			perhaps: firing.finesCaught.recorded ? [] : ["fines in the rinses"],
		},
	);
}

/** The stages that could be balanced as one: what one hands to the next cancels. */
function wholeBalance(
	firing: Firing,
	stages: readonly (StageBalance | NoBalance)[],
): StageBalance | NoBalance {
	const balanced = stages.flatMap((s) => (s.is === "balance" ? [s] : []));
	const handedOn = new Set(["impregnated", "out of the kiln"]);
	if (balanced.length < 2)
		return noBalance("whole firing")(
			"fewer than two stages could be balanced",
			false,
		);
	const last = balanced.length - 1;
	const into = balanced.flatMap((b, i) =>
		b.into.filter((s) => i === 0 || !handedOn.has(s.name)),
	);
	const outOf = balanced.flatMap((b, i) =>
		b.outOf.filter((s) => i === last || !handedOn.has(s.name)),
	);
	return stageBalance(firing.name, "whole firing", into, outOf, {
		surely: balanced.flatMap((b) => b.notMeasured),
		perhaps: [],
	});
}

/**
 * Mass balance of each stage (soak, kiln, washing and drying) of one firing and of the whole. What went in is what came out and what is unaccounted, exactly; where every stream was
 * measured the unaccounted mass must lie within its own uncertainty, and where one was not, the balance names it and the difference stands for it.
 */
export function stageBalances(
	firing: Firing,
): readonly (StageBalance | NoBalance)[] {
	const stages = [
		soakBalance(firing),
		kilnBalance(firing),
		washingBalance(firing),
	];
	return [...stages, wholeBalance(firing, stages)];
}

/** The mass balances of one firing. */
export interface MassBalance {
	readonly firing: Firing;
	readonly stages: readonly (StageBalance | NoBalance)[];
	/** The balances of the stages in words. */
	readonly sentences: readonly string[];
}

function balanceOf(firing: Firing): MassBalance {
	const stages = stageBalances(firing);
	return {
		firing,
		stages,
		sentences: stages.flatMap((s) =>
			s.is === "balance" && s.stage !== "whole firing"
				? [`${quoted(firing.name)}. ${s.sentence}`]
				: [],
		),
	};
}

const balancesOf = step(
	(trial: Trial): WithTable<readonly MassBalance[]> =>
		withTable(firingsInUse(trial).map(balanceOf), (list) =>
			massBalanceTable(list, trial),
		),
);

/**
 * Mass balance (g) of each stage of every firing: soak, kiln, washing and drying, and all of them as one. What went in is what came out and what is unaccounted, exactly. Where every stream was measured the unaccounted
 * mass must lie within its 95 % uncertainty; where one was not, the balance is "left open" and names it. Shown as a table, a row a stage.
 * @throws ProblemError where the trial has no firing
 * @example
 * const [lid] = activation.massBalances(kilnTrial);
 * lid.stages.map((s) => s.stage) // => ["soak", "kiln", "washing and drying", "whole firing"]
 */
export function massBalances(trial: Trial): WithTable<readonly MassBalance[]> {
	return balancesOf(trial);
}
