import type { Flask, FlaskEvent, TrialSettings } from "../bench";
import {
	exact,
	input,
	minus,
	named,
	normal,
	per,
	type Quantity,
	stated,
	times,
	total,
} from "../quantity";
import type { Titrants } from "../solutions";
import { charMassOf } from "./char-mass";
import { displacementIn } from "./detection";
import type { ReagentBlank } from "./reagent-blank";
import { iodineWithdrawn } from "./titration";

/** What went into a flask and out of it before the final aliquot: the running account of its columns from left to right. In moles where the flask is titrated, in grams where an instrument reads it. */
export interface Account<K extends "amount" | "mass"> {
	/** Dosed in all. */
	readonly added: Quantity<K>;
	/** Gone out with withdrawals. */
	readonly withdrawn: Quantity<K>;
	/** Liquid in the flask when the final aliquot was taken. */
	readonly liquid: Quantity<"volume">;
	/** In the order in which they were taken. */
	readonly withdrawals: readonly AtWithdrawal<K>[];
}

type Withdrawal = Extract<
	FlaskEvent,
	{ is: "withdrawn" | "withdrawn and read" }
>;

/** A flask just before a portion was taken from it. */
export interface AtWithdrawal<K extends "amount" | "mass"> {
	readonly event: Withdrawal;
	/** Dosed so far. */
	readonly added: Quantity<K>;
	/** Gone out with earlier withdrawals. */
	readonly withdrawn: Quantity<K>;
	readonly liquid: Quantity<"volume">;
	readonly portion: Portion<K>;
}

/** What went out with a withdrawal. */
export interface Portion<K extends "amount" | "mass"> {
	readonly amount: Quantity<K>;
	/** The most that could have gone out unseen; not there where something was seen. */
	readonly unseen?: Quantity<K>;
}

/** The account of a flask that is titrated: iodine, as I2. */
export type FlaskAccount = Account<"amount">;

/** What an account counts, and how much of it a dose brings and a withdrawal takes away. */
export interface Counted<K extends "amount" | "mass"> {
	readonly kind: K;
	/** "iodine (I2)". */
	readonly name: string;
	dosed(dose: Extract<FlaskEvent, { is: "dose" }>): Quantity<K>;
	withdrawn(event: Withdrawal): Portion<K>;
}

const nothing: {
	readonly [K in "amount" | "mass"]: Quantity<K>;
} = {
	amount: input("amount", 0, "mmol", exact, {
		symbol: "0",
		source: stated("nothing withdrawn"),
	}),
	mass: input("mass", 0, "mg", exact, {
		symbol: "0",
		source: stated("nothing withdrawn"),
	}),
};

const waterDensity: Quantity<"density"> = input(
	"density",
	0.998,
	"g/mL",
	normal(0.001),
	{
		symbol: "ρ_{water}",
		meaning: "density of water at room temperature",
		source: stated("0.998 g/mL at 20 °C; water tables, from memory"),
	},
);

/** Water that wet char brings into the flask; an empty list where moisture is not known or the flask holds no char. */
function waterOfChar(flask: Flask): Quantity<"volume">[] {
	if (flask.contents !== "char" || !flask.charMass.recorded) return [];
	const { water } = charMassOf(flask);
	return water.known
		? [
				named(
					per(water.mass, waterDensity),
					"V_{moisture}",
					`water in the char of flask ${flask.name}`,
				),
			]
		: [];
}

/** The part of a leachate that its flask began with; an empty list for any other flask. */
function leachateOf(flask: Flask): Quantity<"volume">[] {
	return flask.contents === "leachate" && flask.leachateTaken.recorded
		? [flask.leachateTaken.value]
		: [];
}

function displaced(
	flask: Flask,
	perGram: Quantity<"volumePerMass">,
): Quantity<"volume">[] {
	return flask.contents === "char" && flask.charMass.recorded
		? [times(perGram, charMassOf(flask).mass)]
		: [];
}

/**
 * Runs through the events of a flask, which begins with the water of its wet char or with the leachate taken. Doses and liquids add to the liquid; making up sets it (less what the char displaces, when the char was in); a withdrawal takes
 * liquid and, by its own titration or reading, what was dissolved in it away. One dose is the simplest case, not another rule.
 */
export function runningAccount<K extends "amount" | "mass">(
	flask: Flask,
	counted: Counted<K>,
	settings: Pick<TrialSettings, "displacement">,
): Account<K> {
	let liquids: Quantity<"volume">[] = [
		...waterOfChar(flask),
		...leachateOf(flask),
	];
	const added: Quantity<K>[] = [];
	const withdrawals: AtWithdrawal<K>[] = [];
	const none = nothing[counted.kind] as Quantity<K>;
	const withdrawn = (): Quantity<K> =>
		withdrawals.length > 0
			? total(withdrawals.map((w) => w.portion.amount))
			: none;
	for (const event of flask.events) {
		if (event.is === "dose") {
			liquids.push(event.volume);
			added.push(counted.dosed(event));
		} else if (event.is === "liquid added") {
			liquids.push(event.volume);
		} else if (event.is === "made up") {
			const away = event.charIn
				? displaced(flask, displacementIn(settings))
				: [];
			liquids = [away.length > 0 ? minus(event.volume, away[0]) : event.volume];
		} else {
			withdrawals.push({
				event,
				added: added.length > 0 ? total(added) : none,
				withdrawn: withdrawn(),
				liquid: total(liquids),
				portion: counted.withdrawn(event),
			});
			liquids = [minus(total(liquids), event.volume)];
		}
	}
	const letter = counted.kind === "amount" ? "n" : "m";
	return {
		added: named(
			total(added),
			`${letter}_{added}`,
			`${counted.name} added to flask ${flask.name}`,
		),
		withdrawn:
			withdrawals.length > 0
				? named(
						withdrawn(),
						`${letter}_{withdrawn}`,
						`${counted.name} withdrawn from flask ${flask.name}`,
					)
				: withdrawn(),
		liquid: named(
			total(liquids),
			"V_{liquid}",
			`liquid in flask ${flask.name} when the aliquot was taken`,
		),
		withdrawals,
	};
}

/** The account of a flask that is titrated with thiosulfate. */
export function accountOf(
	flask: Flask,
	titrants: Titrants,
	blank: ReagentBlank,
	settings: TrialSettings,
): FlaskAccount {
	const counted: Counted<"amount"> = {
		kind: "amount",
		name: "iodine (I2)",
		dosed: (dose) => times(titrants.concentration(dose.solution), dose.volume),
		withdrawn: (event) => {
			if (event.is !== "withdrawn")
				throw new Error(`Flask ${flask.name} is not titrated.`);
			const { amount, unseen } = iodineWithdrawn(
				event.titration,
				titrants,
				blank,
				settings.endPoint,
			);
			const whole = per(event.volume, event.aliquot);
			return {
				amount: times(whole, amount),
				...(unseen && { unseen: times(whole, unseen) }),
			};
		},
	};
	return runningAccount(flask, counted, settings);
}
