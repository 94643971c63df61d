import type { Table } from "../quantity";

/** An answer without its figure: what was found in one sentence, the table beside it, and what stands behind it. */
export interface AnswerInWords {
	/** The title of the page. */
	readonly finding: string;
	/** At most five columns. */
	readonly table: Table;
	/** The weightiest first. */
	readonly statements: readonly string[];
}
