import type { Operation } from "./operations";
import type { Input } from "./source";

/** What the walks below need of a node; operands are nodes of the same sort. */
interface GraphNode<Node> {
	readonly base: number;
	readonly input: Input | null;
	readonly operation: Operation | null;
	readonly operands: readonly Node[];
	readonly parameter: number;
	/** Marks of the walks below, which end before another begins: the last walk that came by, and d(result)/d(node) in it. */
	visited: number;
	adjoint: number;
}

/** How a result depends on one input: d(result)/d(input), both in base units. */
export interface Sensitivity<Node> {
	readonly input: Input;
	readonly node: Node;
	readonly derivative: number;
}

let walks = 0;

/** Every node below a result, each once, operands before what is made of them. Iterative: chains may be long. */
export function ancestors<Node extends GraphNode<Node>>(root: Node): Node[] {
	const walk = ++walks;
	const order: Node[] = [];
	const way: Node[] = [root];
	/** Of each node on the way, the operand that comes next. */
	const next: number[] = [0];
	root.visited = walk;
	while (way.length > 0) {
		const last = way.length - 1;
		const node = way[last];
		if (next[last] < node.operands.length) {
			const operand = node.operands[next[last]++];
			if (operand.visited === walk) continue;
			operand.visited = walk;
			way.push(operand);
			next.push(0);
		} else {
			order.push(node);
			way.pop();
			next.pop();
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
	for (const node of order) node.adjoint = 0;
	root.adjoint = 1;
	const result = new Map<string, Sensitivity<Node>>();
	for (let k = order.length - 1; k >= 0; k--) {
		const node = order[k];
		const { input, operation, operands, parameter, adjoint } = node;
		if (input !== null) {
			if (input.uncertainty === 0) continue;
			const before = result.get(input.key);
			result.set(input.key, {
				input,
				node,
				derivative: adjoint + (before?.derivative ?? 0),
			});
			continue;
		}
		if (operation === null) continue;
		const x = operands.map((o) => o.base);
		for (let i = 0; i < operands.length; i++)
			operands[i].adjoint += adjoint * operation.derivative(x, parameter, i);
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
