import type { ActivationRun, Moisture } from "../bench";
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
export function dryPrecursor(run: ActivationRun): Quantity<"mass"> {
	return run.precursorMoisture.recorded
		? named(
				dryOf(run.precursorMass, run.precursorMoisture.value),
				"m_{\\text{precursor, dry}}",
				`dry mass of the precursor, run ${run.name}`,
			)
		: run.precursorMass;
}

/** Dry mass of the washed and dried product. Where no product was weighed and nothing was washed, what came out of the kiln is the product. */
export function dryProduct(run: ActivationRun): Finding<"mass"> {
	if (run.productMass.recorded)
		return found(
			run.productMoisture.recorded
				? named(
						dryOf(run.productMass.value, {
							fraction: run.productMoisture.value,
							basis: "wet",
						}),
						"m_{\\text{product, dry}}",
						`dry mass of the product, run ${run.name}`,
					)
				: run.productMass.value,
		);
	const washed = run.rinses.length > 0 || run.agent !== "";
	return run.firedMass.recorded && !washed
		? found(run.firedMass.value)
		: notKnown(
				run.firedMass.recorded
					? "the mass after washing and drying is not recorded"
					: "no mass of the product is recorded",
			);
}
