/**
 * How steeply uptake grows with the residue: the exponent s of q = q* (C/C*)^s, which is 1/n of a Freundlich curve, near the residue of a comparison.
 */
export type Slope =
	| {
			/** From doses that differ by design. */
			readonly is: "measured";
			readonly value: number;
			readonly standardUncertainty: number;
			readonly degreesOfFreedom: number;
			/** d(slope)/d(carried uptake) of each flask, 0 for those of other treatments. */
			readonly response: Float64Array;
			/** From doses that differ within soaks; else between them. */
			readonly withinSoaks: boolean;
	  }
	| {
			/** Not measured: any value between these is allowed for. */
			readonly is: "range";
			readonly low: number;
			readonly high: number;
	  };

/** The value that an estimate is given with. */
export const middleOf = (slope: Slope): number =>
	slope.is === "measured" ? slope.value : (slope.low + slope.high) / 2;

/** The values that an interval is to hold for: curves between these lie between their intervals. */
export const endsOf = (slope: Slope): readonly number[] =>
	slope.is === "measured" ? [slope.value] : [slope.low, slope.high];
