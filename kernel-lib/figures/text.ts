/** Advance widths of the printable ASCII characters, in thousandths of the type size, for Arial and the faces that share its metrics; measured in a browser on Liberation Sans. */
const regular = [
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278,
	278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584,
	584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556,
	833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278,
	278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222,
	500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500,
	500, 334, 260, 334, 584,
];
const bold = [
	278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278,
	278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584,
	584, 611, 975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611,
	833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333,
	278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278,
	556, 278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556,
	500, 389, 280, 389, 584,
];

/** A character's width; what the table does not hold is guessed on the wide side, so that boxes never come out too small. */
function characterWidth(character: string, table: readonly number[]): number {
	const code = character.codePointAt(0) ?? 32;
	if (code >= 32 && code < 127) return table[code - 32];
	// Shown as the replacement character.
	if (code < 32) return 1000;
	if (/\p{M}/u.test(character)) return 0;
	const base = character.normalize("NFD").charCodeAt(0);
	if (base >= 32 && base < 127) return table[base - 32];
	if (code >= 0x1100 || code === 0x2014 || code === 0x2026) return 1000;
	return code >= 0x400 && code < 0x530 ? 900 : 640;
}

/** Width in px of a text in the figures' typeface. */
export function textWidth(text: string, size: number, isBold = false): number {
	const table = isBold ? bold : regular;
	let width = 0;
	for (const character of text) width += characterWidth(character, table);
	return (width * size) / 1000;
}

/** The text, or as much of it as fits with an ellipsis. */
export function shortened(
	text: string,
	width: number,
	size: number,
	isBold = false,
): string {
	if (textWidth(text, size, isBold) <= width) return text;
	let kept = "";
	for (const character of text) {
		if (textWidth(`${kept}${character}…`, size, isBold) > width) break;
		kept += character;
	}
	return `${kept.trimEnd()}…`;
}

/** Breaks a text into lines no wider than `width`; words that are too wide alone are broken too. What does not fit into `most` lines ends in an ellipsis. */
export function wrapped(
	text: string,
	width: number,
	size: number,
	isBold = false,
	most = 20,
): string[] {
	const lines: string[] = [];
	let line = "";
	for (const word of text.split(/\s+/).filter((w) => w !== "")) {
		const joined = line === "" ? word : `${line} ${word}`;
		if (textWidth(joined, size, isBold) <= width) {
			line = joined;
			continue;
		}
		if (line !== "") lines.push(line);
		line = word;
		while (textWidth(line, size, isBold) > width) {
			let head = "";
			for (const character of line) {
				if (
					head !== "" &&
					textWidth(`${head}${character}`, size, isBold) > width
				)
					break;
				head += character;
			}
			if (head === line) break;
			lines.push(head);
			line = line.slice(head.length);
		}
	}
	if (line !== "") lines.push(line);
	if (lines.length <= most) return lines;
	const last = lines.slice(most - 1).join(" ");
	return [...lines.slice(0, most - 1), shortened(last, width, size, isBold)];
}

/** True where no word has to be broken to fit the width. */
export function wordsFit(text: string, width: number, size: number): boolean {
	return text.split(/\s+/).every((word) => textWidth(word, size) <= width);
}

/** Characters that XML 1.0 does not allow at all, escaped or not. */
const notXml =
	// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones to be removed
	/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text that is safe in XML content and attributes; what XML cannot hold becomes the replacement character. */
export function xmlText(text: string): string {
	return text
		.replace(notXml, "\ufffd")
		.replaceAll("&", "&amp;")
		.replaceAll("<", "&lt;")
		.replaceAll(">", "&gt;")
		.replaceAll('"', "&quot;")
		.replaceAll("'", "&#39;");
}
