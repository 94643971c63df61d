import {
	decimalsFor,
	fixedDigits,
	plainDigits,
	plainNumber,
	unitText,
} from "./format";
import type { Kind } from "./kinds";
import type { QuantityNode } from "./quantity";

/**
 * A formula as people write it: products and quotients gathered into one fraction, sums and differences into one row of terms. It ends at what has a name of
 * its own (a step of the working) or was not computed (an input); unnamed intermediate results are folded in.
 */
export type Expression =
	| { readonly is: "leaf"; readonly node: QuantityNode }
	| {
			readonly is: "fraction";
			/** Exact number in front; its denominator is `divisor`. */
			readonly factor: number;
			readonly divisor: number;
			readonly over: readonly Expression[];
			readonly under: readonly Expression[];
	  }
	| { readonly is: "sum"; readonly terms: readonly SignedTerm[] }
	| { readonly is: "mean"; readonly of: readonly Expression[] }
	| {
			readonly is: "power";
			readonly of: Expression;
			readonly exponent: number;
	  }
	| {
			readonly is: "function";
			/** "ln", "exp", "cos", "sin" or the name of a function of one's own. */
			readonly name: string;
			readonly of: Expression;
	  };

interface SignedTerm {
	readonly sign: 1 | -1;
	readonly term: Expression;
}

type Fraction = Extract<Expression, { is: "fraction" }>;

export function isNamed(node: QuantityNode): boolean {
	return node.name.symbol !== "" || node.name.meaning !== "";
}

/** Steps and inputs: what the ledger gives a row of its own. */
export function isStep(node: QuantityNode): boolean {
	return node.operation === null || isNamed(node);
}

/** An exact number without unit or name is written as the number it is. */
function isPlainNumber(node: QuantityNode): boolean {
	return (
		node.input !== null &&
		node.input.uncertainty === 0 &&
		node.kind === "ratio" &&
		node.name.symbol === ""
	);
}

function fractionOf(e: Expression): Fraction {
	if (e.is === "fraction") return e;
	if (e.is === "leaf" && isPlainNumber(e.node))
		return {
			is: "fraction",
			factor: e.node.base,
			divisor: 1,
			over: [],
			under: [],
		};
	return { is: "fraction", factor: 1, divisor: 1, over: [e], under: [] };
}

function greatestCommonDivisor(a: number, b: number): number {
	return b === 0 ? a : greatestCommonDivisor(b, a % b);
}

function simplest(f: Fraction): Expression {
	let { factor, divisor } = f;
	if (divisor < 0) [factor, divisor] = [-factor, -divisor];
	if (Number.isSafeInteger(factor) && Number.isSafeInteger(divisor)) {
		const common = greatestCommonDivisor(Math.abs(factor), divisor) || 1;
		factor /= common;
		divisor /= common;
	} else if (!Number.isInteger(divisor)) {
		factor /= divisor;
		divisor = 1;
	}
	if (
		factor === 1 &&
		divisor === 1 &&
		f.over.length === 1 &&
		f.under.length === 0
	)
		return f.over[0];
	return { ...f, factor, divisor };
}

function productOf(a: Fraction, b: Fraction): Expression {
	return simplest({
		is: "fraction",
		factor: a.factor * b.factor,
		divisor: a.divisor * b.divisor,
		over: [...a.over, ...b.over],
		under: [...a.under, ...b.under],
	});
}

function inverse(a: Fraction): Fraction {
	return {
		is: "fraction",
		factor: a.divisor,
		divisor: a.factor,
		over: a.under,
		under: a.over,
	};
}

/** 0.5 is written as 1/2: a factor whose inverse is a whole number goes under the line. */
function exactFactor(value: number): Fraction {
	const inverted = Math.round(1 / value);
	const whole =
		!Number.isInteger(value) &&
		Math.abs(inverted) <= 1e6 &&
		Math.abs(value * inverted - 1) < 1e-14;
	return {
		is: "fraction",
		factor: whole ? 1 : value,
		divisor: whole ? inverted : 1,
		over: [],
		under: [],
	};
}

function termsOf(e: Expression, sign: 1 | -1): SignedTerm[] {
	if (e.is === "sum")
		return e.terms.map((t) => ({
			sign: (t.sign * sign) as 1 | -1,
			term: t.term,
		}));
	if (e.is === "fraction" && e.factor < 0)
		return [
			{
				sign: -sign as 1 | -1,
				term: simplest({ ...e, factor: -e.factor }),
			},
		];
	return [{ sign, term: e }];
}

/** The formula of one step, down to the next named steps and inputs. */
export function expressionOf(root: QuantityNode): Expression {
	const expand = (node: QuantityNode): Expression => {
		if (node !== root && isStep(node)) return { is: "leaf", node };
		const x = node.operands.map(expand);
		switch (node.operation?.id) {
			case "sum":
				return { is: "sum", terms: x.flatMap((e) => termsOf(e, 1)) };
			case "difference":
				return {
					is: "sum",
					terms: [...termsOf(x[0], 1), ...termsOf(x[1], -1)],
				};
			case "product":
				return productOf(fractionOf(x[0]), fractionOf(x[1]));
			case "quotient":
				return productOf(fractionOf(x[0]), inverse(fractionOf(x[1])));
			case "scaling":
				return productOf(exactFactor(node.parameter), fractionOf(x[0]));
			case "average":
				return { is: "mean", of: x };
			case "power":
				return { is: "power", of: x[0], exponent: node.parameter };
			case "logarithm":
				return { is: "function", name: "ln", of: x[0] };
			case "exponential":
				return { is: "function", name: "exp", of: x[0] };
			case "cosine":
				return { is: "function", name: "cos", of: x[0] };
			case "sine":
				return { is: "function", name: "sin", of: x[0] };
			default:
				// A function of one's own, known by its name.
				return {
					is: "function",
					name: node.operation?.id ?? "",
					of: x[0],
				};
		}
	};
	return root.operation === null ? { is: "leaf", node: root } : expand(root);
}

/** The steps and inputs that a formula uses, each once, in the order of their appearance. */
export function leavesOf(e: Expression): readonly QuantityNode[] {
	const found = new Set<QuantityNode>();
	const walk = (part: Expression): void => {
		switch (part.is) {
			case "leaf":
				found.add(part.node);
				break;
			case "fraction":
				for (const p of [...part.over, ...part.under]) walk(p);
				break;
			case "sum":
				for (const t of part.terms) walk(t.term);
				break;
			case "mean":
				for (const p of part.of) walk(p);
				break;
			default:
				walk(part.of);
		}
	};
	walk(e);
	return [...found];
}

/** A way of setting formulas: plain text or LaTeX. */
interface Setting {
	readonly times: string;
	readonly minus: string;
	readonly dots: string;
	number(value: number): string;
	bracket(text: string): string;
	fraction(over: string, under: string, underIsOne: boolean): string;
	mean(of: readonly string[]): string;
	power(of: string, exponent: string): string;
	call(name: string, of: string): string;
}

const plain: Setting = {
	times: " × ",
	minus: "−",
	dots: "…",
	number: plainNumber,
	bracket: (text) => `(${text})`,
	fraction: (over, under, single) =>
		`${over} / ${single ? under : `(${under})`}`,
	mean: (of) => `mean(${of.join(", ")})`,
	power: (of, exponent) => `${of}^${exponent}`,
	call: (name, of) => `${name}(${of})`,
};

/** A bare number as LaTeX. */
export function latexNumber(value: number): string {
	const [digits, exponent] = plainDigits(value).split("e");
	return exponent === undefined
		? digits
		: `${digits} \\times 10^{${Number(exponent)}}`;
}

const latex: Setting = {
	times: " \\times ",
	minus: "-",
	dots: "\\dots",
	number: latexNumber,
	bracket: (text) => `\\left(${text}\\right)`,
	fraction: (over, under) => `\\frac{${over}}{${under}}`,
	mean: (of) => `\\operatorname{mean}\\left(${of.join(",\\ ")}\\right)`,
	power: (of, exponent) => `${of}^{${exponent}}`,
	call: (name, of) =>
		`${["ln", "exp", "cos", "sin"].includes(name) ? `\\${name}` : latexText(name)}\\left(${of}\\right)`,
};

/** Long rows are shortened in the middle: a mean of thirty readings is not spelled out. */
function shortened<T>(items: readonly T[], middle: T): readonly T[] {
	return items.length <= 8
		? items
		: [items[0], items[1], middle, items[items.length - 1]];
}

function startsWithMinus(text: string): boolean {
	return text.startsWith("-") || text.startsWith("−");
}

function render(
	e: Expression,
	set: Setting,
	leaf: (node: QuantityNode) => string,
): string {
	const text = (part: Expression): string => {
		switch (part.is) {
			case "leaf":
				return leaf(part.node);
			case "sum":
				return shortened(part.terms.map(signed), ` + ${set.dots}`).join("");
			case "fraction":
				return fractionText(part);
			case "mean":
				return set.mean(shortened(part.of.map(text), set.dots));
			case "power":
				return set.power(
					part.of.is === "leaf" && !/\s/.test(text(part.of))
						? text(part.of)
						: set.bracket(text(part.of)),
					set.number(part.exponent),
				);
			case "function":
				return set.call(part.name, text(part.of));
		}
	};
	const signed = ({ sign, term }: SignedTerm, i: number): string => {
		const word = text(term);
		const body =
			startsWithMinus(word) && (i > 0 || sign < 0) ? set.bracket(word) : word;
		if (i === 0) return sign < 0 ? `${set.minus}${body}` : body;
		return sign < 0 ? ` ${set.minus} ${body}` : ` + ${body}`;
	};
	/** A sum or a negative number needs a bracket beside a times sign, and above or below a slash; not alone above or below a fraction line. */
	const factor = (part: Expression, alone: boolean): string => {
		const word = text(part);
		const loose = part.is === "sum" || startsWithMinus(word);
		return loose && !(alone && set === latex) ? set.bracket(word) : word;
	};
	const fractionText = (part: Fraction): string => {
		const side = (exact: number, factors: readonly Expression[]): string[] => {
			const alone = factors.length === 1 && exact === 1;
			const words = factors.map((p) => factor(p, alone));
			return exact !== 1 || factors.length === 0
				? [set.number(exact), ...words]
				: words;
		};
		const over = side(part.factor, part.over);
		if (part.under.length === 0 && part.divisor === 1)
			return over.join(set.times);
		const under = side(part.divisor, part.under);
		return set.fraction(
			over.join(set.times),
			under.join(set.times),
			under.length === 1,
		);
	};
	return text(e);
}

const letters: Partial<Record<Kind, string>> = {
	mass: "m",
	volume: "V",
	amount: "n",
	concentration: "c",
	normality: "N",
	massConcentration: "γ",
	density: "ρ",
	molarMass: "M",
	uptake: "q",
	temperature: "T",
	time: "t",
	length: "l",
	absorbance: "A",
};

/** The symbol of a step or input; where nobody gave one, a letter for its kind and the row it was read from. */
export function symbolOf(node: QuantityNode): string {
	if (node.name.symbol !== "") return node.name.symbol;
	const letter = letters[node.kind] ?? "x";
	return node.input?.source.is === "cell"
		? `${letter}_{row ${node.input.source.row}}`
		: letter;
}

/** "V_{end}" as "V_end". */
export function plainSymbol(symbol: string): string {
	return symbol
		.replaceAll(/\\(?:mathrm|text|operatorname)/g, "")
		.replaceAll(/\\Delta\s*/g, "Δ")
		.replaceAll(/\\delta\s*/g, "δ")
		.replaceAll(/\\rho\s*/g, "ρ")
		.replaceAll(/[{}\\]/g, "");
}

function latexText(text: string): string {
	const escaped = text
		.replaceAll("\\", "\\textbackslash ")
		.replaceAll(/[#$%&_{}]/g, "\\$&")
		.replaceAll("~", "\\textasciitilde ")
		.replaceAll("^", "\\textasciicircum ");
	return `\\text{${escaped}}`;
}

/** A symbol as LaTeX: one letter slanted, words upright, an index upright. */
export function latexSymbol(symbol: string): string {
	const text = symbol
		.replaceAll(/\\(?:text|mathrm)\{([^{}]*)\}/g, "$1")
		.replaceAll("\\delta", "δ")
		.replaceAll("\\Delta", "Δ")
		.replaceAll("\\rho", "ρ");
	const parts = /^([^_]+?)(?:_\{([^{}]*)\}|_([^{}_]+))?$/u.exec(text);
	if (parts === null || text.includes("\\")) return latexText(text);
	const [, base, braced, bare] = parts;
	const index = braced ?? bare ?? "";
	const head = /^\p{L}$/u.test(base)
		? base
		: /^[δΔ] ?\p{L}$/u.test(base)
			? `${base[0]} ${base.at(-1)}`
			: latexText(base);
	return index === "" ? head : `${head}_{${latexText(index)}}`;
}

/** A unit as LaTeX, with a thin space before it; "" where there is none. */
export function latexUnit(unit: string): string {
	const text = unitText(unit).trim();
	return text === "" ? "" : `\\,${latexText(text)}`;
}

function shownSymbol(node: QuantityNode): boolean {
	return (
		node.name.symbol !== "" || node.input === null || node.input.uncertainty > 0
	);
}

/** Digits that a number is shown with inside a formula: a reading to the place that it was read to, a computed step with one guard digit more than its result shows. */
export function shownNumber(node: QuantityNode): string {
	const u = node.standardUncertainty;
	const full = plainDigits(node.value);
	if (!(u > 0) || full.includes("e")) return full;
	const written = full.split(".")[1]?.length ?? 0;
	return fixedDigits(
		node.value,
		node.operation === null
			? Math.max(written, decimalsFor(u) - 1)
			: Math.max(0, decimalsFor(u) + 1),
	);
}

/** A correction whose best value is zero: it carries an uncertainty and adds nothing to the number. */
export function isZeroCorrection(node: QuantityNode): boolean {
	if (node.base !== 0) return false;
	return node.input !== null
		? node.input.uncertainty > 0
		: !isNamed(node) &&
				node.operation?.id === "scaling" &&
				isZeroCorrection(node.operands[0]);
}

function plainValue(node: QuantityNode): string {
	const shown = shownNumber(node);
	return `${shown.includes("e") ? plainNumber(node.value) : shown.replace("-", "−")}${unitText(node.unit)}`;
}

function latexValue(node: QuantityNode): string {
	const shown = shownNumber(node);
	return `${shown.includes("e") ? latexNumber(Number(shown)) : shown}${latexUnit(node.unit)}`;
}

/** How a node is called in a formula. */
export type Naming = (node: QuantityNode) => string;

export function symbolsPlain(e: Expression, naming: Naming = symbolOf): string {
	return render(e, plain, (node) =>
		shownSymbol(node) ? plainSymbol(naming(node)) : plainValue(node),
	);
}

export function symbolsLatex(e: Expression, naming: Naming = symbolOf): string {
	return render(e, latex, (node) =>
		shownSymbol(node) ? latexSymbol(naming(node)) : latexValue(node),
	);
}

/** The formula with numbers and units; corrections of zero are left out of sums. */
export function numbersPlain(e: Expression): string {
	return render(withoutZeroCorrections(e), plain, plainValue);
}

export function numbersLatex(e: Expression): string {
	return render(withoutZeroCorrections(e), latex, latexValue);
}

/** Whether a formula has corrections that its line of numbers leaves out. */
export function hasZeroCorrections(e: Expression): boolean {
	return leavesOf(e).length > leavesOf(withoutZeroCorrections(e)).length;
}

function isZeroTerm(e: Expression): boolean {
	return e.is === "leaf"
		? isZeroCorrection(e.node)
		: e.is === "fraction" &&
				e.over.length === 1 &&
				e.under.length === 0 &&
				isZeroTerm(e.over[0]);
}

function withoutZeroCorrections(e: Expression): Expression {
	switch (e.is) {
		case "leaf":
			return e;
		case "sum": {
			const kept = e.terms
				.filter((t) => !isZeroTerm(t.term))
				.map((t) => ({ ...t, term: withoutZeroCorrections(t.term) }));
			if (kept.length === 0) return e;
			return kept.length === 1 && kept[0].sign === 1
				? kept[0].term
				: { ...e, terms: kept };
		}
		case "fraction":
			return {
				...e,
				over: e.over.map(withoutZeroCorrections),
				under: e.under.map(withoutZeroCorrections),
			};
		case "mean":
			return { ...e, of: e.of.map(withoutZeroCorrections) };
		default:
			return { ...e, of: withoutZeroCorrections(e.of) };
	}
}
