import type { Quantity } from "../quantity";

/** A value that the sheet may or may not hold. Never `undefined`: the kernel's compiler would let that pass. */
export type Recorded<T> =
	| { readonly recorded: true; readonly value: T }
	| { readonly recorded: false };

export interface Moisture {
	/** Water per mass of moist char (wet) or of dry char (dry). */
	readonly fraction: Quantity<"ratio">;
	readonly basis: "wet" | "dry";
}

/** Moisture of the char in a flask, and how well it is known. */
export interface CharMoisture extends Moisture {
	/** As they stand in the sheet; the fraction is their mean. */
	readonly determinations: readonly Quantity<"ratio">[];
	/** Its standard uncertainty, where the sheet states one. */
	readonly uncertainty: Recorded<Quantity<"ratio">>;
	/** What its uncertainty rests on. */
	readonly knownBy: "one determination" | "repeats" | "a stated uncertainty";
}
