/** Puts the files of a trial into the notebook, so that a page carries its own inputs. */
import type { Flask } from "../bench";
import { emit } from "./display";
import { photographBundles } from "./photographs";
import { type Versions, versionsHere } from "./versions";

/** Type under which an input file travels in a notebook, so that a page can offer it for download. */
export const inputMimeType = "application/vnd.charledger.input+json";

export interface AttachedInput {
	readonly formatVersion: 2;
	/** Name without folders. */
	readonly file: string;
	readonly hash: string;
	readonly bytes: number;
	readonly base64: string;
	readonly versions: Versions;
}

/** What can be attached: a trial, or anything else that was read from files. */
export interface Attachable {
	/** The files as they were read. */
	readonly sources: readonly {
		readonly file: string;
		readonly hash: string;
		readonly content: Uint8Array;
	}[];
	readonly file?: string;
	/** Where photographs are looked for. */
	readonly folder?: string;
	/** Flasks may name photographs. */
	readonly flasks?: readonly Flask[];
}

function attachSource({
	file,
	hash,
	content,
}: Attachable["sources"][number]): void {
	const input: AttachedInput = {
		formatVersion: 2,
		file,
		hash,
		bytes: content.length,
		base64: Buffer.from(content).toString("base64"),
		versions: versionsHere(),
	};
	emit({
		[inputMimeType]: input,
		"text/plain": `Input: ${file}, ${input.bytes} bytes, content hash ${hash}`,
	});
}

/**
 * Puts the sheet of a trial into the notebook, with its sister files, byte for byte as they were read, and the photographs that it names (columns "photograph" and "photograph shows"), so that the page carries its own
 * inputs. Rows typed into a cell are in the notebook already: of them nothing is added.
 *
 * @param trial what `bench.readTrial` returned
 * @throws ProblemError for photographs that are not there, are no JPEG or PNG, or are too large to send; all at once, and nothing is attached
 * @example
 * notebook.attach(trial)
 */
export function attach(trial: Attachable): void {
	const photographs = photographBundles(trial);
	for (const source of trial.sources) attachSource(source);
	for (const bundle of photographs) emit(bundle);
}
