import type { Flask, Trial } from "../bench";
import {
	known,
	type MaybeKnown,
	notKnown,
	type Quantity,
	quoted,
} from "../quantity";
import { molarMass, type NamedSubstance, type Substance } from "../substances";
import type { SoakMass } from "./flask-uptake";
import { agentsOf, firingsOf, soakNames } from "./soak";
import {
	evidenceOn,
	hiddenAtLikePH,
	hotEnough,
	neutralUpTo,
} from "./soak-evidence";
import { heldOf, liquorHeld } from "./soak-held";

const nothing: SoakMass = { most: 0, steps: [] };

/** mmol per gram of char of one substance at most, and why. */
type Limit = { readonly most: number; readonly says: string };

/** An alkali left in the char makes the liquid of the flask alkaline: one that ended neutral holds little of it. */
function byFlaskPH(
	flask: Flask,
	liquid: Quantity<"volume">,
	charMass: Quantity<"mass">,
	{ byAlkaliAlone, solubility }: Substance,
): Limit[] {
	if (
		!byAlkaliAlone ||
		solubility !== "soluble" ||
		!flask.finalPH.recorded ||
		flask.finalPH.value.value > neutralUpTo
	)
		return [];
	return [
		{
			most: (hiddenAtLikePH * liquid.in("L")) / charMass.in("g"),
			says: `the flask ended at pH ${flask.finalPH.value.value}, which leaves room for ${hiddenAtLikePH} mmol/L of alkali in it`,
		},
	];
}

function isGone({ volatile, goneAt600 }: Substance, flask: Flask): boolean {
	const { firedAfter } = flask.soaking;
	return (
		volatile ||
		(goneAt600 && firedAfter.recorded && firedAfter.value.in("°C") >= hotEnough)
	);
}

/** A salt without its water of crystallisation, which counts with the moisture of the char. */
const dry = (formula: string): string => formula.split("·")[0];

/** One substance, in gram per gram of char. */
function limitOf(
	trial: Trial,
	flask: Flask,
	charMass: Quantity<"mass">,
	liquid: Quantity<"volume">,
	substance: Substance,
): MaybeKnown<SoakMass> {
	if (isGone(substance, flask)) return known(nothing);
	const { formula, name } = substance;
	if (formula === "")
		return notKnown(
			`${name} has no one formula, so that its mass is not known`,
		);
	const perGram = liquorHeld(flask, charMass);
	const held = heldOf(flask, charMass, substance, agentsOf(trial, flask));
	const limits: Limit[] = [
		...evidenceOn(trial, flask, substance)
			.filter(({ most }) => most > 0)
			.map(({ most, says }) => ({ most: most * perGram, says })),
		...byFlaskPH(flask, liquid, charMass, substance),
		...(held.is === "value"
			? [{ most: held.value.most, says: held.value.how }]
			: []),
	];
	const [least] = limits.sort((a, b) => a.most - b.most);
	if (least === undefined)
		return notKnown(
			held.is === "not known" ? held.because : `nothing limits ${name}`,
		);
	return known({
		most: (least.most * molarMass(dry(formula)).in("g/mol")) / 1000,
		steps: [`${name}: ${least.says}`],
	});
}

/** The ash of the char itself holds all of its salts. */
function byAsh(trial: Trial, flask: Flask): SoakMass[] {
	const [own] = firingsOf(trial, flask);
	return own?.productAsh.recorded
		? [
				{
					most: own.productAsh.value.in("1"),
					steps: [
						`the ash of ${quoted(own.name)} holds all of its salts: ${own.productAsh.value.in("%")} %`,
					],
				},
			]
		: [];
}

/** Each salt once, however often and with however much water the sheet names it ("washing soda (Na2CO3)"); unknown names too. */
function eachOnce(names: readonly NamedSubstance[]): NamedSubstance[] {
	const keyOf = (n: NamedSubstance): string =>
		n.is === "known" ? dry(n.substance.formula) || n.substance.name : n.because;
	return [...new Map(names.map((n) => [keyOf(n), n])).values()];
}

function sumOf(parts: readonly MaybeKnown<SoakMass>[]): MaybeKnown<SoakMass> {
	let sum = nothing;
	for (const part of parts) {
		if (part.is === "not known") return part;
		sum = {
			most: sum.most + part.value.most,
			steps: [...sum.steps, ...part.value.steps],
		};
	}
	return known(sum);
}

/**
 * What the remains of a soak may add to the mass of the char at most: they are weighed with it and take up nothing, which looks like less uptake. Limited by what the char may hold after its rinses, the conductivity of the
 * last rinse, the pH at which the flask ended (alkalis) and the ash of the char; what leaves with warm air is gone.
 */
export function soakMassOf(
	trial: Trial,
	flask: Flask,
	charMass: Quantity<"mass">,
	liquid: Quantity<"volume">,
): MaybeKnown<SoakMass> {
	const names = eachOnce(soakNames(trial, flask));
	const parts = names.map(
		(named): MaybeKnown<SoakMass> =>
			named.is === "not known"
				? named
				: limitOf(trial, flask, charMass, liquid, named.substance),
	);
	const sum = sumOf(parts);
	const organic = names.some(
		(n) =>
			n.is !== "known" || (n.substance.organic && !isGone(n.substance, flask)),
	);
	const [ash] = organic ? [] : byAsh(trial, flask);
	const best =
		ash !== undefined && (sum.is === "not known" || sum.value.most > ash.most)
			? known(ash)
			: sum;
	return best.is === "value" && best.value.most >= 1
		? notKnown("more than all of its mass may be what is left of its soak")
		: best;
}
