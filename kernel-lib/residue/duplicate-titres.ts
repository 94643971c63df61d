import type { Flask } from "../bench";
import { fixed, minus, type Quantity } from "../quantity";
import { titreVolume } from "../solutions";

/** Titres of one flask that differ by more standard uncertainties of their difference (reading and end point) are told. Our decision. */
const timesUncertainty = 3;

function extremes(
	titres: readonly Quantity<"volume">[],
): readonly [Quantity<"volume">, Quantity<"volume">] {
	const sorted = [...titres].sort((a, b) => a.in("mL") - b.in("mL"));
	return [sorted[0], sorted[sorted.length - 1]];
}

/** A sentence where the titres of a flask disagree by more than reading a burette explains; "" where they agree, and for a single one. */
export function titreDisagreement({ titrations }: Flask): string {
	if (titrations.length < 2) return "";
	const [low, high] = extremes(titrations.map(titreVolume));
	const difference = minus(high, low).to("mL");
	const limit = timesUncertainty * difference.standardUncertainty;
	return difference.value <= limit
		? ""
		: `Its titres lie ${fixed(difference.value, 2)} mL apart, more than the ${fixed(limit, 2)} mL that reading a burette explains: titrate once more, or mark the wrong one in the deviations. Their mean was taken.`;
}
