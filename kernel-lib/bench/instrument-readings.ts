import type { ProblemPlace, Quantity } from "../quantity";
import type { Mark } from "./mark";
import type { ReadingKind } from "./reading-columns";

/** Readings of one liquid by one instrument: duplicates, and what belongs to them. The numbers are as shown, without an error: that comes from the scatter about the calibration line. */
export interface InstrumentReadings {
	readonly kind: ReadingKind;
	/** At least one. A dry residue carries the errors of its balance. */
	readonly values: readonly Quantity[];
	/** Absorbance at a wavelength where the dye has no colour. */
	readonly second:
		| { readonly recorded: true; readonly value: Quantity<"absorbance"> }
		| { readonly recorded: false };
	/** Intensities only: that of the white reference beside the liquid, and whether they are channels of a picture or in proportion to the light. */
	readonly white:
		| {
				readonly recorded: true;
				readonly value: Quantity<"ratio">;
				readonly as: "picture" | "light";
		  }
		| { readonly recorded: false };
	/** How many times the liquid was diluted before it was read; 1, exact, where it was read as it was. */
	readonly dilution: Quantity<"ratio">;
	/** Name of the calibration line; "" where there is only one, or none. */
	readonly line: string;
	/** What went wrong with single readings; `number` counts them from 1. */
	readonly marks: readonly (Mark & { readonly number: number })[];
}

/** One reading of a standard, as the calibration table has it. */
export interface CalibrationStandard {
	readonly line: string;
	readonly standard: string;
	readonly concentration: number;
	/** As the sheet writes it, mg/L or mmol/L. */
	readonly unit: string;
	readonly readings: InstrumentReadings;
	/** Flask after which it was read again to look for drift; "" for a point of the line. */
	readonly readAfter: string;
	/** Solution that it was diluted from; "" where the sheet does not say. */
	readonly madeFrom: string;
	readonly model: "straight" | "through zero" | "quadratic";
	readonly readingError:
		| "alike"
		| "variance with signal"
		| "deviation with signal";
	/** nm; 0 where not recorded. */
	readonly wavelength: number;
	readonly secondWavelength: number;
	readonly marks: readonly Mark[];
	readonly place: ProblemPlace;
}
