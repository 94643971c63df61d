import { createHash } from "node:crypto";
import { type PackedFile, packed } from "./packed-file";

/** What is said of ledger.csv where it is too long for a page. */
export interface LedgerFile {
	/** Lines without the header. */
	readonly lines: number;
	/** Of ledger.csv itself. */
	readonly sha256: string;
	/** ledger.csv compressed. */
	readonly packed: PackedFile;
}

/** Lines that pass one by one, and what can be said of them afterwards. */
export interface HashedLines {
	readonly texts: Iterable<string>;
	/** So many have passed. */
	count(): number;
	/** Of all of them together. */
	sha256(): string;
}

/** Keeps the hash of lines that are never in memory as a whole. */
export function hashedLines(texts: Iterable<string>): HashedLines {
	const hash = createHash("sha256");
	let count = 0;
	function* passing(): Generator<string> {
		for (const text of texts) {
			count += 1;
			hash.update(text);
			yield text;
		}
	}
	return {
		texts: passing(),
		count: () => count,
		sha256: () => hash.digest("hex"),
	};
}

/** Packs the lines of ledger.csv, the header first. */
export function ledgerFile(texts: Iterable<string>): LedgerFile {
	const lines = hashedLines(texts);
	const file = packed(() => "ledger.csv.gz", lines.texts);
	return { lines: lines.count() - 1, sha256: lines.sha256(), packed: file };
}
