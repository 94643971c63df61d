/** A text with its spelling evened out, and for each of its characters the place in the text as written. */
export interface Folded {
	readonly text: string;
	readonly from: readonly number[];
}

function letters(written: string): Folded {
	const text: string[] = [];
	const from: number[] = [];
	let at = 0;
	for (const character of written) {
		const plain = character
			.normalize("NFKD")
			.replaceAll(/\p{M}/gu, "")
			.toLowerCase()
			.replaceAll("ß", "ss");
		text.push(plain);
		for (let i = 0; i < plain.length; i++) from.push(at);
		at += character.length;
	}
	return { text: text.join(""), from };
}

function replaced(
	folded: Folded,
	pattern: RegExp,
	by: (match: RegExpExecArray) => string,
): Folded {
	let text = "";
	const from: number[] = [];
	let done = 0;
	const copy = (to: number): void => {
		text += folded.text.slice(done, to);
		for (let i = done; i < to; i++) from.push(folded.from[i]);
	};
	for (const match of folded.text.matchAll(pattern)) {
		copy(match.index);
		const instead = by(match);
		text += instead;
		for (let i = 0; i < instead.length; i++)
			from.push(folded.from[match.index]);
		done = match.index + match[0].length;
	}
	copy(folded.text.length);
	return { text, from };
}

const rules: readonly (readonly [
	RegExp,
	(match: RegExpExecArray) => string,
])[] = [
	[/['’ʼ`]/g, () => ""],
	// the raised dot of a hydrate, however it was typed
	[/\s*[·•*∙⋅]\s*/g, () => "."],
	// iron(III), iron (III)
	[/\s*\(\s*(i{1,3}|iv|v|vi{1,2})\s*\)\s*/g, ([, numeral]) => ` ${numeral} `],
	// potash(K2CO3) is two names, Ca(OH)2 is one
	[/(\p{L}{4})\(/gu, ([, word]) => `${word} (`],
	[/sulph/g, () => "sulf"],
	[/aluminum/g, () => "aluminium"],
	[/[\s_–—-]+/g, () => " "],
];

/**
 * Evens out what does not tell two substances apart: case, accents, subscripts, the dot of a hydrate, hyphens, "ph" for "f" in sulfur, brackets around the charge of a metal.
 */
export function fold(written: string): Folded {
	return rules.reduce(
		(folded, [pattern, by]) => replaced(folded, pattern, by),
		letters(written),
	);
}

/** The key under which a name is kept and looked up. */
export function nameKey(written: string): string {
	return fold(written).text.trim();
}
