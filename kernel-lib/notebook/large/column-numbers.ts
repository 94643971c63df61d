import type { TableCell } from "../../quantity";

/** The number that a cell holds or shows; null for words. */
export function numberOf(cell: TableCell): number | null {
	if (typeof cell === "number") return Number.isFinite(cell) ? cell : null;
	if (typeof cell === "string")
		return /^[-−]?\d+(\.\d+)?$/.test(cell.trim())
			? Number(cell.trim().replace("−", "-"))
			: null;
	return "quantity" in cell ? cell.quantity.value : cell.value;
}
