import { confidenceText } from "../isotherms";
import type { Quantity } from "../quantity";
import { normalQuantile } from "../stats";
import type { Interval } from "./description";

/** Of error bars, whatever confidence was asked of the result beside them. Our decision. */
const confidence = 0.95;

/** What they hold, for the words under a figure. */
export const errorBarShare = confidenceText(confidence);

/** A normal error lies within so many standard uncertainties as often. */
const factor = normalQuantile((1 + confidence) / 2);

/** Error bar of a value: the 95 % interval of its measuring error. */
export function errorBar(value: number, standardUncertainty: number): Interval {
	const reach = factor * standardUncertainty;
	return { low: value - reach, high: value + reach };
}

/** The same of a quantity, in the unit that it is in. */
export function errorBarOf({ value, standardUncertainty }: Quantity): Interval {
	return errorBar(value, standardUncertainty);
}
