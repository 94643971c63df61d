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
