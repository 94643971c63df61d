import type { FromFits } from "./from-fits";
import type { Scheme, Stage } from "./stages";

/** Char that takes water from a start to a target, with its stages. */
export interface DoseForTarget {
	readonly is: "dose";
	/** What was fitted: the treatment. */
	readonly name: string;
	/** What the water is to be rid of. */
	readonly probe: string;
	readonly start: number;
	readonly target: number;
	readonly scheme: Scheme;
	readonly stageCount: number;
	/** Fresh char of all stages together, g/L, which is also kg per cubic metre. */
	readonly dose: FromFits;
	readonly stages: readonly Stage[];
	/** True where a residue of any stage lies outside those that the flasks showed. */
	readonly extrapolating: boolean;
	/** Where the residues lie against the measured range, in words. */
	readonly place: string;
	/** What a reader should know before weighing out char. */
	readonly cautions: readonly string[];
}
