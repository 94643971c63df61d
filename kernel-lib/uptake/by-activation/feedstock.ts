import type { Finding } from "../../activation";
import {
	type Kind,
	type Measured,
	named,
	type Quantity,
	times,
} from "../../quantity";
import type { ActivatedUptake } from "./link";

function changed<A extends Kind, B extends Kind>(
	measured: Measured<A>,
	change: (q: Quantity<A>) => Quantity<B>,
): Measured<B> {
	return measured.is === "value"
		? { is: "value", quantity: change(measured.quantity) }
		: { ...measured, quantity: change(measured.quantity) };
}

/**
 * Uptake per mass of dry feedstock: uptake times the yield of char from it, q Y; mg/g is g/kg. Errors that the two share (the balance, the moisture) count once. A bound stays a bound.
 */
export function feedstockCapacity(uptake: ActivatedUptake): Finding<"uptake"> {
	if (!uptake.activation.recorded)
		return { is: "not known", because: uptake.activation.because };
	const { yieldFromFeedstock, chain } = uptake.activation;
	if (yieldFromFeedstock.is === "not known") return yieldFromFeedstock;
	return changed(uptake.uptake, (q) =>
		named(
			times(q, yieldFromFeedstock.quantity).to("mg/g"),
			"q_{\\text{feedstock}}",
			`uptake per gram of dry feedstock, flask ${uptake.flask.name}, by way of ${chain.join(", ")}`,
		),
	);
}
