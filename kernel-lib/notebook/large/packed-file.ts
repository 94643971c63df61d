/** A text that travels compressed: inside the notebook, or as a file of its own beside the page. */
import { createHash } from "node:crypto";
import { gunzipSync, gzipSync } from "node:zlib";

/** A compressed file (gzip). Where nothing of it is inside, it lies beside the page under its name. */
export interface PackedFile {
	readonly name: string;
	/** SHA-256 of the compressed file, hexadecimal. */
	readonly sha256: string;
	/** The file in pieces, each base64 of a gzip member of its own, which one after the other are the file; none where it lies beside. */
	readonly inside: readonly string[];
}

/** Pieces of about this many characters are compressed one by one, so that no long text needs to be in memory as a whole. */
const pieceLength = 1_000_000;

/** Packs lines, which keep their line feeds and are never cut by the border of two pieces. */
export function packed(
	nameOf: (sha256: string) => string,
	lines: Iterable<string>,
): PackedFile {
	const hash = createHash("sha256");
	const inside: string[] = [];
	let piece: string[] = [];
	let length = 0;
	const close = (): void => {
		const bytes = gzipSync(piece.join(""));
		hash.update(bytes);
		inside.push(bytes.toString("base64"));
		piece = [];
		length = 0;
	};
	for (const line of lines) {
		piece.push(line);
		length += line.length;
		if (length >= pieceLength) close();
	}
	if (length > 0 || inside.length === 0) close();
	const sha256 = hash.digest("hex");
	return { name: nameOf(sha256), sha256, inside };
}

/** The bytes of a file that is inside. */
export function bytesOf({ inside }: PackedFile): Uint8Array {
	return Buffer.concat(inside.map((piece) => Buffer.from(piece, "base64")));
}

/** The texts of its pieces, one at a time. */
export function* piecesOf({ inside }: PackedFile): Generator<string> {
	for (const piece of inside)
		yield gunzipSync(Buffer.from(piece, "base64")).toString("utf8");
}

/** The same, the last first. */
export function piecesFromTheEnd(file: PackedFile): Generator<string> {
	return piecesOf({ ...file, inside: [...file.inside].reverse() });
}

/** What a file adds to the text that it is inside of. */
export function lengthInside({ inside }: PackedFile): number {
	return inside.reduce((sum, piece) => sum + piece.length, 0);
}

/** The same file, to be found beside. */
export function beside(file: PackedFile): PackedFile {
	return { ...file, inside: [] };
}
