import { mkdirSync, statSync } from "node:fs";
import { dirname, resolve } from "node:path";

/**
 * Makes a folder and those above it, where they are missing. Step by step: Node's own `recursive` goes round for ever where the system refuses a folder without saying that one above is missing.
 * @throws the system's error where a folder cannot be made
 */
export function makeFolder(path: string): void {
	const folder = resolve(path);
	if (statSync(folder, { throwIfNoEntry: false })?.isDirectory()) return;
	const above = dirname(folder);
	if (above !== folder) makeFolder(above);
	mkdirSync(folder);
}
