import { type Quantity, quantityOption, requireOptions } from "../quantity";

/** Where washing and drying are to end. */
export interface FiringTargets {
	/** Conductivity of the last rinse, where conductivity was read. */
	readonly conductivity?: Quantity<"conductivity">;
	/** pH of the last rinse, where only pH was read. */
	readonly pH?: Quantity<"pH">;
	/** Volume of each rinse still to come; that of the last one by default. */
	readonly rinseVolume?: Quantity<"volume">;
	/** Water that may be left in the product; 0.1 % of the last weighing by default (common practice, no source). */
	readonly water?: Quantity<"mass">;
	/** Two weighings in a row must agree within this; as much as `water` by default. */
	readonly agreement?: Quantity<"mass">;
}

const rules = {
	conductivity: quantityOption("conductivity"),
	pH: quantityOption("pH"),
	rinseVolume: quantityOption("volume"),
	water: quantityOption("mass"),
	agreement: quantityOption("mass"),
};

/** @throws ProblemError for a target that there is none of, or of another kind of quantity */
export function requireTargets(targets: FiringTargets, of: string): void {
	requireOptions(targets, rules, of);
}
