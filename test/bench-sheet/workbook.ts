/** A workbook (.xlsx) from its XML parts, laid out as spreadsheets lay theirs out: shared strings, styles, relations. Written by hand from ECMA-376, without a spreadsheet library. */
import { crc32, deflateRawSync } from "node:zlib";

/** Formats of cells, by their place in styles.xml. */
export const style = { general: 0, date: 1, percent: 2, stamp: 3, own: 4 };

const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const relations =
	"http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const packages = "http://schemas.openxmlformats.org/package/2006/relationships";
const types = "application/vnd.openxmlformats-officedocument.spreadsheetml";

const styles = `${head}<styleSheet xmlns="${main}"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd;@"/></numFmts><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="1"><fill><patternFill patternType="none"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf numFmtId="0"/></cellStyleXfs><cellXfs count="5">${[0, 14, 10, 22, 164].map((n) => `<xf numFmtId="${n}" fontId="0" fillId="0" borderId="0" xfId="0"${n === 0 ? "" : ' applyNumberFormat="1"'}/>`).join("")}</cellXfs></styleSheet>`;

export interface SheetPart {
	readonly name: string;
	/** The cells of each row, as XML; `at` is the name of the cell, A1. */
	readonly rows: readonly (readonly ((at: string) => string)[])[];
	readonly hidden?: boolean;
	/** Ranges, such as A2:A3. */
	readonly merged?: readonly string[];
}

const escaped = (text: string): string =>
	text.replace(/[&<>]/g, (c) => `&#${c.charCodeAt(0)};`);

/** Cells of every kind that spreadsheets write. */
export const cell = {
	number:
		(value: number, format = 0) =>
		(at: string): string =>
			`<c r="${at}" s="${format}"><v>${value}</v></c>`,
	shared:
		(index: number) =>
		(at: string): string =>
			`<c r="${at}" t="s"><v>${index}</v></c>`,
	inline:
		(text: string) =>
		(at: string): string =>
			`<c r="${at}" t="inlineStr"><is><t xml:space="preserve">${escaped(text)}</t></is></c>`,
	truth:
		(value: boolean) =>
		(at: string): string =>
			`<c r="${at}" t="b"><v>${value ? 1 : 0}</v></c>`,
	error:
		(code: string) =>
		(at: string): string =>
			`<c r="${at}" t="e"><v>${code}</v></c>`,
	formula:
		(formula: string, value: number | string) =>
		(at: string): string =>
			`<c r="${at}"${typeof value === "string" ? ' t="str"' : ""}><f>${escaped(formula)}</f><v>${value}</v></c>`,
	empty: () => (): string => "",
	/** Formatted, and nothing in it. */
	blank:
		() =>
		(at: string): string =>
			`<c r="${at}" s="1"/>`,
};

/** A shared string; several runs where its letters are not formatted alike. */
export type SharedText = string | readonly string[];

function sharedStrings(texts: readonly SharedText[]): string {
	const run = (text: string): string =>
		`<t xml:space="preserve">${escaped(text)}</t>`;
	return `${head}<sst xmlns="${main}" count="${texts.length}" uniqueCount="${texts.length}">${texts
		.map((text) =>
			typeof text === "string"
				? `<si>${run(text)}</si>`
				: `<si>${text.map((t, i) => `<r><rPr>${i % 2 ? "<b/>" : ""}<sz val="11"/></rPr>${run(t)}</r>`).join("")}</si>`,
		)
		.join("")}</sst>`;
}

function worksheet({ rows, merged = [] }: SheetPart): string {
	const body = rows
		.map(
			(cells, r) =>
				`<row r="${r + 1}" spans="1:${cells.length}">${cells.map((c, k) => c(`${String.fromCharCode(65 + k)}${r + 1}`)).join("")}</row>`,
		)
		.join("");
	const merges =
		merged.length === 0
			? ""
			: `<mergeCells count="${merged.length}">${merged.map((m) => `<mergeCell ref="${m}"/>`).join("")}</mergeCells>`;
	return `${head}<worksheet xmlns="${main}" xmlns:r="${relations}"><sheetViews><sheetView workbookViewId="0"/></sheetViews><sheetData>${body}</sheetData>${merges}</worksheet>`;
}

/** The bytes of a workbook. */
export function workbook(
	sheets: readonly SheetPart[],
	{
		texts = [],
		date1904 = false,
	}: {
		readonly texts?: readonly SharedText[];
		readonly date1904?: boolean;
	} = {},
): Buffer {
	const sheetRelations = sheets.map(
		(_, i) =>
			`<Relationship Id="rId${i + 1}" Type="${relations}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`,
	);
	return archiveOf({
		"[Content_Types].xml": `${head}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${types}.sheet.main+xml"/>${sheets.map((_, i) => `<Override PartName="/xl/worksheets/sheet${i + 1}.xml" ContentType="${types}.worksheet+xml"/>`).join("")}<Override PartName="/xl/styles.xml" ContentType="${types}.styles+xml"/><Override PartName="/xl/sharedStrings.xml" ContentType="${types}.sharedStrings+xml"/></Types>`,
		"_rels/.rels": `${head}<Relationships xmlns="${packages}"><Relationship Id="rId1" Type="${relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml": `${head}<workbook xmlns="${main}" xmlns:r="${relations}"><workbookPr${date1904 ? ' date1904="1"' : ""} defaultThemeVersion="124226"/><sheets>${sheets.map(({ name, hidden }, i) => `<sheet name="${escaped(name)}" sheetId="${i + 1}"${hidden ? ' state="hidden"' : ""} r:id="rId${i + 1}"/>`).join("")}</sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `${head}<Relationships xmlns="${packages}">${sheetRelations.join("")}<Relationship Id="rId${sheets.length + 1}" Type="${relations}/styles" Target="styles.xml"/><Relationship Id="rId${sheets.length + 2}" Type="${relations}/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
		"xl/styles.xml": styles,
		"xl/sharedStrings.xml": sharedStrings(texts),
		...Object.fromEntries(
			sheets.map((sheet, i) => [
				`xl/worksheets/sheet${i + 1}.xml`,
				worksheet(sheet),
			]),
		),
	});
}

/** A zip archive of these files, by APPNOTE.TXT of PKWARE. */
function archiveOf(files: Readonly<Record<string, string>>): Buffer {
	const bodies: Buffer[] = [];
	const entries: Buffer[] = [];
	let at = 0;
	for (const [name, text] of Object.entries(files)) {
		const content = Buffer.from(text, "utf8");
		const packed = deflateRawSync(content);
		// version needed, flags, method, time, date, checksum, sizes, length of the name, no extra field
		const common = Buffer.alloc(26);
		common.writeUInt16LE(20, 0);
		common.writeUInt16LE(8, 4);
		common.writeUInt32LE(crc32(content), 10);
		common.writeUInt32LE(packed.length, 14);
		common.writeUInt32LE(content.length, 18);
		common.writeUInt16LE(Buffer.byteLength(name), 22);
		const body = Buffer.concat([
			Buffer.from("PK\u0003\u0004"),
			common,
			Buffer.from(name),
			packed,
		]);
		const rest = Buffer.alloc(14);
		rest.writeUInt32LE(at, 10);
		entries.push(
			Buffer.concat([
				Buffer.from("PK\u0001\u0002"),
				Buffer.from([20, 0]),
				common,
				rest,
				Buffer.from(name),
			]),
		);
		bodies.push(body);
		at += body.length;
	}
	const list = Buffer.concat(entries);
	const end = Buffer.alloc(18);
	end.writeUInt16LE(entries.length, 4);
	end.writeUInt16LE(entries.length, 6);
	end.writeUInt32LE(list.length, 8);
	end.writeUInt32LE(at, 12);
	return Buffer.concat([...bodies, list, Buffer.from("PK\u0005\u0006"), end]);
}
