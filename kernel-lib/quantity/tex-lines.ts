/** Long formulas of a working, broken into lines: neither browsers nor paper break them by themselves. */

/** Widest line of a formula, in em. Our decision: behind its left side it fits an A4 page and the text column of a screen. */
export const widestLine = 34;

/** A stretch of a formula that a line is not broken in. */
interface Piece {
	readonly text: string;
	/** em. */
	readonly width: number;
	/** Brackets that are open before it, and after it. */
	readonly before: number;
	readonly after: number;
}

/** Where a group in braces that opens at `from` ends. */
function groupEnd(tex: string, from: number): number {
	let depth = 0;
	for (let i = from; i < tex.length; i++) {
		if (tex[i] === "\\") i += 1;
		else if (tex[i] === "{") depth += 1;
		else if (tex[i] === "}") depth -= 1;
		if (depth === 0) return i + 1;
	}
	return tex.length;
}

/** Something of a formula that stands as one: a command with its groups, an index, a character. */
interface Atom {
	readonly end: number;
	/** em, about: digits and letters take half an em. */
	readonly width: number;
	readonly opens: number;
}

const spaces: Readonly<Record<string, number>> = {
	",": 0.17,
	" ": 0.3,
	"!": 0,
	quad: 1,
	qquad: 2,
};

function commandAt(tex: string, from: number): Atom {
	const name = /^\\([a-zA-Z]+|.)/.exec(tex.slice(from))?.[1] ?? "";
	const start = from + 1 + name.length;
	if (name === "left" || name === "right")
		return { end: start + 1, width: 0.4, opens: name === "left" ? 1 : -1 };
	const groups: string[] = [];
	let end = start;
	while (tex[end] === "{") {
		const next = groupEnd(tex, end);
		groups.push(tex.slice(end + 1, next - 1));
		end = next;
	}
	if (groups.length === 0)
		return {
			end,
			width: spaces[name] ?? (name === "times" ? 1.2 : 0.6),
			opens: 0,
		};
	return { end, width: Math.max(...groups.map(texWidth)) + 0.1, opens: 0 };
}

function atomAt(tex: string, from: number): Atom {
	const character = tex[from];
	if (character === "\\") return commandAt(tex, from);
	if (character === "_" || character === "^") {
		const end = tex[from + 1] === "{" ? groupEnd(tex, from + 1) : from + 2;
		const width = 0.7 * texWidth(tex.slice(from + 1, end));
		return { end, width, opens: 0 };
	}
	if (character === "{") {
		const end = groupEnd(tex, from);
		return { end, width: texWidth(tex.slice(from + 1, end - 1)), opens: 0 };
	}
	const width = character === " " ? 0 : /[+\-−=]/.test(character) ? 1.2 : 0.5;
	return { end: from + 1, width, opens: 0 };
}

function texWidth(tex: string): number {
	let width = 0;
	for (let i = 0; i < tex.length; ) {
		const atom = atomAt(tex, i);
		width += atom.width;
		i = atom.end;
	}
	return width;
}

/** A sign that joins two terms. */
const sign = /^ (?:\+|-|\\times) /;

function piecesOf(tex: string): Piece[] {
	const pieces: Piece[] = [];
	let [start, width, before, depth] = [0, 0, 0, 0];
	const close = (end: number): void => {
		if (end === start) return;
		pieces.push({ text: tex.slice(start, end), width, before, after: depth });
		[start, width, before] = [end, 0, depth];
	};
	for (let i = 0; i < tex.length; ) {
		if (sign.test(tex.slice(i)) || (tex[i - 1] === "," && tex[i] === "\\"))
			close(i);
		const atom = atomAt(tex, i);
		width += atom.width;
		depth += atom.opens;
		i = atom.end;
	}
	close(tex.length);
	return pieces;
}

/** So many of the pieces for the next line: as many as fit, but ending where the fewest brackets are open, unless that leaves most of the line empty. */
function nextLine(pieces: readonly Piece[], widest: number): number {
	let width = 0;
	let best = 0;
	for (let n = 0; n < pieces.length; n++) {
		width += pieces[n].width;
		if (width > widest && n > 0) break;
		if (n === pieces.length - 1) return pieces.length;
		const isFuller =
			best === 0 ||
			pieces[n].after <= pieces[best - 1].after ||
			widthOf(pieces.slice(0, best)) < widest / 2;
		if (isFuller) best = n + 1;
	}
	return best;
}

function widthOf(pieces: readonly Piece[]): number {
	return pieces.reduce((sum, p) => sum + p.width, 0);
}

/**
 * A formula in lines no wider than `widest`, as far as it can be broken: before signs and behind commas, if need be within brackets, of which those that stay open are closed invisibly at the end of a
 * line and opened again on the next.
 */
export function texLines(tex: string, widest = widestLine): string[] {
	const lines: string[] = [];
	let rest = piecesOf(tex);
	while (rest.length > 0) {
		const line = rest.slice(0, nextLine(rest, widest));
		rest = rest.slice(line.length);
		const text = line.map((p) => p.text).join("");
		lines.push(
			`${"\\left.".repeat(line[0].before)}${lines.length === 0 ? "" : "{}"}${text.trim()}${"\\right.".repeat(line[line.length - 1].after)}`,
		);
	}
	return lines;
}
