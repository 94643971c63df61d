import type { Flask, InstrumentReadings, ReadingKind } from "../../../bench";
import type { Measured } from "../../../quantity";

/**
 * A kind of reading that is a concentration by itself, without a calibration line. To add one: a file like `dry-residue.ts`, a line in the list of `index.ts` here, and its column in
 * bench/reading-columns.ts.
 */
export interface ByItself {
	readonly kind: ReadingKind;
	/**
	 * Mass concentration of the liquid that was read, before any dilution is taken back.
	 * @param blanks flasks without probe, whose own concentration is taken off; may be empty
	 */
	concentration(
		flask: Flask,
		readings: InstrumentReadings,
		blanks: readonly Flask[],
	): Measured<"massConcentration">;
}
