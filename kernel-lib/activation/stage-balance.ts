import {
	decimalsFor,
	fixed,
	minus,
	type NotKnown,
	named,
	notKnown,
	per,
	plainNumber,
	type Quantity,
	quoted,
	roundedPair,
	total,
} from "../quantity";
import { normalCoverage } from "./confidence";

/** Something that went into a stage or came out of it. */
export interface Stream {
	readonly name: string;
	readonly mass: Quantity<"mass">;
}

export type StageName = "soak" | "kiln" | "washing and drying" | "whole firing";

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
export interface NoBalance extends NotKnown {
	readonly stage: StageName;
	/** False where the firing has no such stage at all. */
	readonly applies: boolean;
}

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
	"whole firing": {
		missing: "gas, tar, vapour, fines and splashes together",
		excess: "a product that is not dry, or a weighing written down wrong",
	},
};

function sum(streams: readonly Stream[]): Quantity<"mass"> {
	return total(streams.map((s) => s.mass));
}

/** What a balance says, beside its verdict. */
function sentenceOf(
	{
		stage,
		unaccounted,
		unaccountedShare,
		notMeasured,
		verdict,
	}: Omit<StageBalance, "sentence">,
	limit: number,
): string {
	const { value, standardUncertainty } = unaccounted.to("g");
	const amount = `${grams(value, limit, verdict === "left open")} (${Math.abs(unaccountedShare.in("%")).toPrecision(2)} % of what went in)`;
	const within = `${roundedPair(limit, standardUncertainty)[0]} g (95 %)`;
	const head = `${stage[0].toUpperCase()}${stage.slice(1)}`;
	switch (verdict) {
		case "closes":
			return `${head}: the balance closes; the difference of ${amount} is no more than measuring explains, ${within}.`;
		case "left open":
			return `${head}: the balance is left open. Not measured: ${notMeasured.join(", ")}. By difference that is ${value < 0 ? "−" : ""}${amount}; a loss of another kind would hide in it.`;
		case "does not close":
			return value < 0
				? `${head}: the balance does not close. ${amount} more came out than went in, and measuring explains no more than ${within}. Look for ${usualReasons[stage].excess}.`
				: `${head}: the balance does not close. ${amount} is missing, and measuring explains no more than ${within}. Unaccounted: ${usualReasons[stage].missing}.`;
	}
}

/** The streams of a stage that were not measured. */
export interface Unmeasured {
	/** Some mass went there. */
	readonly surely: readonly string[];
	/** They may have been nothing: they count only where something is missing. */
	readonly perhaps: readonly string[];
}

/** The balance of one stage from its streams. */
export function stageBalance(
	firingName: string,
	stage: StageName,
	into: readonly Stream[],
	outOf: readonly Stream[],
	unmeasured: Unmeasured,
): StageBalance {
	const in_ = sum(into);
	const unaccounted = named(
		minus(in_, sum(outOf)),
		"m_{\\text{unaccounted}}",
		`unaccounted in the ${stage}, firing ${quoted(firingName)}`,
	);
	const unaccountedShare = named(
		per(unaccounted, in_).to("%"),
		"x_{\\text{unaccounted}}",
		`unaccounted share of the ${stage}, firing ${quoted(firingName)}`,
	);
	const { value, standardUncertainty } = unaccounted.to("g");
	const limit = normalCoverage * standardUncertainty;
	// Rounding of the sums themselves, for sheets without any uncertainty.
	const beyond = Math.abs(value) > limit + 1e-9 * in_.in("g");
	const notMeasured =
		beyond && value > 0
			? [...unmeasured.surely, ...unmeasured.perhaps]
			: unmeasured.surely;
	const verdict =
		beyond && (value < 0 || notMeasured.length === 0)
			? "does not close"
			: notMeasured.length === 0
				? "closes"
				: "left open";
	const balance = {
		is: "balance",
		stage,
		into,
		outOf,
		unaccounted,
		unaccountedShare,
		notMeasured,
		verdict,
	} as const;
	return { ...balance, sentence: sentenceOf(balance, limit) };
}

/** Why a stage has no balance. */
export function noBalance(
	stage: StageName,
): (because: string, applies?: boolean) => NoBalance {
	return (because, applies = true) => ({
		...notKnown(because),
		stage,
		applies,
	});
}
