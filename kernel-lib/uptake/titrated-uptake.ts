import { type Flask, step, type Trial } from "../bench";
import {
	type Measured,
	massPerMass,
	minus,
	named,
	type Quantity,
	times,
} from "../quantity";
import {
	type CharMass,
	charMassOf,
	type FlaskAccount,
	residues,
	type TitratedResidue,
} from "../residue";
import { concentrations } from "../solutions";
import { molarMass } from "../substances";
import { ammoniaOf, safeToDose } from "./ammonia";
import { uptakesAtWithdrawals } from "./at-withdrawals";
import { demandOf, lessDemand } from "./demand";
import {
	boundNearZero,
	isAboveZero,
	isBelowZero,
} from "./distinguishable-from-zero";
import { flaskCautions } from "./flask-cautions";
import type { FlaskUptake, IodineDemand, ProbeBalance } from "./flask-uptake";
import { type Loss, lossModel } from "./losses";
import { nextDoseAfterDry, nextDoseAfterNone } from "./next-dose";
import { brokenLaw } from "./physical-law";
import { type Recovery, recoveries, unknownLoss } from "./recovery";
import { scatterCautions } from "./scatter-cautions";
import { soakMassOf } from "./soak-mass";
import { takenAs } from "./taken-as";

function amounts(
	flask: Flask,
	account: Pick<FlaskAccount, "added" | "withdrawn">,
	left: Quantity<"amount">,
	recovery: Recovery,
	loss: Loss,
): { lost: Quantity<"amount">; takenUp: Quantity<"amount"> } {
	const dosed = minus(account.added, account.withdrawn);
	const lost =
		recovery.is === "measured"
			? loss(account, left, recovery.ratio)
			: times(dosed, unknownLoss(flask));
	return { lost, takenUp: minus(minus(dosed, left), lost) };
}

type InMass = (
	n: Quantity<"amount">,
	symbol: string,
	meaning: string,
) => Quantity<"mass">;

/** Where the iodine of a flask went, and the names that its masses bear. */
interface Shares {
	readonly balance: ProbeBalance;
	readonly inMass: InMass;
}

function sharesOf(
	found: TitratedResidue,
	recovery: Recovery,
	loss: Loss,
): Shares {
	const { flask, account } = found;
	const iodine = molarMass("I2");
	const inMass: InMass = (n, symbol, meaning) =>
		named(times(n, iodine).to("mg"), symbol, `${meaning}, flask ${flask.name}`);
	const { lost, takenUp } = amounts(flask, account, found.left, recovery, loss);
	return {
		inMass,
		balance: {
			added: inMass(account.added, "m_{added}", "iodine added"),
			takenUp: inMass(takenUp, "m_{taken up}", "iodine taken up"),
			left: inMass(found.left, "m_{left}", "iodine left in solution"),
			withdrawn: inMass(account.withdrawn, "m_{withdrawn}", "iodine withdrawn"),
			lost: inMass(lost, "m_{lost}", "iodine lost"),
		},
	};
}

/** The least that a flask without a measurable residue took up: as much as can be is hidden and lost. */
function leastUptake(
	found: TitratedResidue,
	recovery: Recovery,
	mostLost: Loss,
	demand: IodineDemand,
	char: CharMass,
	inMass: InMass,
): Measured<"uptake"> {
	const least = amounts(
		found.flask,
		found.account,
		found.hidden,
		recovery,
		mostLost,
	).takenUp;
	return {
		is: "at least",
		quantity: named(
			massPerMass(
				lessDemand(
					inMass(least, "m_{at least}", "least iodine taken up"),
					demand,
				),
				char.mass,
			),
			"q_{min}",
			`least iodine uptake per gram of ${char.perGram}, flask ${found.flask.name}`,
		),
		because:
			"no iodine was left that could be measured: the dose, less what one drop of titre could hide, was taken up",
	};
}

/** What of a titrated flask can be measured. One that holds clearly more than was dosed keeps its number. */
type Shows = "no residue" | "no uptake" | "both";

function whatShows(
	{ measurable }: TitratedResidue,
	byChar: Quantity<"mass">,
	{ takenUp, added }: ProbeBalance,
): Shows {
	if (!measurable) return "no residue";
	return isAboveZero(byChar) || isBelowZero(takenUp, added)
		? "both"
		: "no uptake";
}

function nextDoseOf(
	shows: Shows,
	trial: Trial,
	found: TitratedResidue,
	byChar: Quantity<"mass">,
): string {
	switch (shows) {
		case "no residue":
			return nextDoseAfterDry(found, concentrations(trial));
		case "no uptake":
			return nextDoseAfterNone(byChar, found);
		case "both":
			return "";
	}
}

/** Found once, since every flask asks for them. */
const leachatesOf = step((trial) =>
	residues(trial).filter((r) => r.flask.contents === "leachate"),
);

/**
 * Iodine uptake of a titrated flask, by the running mass balance added = taken up + left + withdrawn + lost. A flask with no measurable residue gives "at least", one with no measurable uptake "at most"; one that
 * holds clearly more than was dosed keeps its negative value, and says so.
 */
export function titratedUptake(
	trial: Trial,
	found: TitratedResidue,
): FlaskUptake {
	const { flask, account } = found;
	const recovery = recoveries(trial).forFlask(flask);
	const losses = lossModel(trial);
	const char = charMassOf(flask);
	const demand = demandOf(trial, flask, leachatesOf(trial));
	const ammonia = ammoniaOf(trial, flask);
	const { balance, inMass } = sharesOf(found, recovery, losses.likely);
	const byChar = lessDemand(balance.takenUp, demand);
	const computedUptake = named(
		massPerMass(byChar, char.mass),
		"q",
		`iodine uptake per gram of ${char.perGram}, flask ${flask.name}`,
	);
	const shows = whatShows(found, byChar, balance);
	const uptake: Measured<"uptake"> =
		shows === "no residue"
			? leastUptake(found, recovery, losses.most, demand, char, inMass)
			: shows === "no uptake"
				? boundNearZero(
						computedUptake,
						`most iodine uptake per gram of ${char.perGram}, flask ${flask.name}`,
					)
				: { is: "value", quantity: computedUptake };
	const broken = brokenLaw({
		trial,
		flask,
		probe: "iodine",
		balance,
		liquid: account.liquid,
		char: char.mass,
	});
	return {
		flask,
		probe: "iodine",
		balance,
		liquid: account.liquid,
		charMass: char.mass,
		perGram: char.perGram,
		uptake,
		computedUptake,
		residue: found.residue,
		atWithdrawals: uptakesAtWithdrawals(account.withdrawals, {
			flask,
			probe: "iodine",
			char,
			demand,
			losses,
			split: (at, left, loss) => amounts(flask, at, left, recovery, loss),
			mass: (n) => times(n, molarMass("I2")).to("mg"),
		}),
		demand,
		soakMass: soakMassOf(trial, flask, char.mass, account.liquid),
		ammonia,
		lossesTakenOff: recovery.is === "measured",
		takenAs: takenAs(flask, recovery),
		cautions: [
			...flaskCautions(trial, flask),
			...scatterCautions(trial, flask),
		],
		contradiction: broken.found,
		likelyCause: broken.likelyCause,
		nextDose: safeToDose(
			ammonia,
			broken.found === "" ? nextDoseOf(shows, trial, found, byChar) : "",
		),
	};
}
