import type { Trial } from "../bench";
import {
	exact,
	fixed,
	input,
	type Measured,
	massPerMass,
	minus,
	named,
	type Quantity,
	stated,
} from "../quantity";
import {
	type CharMass,
	charMassOf,
	type ReadResidue,
	residues,
} from "../residue";
import type { AmmoniaNamed } from "../substances";
import { ammoniaOf, safeToDose } from "./ammonia";
import { uptakesAtWithdrawals } from "./at-withdrawals";
import { demandOf, lessDemand } from "./demand";
import {
	boundNearZero,
	isAboveZero,
	isBelowZero,
} from "./distinguishable-from-zero";
import type { FlaskUptake, IodineDemand, ProbeBalance } from "./flask-uptake";
import { type Loss, lossModel } from "./losses";
import { brokenLaw } from "./physical-law";
import { type Recovery, recoveries } from "./recovery";
import { scatterCautions } from "./scatter-cautions";
import { soakMassOf } from "./soak-mass";
import { takenAs } from "./taken-as";

function lostFrom(
	account: Pick<ReadResidue["account"], "added" | "withdrawn">,
	left: Quantity<"mass">,
	recovery: Recovery,
	loss: Loss,
): Quantity<"mass"> {
	return recovery.is === "measured"
		? loss(account, left, recovery.ratio)
		: input("mass", 0, "mg", exact, {
				symbol: "m_{lost}",
				meaning:
					"losses: no blank without char of the day, so none can be taken off",
				source: stated("no blank without char of the day"),
			});
}

/** What was lost, and with it what was taken up. */
function amounts(
	account: Pick<ReadResidue["account"], "added" | "withdrawn">,
	left: Quantity<"mass">,
	recovery: Recovery,
	loss: Loss,
): { lost: Quantity<"mass">; takenUp: Quantity<"mass"> } {
	const dosed = minus(account.added, account.withdrawn);
	const lost = lostFrom(account, left, recovery, loss);
	return { lost, takenUp: minus(minus(dosed, left), lost) };
}

/** Where the probe of a flask went. */
function balanceOf(
	found: ReadResidue,
	recovery: Recovery,
	loss: Loss,
): ProbeBalance {
	const { flask, account, probe, left } = found;
	const part = (
		m: Quantity<"mass">,
		symbol: string,
		what: string,
	): Quantity<"mass"> =>
		named(m.to("mg"), symbol, `${probe} ${what}, flask ${flask.name}`);
	const { lost, takenUp } = amounts(account, left, recovery, loss);
	return {
		added: part(account.added, "m_{added}", "added"),
		takenUp: part(takenUp, "m_{taken up}", "taken up"),
		left,
		withdrawn: part(account.withdrawn, "m_{withdrawn}", "withdrawn"),
		lost: part(lost, "m_{lost}", "lost"),
	};
}

/** The uptake that a residue allows: a residue that is "at most" makes it "at least", one that is "at least" makes it "at most". */
function uptakeOfResidue(
	found: ReadResidue,
	computed: Quantity<"uptake">,
	/** The same with the most and with the least that can have been lost. */
	atEnd: (end: "most" | "least") => Quantity<"uptake">,
	byChar: Quantity<"mass">,
	{ takenUp, added }: ProbeBalance,
	char: CharMass,
): Measured<"uptake"> {
	const { flask, probe, residue } = found;
	const belowNone = isBelowZero(takenUp, added);
	const words = (which: string): string =>
		`${which} ${probe} uptake per gram of ${char.perGram}, flask ${flask.name}`;
	if (residue.is === "at most")
		return {
			is: "at least",
			quantity: named(atEnd("most"), "q_{min}", words("least")),
			because: `no ${probe} was left that could be measured: ${residue.because}`,
		};
	if (residue.is === "at least") {
		const most = atEnd("least");
		return {
			is: "at most",
			// A limit that only error took below zero leaves room for that error.
			quantity:
				most.value < 0 && !belowNone
					? boundNearZero(most, words("most")).quantity
					: named(most, "q_{max}", words("most")),
			because: residue.because,
		};
	}
	return isAboveZero(byChar) || belowNone
		? { is: "value", quantity: computed }
		: boundNearZero(computed, words("most"));
}

/** What remains of a soak consumes iodine however the iodine is read; nothing is known of other probes. */
function demandOn(trial: Trial, { flask, probe }: ReadResidue): IodineDemand {
	if (probe !== "iodine") return { is: "none expected" };
	const leachates = residues(trial).filter(
		(r) => r.flask.contents === "leachate",
	);
	return demandOf(trial, flask, leachates);
}

function nextDoseOf(
	found: ReadResidue,
	uptake: Measured<"uptake">,
	ammonia: AmmoniaNamed,
): string {
	const { flask, probe, residue, account } = found;
	if (residue.is === "at least")
		return `Dilute the filtrate of flask ${flask.name} and read it again.`;
	const advice = (text: string): string =>
		probe === "iodine" ? safeToDose(ammonia, text) : text;
	if (uptake.is === "at least")
		return advice(
			`Dose flask ${flask.name} again (the same dose of ${fixed(account.added.in("mg"), 1)} mg ${probe}, or half the char), wait as before and read again.`,
		);
	return uptake.is === "at most"
		? advice(
				"Weigh more char, or dose less, so that the uptake stands clear of the measuring error.",
			)
		: "";
}

/** What in a flask's own record weakens its number, as full sentences. */
function cautionsOf(trial: Trial, found: ReadResidue): string[] {
	const { flask, probe } = found;
	return [
		...found.cautions,
		...scatterCautions(trial, flask),
		...(flask.firstRunningsDiscarded === "no"
			? [
					`First runnings of the filter were not discarded: the filter itself takes up ${probe}.`,
				]
			: []),
	];
}

/**
 * Uptake of a flask that was read by an instrument, by the same running mass balance as a titrated one: added = taken up + left + withdrawn + lost, in grams. A reading above the line makes the
 * uptake "at most", one that cannot be distinguished from a blank "at least"; nothing is extrapolated: for these flasks `computedUptake` is reckoned with the limit of the residue, and the bound takes the worse end of the loss as well.
 */
export function readUptake(trial: Trial, found: ReadResidue): FlaskUptake {
	const { flask, account, probe } = found;
	const recovery = recoveries(trial).forFlask(flask);
	const losses = lossModel(trial);
	const char = charMassOf(flask);
	const balance = balanceOf(found, recovery, losses.likely);
	const demand = demandOn(trial, found);
	const ammonia = ammoniaOf(trial, flask);
	const byChar = lessDemand(balance.takenUp, demand);
	const atEnd = (end: "most" | "least"): Quantity<"uptake"> =>
		massPerMass(
			lessDemand(
				amounts(account, found.left, recovery, losses[end]).takenUp,
				demand,
			),
			char.mass,
		);
	const computedUptake = named(
		massPerMass(byChar, char.mass),
		"q",
		`${probe} uptake per gram of ${char.perGram}, flask ${flask.name}`,
	);
	const uptake = uptakeOfResidue(
		found,
		computedUptake,
		atEnd,
		byChar,
		balance,
		char,
	);
	const broken = brokenLaw({
		trial,
		flask,
		probe,
		balance,
		liquid: account.liquid,
		char: char.mass,
	});
	const contradiction = [found.contradiction, broken.found]
		.filter((text) => text !== "")
		.join(" ");
	return {
		flask,
		probe,
		balance,
		liquid: account.liquid,
		charMass: char.mass,
		perGram: char.perGram,
		uptake,
		computedUptake,
		residue: found.residue,
		atWithdrawals: uptakesAtWithdrawals(account.withdrawals, {
			flask,
			probe,
			char,
			demand,
			losses,
			split: (at, left, loss) => amounts(at, left, recovery, loss),
			mass: (m) => m.to("mg"),
		}),
		demand,
		soakMass: soakMassOf(trial, flask, char.mass, account.liquid),
		ammonia,
		lossesTakenOff: recovery.is === "measured",
		takenAs: takenAs(flask, recovery),
		cautions: cautionsOf(trial, found),
		contradiction,
		likelyCause: broken.likelyCause,
		nextDose: contradiction === "" ? nextDoseOf(found, uptake, ammonia) : "",
	};
}
