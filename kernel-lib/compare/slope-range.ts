import { mean } from "../stats";
import type { CarriableFlask } from "./carriable";
import type { SlopeLimits } from "./settings";

/** 1/n where it was not measured: iodine on chars and activated carbons lies between 0.1 and 0.5, dyes between 0 and 1 (typical, from memory); a flat curve is allowed for. Our decision. */
const highest = { iodine: 0.6, dye: 1 } as const;
/** Where less than this share of the dose is left, the curve may be as steep as a straight line through the origin. Our decision. */
export const littleLeft = 0.1;

/** Where 1/n mostly lies: of iodine on chars and activated carbons, and of a dye that is strongly held (typical, from memory). */
export function typicalSlopes(probe: string): SlopeLimits {
	return probe === "iodine" ? { low: 0.1, high: 0.5 } : { low: 0, high: 0.25 };
}

/** The range of slopes that belongs to a probe, for flasks of one treatment. */
export function slopeRange(flasks: readonly Pick<CarriableFlask, "flask">[]): {
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
