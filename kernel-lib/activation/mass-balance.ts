import type { Firing } from "../bench";
import {
	decimalsFor,
	fixed,
	minus,
	named,
	per,
	plainNumber,
	plus,
	type Quantity,
	roundedPair,
	times,
	total,
} from "../quantity";
import { agentAddition, agentWashedOut } from "./agent-masses";
import { dryProduct } from "./dry-masses";
import { type Finding, found, notKnown } from "./finding";

/** Something that went into a stage or came out of it. */
export interface Stream {
	readonly name: string;
	readonly mass: Quantity<"mass">;
}

export type StageName = "soak" | "kiln" | "washing and drying" | "whole run";

/** What went in and what came out of one stage. into = outOf + unaccounted, exactly. */
export interface StageBalance {
	readonly is: "balance";
	readonly stage: StageName;
	readonly into: readonly Stream[];
	readonly outOf: readonly Stream[];
	readonly unaccounted: Quantity<"mass">;
	/** Of what went in. */
	readonly unaccountedShare: Quantity<"ratio">;
	/** What left the stage (or entered it) and was not measured; the unaccounted mass stands for it. */
	readonly notMeasured: readonly string[];
	/** "closes": nothing unmeasured, and the unaccounted mass lies within its 95 % uncertainty; "left open": something was not measured, so the difference stands for it and checks nothing. */
	readonly verdict: "closes" | "does not close" | "left open";
	readonly sentence: string;
}

/** A stage that cannot be balanced. */
export interface NoBalance {
	readonly is: "no balance";
	readonly stage: StageName;
	readonly because: string;
	/** False where the run has no such stage at all. */
	readonly applies: boolean;
}

/** Half-width of a 95 % interval in standard uncertainties. */
const normal95 = 1.96;

/** To two digits of the uncertainty where that stands beside it, to one where the mass stands alone. */
const grams = (value: number, limit: number, alone: boolean): string =>
	limit > 0
		? `${fixed(Math.abs(value), decimalsFor(limit) - (alone ? 1 : 0))} g`
		: `${plainNumber(Math.abs(value))} g`;

/** Where the missing mass usually went, and what an excess usually means. Common practice, no source. */
const usualReasons: Readonly<
	Record<StageName, { readonly missing: string; readonly excess: string }>
> = {
	soak: {
		missing: "water that evaporated, or liquor spilt or left in the vessel",
		excess: "a weighing or the dish's mass written down wrong",
	},
	kiln: {
		missing:
			"gas, tar and vapour not caught, or char spilt or burnt in leaking air",
		excess:
			"char that drew moisture before it was weighed, or a weighing written down wrong",
	},
	"washing and drying": {
		missing:
			"fines lost with the rinses, splashes, ash that dissolved, or agent that conductivity does not see",
		excess:
			"a product that is not dry yet or still holds agent, or a weighing written down wrong",
	},
	"whole run": {
		missing: "gas, tar, vapour, fines and splashes together",
		excess: "a product that is not dry, or a weighing written down wrong",
	},
};

function sum(streams: readonly Stream[]): Quantity<"mass"> {
	return total(streams.map((s) => s.mass));
}

function balanceOf(
	firing: Firing,
	stage: StageName,
	into: readonly Stream[],
	outOf: readonly Stream[],
	notMeasuredAtAll: readonly string[],
	/** Streams that were not measured and may have been nothing: they count only where something is missing. */
	mayBeNothing: readonly string[] = [],
): StageBalance {
	const in_ = sum(into);
	const unaccounted = named(
		minus(in_, sum(outOf)),
		"m_{\\text{unaccounted}}",
		`unaccounted in the ${stage}, run ${firing.name}`,
	);
	const unaccountedShare = named(
		per(unaccounted, in_).to("%"),
		"x_{\\text{unaccounted}}",
		`unaccounted share of the ${stage}, run ${firing.name}`,
	);
	const [m, u] = [unaccounted.in("g"), unaccounted.to("g").standardUncertainty];
	const limit = normal95 * u;
	// Rounding of the sums themselves, for sheets without any uncertainty.
	const beyond = Math.abs(m) > limit + 1e-9 * in_.in("g");
	const excess = m < 0;
	const notMeasured =
		beyond && !excess
			? [...notMeasuredAtAll, ...mayBeNothing]
			: notMeasuredAtAll;
	const verdict =
		beyond && (excess || notMeasured.length === 0)
			? "does not close"
			: notMeasured.length === 0
				? "closes"
				: "left open";
	const amount = `${grams(m, limit, verdict === "left open")} (${Math.abs(unaccountedShare.in("%")).toPrecision(2)} % of what went in)`;
	const within = `±${roundedPair(limit, u)[0]} g (95 %)`;
	const head = `${stage[0].toUpperCase()}${stage.slice(1)}`;
	const sentence =
		verdict === "closes"
			? `${head}: the balance closes; the difference of ${amount} lies within the measuring uncertainty of ${within}.`
			: verdict === "left open"
				? `${head}: the balance is left open. Not measured: ${notMeasured.join(", ")}. By difference that is ${m < 0 ? "−" : ""}${amount}; a loss of another kind would hide in it.`
				: excess
					? `${head}: the balance does not close. ${amount} more came out than went in, and measuring explains no more than ${within}. Look for ${usualReasons[stage].excess}.`
					: `${head}: the balance does not close. ${amount} is missing, and measuring explains no more than ${within}. Unaccounted: ${usualReasons[stage].missing}.`;
	return {
		is: "balance",
		stage,
		into,
		outOf,
		unaccounted,
		unaccountedShare,
		notMeasured,
		verdict,
		sentence,
	};
}

function noBalance(
	stage: StageName,
): (because: string, applies?: boolean) => NoBalance {
	return (because, applies = true) => ({
		is: "no balance",
		stage,
		because,
		applies,
	});
}

function recordedStream(name: string, mass: Firing["firedMass"]): Stream[] {
	return mass.recorded ? [{ name, mass: mass.value }] : [];
}

/** Moist precursor and what the agent brought along. */
function charge(firing: Firing): Finding<"mass"> & { streams: Stream[] } {
	const precursor = { name: "precursor", mass: firing.precursorMass };
	if (firing.agent === "")
		return { ...found(firing.precursorMass), streams: [precursor] };
	const agent = agentAddition(firing);
	if (agent.is === "not known") return { ...agent, streams: [] };
	return {
		...found(plus(firing.precursorMass, agent.quantity)),
		streams: [
			precursor,
			{ name: `${firing.agent}, with its water`, mass: agent.quantity },
		],
	};
}

function soakBalance(firing: Firing): StageBalance | NoBalance {
	const no = noBalance("soak");
	if (firing.agent === "") return no("nothing was impregnated", false);
	if (!firing.impregnatedMass.recorded)
		return no("the mass after the soak is not recorded");
	const into = charge(firing);
	if (into.is === "not known") return no(into.because);
	return balanceOf(
		firing,
		"soak",
		into.streams,
		[
			{ name: "impregnated", mass: firing.impregnatedMass.value },
			...recordedStream("liquor poured off", firing.liquorDrained),
		],
		[],
		["water that evaporated"],
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
					`steam fed in step ${i + 1}, run ${firing.name}`,
				).to("g"),
			});
		else if (/steam|water/i.test(step.atmosphere) || step.steam.recorded)
			notMeasured.push(`steam fed in step ${i + 1}`);
	});
	return { fed, notMeasured };
}

function kilnStreams(
	firing: Firing,
):
	| { readonly into: Stream[]; readonly outOf: Stream[] }
	| { readonly because: string } {
	if (firing.impregnatedMass.recorded)
		return {
			into: [{ name: "impregnated", mass: firing.impregnatedMass.value }],
			outOf: [],
		};
	const into = charge(firing);
	return into.is === "not known"
		? { because: into.because }
		: {
				into: into.streams,
				outOf: recordedStream("liquor poured off", firing.liquorDrained),
			};
}

function kilnBalance(firing: Firing): StageBalance | NoBalance {
	const no = noBalance("kiln");
	const washed = firing.rinses.length > 0 || firing.agent !== "";
	const out = firing.firedMass.recorded
		? found(firing.firedMass.value)
		: washed
			? notKnown("the mass out of the kiln is not recorded")
			: dryProduct(firing);
	if (out.is === "not known") return no(out.because);
	const around = kilnStreams(firing);
	if ("because" in around) return no(around.because);
	const steam = steamOf(firing);
	return balanceOf(
		firing,
		"kiln",
		[...around.into, ...steam.fed],
		[
			...around.outOf,
			{ name: "out of the kiln", mass: out.quantity },
			...recordedStream("tar and water caught", firing.condensate),
			...recordedStream("gas", firing.gasMass),
		],
		[
			...steam.notMeasured,
			...(firing.condensate.recorded ? [] : ["tar and water"]),
			...(firing.gasMass.recorded ? [] : ["gas"]),
		],
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
	return balanceOf(
		firing,
		"washing and drying",
		[{ name: "out of the kiln", mass: firing.firedMass.value }],
		[
			{ name: "dry product", mass: product.quantity },
			...recordedStream("fines caught", firing.finesCaught),
			...(washedOut.is === "not known"
				? []
				: [{ name: "agent in the rinses", mass: washedOut.quantity }]),
		],
		notMeasured,
		firing.finesCaught.recorded ? [] : ["fines in the rinses"],
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
		return noBalance("whole run")(
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
	return balanceOf(
		firing,
		"whole run",
		into,
		outOf,
		balanced.flatMap((b) => b.notMeasured),
	);
}

/**
 * Mass balance of each stage (soak, kiln, washing and drying) and of the whole run. What went in is what came out and what is unaccounted, exactly; where every stream was
 * measured the unaccounted mass must lie within its own uncertainty, and where one was not, the balance names it and the difference stands for it.
 */
export function massBalance(firing: Firing): (StageBalance | NoBalance)[] {
	const stages = [
		soakBalance(firing),
		kilnBalance(firing),
		washingBalance(firing),
	];
	return [...stages, wholeBalance(firing, stages)];
}
