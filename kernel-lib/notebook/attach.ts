import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { sheetFiles } from "../bench";
import { contentHash } from "../quantity";
import { emit } from "./display";

/** Type under which an input file travels in a notebook, so that a page can offer it for download. */
export const inputMimeType = "application/vnd.charledger.input+json";

export interface AttachedInput {
	readonly formatVersion: 1;
	/** Name without folders. */
	readonly file: string;
	readonly hash: string;
	readonly bytes: number;
	readonly base64: string;
}

function attachFile(path: string): void {
	const content = readFileSync(path);
	const input: AttachedInput = {
		formatVersion: 1,
		file: basename(path),
		hash: contentHash(content),
		bytes: content.length,
		base64: content.toString("base64"),
	};
	emit({
		[inputMimeType]: input,
		"text/plain": `Input: ${input.file}, ${input.bytes} bytes, content hash ${input.hash}`,
	});
}

/**
 * Puts a bench sheet into the notebook as it was read (with the sister files of a CSV sheet), so that the page carries its own inputs.
 * @throws Error when the file cannot be read
 */
export function attachSheet(path: string): void {
	for (const file of sheetFiles(path)) attachFile(file);
}
