import {
	type Evidence,
	exact,
	normal,
	type Source,
	stated,
} from "../../quantity";

/** Half a drop of an ordinary burette, mL. */
export const halfDrop = 0.025;

/** The error of stopping at the drop that turned the colour: zero on the average of many. */
export interface EndPoint {
	readonly evidence: Evidence;
	/** "end point, half a drop" */
	readonly meaning: string;
	readonly source: Source;
}

/** @param millilitres its standard uncertainty */
export function endPointOf(millilitres: number): EndPoint {
	if (millilitres === halfDrop)
		return {
			evidence: normal(halfDrop),
			meaning: "end point, half a drop",
			source: stated(
				`half a drop, ${halfDrop} mL, as standard uncertainty; common practice, no source`,
			),
		};
	return {
		evidence: millilitres === 0 ? exact : normal(millilitres),
		meaning: "end point",
		source: stated("set when the sheet was read"),
	};
}
