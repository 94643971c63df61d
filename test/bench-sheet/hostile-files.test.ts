/** Files made to take memory or time: refused before they are unpacked, in a sentence. */
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflateRawSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { checkTrial } from "../../kernel-lib/bench";
import {
	mostUnpacked,
	tooMuchInWorkbook,
} from "../../kernel-lib/bench/workbook-size";
import { problemText } from "../../kernel-lib/quantity";

const xlsx = createRequire(import.meta.url)("xlsx") as typeof import("xlsx");
let folder = "";
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), "hostile-files-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const told = (name: string, content: Uint8Array): string => {
	const path = join(folder, name);
	writeFileSync(path, content);
	const checked = checkTrial(path);
	if (checked.ok) throw new Error("It was read.");
	return checked.problems.map(problemText).join("\n");
};

/** An archive of one file that claims to hold so many bytes. */
function archive(name: string, content: Buffer, claimed: number): Buffer {
	const packed = deflateRawSync(content);
	const own = Buffer.alloc(30);
	own.writeUInt32LE(0x04034b50, 0);
	own.writeUInt16LE(8, 8);
	own.writeUInt32LE(packed.length, 18);
	own.writeUInt32LE(claimed, 22);
	own.writeUInt16LE(name.length, 26);
	const entry = Buffer.alloc(46);
	entry.writeUInt32LE(0x02014b50, 0);
	entry.writeUInt16LE(8, 10);
	entry.writeUInt32LE(packed.length, 20);
	entry.writeUInt32LE(claimed, 24);
	entry.writeUInt16LE(name.length, 28);
	const title = Buffer.from(name);
	const body = Buffer.concat([own, title, packed]);
	const end = Buffer.alloc(22);
	end.writeUInt32LE(0x06054b50, 0);
	end.writeUInt16LE(1, 8);
	end.writeUInt16LE(1, 10);
	end.writeUInt32LE(entry.length + title.length, 12);
	end.writeUInt32LE(body.length, 16);
	return Buffer.concat([body, entry, title, end]);
}

describe("workbooks", () => {
	test("one that unpacks to more than a sheet holds", () => {
		const small = Buffer.from("x");
		expect(tooMuchInWorkbook(archive("a.xml", small, mostUnpacked))).toBe("");
		expect(
			told("big.xlsx", archive("a.xml", small, mostUnpacked + 1)),
		).toContain("a workbook that unpacks to 80 MB");
	});
	test("one that holds more than it says", () => {
		const content = Buffer.alloc(5_000_000, 0x20);
		expect(tooMuchInWorkbook(archive("a.xml", content, content.length))).toBe(
			"",
		);
		expect(told("liar.xlsx", archive("a.xml", content, 1000))).toContain(
			'a workbook whose part "a.xml" holds more than it says',
		);
	});
	test("one that claims a million rows is read by the cells that are there", () => {
		const book = xlsx.utils.book_new();
		xlsx.utils.book_append_sheet(
			book,
			xlsx.utils.aoa_to_sheet([
				["flask", "treatment"],
				["1", "a"],
			]),
			"flasks",
		);
		const files = xlsx.CFB.read(xlsx.write(book, { type: "buffer" }), {
			type: "buffer",
		});
		const part = xlsx.CFB.find(files, "/xl/worksheets/sheet1.xml");
		if (part === null) throw new Error("no sheet");
		const text = Buffer.from(part.content as Uint8Array).toString();
		expect(text).toContain('ref="A1:B2"');
		part.content = Buffer.from(text.replace("A1:B2", "A1:XFD1048576")) as never;
		const claims = xlsx.CFB.write(files, { type: "buffer", fileType: "zip" });
		expect(told("claim.xlsx", claims as never)).toContain("char mass");
	});
	test("too many columns, and a cell that holds a book", () => {
		const of = (rows: unknown[][]): Buffer => {
			const book = xlsx.utils.book_new();
			xlsx.utils.book_append_sheet(
				book,
				xlsx.utils.aoa_to_sheet(rows),
				"flasks",
			);
			return xlsx.write(book, { type: "buffer" });
		};
		expect(
			told("wide.xlsx", of([Array.from({ length: 1001 }, (_, i) => `c${i}`)])),
		).toContain('1001 columns in the sheet "flasks"');
	});
});

test("a text of more megabytes than a sheet has is not read", () => {
	const path = join(folder, "heavy.csv");
	writeFileSync(path, "flask,treatment\n");
	truncateSync(path, 50_000_001);
	const checked = checkTrial(path);
	expect(checked.ok ? "" : problemText(checked.problems[0])).toContain(
		"a file of 50 MB, more than a bench sheet has (50 MB)",
	);
});
