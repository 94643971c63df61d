import { type Firing, isLeftOut, type Moisture, type Recorded } from "../bench";
import {
	exactRatio,
	type Measured,
	measured,
	minus,
	type NotKnown,
	named,
	notKnown,
	per,
	plus,
	type Quantity,
	quoted,
	times,
} from "../quantity";

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
				`dry mass of the precursor, firing ${quoted(firing.name)}`,
			)
		: firing.precursorMass;
}

/** Mass of the product as weighed; where the sheet leaves it open, the last weighing of the drying. */
export function productMass(firing: Firing): Recorded<Quantity<"mass">> {
	if (firing.productMass.recorded) return firing.productMass;
	const last = firing.drying.filter((w) => !isLeftOut(w)).at(-1);
	return last === undefined
		? { recorded: false }
		: { recorded: true, value: last.mass };
}

/** Dry mass of the washed and dried product. Where no product was weighed and nothing was washed, what came out of the kiln is the product. */
export function dryProduct(firing: Firing): Measured<"mass"> | NotKnown {
	const product = productMass(firing);
	if (product.recorded)
		return measured(
			firing.productMoisture.recorded
				? named(
						dryOf(product.value, {
							fraction: firing.productMoisture.value,
							basis: "wet",
						}),
						"m_{\\text{product, dry}}",
						`dry mass of the product, firing ${quoted(firing.name)}`,
					)
				: product.value,
		);
	const washed = firing.rinses.length > 0 || firing.agent !== "";
	return firing.firedMass.recorded && !washed
		? measured(firing.firedMass.value)
		: notKnown(
				firing.firedMass.recorded
					? "the mass after washing and drying is not recorded"
					: "no mass of the product is recorded",
			);
}
