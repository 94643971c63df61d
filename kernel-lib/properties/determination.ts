import type { Mark } from "../bench";
import type { Kind, Measured, NotKnown, ProblemPlace } from "../quantity";
import type { PropertyName } from "./standards";

/** One figure from one row. */
export interface Determination {
	readonly name: string;
	readonly sample: string;
	readonly property: PropertyName;
	/** Under which condition, such as the density of a float liquid; "" where there is none. Replicates have the same. */
	readonly at: string;
	readonly outcome: Measured<Kind> | NotKnown;
	/** What went wrong with it. */
	readonly marks: readonly Mark[];
	/** As the sheet has it. */
	readonly notes: string;
	readonly place: ProblemPlace;
}
