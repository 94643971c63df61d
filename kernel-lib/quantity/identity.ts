import { ancestors } from "./graph";
import type { Kind } from "./kinds";
import type { Operation } from "./operations";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";

/**
 * Numbers the nodes below a result so that equal things have equal numbers: one input met under two units, one step that was named again. The order is that of
 * first appearance, operands first.
 */
export function identities(
	roots: readonly QuantityNode[],
): Map<QuantityNode, number> {
	const numberOf = new Map<QuantityNode, number>();
	const numbers = new Map<string, number>();
	const operations = new Map<Operation | null, number>();
	const operationNumber = (operation: Operation | null): number => {
		const number = operations.get(operation) ?? operations.size;
		operations.set(operation, number);
		return number;
	};
	for (const root of roots) {
		for (const node of ancestors(root)) {
			if (numberOf.has(node)) continue;
			const content =
				node.input !== null
					? `input ${node.input.key}`
					: `${operationNumber(node.operation)} ${node.parameter} ${node.operands.map((x) => numberOf.get(x)).join(" ")}`;
			const number = numbers.get(content) ?? numbers.size;
			numbers.set(content, number);
			numberOf.set(node, number);
		}
	}
	return numberOf;
}

/** Content hash of the sheet, or of the rows typed in, that a reading was taken from; "" for a number that stands in none. */
export function sheetHash<K extends Kind>(reading: Quantity<K>): string {
	for (const { input } of ancestors(nodeOf(reading) as QuantityNode))
		if (input?.source.is === "cell") return input.source.hash;
	return "";
}
