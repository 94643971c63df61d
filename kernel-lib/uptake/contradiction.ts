import { plainNumber, type Quantity } from "../quantity";
import type { ProbeBalance } from "./flask-uptake";
import { clearlyBelowNone } from "./told-from-none";

/** Grams on a gram of char that no char is known to take up. A decision of ours, wide enough for the strongest activated carbons. */
const mostPerGram = 3;

const roughly = (x: number): string => plainNumber(Number(x.toPrecision(4)));

function moreThanDosed(
	probe: string,
	{ added, left, withdrawn, lost }: ProbeBalance,
): string {
	const parts = [
		{ name: "left", mass: left.in("mg") },
		{ name: "withdrawn", mass: withdrawn.in("mg") },
		{ name: "lost", mass: lost.in("mg") },
	].filter(({ mass }) => mass !== 0);
	return `More ${probe} was found than was dosed: ${parts.map(({ name, mass }) => `${roughly(mass)} mg ${name}`).join(", ")}, ${roughly(added.in("mg"))} mg dosed. Look at the reading, the dose, the aliquot or dilution, and the strengths of the solutions.`;
}

function moreThanCharHolds(
	probe: string,
	{ takenUp }: ProbeBalance,
	char: Quantity<"mass">,
): string {
	const times = takenUp.in("mg") / char.in("mg");
	return `${roughly(takenUp.in("mg"))} mg of ${probe} on ${roughly(char.in("mg"))} mg of char would be ${plainNumber(Number(times.toPrecision(2)))} times what the char weighs: is the unit of its mass right?`;
}

/**
 * Why a flask's own numbers cannot all be right, in full sentences; "" where nothing contradicts. Nothing is mended or left out for it: the number stays as it came out.
 *
 * @param char the mass that the uptake is divided by
 */
export function contradictionOf(
	probe: string,
	balance: ProbeBalance,
	char: Quantity<"mass">,
): string {
	if (clearlyBelowNone(balance.takenUp, balance.added))
		return moreThanDosed(probe, balance);
	return balance.takenUp.in("mg") > mostPerGram * char.in("mg")
		? moreThanCharHolds(probe, balance, char)
		: "";
}
