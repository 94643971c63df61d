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

/** Packs the lines of ledger.csv, the header first. */
export function ledgerFile(texts: Iterable<string>): LedgerFile {
	const hash = createHash("sha256");
	let lines = -1;
	function* told(): Generator<string> {
		for (const text of texts) {
			lines += 1;
			hash.update(text);
			yield text;
		}
	}
	const file = packed(() => "ledger.csv.gz", told());
	return { lines, sha256: hash.digest("hex"), packed: file };
}
