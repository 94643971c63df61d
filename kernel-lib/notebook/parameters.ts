/** The parameters that a notebook declares, read by the compiler without running a cell. */
import { type Cell, type CodeCell, hasTag, type Notebook } from "./ipynb";
import { compilerOfCells } from "./kernel/tslab";

/** Tags of the cell with the defaults and of the cell that a run puts after it. */
export const parametersTag = "parameters";
export const injectedTag = "injected-parameters";

export type Json =
	| string
	| number
	| boolean
	| null
	| readonly Json[]
	| { readonly [key: string]: Json };

/** What a parameter is set to: a plain value, or code that works one out. */
export type ParameterValue =
	| { readonly is: "value"; readonly value: Json }
	| { readonly is: "computed"; readonly code: string };

export interface Parameter {
	readonly name: string;
	readonly keyword: "let" | "const" | "var";
	readonly value: ParameterValue;
}

/** What we use of the compiler's syntax tree. */
interface Node {
	readonly kind: number;
	readonly pos: number;
	readonly end: number;
	readonly text?: string;
	readonly operator?: number;
	readonly operand?: Node;
	readonly name?: Node;
	readonly initializer?: Node;
	readonly elements?: readonly Node[];
	readonly properties?: readonly Node[];
	readonly declarationList?: {
		readonly flags: number;
		readonly declarations: readonly Node[];
	};
}
interface Syntax {
	createSourceFile(
		name: string,
		text: string,
		target: number,
	): { readonly statements: readonly Node[] };
	readonly ScriptTarget: { readonly Latest: number };
	readonly NodeFlags: { readonly Let: number; readonly Const: number };
	readonly SyntaxKind: Readonly<Record<string, number>>;
}

/** A literal as the value that it stands for; null for anything that has to be run. */
function literalValue(
	node: Node | undefined,
	ts: Syntax,
): { readonly value: Json } | null {
	const kinds = ts.SyntaxKind;
	switch (node?.kind) {
		case kinds.NumericLiteral:
			return { value: Number(node?.text) };
		case kinds.StringLiteral:
		case kinds.NoSubstitutionTemplateLiteral:
			return { value: node?.text ?? "" };
		case kinds.TrueKeyword:
			return { value: true };
		case kinds.FalseKeyword:
			return { value: false };
		case kinds.NullKeyword:
			return { value: null };
		case kinds.PrefixUnaryExpression:
			return node?.operator === kinds.MinusToken &&
				node?.operand?.kind === kinds.NumericLiteral
				? { value: -Number(node.operand.text) }
				: null;
		case kinds.ArrayLiteralExpression:
			return listValue(node?.elements ?? [], ts);
		case kinds.ObjectLiteralExpression:
			return objectValue(node?.properties ?? [], ts);
		default:
			return null;
	}
}

function listValue(
	elements: readonly Node[],
	ts: Syntax,
): { readonly value: Json } | null {
	const values = elements.map((e) => literalValue(e, ts));
	return values.every((v) => v !== null)
		? { value: values.map((v) => v.value) }
		: null;
}

function objectValue(
	properties: readonly Node[],
	ts: Syntax,
): { readonly value: Json } | null {
	const kinds = ts.SyntaxKind;
	const entries = properties.map((p) => {
		const value =
			p.kind === kinds.PropertyAssignment
				? literalValue(p.initializer, ts)
				: null;
		const plain =
			p.name?.kind === kinds.Identifier ||
			p.name?.kind === kinds.StringLiteral ||
			p.name?.kind === kinds.NumericLiteral;
		return value !== null && plain
			? ([p.name?.text ?? "", value.value] as const)
			: null;
	});
	return entries.every((e) => e !== null)
		? { value: Object.fromEntries(entries) }
		: null;
}

/** The variables that a cell declares, in order. */
export function parametersIn(source: string): Parameter[] {
	const ts = compilerOfCells<Syntax>();
	const file = ts.createSourceFile("cell.ts", source, ts.ScriptTarget.Latest);
	return file.statements.flatMap((statement) => {
		const list = statement.declarationList;
		if (list === undefined) return [];
		const keyword =
			(list.flags & ts.NodeFlags.Const) !== 0
				? "const"
				: (list.flags & ts.NodeFlags.Let) !== 0
					? "let"
					: "var";
		return list.declarations.flatMap((declaration): Parameter[] => {
			if (declaration.name?.kind !== ts.SyntaxKind.Identifier) return [];
			const { initializer } = declaration;
			const literal = literalValue(initializer, ts);
			return [
				{
					name: declaration.name.text ?? "",
					keyword,
					value:
						literal === null
							? {
									is: "computed",
									code: source
										.slice(initializer?.pos ?? 0, initializer?.end ?? 0)
										.trim(),
								}
							: { is: "value", value: literal.value },
				},
			];
		});
	});
}

function isCodeWith(cell: Cell, tag: string): cell is CodeCell {
	return cell.cell_type === "code" && hasTag(cell, tag);
}

/** The parameters that stand in the cells of a tag. */
export function parametersOf(notebook: Notebook, tag: string): Parameter[] {
	return notebook.cells
		.filter((c): c is CodeCell => isCodeWith(c, tag))
		.flatMap((c) => parametersIn(c.source));
}

/** True for the cells that hold parameters, and nothing of the working. */
export function holdsParameters(cell: Cell): boolean {
	return isCodeWith(cell, parametersTag) || isCodeWith(cell, injectedTag);
}
