import type { Flask } from "../bench";
import {
	exactRatio,
	input,
	type Measured,
	massPerMass,
	named,
	per,
	plus,
	type Quantity,
	rectangular,
	scaled,
	stated,
	times,
} from "../quantity";
import type { AtWithdrawal, CharMass } from "../residue";
import { lessDemand } from "./demand";
import {
	boundNearZero,
	isAboveZero,
	isBelowZero,
} from "./distinguishable-from-zero";
import type {
	IodineDemand,
	ProbeBalance,
	UptakeAtWithdrawal,
} from "./flask-uptake";
import type { Loss, LossModel } from "./losses";

/** Whether losses come early or late in the contact: -1 and 1 are the extremes. One and the same for all flasks of a trial. */
const pace: Quantity<"ratio"> = input("ratio", 0, "1", rectangular(1), {
	symbol: "z_{pace}",
	meaning: "how early in the contact the losses came",
	source: stated("nothing shows when losses come; a decision of ours"),
	scope: "shared",
});

/** Share of the losses of a whole contact that a withdrawal had behind it: that of the time, give or take all that lies on the nearer side. Where the times are not recorded, anything from none to all. Our decision. */
export function shareLost(
	after: Flask["contactTime"],
	contact: Flask["contactTime"],
): Quantity<"ratio"> {
	const share =
		after.recorded && contact.recorded && contact.value.in("h") > 0
			? Math.min(1, after.value.in("h") / contact.value.in("h"))
			: 0.5;
	return plus(exactRatio(share), scaled(pace, Math.min(share, 1 - share)));
}

/** The most that can have been lost by a withdrawal: where a blank gained, that is nothing. */
const mostByThen =
	({ most, grows }: LossModel): Loss =>
	(account, left, recovery) => {
		const lost = most(account, left, recovery);
		return grows && lost.value < 0 ? scaled(lost, 0) : lost;
	};

/** A flask that is counted in moles or in grams. */
export interface CountedFlask<K extends "amount" | "mass"> {
	readonly flask: Flask;
	readonly probe: string;
	readonly char: CharMass;
	readonly demand: IodineDemand;
	readonly losses: LossModel;
	/** What was taken up and what was lost where so much was left. */
	readonly split: (
		at: Pick<AtWithdrawal<K>, "added" | "withdrawn">,
		left: Quantity<K>,
		loss: Loss,
	) => { readonly takenUp: Quantity<K>; readonly lost: Quantity<K> };
	readonly mass: (n: Quantity<K>) => Quantity<"mass">;
}

/** What the flask held in all, going by a portion of it. */
function inAll<K extends "amount" | "mass">(
	{ liquid, event }: AtWithdrawal<K>,
	portion: Quantity<K>,
): Quantity<K> {
	const whole = per(liquid, event.volume);
	return times(portion as Quantity<"mass">, whole) as Quantity as Quantity<K>;
}

/** Whether the flask stood as it was from a withdrawal to its end. */
function undisturbed(flask: Flask, { event }: AtWithdrawal<"amount" | "mass">) {
	return flask.events
		.slice(flask.events.indexOf(event) + 1)
		.every((e) => e.is === "withdrawn" || e.is === "withdrawn and read");
}

function uptakeThen<K extends "amount" | "mass">(
	at: AtWithdrawal<K>,
	balance: ProbeBalance,
	{ char, demand, split, mass, probe, flask, losses }: CountedFlask<K>,
	number: number,
): Measured<"uptake"> {
	const perGram = (takenUp: Quantity<"mass">): Quantity<"uptake"> =>
		massPerMass(lessDemand(takenUp, demand), char.mass);
	const called = (which: string): string =>
		`${which}${probe} uptake per gram of ${char.perGram} at withdrawal ${number}, flask ${flask.name}`;
	const { unseen } = at.portion;
	if (unseen !== undefined) {
		const least = split(at, inAll(at, unseen), mostByThen(losses)).takenUp;
		return {
			is: "at least",
			quantity: named(perGram(mass(least)), "q_{min}", called("least ")),
			because: `no ${probe} was seen in what was withdrawn`,
		};
	}
	const computed = named(perGram(balance.takenUp), "q", called(""));
	return isAboveZero(lessDemand(balance.takenUp, demand)) ||
		isBelowZero(balance.takenUp, balance.added)
		? { is: "value", quantity: computed }
		: boundNearZero(computed, called("most "));
}

/**
 * What a flask had taken up at each withdrawal, by the balance that stood just before the portion was taken: added so far = taken up + left + withdrawn before + lost by then. A colourless portion leaves between nothing
 * and the detection limit, and the uptake is "at least" then, with as much hidden and lost as can be.
 */
export function uptakesAtWithdrawals<K extends "amount" | "mass">(
	withdrawals: readonly AtWithdrawal<K>[],
	counted: CountedFlask<K>,
): UptakeAtWithdrawal[] {
	const { flask, probe, split, mass, losses } = counted;
	return withdrawals.map((at, i) => {
		const { portion, event } = at;
		const share = losses.grows
			? shareLost(event.after, flask.contactTime)
			: exactRatio(1);
		const left = inAll(at, portion.amount);
		const { takenUp, lost } = split(
			at,
			left,
			(account, rest, recovery) =>
				times(
					losses.likely(account, rest, recovery) as Quantity<"mass">,
					share,
				) as Quantity as typeof rest,
		);
		const balance: ProbeBalance = {
			added: mass(at.added),
			takenUp: mass(takenUp),
			left: mass(left),
			withdrawn: mass(at.withdrawn),
			lost: mass(lost),
		};
		const residue = named(
			per(mass(portion.unseen ?? portion.amount), event.volume).to("mg/L"),
			"\\rho_{residue}",
			`${portion.unseen === undefined ? "residual" : "most"} ${probe} at withdrawal ${i + 1}, flask ${flask.name}`,
		);
		return {
			number: i + 1,
			after: event.after,
			balance,
			uptake: uptakeThen(at, balance, counted, i + 1),
			residue:
				portion.unseen === undefined
					? { is: "value", quantity: residue }
					: {
							is: "at most",
							quantity: residue,
							because: "its titre was below one drop",
						},
			undisturbed: undisturbed(flask, at),
		};
	});
}
