import type { FromFits } from "../dose";
import type { MixtureUptakes } from "./mixture-uptakes";
import type { Rule } from "./single";

/** A dose in a mixture, or why there is none, before it is put into words. */
export type UntoldDose =
	| {
			readonly is: "dose";
			readonly rule: Rule;
			readonly solute: string;
			/** mg/L. */
			readonly start: number;
			readonly beside: readonly string[];
			readonly target: number;
			readonly dose: FromFits;
			readonly alone: FromFits;
			/** How many times the dose alone. */
			readonly times: number;
			readonly left: MixtureUptakes;
			readonly cautions: readonly string[];
	  }
	| {
			readonly is: "no dose";
			readonly rule: Rule;
			readonly solute: string;
			/** mg/L. */
			readonly start: number;
			readonly target: number;
			readonly because: string;
			readonly wouldTell: string;
	  };
