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

function readPart(
	formula: string,
	body: string,
	times: number,
): Checked<Composition> {
	const levels: Record<string, number>[] = [{}];
	const brackets: string[] = [];
	let i = 0;
	const count = (): number => {
		const digits = /^\d+/.exec(body.slice(i))?.[0] ?? "";
		i += digits.length;
		return digits === "" ? 1 : Number(digits);
	};
	const put = (into: Record<string, number>, element: string, n: number) => {
		into[element] = (into[element] ?? 0) + n;
	};
	if (body === "")
		return fault(formula, "an empty part", "a formula on both sides of a dot");
	while (i < body.length) {
		const c = body[i];
		if (opening.includes(c)) {
			levels.push({});
			brackets.push(c);
			i += 1;
		} else if (closing.includes(c)) {
			const open = brackets.pop() ?? "";
			if (open === "" || opening.indexOf(open) !== closing.indexOf(c))
				return fault(
					formula,
					`a "${c}" at place ${i + 1}`,
					"an opening bracket of the same sort before it",
				);
			i += 1;
			const n = count();
			const inner = levels.pop() ?? {};
			for (const [element, k] of Object.entries(inner))
				put(levels[levels.length - 1], element, k * n);
		} else {
			const element = /^[A-Z][a-z]?/.exec(body.slice(i))?.[0] ?? "";
			if (!Object.hasOwn(atomicWeights, element))
				return fault(
					formula,
					`"${element === "" ? c : element}"`,
					`an element on record: ${Object.keys(atomicWeights).join(", ")}`,
				);
			i += element.length;
			put(levels[levels.length - 1], element, count());
		}
	}
	if (brackets.length > 0)
		return fault(
			formula,
			`an open "${brackets[0]}"`,
			"as many closing brackets as opening ones",
		);
	return {
		ok: true,
		value: Object.fromEntries(
			Object.entries(levels[0]).map(([element, n]) => [element, n * times]),
		),
	};
}
