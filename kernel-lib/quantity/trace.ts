import {
	expressionOf,
	leavesOf,
	plainSymbol,
	symbolOf,
	symbolsPlain,
} from "./expression";
import { nodeOf, type Quantity, type QuantityNode } from "./quantity";

/** From a result down to the file, row and column of each reading, as indented text. A part that was already shown is not repeated. */
export function traceOf(q: Quantity): string {
	const root = nodeOf(q) as QuantityNode;
	const lines: string[] = [];
	const shown = new Set<QuantityNode>();
	const walk = (node: QuantityNode, depth: number): void => {
		const symbol = plainSymbol(symbolOf(node));
		const indent = "  ".repeat(depth);
		const meaning = node.name.meaning === "" ? "" : `, ${node.name.meaning}`;
		const head = `${indent}${symbol} = ${node}${meaning}`;
		if (node.input !== null) {
			const { source } = node.input;
			const place =
				source.is === "stated"
					? source.source
					: `${source.file}${source.sheet === "" ? "" : `, sheet "${source.sheet}"`}, row ${source.row}, column "${source.column}"`;
			lines.push(`${head} [${place}]`);
			return;
		}
		if (shown.has(node)) {
			lines.push(`${head} (shown above)`);
			return;
		}
		shown.add(node);
		const expression = expressionOf(node);
		lines.push(`${head}; ${symbol} = ${symbolsPlain(expression)}`);
		for (const leaf of leavesOf(expression)) walk(leaf, depth + 1);
	};
	walk(root, 0);
	return lines.join("\n");
}
