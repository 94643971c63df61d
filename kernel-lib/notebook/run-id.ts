/** The id of its run in the metadata of a notebook, so that the file can be held against the page, the results and the ledger beside it. */
import { valueOrThrow } from "../quantity";
import type { Notebook } from "./ipynb";
import { runRecord } from "./run-record";

interface OurMetadata {
	readonly runId?: string;
}

const ours = ({ metadata }: Notebook): OurMetadata =>
	(metadata.charledger ?? {}) as OurMetadata;

/** An executed notebook with the id of its run. */
export function withRunId(notebook: Notebook): Notebook {
	const { id } = valueOrThrow(runRecord(notebook));
	return {
		...notebook,
		metadata: {
			...notebook.metadata,
			charledger: { ...ours(notebook), runId: id },
		},
	};
}

/** A notebook that has not been run. */
export function withoutRunId(notebook: Notebook): Notebook {
	const { runId, ...rest } = ours(notebook);
	return runId === undefined
		? notebook
		: { ...notebook, metadata: { ...notebook.metadata, charledger: rest } };
}
