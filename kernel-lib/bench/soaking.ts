import type { Quantity } from "../quantity";
import type { Recorded } from "./recorded";

/** What a row says of the soak of its char and of the rinsing after it. Taken as written, without uncertainties: it serves for upper limits that have large factors in them. */
export interface Soaking {
	readonly strength: Recorded<
		| Quantity<"massConcentration">
		| Quantity<"concentration">
		| Quantity<"ratio">
	>;
	/** In the order of their numbers; empty where none is recorded. */
	readonly rinses: readonly Quantity<"volume">[];
	/** Dry mass of the char that the rinses washed. */
	readonly charRinsed: Recorded<Quantity<"mass">>;
	readonly lastRinse: {
		readonly pH: Recorded<Quantity<"pH">>;
		readonly conductivity: Recorded<Quantity<"conductivity">>;
		/** Iodine (I2) consumed by a litre of it. */
		readonly demand: Recorded<Quantity<"concentration">>;
	};
	/** Highest temperature of a firing after the soak. */
	readonly firedAfter: Recorded<Quantity<"temperature">>;
}

/** A row that says nothing of a soak. */
export const nothingOfASoak: Soaking = {
	strength: { recorded: false },
	rinses: [],
	charRinsed: { recorded: false },
	lastRinse: {
		pH: { recorded: false },
		conductivity: { recorded: false },
		demand: { recorded: false },
	},
	firedAfter: { recorded: false },
};
