import { ancestors } from "./graph";
import type { Operation } from "./operations";
import type { QuantityNode } from "./quantity";

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
