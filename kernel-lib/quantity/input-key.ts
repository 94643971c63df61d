import type { Input, Source } from "./source";

/** What a key is made of. */
interface Described {
	readonly symbol: string;
	readonly meaning: string;
	readonly source: Source;
	readonly component: string;
	readonly computedFrom: string;
}

/** What the key of a computed number begins with. */
const computed = "computed|";
const valueAlone = "value alone|";

/**
 * The key by which an error is known in a session: inputs with one key are one error. A reading is known by its cell; a number with a source and a symbol by these and its digits; a
 * number that was typed in without them by itself alone, so that two that look alike are two.
 *
 * @param known whether it has a source and a symbol
 * @param written value and unit
 */
export function keyOf(
	{ symbol, meaning, source, component, computedFrom }: Described,
	known: boolean,
	written: string,
	uncertainty: number,
): string {
	// join() makes one flat text; a template keeps every piece of it alive, a third of the memory of a large sheet.
	if (source.is === "cell")
		return [
			source.hash,
			source.sheet,
			source.row,
			source.column,
			component,
		].join("|");
	return [
		computedFrom === "" ? "written" : `${computed}${computedFrom}`,
		source.source,
		symbol,
		...(known ? [] : [meaning]),
		component,
		known ? written : `${written}, ${nextTyped()}`,
		uncertainty,
	].join("|");
}

let typed = 0;
/** Only tells apart what is in memory at one time; no id is made of it. */
function nextTyped(): number {
	typed += 1;
	return typed;
}

/** The key of the value of an input without its error. */
export function keyOfValueAlone(key: string): string {
	return `${valueAlone}${key}`;
}

/** Significant digits of a written number that count in an id: as many as people write, and none of those that arithmetic leaves behind; a decision of ours. */
const writtenDigits = 6;

function asWritten(x: number): number {
	return Number(x.toPrecision(writtenDigits));
}

/**
 * What ids are made of, the same in every run and on every machine: the cell that was read, or what was written about a number that stands in none. A computed number is known by what it
 * was computed from, without its digits.
 *
 * @param base the value of the input in base units
 */
export function identityOf(input: Input, base: number): string {
	if (input.source.is === "cell") return input.key;
	// Without the two last parts, which are digits (and how many were typed in before).
	const described = input.key.split("|").slice(0, -2).join("|");
	const own = input.key.startsWith(valueAlone)
		? input.key.slice(valueAlone.length)
		: input.key;
	return own.startsWith(computed)
		? described
		: [
				described,
				asWritten(base),
				input.distribution,
				asWritten(input.uncertainty),
			].join("|");
}
