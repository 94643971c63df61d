/** Cells that belong to the demo data: they say that these are invented, or serve nothing but them. */
import { type Cell, hasTag, type Notebook } from "./ipynb";
import { isDemo } from "./settings";

const demoTag = "demo-sheet";

export function isDemoCell(cell: Cell): boolean {
	return hasTag(cell, demoTag);
}

/** The notebook without the cells of the demo where none of its settings names demo data any more. */
export function withoutStaleDemo(notebook: Notebook): Notebook {
	return isDemo(notebook)
		? notebook
		: { ...notebook, cells: notebook.cells.filter((c) => !isDemoCell(c)) };
}
