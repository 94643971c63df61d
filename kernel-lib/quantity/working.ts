import {
	expressionOf,
	hasZeroCorrections,
	isStep,
	latexNumber,
	latexSymbol,
	latexUnit,
	leavesOf,
	type Naming,
	numbersLatex,
	numbersPlain,
	plainSymbol,
	symbolOf,
	symbolsLatex,
	symbolsPlain,
} from "./expression";
import { decimalsFor, fixedDigits, formatQuantity } from "./format";
import { ancestors } from "./graph";
import { identities } from "./identity";
import {
	jupyterDisplay,
	nodeOf,
	type Quantity,
	type QuantityNode,
} from "./quantity";
import type { Source } from "./source";
import { texLines } from "./tex-lines";
import { traceOf } from "./trace";

/** A number that the working starts from. */
export interface Given {
	readonly symbol: string;
	readonly meaning: string;
	/** With unit and uncertainty. */
	readonly value: string;
	/** File, sheet, row and column, or the stated source. */
	readonly from: string;
	readonly latexSymbol: string;
}

/** One step: formula in symbols, the same with numbers and units, and the result rounded by its uncertainty (JCGM 100:2008, 7.2.6). */
export interface WorkingStep {
	readonly number: number;
	readonly symbol: string;
	readonly meaning: string;
	readonly formula: string;
	readonly numbers: string;
	readonly result: string;
	/** The four above as LaTeX, without the dollar signs. */
	readonly latex: {
		readonly symbol: string;
		readonly formula: string;
		readonly numbers: string;
		readonly result: string;
	};
}

/** The whole way from the readings to a value. It shows itself as typeset formulas in notebooks and as plain text elsewhere. */
export interface Working {
	readonly givens: readonly Given[];
	readonly steps: readonly WorkingStep[];
	readonly notes: readonly string[];
	/** Markdown with the formulas between double dollar signs. */
	readonly markdown: string;
	readonly text: string;
	/** From the result down to file, row and column of each reading, as indented text; a part that was already shown is not repeated. */
	readonly trace: string;
}

function fromText(source: Source): string {
	if (source.is === "stated") return source.source;
	const sheet = source.sheet === "" ? "" : `, sheet "${source.sheet}"`;
	return `${source.file}${sheet}, row ${source.row}, column "${source.column}"`;
}

/** Where several different things carry one symbol (two titres), they are numbered. */
function namingFor(
	nodes: readonly QuantityNode[],
	identity: ReadonlyMap<QuantityNode, number>,
): Naming {
	const bearers = new Map<string, number[]>();
	for (const node of nodes) {
		const symbol = symbolOf(node);
		const list = bearers.get(symbol) ?? [];
		const id = identity.get(node) as number;
		if (!list.includes(id)) list.push(id);
		bearers.set(symbol, list);
	}
	return (node) => {
		const symbol = symbolOf(node);
		const list = bearers.get(symbol) ?? [];
		if (list.length < 2) return symbol;
		const n = list.indexOf(identity.get(node) as number) + 1;
		return symbol.endsWith("}")
			? `${symbol.slice(0, -1)}, ${n}}`
			: `${symbol}_{${n}}`;
	};
}

function latexResult(node: QuantityNode): string {
	const u = node.standardUncertainty;
	const unit = latexUnit(node.unit);
	if (!(u > 0)) return `${latexNumber(node.value)}${unit}`;
	const decimals = decimalsFor(u);
	return `${fixedDigits(node.value, decimals)}${unit}\\quad\\left(u = ${fixedDigits(u, decimals)}${unit}\\right)`;
}

function stepOf(
	node: QuantityNode,
	number: number,
	naming: Naming,
): WorkingStep {
	const expression = expressionOf(node);
	const symbol = naming(node);
	return {
		number,
		symbol: plainSymbol(symbol),
		meaning: node.name.meaning,
		formula: symbolsPlain(expression, naming),
		numbers: numbersPlain(expression),
		result: formatQuantity(node),
		latex: {
			symbol: latexSymbol(symbol),
			formula: symbolsLatex(expression, naming),
			numbers: numbersLatex(expression),
			result: latexResult(node),
		},
	};
}

/**
 * The working of a value, from the raw readings on: what is given, then numbered steps. A step is what was given a name (`named`); unnamed intermediate results are
 * part of the formula of the step above them.
 * @example
 * const m = quantity.input("mass", 2, "g", quantity.exact, { symbol: "m", meaning: "char" });
 * const shown = quantity.working(quantity.named(quantity.scaled(m, 3), "M", "three portions"));
 * shown.steps[0].formula // => "3 × m"
 * shown.trace.split("\n")[0] // => "M = 6 g, three portions; M = 3 × m"
 */
export function working(q: Quantity): Working {
	const root = nodeOf(q) as QuantityNode;
	const identity = identities([root]);
	const seen = new Set<string>();
	const nodes = ancestors(root).filter((node) => {
		if (!(node === root || isStep(node))) return false;
		const id = `${identity.get(node)} ${symbolOf(node)}`;
		if (seen.has(id)) return false;
		seen.add(id);
		return true;
	});
	const naming = namingFor(nodes, identity);
	const used = new Set(
		nodes.flatMap((n) =>
			n.operation === null ? [] : leavesOf(expressionOf(n)),
		),
	);
	const givens = nodes
		.filter(
			(n) =>
				n.input !== null &&
				(n === root || n.name.symbol !== "" || n.input.uncertainty > 0) &&
				(n === root || used.has(n)),
		)
		.map((n) => ({
			symbol: plainSymbol(naming(n)),
			meaning: n.name.meaning,
			value: formatQuantity(n),
			from: n.input === null ? "" : fromText(n.input.source),
			latexSymbol: latexSymbol(naming(n)),
		}));
	const computed = nodes.filter((n) => n.operation !== null);
	const steps = computed.map((n, i) => stepOf(n, i + 1, naming));
	const notes = computed.some((n) => hasZeroCorrections(expressionOf(n)))
		? [
				"Corrections whose best value is zero carry an uncertainty only; the lines with numbers leave them out.",
			]
		: [];
	const markdown = markdownOf(givens, steps, notes);
	const text = textOf(givens, steps, notes);
	return Object.assign(
		{ givens, steps, notes, markdown, text, trace: traceOf(root) },
		{
			toString: () => text,
			[jupyterDisplay]: () => ({
				"text/markdown": markdown,
				"text/plain": text,
			}),
			[Symbol.for("nodejs.util.inspect.custom")]: () => text,
		},
	);
}

function textOf(
	givens: readonly Given[],
	steps: readonly WorkingStep[],
	notes: readonly string[],
): string {
	const width = Math.max(0, ...givens.map((g) => g.symbol.length));
	return [
		...(givens.length > 0 ? ["Given"] : []),
		...givens.map(
			(g) =>
				`  ${g.symbol.padEnd(width)} = ${g.value}${g.meaning === "" ? "" : `, ${g.meaning}`} [${g.from}]`,
		),
		...steps.flatMap((s) => {
			const indent = " ".repeat(2 + s.symbol.length);
			return [
				`Step ${s.number}${s.meaning === "" ? "" : `: ${s.meaning}`}`,
				`  ${s.symbol} = ${s.formula}`,
				`${indent} = ${s.numbers}`,
				`${indent} = ${s.result}`,
			];
		}),
		...notes,
	].join("\n");
}

/** Text inside a Markdown table or heading: nothing in it may act as Markdown or HTML. */
function markdownText(text: string): string {
	return text
		.replaceAll("&", "&amp;")
		.replaceAll("<", "&lt;")
		.replaceAll(/[\\`*_{}[\]#|$~]/g, "\\$&");
}

/** A right side, the lines after its first a step to the right. */
function inLines(tex: string): string {
	return texLines(tex).join(" \\\\\n&\\qquad ");
}

function markdownOf(
	givens: readonly Given[],
	steps: readonly WorkingStep[],
	notes: readonly string[],
): string {
	const table =
		givens.length === 0
			? []
			: [
					[
						"| given | meaning | value | from |",
						"|---|---|---|---|",
						...givens.map(
							(g) =>
								`| $${g.latexSymbol}$ | ${markdownText(g.meaning)} | ${markdownText(g.value)} | ${markdownText(g.from)} |`,
						),
					].join("\n"),
				];
	return [
		...table,
		...steps.map((s) =>
			[
				`**Step ${s.number}${s.meaning === "" ? "" : `: ${markdownText(s.meaning)}`}**`,
				"",
				"$$\\begin{aligned}",
				`${s.latex.symbol} &= ${inLines(s.latex.formula)} \\\\`,
				`&= ${inLines(s.latex.numbers)} \\\\`,
				`&= ${s.latex.result}`,
				"\\end{aligned}$$",
			].join("\n"),
		),
		...notes.map(markdownText),
	].join("\n\n");
}
