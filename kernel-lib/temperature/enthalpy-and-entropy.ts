import type { Convention } from "./constant";
import type { LineValue, LinkedLine } from "./linked-line";
import type { TemperatureStep } from "./temperature-steps";

/** Enthalpy and entropy from the temperature series of one constant. */
export interface EnthalpyAndEntropy {
	readonly kind: "van 't Hoff";
	readonly name: string;
	readonly convention: Convention;
	/** How the constant was made dimensionless, in words. */
	readonly made: string;
	readonly steps: readonly TemperatureStep[];
	readonly line: LinkedLine;
	/** The middle of 1/T, where the line was anchored. */
	readonly centre: number;
	readonly confidence: number;
	/** kJ/mol; negative where heat is given off. */
	readonly enthalpy: LineValue;
	/** J/(mol K); belongs to the convention. */
	readonly entropy: LineValue;
	/** kJ/mol at each temperature, from the line; belongs to the convention. */
	readonly gibbs: readonly LineValue[];
	readonly cautions: readonly string[];
}
