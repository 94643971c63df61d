import { type Cell, hasTag, type Notebook } from "./ipynb";
import { withoutRunId } from "./run-id";
import { analysesTag } from "./tags";

/** Metadata that a front end leaves behind and that says nothing about the notebook. */
const sessionKeys = ["execution", "collapsed", "scrolled", "ExecuteTime"];

function strippedCell(cell: Cell): Cell {
	const metadata = { ...cell.metadata };
	for (const key of sessionKeys) delete metadata[key];
	return cell.cell_type === "code"
		? { ...cell, metadata, outputs: [], execution_count: null }
		: { ...cell, metadata };
}

/** A notebook without outputs, execution counts, what a run said of analyses before it, and traces of a session: what belongs into version control. */
export function stripped(notebook: Notebook): Notebook {
	return {
		...withoutRunId(notebook),
		cells: notebook.cells
			.filter((cell) => !hasTag(cell, analysesTag))
			.map(strippedCell),
	};
}
