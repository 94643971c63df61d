import { type Flask, mostPerMillilitre, step, type Trial } from "../bench";
import { minus, plainNumber, type Quantity } from "../quantity";
import { type Residue, residues } from "../residue";
import {
	type Contradiction,
	concentrations,
	likelySlip,
	nothingContradicts,
} from "../solutions";
import { isBelowZero } from "./distinguishable-from-zero";
import type { ProbeBalance } from "./flask-uptake";
import { recoveries } from "./recovery";

/** What one flask's numbers come to. */
export interface FlaskNumbers {
	readonly trial: Trial;
	readonly flask: Flask;
	readonly probe: string;
	readonly balance: ProbeBalance;
	readonly liquid: Quantity<"volume">;
	/** The mass that the uptake is divided by. */
	readonly char: Quantity<"mass">;
}

type Law = (numbers: FlaskNumbers) => Contradiction;

/** Grams on a gram of char that no char is known to take up. A decision of ours, wide enough for the strongest activated carbons. */
const mostPerGram = 3;

/** Shares of its dose that a flask without char may hold before something other than losses or errors must be at work. Decisions of ours: open jars lose a third, and normality for molarity makes half or twice. */
const leastRecovery = 0.6;
const mostRecovery = 1.25;

/** Standard uncertainties beyond such a limit from which on error no longer explains it. A decision of ours. */
const clearly = 3;

const roughly = (x: number): string => plainNumber(Number(x.toPrecision(4)));

/** The strengths of the solutions that went into a flask or into its titre (what was withdrawn is titrated with the same). */
const solutionsInUse: Law = ({ trial, flask }) => {
	const names = new Set([
		...flask.events.flatMap((e) => (e.is === "dose" ? [e.solution] : [])),
		...flask.titrations.map((t) => t.titrant),
	]);
	return (
		concentrations(trial)
			.all.filter((s) => names.has(s.name))
			.map((s) => s.contradiction)
			.find((c) => c.found !== "") ?? nothingContradicts
	);
};

const blankMend =
	"Look at the dose, the volume made up to, the aliquot and the titre or reading of the blank, and at the strengths of the solutions.";

/** Why the share of its dose that a flask without char still held cannot be right, beyond three of its standard uncertainties. */
export function recoveryContradiction(
	probe: string,
	names: readonly string[],
	recovery: Quantity<"ratio">,
): Contradiction {
	const share = recovery.in("1");
	const reach = clearly * recovery.to("1").standardUncertainty;
	if (share + reach >= leastRecovery && share - reach <= mostRecovery)
		return nothingContradicts;
	const slip = likelySlip(share);
	return {
		found: `Without char, ${names.join(", ")} held ${roughly(Number((100 * share).toPrecision(3)))} % of the ${probe} dosed.`,
		likelyCause: `${slip === "" ? "" : `Likely cause: ${slip}. `}${blankMend}`,
	};
}

/** Blanks without char in which nothing could be measured. */
const dryBlanks: (trial: Trial) => readonly Residue[] = step((trial) =>
	residues(trial).filter(
		(r) => r.flask.contents === "iodine blank" && r.residue.is === "at most",
	),
);

/** What the blanks without char of the day found of their dose. */
const blanksWithoutChar: Law = ({ trial, flask, probe }) => {
	const dry = dryBlanks(trial).filter((r) => r.flask.day === flask.day);
	if (dry.length > 0)
		return {
			found: `${dry.map((r) => r.flask.name).join(", ")}, without char, held no ${probe} that could be measured.`,
			likelyCause: `Likely cause: the unit of the titres or readings, or a solution that is not what it is called. ${blankMend}`,
		};
	const recovery = recoveries(trial).forDay(flask.day);
	return recovery.is === "measured"
		? recoveryContradiction(probe, recovery.flasks, recovery.ratio)
		: nothingContradicts;
};

const massMend =
	"Likely cause: the unit at the head of the column of masses (mg typed under g), or the volumes (L typed under mL).";

const charInItsFlask: Law = ({ char, liquid }) => {
	const grams = char.in("g");
	const millilitres = liquid.in("mL");
	if (millilitres <= 0)
		return {
			found: `${roughly(grams)} g of char would displace more than all of the liquid, and leave ${roughly(millilitres)} mL of it.`,
			likelyCause: massMend,
		};
	return grams > mostPerMillilitre * millilitres
		? {
				found: `${roughly(grams)} g of char would hold all of the ${roughly(millilitres)} mL of liquid, so that no aliquot could be taken.`,
				likelyCause: massMend,
			}
		: nothingContradicts;
};

const nothingLessThanNone: Law = ({ probe, balance: { left, added } }) =>
	isBelowZero(left, added)
		? {
				found: `Less than no ${probe} was left: ${roughly(left.in("mg"))} mg.`,
				likelyCause:
					"Likely cause: a reagent blank larger than the titre. Look at the titre of the blank and of the flask, and at their units.",
			}
		: nothingContradicts;

const noMoreThanDosed: Law = ({
	probe,
	balance: { takenUp, added, left, withdrawn, lost },
}) => {
	if (!isBelowZero(takenUp, added)) return nothingContradicts;
	const parts = [
		{ name: "left", mass: left.in("mg") },
		{ name: "withdrawn", mass: withdrawn.in("mg") },
		{ name: "lost", mass: lost.in("mg") },
	].filter(({ mass }) => mass !== 0);
	return {
		found: `More ${probe} was found than was dosed: ${parts.map(({ name, mass }) => `${roughly(mass)} mg ${name}`).join(", ")}, ${roughly(added.in("mg"))} mg dosed.`,
		likelyCause:
			"Likely cause: the dose (its unit, or one that is not in the sheet), the aliquot, the dilution or the volume made up to, or the strength of a solution (normality for molarity).",
	};
};

const noMoreTakenUpThanDosed: Law = ({ probe, balance }) => {
	const { takenUp, added } = balance;
	return isBelowZero(minus(added, takenUp), added)
		? {
				found: `More ${probe} would be taken up (${roughly(takenUp.in("mg"))} mg) than was dosed (${roughly(added.in("mg"))} mg).`,
				likelyCause: `Likely cause: a blank without char that held more than its dose. ${blankMend}`,
			}
		: nothingContradicts;
};

const noMoreThanCharHolds: Law = ({ probe, balance: { takenUp }, char }) => {
	const times = takenUp.in("mg") / char.in("mg");
	return times > mostPerGram
		? {
				found: `${roughly(takenUp.in("mg"))} mg of ${probe} on ${roughly(char.in("mg"))} mg of char would be ${plainNumber(Number(times.toPrecision(2)))} times what the char weighs: is the unit of its mass right?`,
				likelyCause:
					"Likely cause: the unit at the head of the column of masses (g typed under mg), or the strength of what was dosed.",
			}
		: nothingContradicts;
};

/** In this order, because what comes first explains what comes later: a wrong strength spoils the blanks, and both spoil the balance. */
const laws: readonly Law[] = [
	solutionsInUse,
	blanksWithoutChar,
	charInItsFlask,
	nothingLessThanNone,
	noMoreThanDosed,
	noMoreTakenUpThanDosed,
	noMoreThanCharHolds,
];

/**
 * Why a flask's own numbers cannot all be right, and the likely cause: the first law that they break. Nothing is mended, clipped or left out for it: the number stays as it came out, and no verdict is given on it.
 */
export function brokenLaw(numbers: FlaskNumbers): Contradiction {
	for (const law of laws) {
		const broken = law(numbers);
		if (broken.found !== "") return broken;
	}
	return nothingContradicts;
}
