/** What the remains of soaks may have added to a difference or taken from it, at most, as far as it is limited. */
export interface SoakAllowance {
	/** mg/g by which the low end of the interval goes down: uptake feigned on the treated side or hidden on the control's. */
	readonly low: number;
	/** mg/g by which the high end goes up. */
	readonly high: number;
	/** False where something that a soak may have left has no limit; then the allowance holds for the rest only. */
	readonly complete: boolean;
	/** What the limits rest on, as parts of sentences. */
	readonly steps: readonly string[];
}
