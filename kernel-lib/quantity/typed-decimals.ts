import { ancestors } from "./graph";
import type { Kind } from "./kinds";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";

/** Digits after the decimal mark with which a reading was typed in this unit; null where its cell holds no such number. */
export function typedDecimals<K extends Kind>(
	reading: Quantity<K>,
	unit: string,
): number | null {
	const root = nodeOf(reading) as QuantityNode;
	for (const { input, unit: own, base } of ancestors(root))
		if (
			input?.source.is === "cell" &&
			input.source.decimals !== undefined &&
			own === unit &&
			base === root.base
		)
			return input.source.decimals;
	return null;
}
