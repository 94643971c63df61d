import type { ProblemPlace, Quantity } from "../quantity";
import type { Mark } from "./mark";
import type { Moisture, Recorded } from "./recorded";

/** How much agent was used, as it was measured out. */
export type AgentAmount =
	| {
			/** The solid, weighed. */
			readonly as: "solid";
			readonly mass: Quantity<"mass">;
			readonly purity: Quantity<"ratio">;
	  }
	| {
			readonly as: "solution by mass";
			readonly mass: Quantity<"mass">;
			readonly massFraction: Quantity<"ratio">;
	  }
	| {
			readonly as: "solution by volume";
			readonly volume: Quantity<"volume">;
			readonly strength:
				| Quantity<"massConcentration">
				| Quantity<"concentration">;
	  };

/** One step of a thermal programme. */
export interface ThermalStep {
	readonly temperature: Quantity<"temperature">;
	readonly rate: Recorded<Quantity<"heatingRate">>;
	readonly hold: Recorded<Quantity<"time">>;
	/** "" where the sheet does not say. */
	readonly atmosphere: string;
	readonly steam: Recorded<Quantity<"massFlow">>;
}

/** One rinse: what ran off, and what was read on it. */
export interface Rinse {
	/** Number in the sheet; the order of the rinses. */
	readonly number: number;
	readonly volume: Quantity<"volume">;
	readonly pH: Recorded<Quantity<"pH">>;
	/** As read, on the liquid diluted `diluted` times. */
	readonly conductivity: Recorded<Quantity<"conductivity">>;
	readonly diluted: number;
	readonly marks: readonly Mark[];
	readonly place: ProblemPlace;
}

export interface DryingWeighing {
	/** Number in the sheet; the order of the weighings. */
	readonly number: number;
	readonly time: Quantity<"time">;
	/** Dish taken off. */
	readonly mass: Quantity<"mass">;
	readonly marks: readonly Mark[];
	readonly place: ProblemPlace;
}

/** One row of the activation table: what was charred, soaked, fired, washed and dried as one. Texts are "" where the sheet does not say. */
export interface Firing {
	readonly name: string;
	/** What went wrong with this firing. */
	readonly marks: readonly Mark[];
	readonly precursor: string;
	readonly precursorBatch: string;
	readonly precursorSize: string;
	readonly precursorMass: Quantity<"mass">;
	readonly precursorMoisture: Recorded<Moisture>;
	/** Of the dry precursor, as the next. */
	readonly precursorAsh: Recorded<Quantity<"ratio">>;
	readonly precursorCarbon: Recorded<Quantity<"ratio">>;
	/** Name or formula; "" for none. */
	readonly agent: string;
	readonly agentAmount: Recorded<AgentAmount>;
	readonly soakTime: Recorded<Quantity<"time">>;
	readonly soakTemperature: Recorded<Quantity<"temperature">>;
	readonly impregnatedMass: Recorded<Quantity<"mass">>;
	readonly liquorDrained: Recorded<Quantity<"mass">>;
	readonly liquorStrength: Recorded<Quantity<"ratio">>;
	readonly programme: readonly ThermalStep[];
	readonly charredMass: Recorded<Quantity<"mass">>;
	readonly firedMass: Recorded<Quantity<"mass">>;
	readonly condensate: Recorded<Quantity<"mass">>;
	readonly gasMass: Recorded<Quantity<"mass">>;
	readonly rinses: readonly Rinse[];
	readonly rinseWater: {
		readonly conductivity: Recorded<Quantity<"conductivity">>;
		readonly pH: Recorded<Quantity<"pH">>;
	};
	/** A solution of the agent of known strength and conductivity. */
	readonly reference: Recorded<{
		readonly strength: Quantity<"massConcentration">;
		readonly conductivity: Quantity<"conductivity">;
	}>;
	readonly finesCaught: Recorded<Quantity<"mass">>;
	/** In the order of time. */
	readonly drying: readonly DryingWeighing[];
	/** As weighed after drying; where the sheet leaves it open, the last weighing of the drying stands for it. */
	readonly productMass: Recorded<Quantity<"mass">>;
	readonly productMoisture: Recorded<Quantity<"ratio">>;
	readonly productAsh: Recorded<Quantity<"ratio">>;
	readonly productVolatileMatter: Recorded<Quantity<"ratio">>;
	readonly energyUsed: Recorded<Quantity<"energy">>;
	readonly firedOn: Recorded<Date>;
	readonly whatHappened: string;
	readonly notes: string;
	readonly extra: Readonly<Record<string, string>>;
	readonly place: ProblemPlace;
}
