import type { AmmoniaNamed } from "../substances";
import type { Contradicted, LooksLike } from "../uptake";
import type { Finding } from "./audit";
import type { ResiduesOfPair } from "./residues";
import type { DosesOfTreatment } from "./several-doses";
import type { VerdictWord } from "./word";

/** Why a pair has no difference at all. */
export type Missing =
	| "no control"
	| "no treated flask"
	| "no control flask"
	| "no common day"
	| "no spread"
	| "bounds on both sides";

/** A flask as it was made, for saying what to dose: char in g, liquid in L. */
export interface CharAndLiquid {
	readonly char: number;
	readonly liquid: number;
}

/** What a proposed dose rests on. */
export interface Dosing {
	/** "iodine", "methylene blue". */
	readonly probe: string;
	/** Whether iodine would meet ammonia in these flasks. */
	readonly ammonia: AmmoniaNamed;
	readonly flask: CharAndLiquid;
}

/** Something that more replicates would not mend and that takes a word away. */
export type Obstacle =
	| {
			readonly is: Missing;
			readonly treatment: string;
			readonly control: string;
			readonly ammonia: AmmoniaNamed;
	  }
	| {
			/** Bounds that do not carry a word. */
			readonly is: "only bounds";
			readonly flasks: readonly string[];
			/** The only word that these bounds could show. */
			readonly provable: "higher" | "lower";
			/** The words without the flasks and with them at their limit. */
			readonly found: readonly [VerdictWord, VerdictWord];
			/** Whether another dilution of the filtrate is all that is wanted. */
			readonly dilute: boolean;
			readonly ammonia: AmmoniaNamed;
	  }
	| {
			/** Some uptakes are per gram of dry char, some per gram as weighed. */
			readonly is: "unlike grams";
			readonly treatments: readonly string[];
	  }
	| {
			/** On one day losses were taken off some flasks of the pair and not off others. */
			readonly is: "unlike losses";
			readonly treatment: string;
			readonly control: string;
			readonly probe: string;
	  }
	| {
			/** The slopes that were not measured are not all of one mind on the word. */
			readonly is: "unlike residues";
			readonly word: VerdictWord;
			readonly treatment: string;
			readonly control: string;
			readonly residues: ResiduesOfPair;
			/** The widest range of slopes that was allowed for. */
			readonly slopes: { readonly low: number; readonly high: number };
			/** Change of the treated flasks' dose that would make them alike, mg a flask. */
			readonly doseChange: number;
			readonly probe: string;
			readonly ammonia: AmmoniaNamed;
	  }
	| {
			/** The word does not outlast the room that is left for what the soaks may have done, mg/g down and up. */
			readonly is: "soak allowance";
			readonly word: VerdictWord;
			readonly treatment: string;
			readonly control: string;
			readonly low: number;
			readonly high: number;
			/** What these limits rest on, as parts of sentences. */
			readonly steps: readonly string[];
	  }
	| {
			/** No batch of char was both treated and left as a control: a difference between batches looks like one of the treatment. */
			readonly is: "unlike batches";
			readonly treated: readonly string[];
			readonly control: readonly string[];
	  }
	| {
			/** Treatments of the pair with a single soak, where others had several: how far their soaks lie apart is not known. */
			readonly is: "one soak";
			readonly treatments: readonly string[];
	  }
	| {
			/** Flasks whose own numbers cannot all be right. */
			readonly is: "contradiction";
			readonly flasks: readonly string[];
			/** Every flask of the pair, with what is wrong with its numbers. */
			readonly ofPair: readonly Contradicted[];
	  }
	| {
			/** What is left of a soak could have feigned the word. */
			readonly is: "soak remains";
			readonly word: VerdictWord;
			readonly treatment: string;
			readonly ofControl: boolean;
			readonly looksLike: LooksLike;
			readonly flasks: readonly string[];
			readonly because: readonly string[];
			readonly ammonia: AmmoniaNamed;
	  }
	| {
			/** Treated and control flasks were not handled alike, and that could have made the word. */
			readonly is: "unlike conditions";
			readonly word: VerdictWord;
			readonly treatment: string;
			readonly control: string;
			readonly findings: readonly Finding[];
			readonly ammonia: AmmoniaNamed;
	  }
	| { readonly is: "no flask left"; readonly treatment: string }
	| {
			readonly is: "too few doses";
			readonly doses: DosesOfTreatment;
			/** The stated residue, mg/L. */
			readonly residue: number;
			/** Doses that would do, mg a flask, as if each gram took up `uptake` mg. */
			readonly from: number;
			readonly to: number;
			readonly uptake: number;
			readonly dosing: Dosing;
	  }
	| {
			/** Flasks whose residue is more than three times that of the comparison, or less than a third, and no slope was measured. */
			readonly is: "carried too far";
			readonly treatment: string;
			/** That of the comparison, mg/L, and what the flasks left. */
			readonly residue: number;
			readonly range: { readonly low: number; readonly high: number };
			/** What would leave a flask there, mg, as if each gram took up `uptake` mg. */
			readonly dose: number;
			readonly uptake: number;
			readonly dosing: Dosing;
	  }
	| {
			readonly is: "residue not reached";
			readonly treatment: string;
			readonly residue: number;
			/** What its flasks left, mg/L. */
			readonly range: { readonly low: number; readonly high: number };
			/** True where the residue would lie in the range in the other unit, g/L for mg/L. */
			readonly otherUnit: boolean;
			/** Dose that would reach it, mg a flask. */
			readonly dose: number;
			readonly dosing: Dosing;
	  }
	| {
			readonly is: "isotherm not determined";
			readonly treatment: string;
			readonly isotherm: string;
			readonly because: string;
	  };
