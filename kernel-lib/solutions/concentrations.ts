import { step, type Trial } from "../bench";
import { type Table, withTable } from "../quantity";
import { massConcentrations } from "./mass-concentrations";
import { type KnownTitrants, titrantsOf, titrantTable } from "./titrants";

/** The solutions of a trial, shown as a table. */
export interface Titrants extends KnownTitrants {
	/** A row a solution: its strength and how it is known. Throws ProblemError for a dosed solution whose strength in mg/L cannot be worked out, where flasks were read by an instrument only. */
	readonly table: Table;
}

/** Flasks that an instrument read, and none that was titrated. */
function onlyRead({ flasks }: Trial): boolean {
	return (
		flasks.some((f) => f.readings.recorded) &&
		flasks.every((f) => f.titrations.length === 0)
	);
}

/**
 * The concentrations of all solutions of a trial: stated, weighed, or standardised against one another (iodine against thiosulfate against iodate), with every error carried
 * through. One or two titres keep their reading and end-point errors; from three on their scatter takes that place (never both). The blank titre is taken off. What two
 * solutions share (the burette, the standard) stays one and the same input, so that it cancels where it should. Titres that a deviation leaves out do not count.
 *
 * The burette holds thiosulfate: a thiosulfate row's aliquot is of the standard, any other row's aliquot is of that solution itself.
 *
 * Shown as a table: in mol/L and N, or in mg/L where flasks were read by an instrument only.
 * @throws ProblemError when the concentration of a solution is asked for that the sheet does not give
 * @example
 * solutions.concentrations(isothermTrial).byName("thiosulfate").how // => "standardised against \"iodate\", 3 titrations"
 * solutions.concentrations(trial).table // => "Solutions"
 * solutions.concentrations(dyeTrial).table // => "Solutions that were dosed"
 */
export const concentrations: (trial: Trial) => Titrants = step((trial) =>
	withTable({ ...titrantsOf(trial) }, (titrants) =>
		onlyRead(trial) ? massConcentrations(trial).table : titrantTable(titrants),
	),
);
