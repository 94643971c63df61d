import { mean } from "../stats";
import type { CarriableFlask } from "./carriable";

/** 1/n where it was not measured: iodine on chars and activated carbons lies between 0.1 and 0.5, dyes between 0 and 1 (typical, from memory); a flat curve is allowed for. Our decision. */
const highest = { iodine: 0.6, dye: 1 } as const;
/** Where less than this share of the dose is left, the curve may be as steep as a straight line through the origin. Our decision. */
export const littleLeft = 0.1;

/** The range of slopes that belongs to a probe, for flasks of one treatment. */
export function slopeRange(flasks: readonly CarriableFlask[]): {
	readonly is: "range";
	readonly low: number;
	readonly high: number;
} {
	const shares = flasks.map(
		({ flask: { balance } }) => balance.left.in("mg") / balance.added.in("mg"),
	);
	const iodine = flasks.every(({ flask }) => flask.probe === "iodine");
	return {
		is: "range",
		low: 0,
		high: iodine && mean(shares) >= littleLeft ? highest.iodine : highest.dye,
	};
}
