import type { NotKnown } from "../quantity";
import type { DangerKind } from "./dangers";

/** Moles of I2 at most, for each mole of the substance's formula, in a liquid that is not strongly alkaline; the reason says where alkali makes it more. */
export type MolesOfIodine = number | NotKnown;

/** What a substance that is left in a char does to the iodine of a flask. The source says where that is known from. */
export type IodineEffect =
	| {
			readonly is: "consumes iodine" | "frees iodine";
			readonly molesIodinePerMole: MolesOfIodine;
			readonly because: string;
			readonly source: string;
	  }
	| {
			readonly is: "neither" | "unknown";
			readonly because: string;
			readonly source: string;
	  };

/** What a substance does to thiosulfate in the cold, at the strength that a rinsed char may give off. */
export type ThiosulfateEffect =
	| "decomposes thiosulfate"
	| "oxidises thiosulfate"
	| "neither"
	| "unknown";

/** What a substance is in an iodometric titration, and the electrons that a mole of it exchanges there. */
export interface Titrimetry {
	readonly role: "iodine" | "thiosulfate" | "standard";
	/** What is counted, whichever salt brought it. */
	readonly species: "I2" | "S2O3" | "IO3" | "Cr2O7";
	/** Equivalents per mole. */
	readonly equivalents: number;
	readonly halfReaction: string;
}

/** One entry of the list: how people name a substance, and what matters of it at this bench. */
export interface Substance {
	/** The usual name, in small letters. */
	readonly name: string;
	/** Common names, trade names, other spellings, other languages. Case, accents, hyphens and "ph" for "f" in sulfur do not count. */
	readonly synonyms: readonly string[];
	/** What a mole of it counts, without water of crystallisation unless the name has it; "" for a mixture. */
	readonly formula: string;
	readonly iodine: IodineEffect;
	readonly thiosulfate: ThiosulfateEffect;
	/** Which way it moves the pH of water. */
	readonly acidity: "alkaline" | "acid" | "neutral";
	/**
	 * Whether water takes its acid or alkali wholly, or shares it (a salt of a weak acid or base, for which [OH] goes with the square root of the concentration).
	 */
	readonly dissociation: "whole" | "partial";
	/** It consumes iodine by its alkali alone: where the liquid is not alkaline, or the aliquot was acidified before titrating, nothing is consumed. */
	readonly byAlkaliAlone: boolean;
	readonly organic: boolean;
	/** Leaves with warm air or steam. */
	readonly volatile: boolean;
	/** True where a firing at 600 °C surely leaves nothing of it in the char, nor anything made from it, that acts on iodine. */
	readonly goneAt600: boolean;
	readonly solubility: "soluble" | "slightly soluble" | "insoluble" | "mixed";
	/** What its rinses do not show, as a sentence; "" for nothing in particular. */
	readonly washingCaution: string;
	/** What to bear in mind when it is weighed, as a sentence; "" for nothing in particular. */
	readonly weighingNote: string;
	/** "none" for a substance that has no part in a titration. */
	readonly titrimetry: Titrimetry | "none";
	/** How it hurts. None given means that the list does not know, unless `harmless` says otherwise. */
	readonly dangers: readonly DangerKind[];
	/** The source for there being nothing to warn of in bench amounts; "" where no source says so. */
	readonly harmless: string;
}

/** What of an entry differs from that of a neutral salt. */
export type Detail = Partial<Omit<Substance, "name" | "formula" | "synonyms">>;

/** An entry: what is not given is that of a neutral, soluble, inorganic salt that stays in the fire. */
export function entry(
	name: string,
	formula: string,
	synonyms: readonly string[],
	iodine: IodineEffect,
	detail: Detail = {},
): Substance {
	return {
		name,
		formula,
		synonyms,
		iodine,
		thiosulfate: "neither",
		acidity: "neutral",
		dissociation: "whole",
		byAlkaliAlone: false,
		organic: false,
		volatile: false,
		goneAt600: false,
		solubility: "soluble",
		washingCaution: "",
		weighingNote: "",
		titrimetry: "none",
		dangers: [],
		harmless: "",
		...detail,
	};
}

const memory = "from memory of general chemistry";

/** The source of what is eaten, or handled in a kitchen, without more care. */
export const kitchenGoods = {
	harmless: "kitchen goods, in no GHS class (from memory)",
} as const;

export const unclassified =
	"in no GHS class by its usual safety data sheets (from memory)";

export function consumes(
	molesIodinePerMole: MolesOfIodine,
	because: string,
	source = memory,
): IodineEffect {
	return { is: "consumes iodine", molesIodinePerMole, because, source };
}

export function frees(
	molesIodinePerMole: MolesOfIodine,
	because: string,
	source = memory,
): IodineEffect {
	return { is: "frees iodine", molesIodinePerMole, because, source };
}

export function neither(because: string, source = memory): IodineEffect {
	return { is: "neither", because, source };
}

export function unknownEffect(because: string, source = memory): IodineEffect {
	return { is: "unknown", because, source };
}
