import {
	type Checked,
	densityOf,
	minus,
	named,
	problem,
	type Quantity,
	valueOrThrow,
} from "../quantity";
import { dryMassOf, type SampleState } from "./basis";
import { asRead, surelyAboveZero } from "./weighings";

/** A cylinder filled with char. */
export interface FilledCylinder {
	readonly mass: Quantity<"mass">;
	readonly volume: Quantity<"volume">;
}

/** Denser than any carbon. */
const densest = 2.3;

export function checkApparentDensity(
	c: FilledCylinder,
	sample: SampleState = { is: "dried" },
): Checked<Quantity<"density">> {
	if (!surelyAboveZero(c.mass) || !(c.volume.value > 0))
		return {
			ok: false,
			problems: [
				problem(
					"no-sample",
					{ column: "sample mass" },
					`${asRead(c.mass)} of char in ${asRead(c.volume)}`,
					"a mass and a volume above 0",
					"Look whether the cylinder's own mass was taken off twice, or the weighings swapped.",
				),
			],
		};
	const density = densityOf(
		named(dryMassOf(c.mass, sample), "m_{dry}", "dry mass in the cylinder"),
		c.volume,
	);
	if (density.in("g/mL") > densest)
		return {
			ok: false,
			problems: [
				problem(
					"density-too-high",
					{ column: "volume" },
					`a bed of ${density}`,
					`less than ${densest} g/mL, the density of graphite without any pores`,
					"Look at mass and volume and their units.",
				),
			],
		};
	return {
		ok: true,
		value: named(density, "\\rho", "apparent density of the bed, dry"),
	};
}

/**
 * Apparent density of a packed bed, g/mL of dry char: ρ = m (1 - W)/V (ASTM D2854; from memory). Voids between the grains belong to the volume.
 * @throws ProblemError for a mass or volume that cannot be
 */
export function apparentDensity(
	readings: FilledCylinder,
	sample: SampleState = { is: "dried" },
): Quantity<"density"> {
	return valueOrThrow(checkApparentDensity(readings, sample));
}

/** Mass in a cylinder that was weighed empty and filled. */
export function filling(
	empty: Quantity<"mass">,
	filled: Quantity<"mass">,
): Quantity<"mass"> {
	return named(minus(filled, empty), "m", "char in the cylinder");
}
