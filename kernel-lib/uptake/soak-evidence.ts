import type { Flask, Trial } from "../bench";
import type { Substance } from "../substances";
import { lastRinses, rinseConductivity, rinsePH } from "./last-rinses";
import { staysDissolved } from "./soak-held";

/** A flask at this pH or below is not alkaline enough for iodine to disproportionate (chemistry of the trade; the figure is a decision of ours). */
export const neutralUpTo = 7.5;

/** The last rinse shows what the liquor in the pores holds only from outside: so many times as much is allowed for within. A decision of ours, no source. */
export const poresAgainstRinse = 3;

/** How far the pH of the last rinse may lie from that of the control's to be called alike. A decision of ours, no source. */
export const likePH = 0.3;
/** Alkali or acid in mmol/L that a rinse of like pH may still hold: carbonates hold some without showing it. A decision of ours, no source. */
export const hiddenAtLikePH = 1;

/** Conductivity in µS/cm of a solution with 1 mmol/L of a salt, rather low (most lie between 100 and 300; from memory), so that the amount comes out rather high. */
export const conductivityPerMillimole = 100;
/** What two readings of a conductivity meter may differ by without telling anything: this part of the value and this many µS/cm. Decisions of ours, no source. */
export const conductivitySpread = { part: 0.1, least: 5 };

/** A firing as hot as this leaves nothing of what burns off (organics, peroxide, ammonia); the figure is a decision of ours. */
export const hotEnough = 600;

/** A reading of a flask that limits what is left of a substance: mmol per mL of liquor in the char at most, and in words. 0 where nothing is left of it or nothing of it acts. */
export interface Evidence {
	readonly most: number;
	readonly says: string;
}

function byFiring(flask: Flask, substance: Substance): Evidence[] {
	const { firedAfter } = flask.soaking;
	if (!substance.goneAt600 || !firedAfter.recorded) return [];
	const temperature = firedAfter.value.in("°C");
	return temperature >= hotEnough
		? [
				{
					most: 0,
					says: `fired at ${temperature} °C after the soak, which leaves nothing of ${substance.name}`,
				},
			]
		: [];
}

function byFlask(flask: Flask, substance: Substance): Evidence[] {
	if (!substance.byAlkaliAlone) return [];
	if (flask.acidified === "yes")
		return [
			{
				most: 0,
				says: "the aliquot was acidified, which gives back the iodine that alkali had turned into iodide and iodate",
			},
		];
	return flask.finalPH.recorded && flask.finalPH.value.value <= neutralUpTo
		? [
				{
					most: 0,
					says: `the flask ended at pH ${flask.finalPH.value.value}, not alkaline enough to consume iodine`,
				},
			]
		: [];
}

function byRinsePH(
	trial: Trial,
	flask: Flask,
	substance: Substance,
): Evidence[] {
	const own = rinsePH(flask);
	const control = lastRinses(trial).pH(flask.control);
	if (
		!substance.byAlkaliAlone ||
		!own.recorded ||
		!control.recorded ||
		Math.abs(own.value - control.value) > likePH + 1e-9
	)
		return [];
	return [
		{
			most: (hiddenAtLikePH * poresAgainstRinse) / 1000,
			says: `its last rinse has the pH of the control's within ${likePH}, which leaves room for ${hiddenAtLikePH} mmol/L of alkali in the rinse and ${poresAgainstRinse} times that in the pores`,
		},
	];
}

function byConductivity(
	trial: Trial,
	flask: Flask,
	substance: Substance,
): Evidence[] {
	const own = rinseConductivity(flask);
	const control = lastRinses(trial).conductivity(flask.control);
	if (!staysDissolved(substance) || !own.recorded || !control.recorded)
		return [];
	const { part, least } = conductivitySpread;
	const excess =
		Math.max(0, own.value - control.value) +
		part * Math.max(own.value, control.value) +
		least;
	return [
		{
			most: (excess / conductivityPerMillimole / 1000) * poresAgainstRinse,
			says: `its last rinse conducts ${own.value} µS/cm against ${Math.round(control.value)} of the control's, which leaves room for ${(excess / conductivityPerMillimole).toPrecision(2)} mmol/L of a salt in the rinse and ${poresAgainstRinse} times that in the pores`,
		},
	];
}

/** What the readings of a flask and its rinses say of a substance of its soak; empty where they say nothing. */
export function evidenceOn(
	trial: Trial,
	flask: Flask,
	substance: Substance,
): Evidence[] {
	return [
		...byFiring(flask, substance),
		...byFlask(flask, substance),
		...byRinsePH(trial, flask, substance),
		...byConductivity(trial, flask, substance),
	];
}
