import type { Firing } from "../bench";
import {
	decimalsFor,
	fixed,
	type NotKnown,
	quoted,
	type Table,
	table,
} from "../quantity";
import type { DryingCurve, DryingPoint } from "./drying-curve";
import { leftOutOf } from "./table-notes";

/** g, to two digits of the half of the final mass's interval. */
function modelMass(curve: DryingCurve, hours: number): number {
	const { low, high } = curve.finalMassInterval;
	const mass = curve.massAt(hours);
	const half =
		low.is === "value" && high.is === "value"
			? (high.value - low.value) / 2
			: 0;
	return Number(
		half > 0 ? fixed(mass, decimalsFor(half)) : mass.toPrecision(4),
	);
}

/**
 * Weighings of a drying beside the fitted approach to constant mass.
 */
export function dryingTable({
	firing,
	points,
	curve,
	sentence,
}: {
	readonly firing: Firing;
	readonly points: readonly DryingPoint[];
	readonly curve: DryingCurve | NotKnown;
	readonly sentence: string;
}): Table {
	return table(
		`Drying of ${quoted(firing.name)}`,
		["hours in the oven", "mass (g)", "by the model (g)", "still to lose (mg)"],
		points.map((p) => [
			p.hours,
			Number(p.grams.toPrecision(7)),
			curve.is === "fitted" ? modelMass(curve, p.hours) : "",
			curve.is === "fitted"
				? Number(
						(1000 * (curve.massAt(p.hours) - curve.finalMass)).toPrecision(2),
					)
				: "",
		]),
		[sentence, ...leftOutOf(firing.drying, "weighing")],
	);
}
