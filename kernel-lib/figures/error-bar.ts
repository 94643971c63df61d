import type { Quantity } from "../quantity";
import type { Interval } from "./description";

/** Error bar of a value: its expanded uncertainty with k = 2. */
export function errorBar(value: number, standardUncertainty: number): Interval {
	const reach = 2 * standardUncertainty;
	return { low: value - reach, high: value + reach };
}

/** The same of a quantity, in the unit that it is in. */
export function errorBarOf({ value, standardUncertainty }: Quantity): Interval {
	return errorBar(value, standardUncertainty);
}
