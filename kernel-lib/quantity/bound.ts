import type { Kind } from "./kinds";
import type { NotKnown } from "./not-known";
import type { Quantity } from "./quantity";

/**
 * What a measurement gave: a value, or only a limit. "at least": the true value is not below the limit; "at most": not above it. The limit is a quantity with its own uncertainty.
 */
export type Measured<K extends Kind> =
	| { readonly is: "value"; readonly quantity: Quantity<K> }
	| {
			readonly is: "at least";
			readonly quantity: Quantity<K>;
			readonly because: string;
	  }
	| {
			readonly is: "at most";
			readonly quantity: Quantity<K>;
			readonly because: string;
	  };

/** A measured value, no limit. */
export function measured<K extends Kind>(quantity: Quantity<K>): Measured<K> {
	return { is: "value", quantity };
}

/** A value or limit made from another; reasons are passed on, of limits and of what is not known. */
export function mapMeasured<A extends Kind, B extends Kind>(
	from: Measured<A> | NotKnown,
	change: (quantity: Quantity<A>) => Quantity<B>,
): Measured<B> | NotKnown {
	return from.is === "not known"
		? from
		: { ...from, quantity: change(from.quantity) };
}

export function measuredText(m: Measured<Kind>): string {
	return m.is === "value" ? String(m.quantity) : `${m.is} ${m.quantity}`;
}
