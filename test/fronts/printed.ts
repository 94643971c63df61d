/** Reads back from a printed page how large its texts came out. */
import { inflateSync } from "node:zlib";

/** The contents of a PDF's pages; pictures, which have a scale of their own, are left out. */
function pageContents(pdf: Buffer): string[] {
	const file = pdf.toString("latin1");
	return [...file.matchAll(/stream\r?\n/g)].flatMap(({ index, 0: mark }) => {
		const from = index + mark.length;
		const to = file.indexOf("endstream", from);
		try {
			const text = inflateSync(pdf.subarray(from, to)).toString("latin1");
			// A page begins with the step from Chromium's 300 dots an inch to points.
			return /^\.2[34]\d* 0 0 -\.2[34]/.test(text) ? [text] : [];
		} catch {
			return [];
		}
	});
}

const tokens =
	/\bq\b|\bQ\b|(-?[\d.]+) -?[\d.]+ -?[\d.]+ -?[\d.]+ -?[\d.]+ -?[\d.]+ cm|\/F\d+ ([\d.]+) Tf|<([0-9A-Fa-f]+)>/g;

/** So many glyphs of each size, in points to a tenth. */
export function printedSizes(pdf: Buffer): Map<number, number> {
	const sizes = new Map<number, number>();
	for (const content of pageContents(pdf)) {
		let scale = 1;
		let size = 0;
		const outer: number[] = [];
		for (const [token, factor, font, glyphs] of content.matchAll(tokens)) {
			if (token === "q") outer.push(scale);
			else if (token === "Q") scale = outer.pop() ?? 1;
			else if (factor !== undefined) scale *= Math.abs(Number(factor));
			else if (font !== undefined) size = Number(font);
			else if (glyphs !== undefined) {
				const points = Math.round(10 * size * scale) / 10;
				sizes.set(points, (sizes.get(points) ?? 0) + glyphs.length / 4);
			}
		}
	}
	return sizes;
}
