/** The files of one run as one set: written beside, then put in place together. A reader finds the earlier set or the new one, and a run that is killed in between is finished by the next. */
import {
	appendFileSync,
	closeSync,
	existsSync,
	fsyncSync,
	openSync,
	readdirSync,
	readFileSync,
	renameSync,
	rmdirSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { makeFolder } from "../make-folder";

/** Folder, in that of the results, for files on their way. */
const stagingFolder = ".charledger-next";
/** Says what is to be put in place; from the moment that it stands there, the new set counts. */
const journalFile = ".charledger-swap.json";

/** What the journal says. */
interface Swap {
	/** Files of the staging folder that take their places. */
	readonly come: readonly string[];
	/** Files that go. */
	readonly go: readonly string[];
}

/** A text, bytes, or the pieces of a text that is never in memory as a whole. */
export type FileContent = string | Uint8Array | Iterable<string>;

/** A set on its way. */
export interface StagedSet {
	/** The files so far, in the order in which they were added. */
	readonly names: readonly string[];
	/** Writes a file of the set, wholly and to the disk; one that is long comes in pieces. */
	add(name: string, content: FileContent): void;
	/** Where a file of the set lies until it is in place, for programs that read or write it there. */
	path(name: string): string;
	/** Takes a file that another program wrote there into the set. */
	take(name: string): void;
	/**
	 * Puts all of it in place.
	 * @param go names of files that leave with the earlier set
	 * @returns the paths, in the order in which they were added
	 */
	commit(go: readonly string[]): string[];
	/** Leaves everything as it was. */
	discard(): void;
}

/** Tells the disk to keep what was written, of a file or of a folder's list of names; a system that cannot do so for folders does without. */
function flush(path: string): void {
	let file: number;
	try {
		file = openSync(path, "r");
	} catch {
		return;
	}
	try {
		fsyncSync(file);
	} catch (error) {
		if (!["EINVAL", "EPERM", "EISDIR"].includes(codeOf(error))) throw error;
	} finally {
		closeSync(file);
	}
}

const codeOf = (error: unknown): string =>
	(error as { readonly code?: string }).code ?? "";

/** Pieces are written together up to so many characters. */
const writtenAtOnce = 1_000_000;

function writePieces(path: string, pieces: Iterable<string>): void {
	writeFileSync(path, "");
	let waiting: string[] = [];
	let length = 0;
	const write = (): void => {
		appendFileSync(path, waiting.join(""));
		waiting = [];
		length = 0;
	};
	for (const piece of pieces) {
		waiting.push(piece);
		length += piece.length;
		if (length >= writtenAtOnce) write();
	}
	write();
}

function writeFlushed(path: string, content: FileContent): void {
	if (typeof content === "string" || content instanceof Uint8Array)
		writeFileSync(path, content);
	else writePieces(path, content);
	flush(path);
}

function readSwap(journal: string): Swap | "none" {
	if (!existsSync(journal)) return "none";
	return JSON.parse(readFileSync(journal, "utf8")) as Swap;
}

/** A folder of the set that holds nothing any more goes too. */
function removeEmpty(folder: string, name: string): void {
	const path = join(folder, name);
	if (name !== "." && existsSync(path) && readdirSync(path).length === 0)
		rmdirSync(path);
}

/** Does what the journal says, as often as it takes: a file that is no longer in the staging folder is in its place. */
function swap(folder: string, { come, go }: Swap): void {
	for (const name of come) {
		const next = join(folder, stagingFolder, name);
		if (!existsSync(next)) continue;
		makeFolder(dirname(join(folder, name)));
		renameSync(next, join(folder, name));
	}
	for (const name of go) {
		rmSync(join(folder, name), { force: true });
		removeEmpty(folder, dirname(name));
	}
	flush(folder);
	rmSync(join(folder, journalFile), { force: true });
	rmSync(join(folder, stagingFolder), { recursive: true, force: true });
}

/** Finishes what a run that was killed had begun to put in place, and clears away what it had not. */
export function repair(folder: string): void {
	const journal = join(folder, journalFile);
	const begun = readSwap(journal);
	if (begun !== "none") swap(folder, begun);
	for (const left of [stagingFolder, `${journalFile}.part`])
		rmSync(join(folder, left), { recursive: true, force: true });
}

/** Begins a set in a folder, which is made where it is missing. */
export function stage(folder: string): StagedSet {
	const staging = join(folder, stagingFolder);
	makeFolder(staging);
	const names: string[] = [];
	return {
		names,
		add(name, content) {
			makeFolder(dirname(join(staging, name)));
			writeFlushed(join(staging, name), content);
			names.push(name);
		},
		path: (name) => join(staging, name),
		take(name) {
			flush(join(staging, name));
			names.push(name);
		},
		commit(go) {
			const planned: Swap = { come: names, go };
			const journal = join(folder, journalFile);
			flush(staging);
			writeFlushed(`${journal}.part`, JSON.stringify(planned));
			renameSync(`${journal}.part`, journal);
			flush(folder);
			swap(folder, planned);
			return names.map((name) => join(folder, name));
		},
		discard() {
			rmSync(staging, { recursive: true, force: true });
		},
	};
}
