import type { Flask } from "../bench";
import type { MaybeKnown, Measured, Quantity } from "../quantity";
import type { AmmoniaNamed } from "../substances";
import type { TakenAs } from "./taken-as";

/** Where the iodine (as I2), or whatever else was dosed, of one flask went. added = takenUp + left + withdrawn + lost, exactly. */
export interface ProbeBalance {
	readonly added: Quantity<"mass">;
	readonly takenUp: Quantity<"mass">;
	readonly left: Quantity<"mass">;
	readonly withdrawn: Quantity<"mass">;
	readonly lost: Quantity<"mass">;
}

/** Soak remains that consume iodine look like more uptake; those that free iodine from iodide look like less. */
export type LooksLike = "more uptake" | "less uptake" | "either";

/** What soak remains that were not measured may look like, and why. */
export interface SoakSuspicion {
	readonly looksLike: LooksLike;
	readonly because: string;
}

/** What is left of a soak may feign so much uptake, or hide so much of it, at most. */
export interface SoakCeiling {
	/** mg of iodine per gram of char that look like uptake, at most; not known where nothing limits it. */
	readonly more: MaybeKnown<number>;
	/** mg/g that look like less uptake, at most. */
	readonly less: MaybeKnown<number>;
	/** What each limit rests on, as parts of sentences. */
	readonly steps: readonly string[];
}

/** How much of what was weighed as char may be what is left of its soak. */
export interface SoakMass {
	/** Gram per gram of char as weighed, at most; below 1. */
	readonly most: number;
	/** What that rests on, as parts of sentences. */
	readonly steps: readonly string[];
}

/** Iodine that the remains of a soak consume (or free), which looks like uptake (or like less of it). */
export type IodineDemand =
	| { readonly is: "none expected" }
	/** Suspected from the soak and not measured by a leachate: the verdict is read from an interval that leaves room for its ceiling, and not given where there is none. */
	| ({
			readonly is: "suspected";
			readonly ceiling: SoakCeiling;
	  } & SoakSuspicion)
	/** Measured on a leachate and taken off the uptake, scaled to the liquor retained. */
	| {
			readonly is: "measured";
			readonly mass: Quantity<"mass">;
			readonly how: string;
	  };

/** What a flask had taken up when a portion was withdrawn from it. */
export interface UptakeAtWithdrawal {
	/** 1 for the first. */
	readonly number: number;
	/** From dosing to the withdrawal. */
	readonly after: Flask["contactTime"];
	/** As it stood just before the portion was taken; `withdrawn` holds what had gone out before. */
	readonly balance: ProbeBalance;
	/** "at least" where the portion was colourless. */
	readonly uptake: Measured<"uptake">;
	readonly residue: Measured<"massConcentration">;
	/** False where a later dose, liquid or making up moved the equilibrium, so that the end does not stand under the same conditions. */
	readonly undisturbed: boolean;
}

/** What one char flask gave. */
export interface FlaskUptake {
	readonly flask: Flask;
	/** What was taken up: "iodine", "methylene blue". */
	readonly probe: string;
	readonly balance: ProbeBalance;
	/** Liquid in the flask when the aliquot was taken. */
	readonly liquid: Quantity<"volume">;
	/** Dry mass of char, or the mass as weighed where moisture is not known (`perGram` says which). */
	readonly charMass: Quantity<"mass">;
	readonly perGram: "dry char" | "char as weighed";
	/** The uptake as a value or a bound. */
	readonly uptake: Measured<"uptake">;
	/** What the arithmetic gives, bound or not; may be negative, never clipped. */
	readonly computedUptake: Quantity<"uptake">;
	/** Residual concentration that the uptake stands at (iodine as I2). "at most" for a flask that ran dry, "at least" for a reading above the calibration line. */
	readonly residue: Measured<"massConcentration">;
	/** What it had taken up at each withdrawal, in their order; none where nothing was withdrawn. */
	readonly atWithdrawals: readonly UptakeAtWithdrawal[];
	readonly demand: IodineDemand;
	/** What the remains of its soak may add to the mass of its char, at most; not known where nothing limits it. */
	readonly soakMass: MaybeKnown<SoakMass>;
	/** Whether the sheet names ammonia, or what gives it off, among what the char was treated with: iodine is then kept away from it. */
	readonly ammonia: AmmoniaNamed;
	/** False where no iodine blank of the day gave a recovery: then the uptake includes losses and is called so. */
	readonly lossesTakenOff: boolean;
	/** What the uncertainty takes from a decision of ours, because the sheet shows nothing of it. */
	readonly takenAs: readonly TakenAs[];
	/** Cautions that this flask's record gives rise to (alkaline and not acidified, blue that returned, ...), in words. */
	readonly cautions: readonly string[];
	/** Why the flask's own numbers cannot all be right (less than nothing left, more taken up than was dosed, more char than the flask can hold, ...), in full sentences; "" where nothing contradicts. Caps every verdict on its treatment at "cannot tell". */
	readonly contradiction: string;
	/** What most likely made them so, and where to look; "" where nothing contradicts or nothing is likely. */
	readonly likelyCause: string;
	/** What to dose next so that a residue can be measured; "" where it was measured. */
	readonly nextDose: string;
}
