import { textWidth } from "../../kernel-lib/figures/text";

// Reads a picture back, so that tests see what a reader sees and not what the code meant.

export interface ReadText {
	role: string;
	text: string;
	x: number;
	y: number;
	box: { left: number; top: number; right: number; bottom: number };
}

function unescaped(text: string): string {
	return text
		.replaceAll("&lt;", "<")
		.replaceAll("&gt;", ">")
		.replaceAll("&quot;", '"')
		.replaceAll("&#39;", "'")
		.replaceAll("&amp;", "&");
}

function attribute(tag: string, name: string): string {
	return new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1] ?? "";
}

/** Throws unless tags are balanced, attributes occur once each, and no bare "<" or unknown entity stands in a text. */
export function assertWellFormed(svg: string): void {
	const open: string[] = [];
	const pattern = /<(\/?)([a-z]+)((?: [a-zA-Z][a-zA-Z0-9-]*="[^"<]*")*)(\/?)>/g;
	let end = 0;
	for (let m = pattern.exec(svg); m; m = pattern.exec(svg)) {
		const between = svg.slice(end, m.index);
		if (/<|&(?!(?:lt|gt|quot|amp|#39);)/.test(between))
			throw new Error(`not XML: ${between.slice(0, 200)}`);
		end = m.index + m[0].length;
		const names = [...m[3].matchAll(/ ([a-zA-Z][a-zA-Z0-9-]*)="[^"]*"/g)].map(
			(a) => a[1],
		);
		if (new Set(names).size < names.length)
			throw new Error(`an attribute twice: ${m[0]}`);
		if (/&(?!(?:lt|gt|quot|amp|#39);)/.test(m[3]))
			throw new Error(`a bare ampersand: ${m[0]}`);
		if (m[1] === "/") {
			const last = open.pop();
			if (last !== m[2]) throw new Error(`</${m[2]}> closes <${last}>`);
		} else if (m[4] !== "/") open.push(m[2]);
	}
	if (open.length > 0 || end !== svg.length)
		throw new Error(`not closed: ${open.join(", ")}`);
}

export function readTexts(svg: string): ReadText[] {
	return [
		...svg.matchAll(/<text( [^>]*)>(?:<title>[^<]*<\/title>)?([^<]*)<\/text>/g),
	].map(([, tag, content]) => {
		const text = unescaped(content);
		const x = Number(attribute(tag, "x"));
		const y = Number(attribute(tag, "y"));
		const size = Number(attribute(tag, "font-size"));
		const width = textWidth(text, size, tag.includes("bold"));
		const anchor = attribute(tag, "text-anchor");
		const before =
			anchor === "end" ? width : anchor === "middle" ? width / 2 : 0;
		const box = tag.includes("rotate(-90")
			? {
					left: x - 0.75 * size,
					right: x + 0.2 * size,
					top: y + before - width,
					bottom: y + before,
				}
			: {
					left: x - before,
					right: x - before + width,
					top: y - 0.75 * size,
					bottom: y + 0.2 * size,
				};
		return { role: attribute(tag, "data-role"), text, x, y, box };
	});
}

/** Places of all points, in the order of the picture, with what they say on pointing at them. */
export function readPoints(
	svg: string,
): { x: number; y: number; hover: string }[] {
	return [
		...svg.matchAll(
			/<g class="mark point">(?:<title>([^<]*)<\/title>)?.*?<g transform="translate\(([-\d.]+) ([-\d.]+)\)">/g,
		),
	].map(([, hover, x, y]) => ({
		x: Number(x),
		y: Number(y),
		hover: unescaped(hover ?? ""),
	}));
}

/** From a tick's text back to its number. */
export function tickNumber(text: string): number {
	return Number(text.replace("−", "-"));
}
