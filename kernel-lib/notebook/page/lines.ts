/** The ledger of a page as a graph: which lines a line was made from, down to the cells. */
import type { LedgerRow } from "../../quantity";

export interface Lines {
	get(id: string): LedgerRow | undefined;
	/** The lines that stand in the formula of a line. */
	parts(line: LedgerRow): readonly LedgerRow[];
	/** The line and all that it was made from, each once, results before what they were made from. */
	below(line: LedgerRow): readonly LedgerRow[];
	/** The cells that a line goes back to. */
	cells(line: LedgerRow): readonly LedgerRow[];
	/** Results before what they were made from. */
	readonly resultsFirst: (a: LedgerRow, b: LedgerRow) => number;
}

export const isRead = (line: LedgerRow): boolean => line.row > 0;

export const isStep = (line: LedgerRow): boolean => line.formula !== "";

/** @param all operands before results */
export function linesOf(all: readonly LedgerRow[]): Lines {
	const byId = new Map(all.map((line) => [line.id, line]));
	const order = new Map(all.map((line, i) => [line.id, i]));
	const resultsFirst = (a: LedgerRow, b: LedgerRow): number =>
		(order.get(b.id) as number) - (order.get(a.id) as number);
	const kept = new Map<string, readonly LedgerRow[]>();
	const parts = (line: LedgerRow): LedgerRow[] =>
		line.inputs.flatMap((id) => byId.get(id) ?? []);
	const below = (root: LedgerRow): readonly LedgerRow[] => {
		const known = kept.get(root.id);
		if (known !== undefined) return known;
		const seen = new Set<LedgerRow>();
		const waiting = [root];
		for (let line = waiting.pop(); line !== undefined; line = waiting.pop()) {
			if (seen.has(line)) continue;
			seen.add(line);
			waiting.push(...parts(line));
		}
		const found = [...seen].sort(resultsFirst);
		kept.set(root.id, found);
		return found;
	};
	return {
		get: (id) => byId.get(id),
		parts,
		below,
		cells: (line) => below(line).filter(isRead),
		resultsFirst,
	};
}
