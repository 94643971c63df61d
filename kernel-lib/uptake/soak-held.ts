import type { Flask, Soaking } from "../bench";
import { known, type MaybeKnown, notKnown, type Quantity } from "../quantity";
import { molarMass, type Substance } from "../substances";

/** Liquor that a gram of char holds at most, in its pores and between its grains, unless the sheet records more: a decision of ours, no source. */
export const mostLiquorHeld = 3;

/** How many times more than ideal mixing leaves a char may hold after rinses that were not measured: pores give their liquor back slowly. A decision of ours, no source. */
export const rinsesBehindIdeal = 10;

/** What a char may hold of its soak. */
export interface Held {
	/** mmol per gram of char, at most. */
	readonly most: number;
	readonly how: string;
}

/** mL of liquor per gram of char: the most that a char holds, or what the sheet records where that is more. A smaller record limits nothing: a char that was dried holds little liquor and all of its salt. */
export function liquorHeld(flask: Flask, charMass: Quantity<"mass">): number {
	return flask.liquorRetained.recorded
		? Math.max(
				mostLiquorHeld,
				flask.liquorRetained.value.in("mL") / charMass.in("g"),
			)
		: mostLiquorHeld;
}

/** g/L of a liquor with so many grams in 100 g. Its density is at most that of its water in its own volume, 1/(1 - w): an upper limit, which needs no table. */
const fromShare = (w: number): number => (w < 1 ? (1000 * w) / (1 - w) : 0);

/** mmol/mL of the substance in the liquor. Weighed as a hydrate it is less, so that this is the most. */
function strengthOf(
	strength: Soaking["strength"],
	substance: Substance,
): MaybeKnown<number> {
	if (!strength.recorded)
		return notKnown("the strength of the soak is not recorded");
	const { kind } = strength.value;
	if (kind === "concentration")
		return known((strength.value as Quantity<"concentration">).in("mol/L"));
	if (substance.formula === "")
		return notKnown(
			`${substance.name} has no one formula, so that its strength in moles is not known`,
		);
	const gPerL =
		kind === "ratio"
			? fromShare((strength.value as Quantity<"ratio">).in("1"))
			: (strength.value as Quantity<"massConcentration">).in("g/L");
	return gPerL > 0
		? known(gPerL / molarMass(substance.formula).in("g/mol"))
		: notKnown("the strength of the soak is 100 % or 0");
}

/** The part of the soak's liquor that rinsing leaves, at most. */
export function leftByRinsing(
	{ rinses, charRinsed }: Soaking,
	heldPerGram: number,
): { readonly part: number; readonly how: string } {
	if (rinses.length === 0) return { part: 1, how: "no rinse is recorded" };
	if (!charRinsed.recorded)
		return {
			part: 1,
			how: "rinses are recorded without the mass of char that they washed (`char rinsed`), so that they do not count",
		};
	const held = heldPerGram * charRinsed.value.in("g");
	const ideal = rinses.reduce(
		(part, volume) => (part * held) / (held + volume.in("mL")),
		1,
	);
	return {
		part: Math.min(1, rinsesBehindIdeal * ideal),
		how: `${rinses.length === 1 ? "one rinse, wholly mixed, would leave" : `${rinses.length} rinses, each wholly mixed, would leave`} ${(100 * ideal).toPrecision(2)} % of the liquor; ${rinsesBehindIdeal} times that is allowed for pores that lag behind`,
	};
}

/** Whether all that a char holds of a substance is in its liquor: the char itself adsorbs organics, and what dissolves badly stays as a solid. */
export const staysDissolved = ({ organic, solubility }: Substance): boolean =>
	!organic && solubility === "soluble";

/** What a flask's char may hold of a soluble, inorganic substance of its soak, at most. What a char adsorbs gets no credit from rinsing, nor does what does not dissolve. */
export function heldOf(
	flask: Flask,
	charMass: Quantity<"mass">,
	substance: Substance,
	/** Names of the agents of its firings: the strength of the soak is not theirs. */
	agents: ReadonlySet<string>,
): MaybeKnown<Held> {
	if (agents.has(substance.name))
		return notKnown(
			`${substance.name} was an agent of its firing, so that the strength of a soak does not limit what is left`,
		);
	if (substance.organic)
		return notKnown(
			`${substance.name} may be held by the char itself, so that neither its strength nor rinsing limits what is left`,
		);
	if (substance.solubility !== "soluble")
		return notKnown(
			`${substance.name} may stay in the char undissolved, so that neither its strength nor rinsing limits what is left`,
		);
	const strength = strengthOf(flask.soaking.strength, substance);
	if (strength.is === "not known") return strength;
	const perGram = liquorHeld(flask, charMass);
	const { part, how } = leftByRinsing(flask.soaking, perGram);
	return known({
		most: strength.value * perGram * part,
		how: `${perGram.toPrecision(2)} mL of liquor per gram of char (${perGram > mostLiquorHeld ? "recorded" : "the most that a char holds"}); ${how}`,
	});
}
