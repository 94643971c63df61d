import type { Firing, Moisture } from "../bench";
import {
	exactRatio,
	minus,
	named,
	per,
	plus,
	type Quantity,
	times,
} from "../quantity";
import { type Finding, found, notKnown } from "./finding";

function dryOf(
	mass: Quantity<"mass">,
	{ fraction, basis }: Moisture,
): Quantity<"mass"> {
	const one = exactRatio(1);
	return basis === "wet"
		? times(mass, minus(one, fraction))
		: per(mass, plus(one, fraction));
}

/** Dry mass of the precursor: m (1 - w) with the moisture on the wet basis, m / (1 + w) on the dry basis; the mass as weighed where no moisture is recorded. */
export function dryPrecursor(firing: Firing): Quantity<"mass"> {
	return firing.precursorMoisture.recorded
		? named(
				dryOf(firing.precursorMass, firing.precursorMoisture.value),
				"m_{\\text{precursor, dry}}",
				`dry mass of the precursor, run ${firing.name}`,
			)
		: firing.precursorMass;
}

/** Dry mass of the washed and dried product. Where no product was weighed and nothing was washed, what came out of the kiln is the product. */
export function dryProduct(firing: Firing): Finding<"mass"> {
	if (firing.productMass.recorded)
		return found(
			firing.productMoisture.recorded
				? named(
						dryOf(firing.productMass.value, {
							fraction: firing.productMoisture.value,
							basis: "wet",
						}),
						"m_{\\text{product, dry}}",
						`dry mass of the product, run ${firing.name}`,
					)
				: firing.productMass.value,
		);
	const washed = firing.rinses.length > 0 || firing.agent !== "";
	return firing.firedMass.recorded && !washed
		? found(firing.firedMass.value)
		: notKnown(
				firing.firedMass.recorded
					? "the mass after washing and drying is not recorded"
					: "no mass of the product is recorded",
			);
}
