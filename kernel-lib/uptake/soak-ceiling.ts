import type { Flask, Trial } from "../bench";
import { known, type MaybeKnown, notKnown, type Quantity } from "../quantity";
import { molarMass, type NamedSubstance, type Substance } from "../substances";
import type { LooksLike, SoakCeiling } from "./flask-uptake";
import { evidenceOn, poresAgainstRinse } from "./soak-evidence";
import { heldOf, liquorHeld, staysDissolved } from "./soak-held";

/** The limit on one substance: mg of iodine per gram of char, and what it rests on. */
interface Limit {
	readonly most: number;
	readonly says: string;
}

/** Moles of I2 consumed or freed by a mole of a substance. */
function perMole({ iodine, name }: Substance): MaybeKnown<number> {
	if (iodine.is !== "consumes iodine" && iodine.is !== "frees iodine")
		return notKnown(`what ${name} does to iodine is not known`);
	const moles = iodine.molesIodinePerMole;
	return typeof moles === "number" ? known(moles) : moles;
}

/** Iodine that a litre of the last rinse consumed, in the liquor that the char holds: whatever consumes it there, as far as it stays dissolved. */
function byRinseDemand(
	flask: Flask,
	perGram: number,
	substance: Substance,
): Limit[] {
	const { demand } = flask.soaking.lastRinse;
	if (
		!staysDissolved(substance) ||
		substance.iodine.is !== "consumes iodine" ||
		!demand.recorded
	)
		return [];
	const mmolPerLitre = demand.value.in("mmol/L");
	return [
		{
			most:
				(poresAgainstRinse *
					perGram *
					mmolPerLitre *
					molarMass("I2").in("g/mol")) /
				1000,
			says: `a litre of its last rinse consumed ${mmolPerLitre} mmol of iodine, and ${poresAgainstRinse} times that is allowed for in the pores`,
		},
	];
}

/** All that limits one substance, in mg of iodine per gram of char; the smallest counts. */
function limitOf(
	trial: Trial,
	flask: Flask,
	charMass: Quantity<"mass">,
	substance: Substance,
	agents: ReadonlySet<string>,
): MaybeKnown<Limit> {
	const perGram = liquorHeld(flask, charMass);
	const moles = perMole(substance);
	const inIodine = (mmolPerGram: number): number =>
		moles.is === "value"
			? mmolPerGram * moles.value * molarMass("I2").in("g/mol")
			: Number.POSITIVE_INFINITY;
	const held = heldOf(flask, charMass, substance, agents);
	const limits: Limit[] = [
		...evidenceOn(trial, flask, substance).map(({ most, says }) => ({
			most: most === 0 ? 0 : inIodine(most * perGram),
			says,
		})),
		...byRinseDemand(flask, perGram, substance),
		...(held.is === "value"
			? [{ most: inIodine(held.value.most), says: held.value.how }]
			: []),
	];
	const least = limits
		.filter((l) => Number.isFinite(l.most))
		.sort((a, b) => a.most - b.most)[0];
	if (least !== undefined) return known(least);
	if (held.is === "not known") return held;
	return moles.is === "not known" ? moles : notKnown("nothing limits it");
}

function sum(limits: readonly MaybeKnown<Limit>[]): MaybeKnown<number> {
	let total = 0;
	for (const limit of limits) {
		if (limit.is === "not known") return limit;
		total += limit.value.most;
	}
	return known(total);
}

/**
 * How much what is left of a flask's soak may feign at most, in each direction: each substance that the sheet names is limited by the amount that the char may hold after its rinses and by what was read of flask and rinse.
 * An unknown name is unbounded both ways, and so is the alkali that an oxidiser such as bleach brings with it.
 *
 * @param agents names of the substances that were agents of the char's firings
 */
export function ceilingOf(
	trial: Trial,
	flask: Flask,
	charMass: Quantity<"mass">,
	names: readonly NamedSubstance[],
	agents: ReadonlySet<string>,
): SoakCeiling {
	const more: MaybeKnown<Limit>[] = [];
	const less: MaybeKnown<Limit>[] = [];
	const steps: string[] = [];
	for (const name of names) {
		if (name.is === "not known") {
			more.push(name);
			less.push(name);
			continue;
		}
		const { substance } = name;
		const { iodine, acidity } = substance;
		if (iodine.is === "neither") continue;
		const limit = limitOf(trial, flask, charMass, substance, agents);
		if (limit.is === "value")
			steps.push(`${substance.name}: ${limit.value.says}`);
		if (iodine.is !== "frees iodine") more.push(limit);
		else if (acidity === "alkaline")
			more.push(
				notKnown(
					`how much alkali came with ${substance.name} is not known, and iodine disproportionates in alkali`,
				),
			);
		if (iodine.is !== "consumes iodine") less.push(limit);
	}
	return { more: sum(more), less: sum(less), steps };
}

/** Whether a ceiling limits all that is asked about ("either": both directions): then it widens the interval and takes no word away by itself. */
export function isLimited(
	{ more, less }: SoakCeiling,
	asked: LooksLike = "either",
): boolean {
	return (
		(asked === "less uptake" || more.is === "value") &&
		(asked === "more uptake" || less.is === "value")
	);
}
