/** Looks into a workbook (a zip archive) before it is unpacked, so that a small file cannot take all memory. */
import { inflateRawSync } from "node:zlib";

/** A file in the archive. */
interface Entry {
	readonly name: string;
	readonly method: number;
	readonly packed: number;
	readonly unpacked: number;
	/** Where its own header begins. */
	readonly at: number;
}

/** What a workbook may hold unpacked, bytes: 10,000 rows of forty columns are some 25 MB. Our decision. */
export const mostUnpacked = 80_000_000;

const endMark = 0x06054b50;
const entryMark = 0x02014b50;

/** The list of files at the end of an archive; none where it is damaged, which the reader then says. */
function entriesOf(bytes: Buffer): Entry[] {
	const end = bytes.lastIndexOf(
		Buffer.from([0x50, 0x4b, 0x05, 0x06]),
		bytes.length,
	);
	if (end < 0 || bytes.readUInt32LE(end) !== endMark || end + 22 > bytes.length)
		return [];
	const count = bytes.readUInt16LE(end + 10);
	let at = bytes.readUInt32LE(end + 16);
	const entries: Entry[] = [];
	for (let i = 0; i < count && at + 46 <= bytes.length; i++) {
		if (bytes.readUInt32LE(at) !== entryMark) break;
		const name = bytes.readUInt16LE(at + 28);
		entries.push({
			name: bytes.toString("utf8", at + 46, at + 46 + name),
			method: bytes.readUInt16LE(at + 10),
			packed: bytes.readUInt32LE(at + 20),
			unpacked: bytes.readUInt32LE(at + 24),
			at: bytes.readUInt32LE(at + 42),
		});
		at += 46 + name + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
	}
	return entries;
}

/** Whether a file unpacks to no more than the archive says. */
function keepsItsWord(bytes: Buffer, entry: Entry): boolean {
	if (entry.method !== 8 || entry.at + 30 > bytes.length) return true;
	const from =
		entry.at +
		30 +
		bytes.readUInt16LE(entry.at + 26) +
		bytes.readUInt16LE(entry.at + 28);
	try {
		inflateRawSync(bytes.subarray(from, from + entry.packed), {
			maxOutputLength: Math.max(1, entry.unpacked),
		});
		return true;
	} catch (error) {
		// Damage of another kind is the reader's to tell.
		return (
			(error as { readonly code?: string }).code !== "ERR_BUFFER_TOO_LARGE"
		);
	}
}

/** Why a workbook is not unpacked, as what was found in it; "" where it may be. */
export function tooMuchInWorkbook(content: Uint8Array): string {
	const bytes = Buffer.from(
		content.buffer,
		content.byteOffset,
		content.byteLength,
	);
	const entries = entriesOf(bytes);
	const unpacked = entries.reduce((sum, e) => sum + e.unpacked, 0);
	if (unpacked > mostUnpacked)
		return `a workbook that unpacks to ${Math.round(unpacked / 1e6)} MB`;
	const liar = entries.find((e) => !keepsItsWord(bytes, e));
	return liar === undefined
		? ""
		: `a workbook whose part "${liar.name}" holds more than it says`;
}
