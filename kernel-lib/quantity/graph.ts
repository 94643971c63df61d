import type { Operation } from "./operations";
import type { Input } from "./source";

/** What the walks below need of a node; operands are nodes of the same sort. */
interface GraphNode<Node> {
	readonly base: number;
	readonly input: Input | null;
	readonly operation: Operation | null;
	readonly operands: readonly Node[];
	readonly parameter: number;
}

/** How a result depends on one input: d(result)/d(input), both in base units. */
export interface Sensitivity<Node> {
	readonly input: Input;
	readonly node: Node;
	readonly derivative: number;
}

/** Every node below a result, each once, operands before what is made of them. Iterative: chains may be long. */
export function ancestors<Node extends GraphNode<Node>>(root: Node): Node[] {
	const order: Node[] = [];
	const seen = new Set<Node>();
	const stack: { node: Node; next: number }[] = [{ node: root, next: 0 }];
	seen.add(root);
	while (stack.length > 0) {
		const top = stack[stack.length - 1];
		if (top.next < top.node.operands.length) {
			const child = top.node.operands[top.next++];
			if (!seen.has(child)) {
				seen.add(child);
				stack.push({ node: child, next: 0 });
			}
		} else {
			order.push(top.node);
			stack.pop();
		}
	}
	return order;
}

/**
 * Exact first-order sensitivities of a result to its inputs, by one backward pass over the graph (JCGM 100:2008, 5.1.3). Inputs with the same key are one input:
 * their contributions are added before anything is squared, which is where correlation between results comes from.
 */
export function sensitivities<Node extends GraphNode<Node>>(
	root: Node,
): Map<string, Sensitivity<Node>> {
	const order = ancestors(root);
	const adjoint = new Map<Node, number>([[root, 1]]);
	const result = new Map<string, Sensitivity<Node>>();
	for (let k = order.length - 1; k >= 0; k--) {
		const node = order[k];
		const weight = adjoint.get(node) ?? 0;
		if (node.input !== null) {
			if (node.input.uncertainty === 0) continue;
			const before = result.get(node.input.key);
			result.set(node.input.key, {
				input: node.input,
				node,
				derivative: weight + (before?.derivative ?? 0),
			});
			continue;
		}
		const x = node.operands.map((o) => o.base);
		node.operands.forEach((operand, i) => {
			const d = node.operation?.derivative(x, node.parameter, i) ?? 0;
			adjoint.set(operand, (adjoint.get(operand) ?? 0) + weight * d);
		});
	}
	return result;
}

/** Standard uncertainty in base units (JCGM 100:2008, 5.1.2). */
export function standardUncertaintyOf<Node extends GraphNode<Node>>(
	node: Node,
): number {
	if (node.input !== null) return node.input.uncertainty;
	let variance = 0;
	for (const s of sensitivities(node).values())
		variance += (s.derivative * s.input.uncertainty) ** 2;
	return Math.sqrt(variance);
}
