import { type Checked, problem } from "../quantity";
import { atomicWeights } from "./atomic-weights";

/** Atoms of each element in a formula unit. */
export type Composition = Readonly<Record<string, number>>;

const subscripts = "₀₁₂₃₄₅₆₇₈₉";
const opening = "([{";
const closing = ")]}";

function fault<T>(formula: string, at: string, expected: string): Checked<T> {
	return {
		ok: false,
		problems: [
			problem(
				"formula-unreadable",
				{},
				`${at} in the formula "${formula}"`,
				expected,
				"Write it like K2Cr2O7, Ca(OH)2 or Na2S2O3·5H2O, with capital and small letters as in the periodic table.",
			),
		],
	};
}

/**
 * The composition of a formula: brackets of all three sorts, nested; hydrates and double salts after "·", "." or "*" with their number in front; charges at the end
 * are read and left out (an electron weighs 0.00055 g/mol).
 */
export function composition(formula: string): Checked<Composition> {
	const text = formula
		.trim()
		.replaceAll(/[₀-₉]/g, (digit) => String(subscripts.indexOf(digit)))
		.replace(/\^?\{?\d*[+−-]\}?$/u, (charge) =>
			// "SO4^2-" loses its charge; the 18 of "C16H18+" is not part of one.
			charge.startsWith("^") ? "" : charge.replace(/[+−-]$/u, ""),
		);
	if (text === "") return fault(formula, "nothing", "a chemical formula");
	const counts: Record<string, number> = {};
	for (const part of parts(text)) {
		const leading = /^\d+(?:\.\d+)?/.exec(part)?.[0] ?? "";
		const body = part.slice(leading.length);
		const read = readPart(formula, body, leading === "" ? 1 : Number(leading));
		if (!read.ok) return read;
		for (const [element, n] of Object.entries(read.value))
			counts[element] = (counts[element] ?? 0) + n;
	}
	return { ok: true, value: counts };
}

/** Splits at the dots of a hydrate. After a raised dot the number may be a fraction (CaSO4·0.5H2O); a full stop always separates. */
function parts(text: string): string[] {
	return /[·•*∙]/.test(text)
		? text.split(/\s*[·•*∙]\s*/)
		: text.split(/\s*\.\s*/);
}

type Counts = Record<string, number>;

function add(into: Counts, counts: Counts, times: number): void {
	for (const [element, n] of Object.entries(counts))
		into[element] = (into[element] ?? 0) + n * times;
}

/** An element, an opening or a closing bracket, with the number behind it; anything else is one character that is none of these. */
const token = /([A-Z][a-z]?)(\d*)|([([{])|([)\]}])(\d*)|./gsu;

/** The atoms between two dots of a formula. Each open bracket has counts of its own until it is closed. */
function readPart(
	formula: string,
	body: string,
	times: number,
): Checked<Composition> {
	if (body === "")
		return fault(formula, "an empty part", "a formula on both sides of a dot");
	const levels: Counts[] = [{}];
	const open: string[] = [];
	for (const match of body.matchAll(token)) {
		const [text, element, atoms, opens, closes, groups] = match;
		if (opens !== undefined) {
			levels.push({});
			open.push(opens);
		} else if (closes !== undefined) {
			const before = open.pop();
			if (
				before === undefined ||
				opening.indexOf(before) !== closing.indexOf(closes)
			)
				return fault(
					formula,
					`a "${closes}" at place ${match.index + 1}`,
					"an opening bracket of the same sort before it",
				);
			const inner = levels.pop() ?? {};
			add(levels[levels.length - 1], inner, numberOr1(groups));
		} else if (element !== undefined && Object.hasOwn(atomicWeights, element))
			add(levels[levels.length - 1], { [element]: 1 }, numberOr1(atoms));
		else
			return fault(
				formula,
				`"${element ?? text}"`,
				`an element on record: ${Object.keys(atomicWeights).join(", ")}`,
			);
	}
	if (open.length > 0)
		return fault(
			formula,
			`an open "${open[0]}"`,
			"as many closing brackets as opening ones",
		);
	const counts: Counts = {};
	add(counts, levels[0], times);
	return { ok: true, value: counts };
}

function numberOr1(digits: string): number {
	return digits === "" ? 1 : Number(digits);
}
