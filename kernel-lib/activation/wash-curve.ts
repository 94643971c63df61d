import { predict } from "../fit";
import type { Quantity } from "../quantity";
import type { FittedWashout } from "./washout";

/** The fitted curve at rinses 0, 1, 2 ... (0: the liquor before the first), with its 95 % band, in the unit of the readings. Rinses still to come have the volume `nextVolume`. */
export interface WashCurvePoint {
	readonly rinse: number;
	readonly value: number;
	readonly low: number;
	readonly high: number;
}

/** The fitted curve at these rinses. */
export function washCurve(
	washed: FittedWashout,
	rinses: readonly number[],
): WashCurvePoint[] {
	const back = washed.reading === "pH" ? (y: number): number => y : Math.exp;
	return predict(washed.fit, rinses).map((p, i) => {
		const band = p.confidenceBandOfCurve;
		const [low, high] =
			band.is === "value"
				? [band.value.low, band.value.high]
				: [p.value, p.value];
		return {
			rinse: rinses[i],
			value: back(p.value),
			low: back(low),
			high: back(high),
		};
	});
}

/** The number of a target in the unit of the readings. */
export function targetNumber(
	washed: FittedWashout,
	target: Quantity<"conductivity"> | Quantity<"pH">,
): number {
	if (target.kind !== washed.reading)
		throw new Error(
			`The washing was fitted to ${washed.reading}: give the target as a ${washed.reading}.`,
		);
	return target.kind === "pH" ? target.value : target.in("µS/cm");
}
