import { ancestors } from "./graph";
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
	for (const root of roots) {
		for (const node of ancestors(root)) {
			if (numberOf.has(node)) continue;
			const content =
				node.input !== null
					? `input ${node.input.key}`
					: `${node.operation?.id} ${node.parameter} ${node.operands.map((x) => numberOf.get(x)).join(" ")}`;
			const number = numbers.get(content) ?? numbers.size;
			numbers.set(content, number);
			numberOf.set(node, number);
		}
	}
	return numberOf;
}
