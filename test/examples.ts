/** The examples of the public functions: found in their docstrings, checked by the compiler, run against the library. */
import { dirname, join } from "node:path";
import { isDeepStrictEqual } from "node:util";
import ts from "typescript";
import * as library from "../kernel-lib/index";
import { entry, libraryOptions, publicSymbols } from "./public-face";

/** A public function and what its docstring says. */
export interface PublicFunction {
	/** As a notebook calls it: "uptake.uptakes". */
	readonly name: string;
	/** Meaning, before the first tag; "" for none. */
	readonly meaning: string;
	/** The text of each `@example`. */
	readonly examples: readonly string[];
	/** True where the call has no value to compare. */
	readonly returnsNothing: boolean;
}

/** The demo trials that examples may name, each read when an example needs it. */
const sheets: Readonly<Record<string, string>> = {
	trial: "demo-run/hazelnut.csv",
	dyeTrial: "demo-dye/dye.csv",
	isothermTrial: "demo-isotherm/isotherm.csv",
	iodineNumberTrial: "demo-isotherm/iodine-number.csv",
	kilnTrial: "demo-activation/kiln.csv",
	doseTrial: "demo-dose/rain-barrel.csv",
	temperatureTrial: "demo-temperature/four-temperatures.csv",
};

const data = join(dirname(entry), "../data");
const rooms: Readonly<Record<string, unknown>> = { ...library };

function functionOf(
	name: string,
	symbol: ts.Symbol,
	checker: ts.TypeChecker,
): PublicFunction[] {
	const [declaration] = symbol.declarations ?? [];
	if (declaration === undefined || !(symbol.flags & ts.SymbolFlags.Value))
		return [];
	const signatures = checker
		.getTypeOfSymbolAtLocation(symbol, declaration)
		.getCallSignatures();
	if (signatures.length === 0) return [];
	const returned = signatures[0].getReturnType();
	return [
		{
			name,
			meaning: ts
				.displayPartsToString(symbol.getDocumentationComment(checker))
				.trim(),
			examples: symbol
				.getJsDocTags(checker)
				.filter((tag) => tag.name === "example")
				.map((tag) => ts.displayPartsToString(tag.text)),
			returnsNothing: Boolean(returned.flags & ts.TypeFlags.Void),
		},
	];
}

/** The public functions of a program, in the order of the flow. */
function functionsOf(program: ts.Program): PublicFunction[] {
	const checker = program.getTypeChecker();
	return [...publicSymbols(program)].flatMap(([name, symbol]) =>
		functionOf(name, symbol, checker),
	);
}

/** The example as the body of a function, with the names at hand before it. */
function asFunction(example: string, i: number): string {
	return `async function example${i}() {\n${example}\n}\n`;
}

const virtual = join(dirname(entry), "examples-of-docstrings.ts");

function namesAtHand(): string {
	return [
		`import { ${Object.keys(rooms).join(", ")} } from "./index";`,
		...Object.keys(sheets).map(
			(name) => `declare const ${name}: ReturnType<typeof bench.readTrial>;`,
		),
		"",
	].join("\n");
}

/** What the compiler says of the examples, by function. Compiled as notebook cells are: not strictly. */
function compilerMessages(
	functions: readonly PublicFunction[],
	before: ts.Program,
): Map<string, string[]> {
	const options = before.getCompilerOptions();
	const examples = functions.flatMap((f) =>
		f.examples.map((text) => ({ name: f.name, text })),
	);
	const parts = [
		namesAtHand(),
		...examples.map(({ text }, i) => asFunction(text, i)),
	];
	const ends = parts.map((_, i) => parts.slice(0, i + 1).join("").length);
	const host = ts.createCompilerHost(options);
	const read = host.getSourceFile;
	host.getSourceFile = (file, ...rest) =>
		file === virtual
			? ts.createSourceFile(file, parts.join(""), ts.ScriptTarget.Latest, true)
			: read.call(host, file, ...rest);
	const exists = host.fileExists;
	host.fileExists = (file) => file === virtual || exists.call(host, file);
	const program = ts.createProgram([virtual], options, host, before);
	const source = program.getSourceFile(virtual);
	const messages = new Map<string, string[]>();
	for (const d of [
		...program.getSyntacticDiagnostics(source),
		...program.getSemanticDiagnostics(source),
	]) {
		const at = ends.findIndex((end) => (d.start ?? 0) < end);
		const name = at < 1 ? "the names at hand" : examples[at - 1].name;
		messages.set(name, [
			...(messages.get(name) ?? []),
			ts.flattenDiagnosticMessageText(d.messageText, "\n"),
		]);
	}
	return messages;
}

/** The public functions and, by name, what the compiler says against their examples. */
export function publicFunctions(): {
	readonly functions: readonly PublicFunction[];
	readonly messages: ReadonlyMap<string, readonly string[]>;
} {
	const options = {
		...libraryOptions(),
		strict: false,
		noUnusedLocals: false,
		noUnusedParameters: false,
		noEmit: true,
	};
	const program = ts.createProgram([entry], options);
	const functions = functionsOf(program);
	return { functions, messages: compilerMessages(functions, program) };
}

interface Expectation {
	readonly statement: string;
	readonly expected: unknown;
}

interface Prepared {
	readonly code: string;
	readonly expectations: readonly Expectation[];
}

/** The example with its expressions handed to `mustBe`, and what each must be. */
function prepare(example: string): Prepared {
	const source = ts.createSourceFile(
		"example.ts",
		example,
		ts.ScriptTarget.Latest,
		true,
	);
	const expectations: Expectation[] = [];
	const lines = source.statements.map((statement) => {
		const comment = (ts.getTrailingCommentRanges(example, statement.end) ?? [])
			.map((range) => example.slice(range.pos, range.end))
			.map((text) => /^\/\/\s*=>\s*(.+)$/.exec(text)?.[1])
			.find((text) => text !== undefined);
		const text = statement.getText(source);
		if (comment === undefined) return text;
		if (!ts.isExpressionStatement(statement))
			throw new Error(`"${text}" has a value after it but is no expression.`);
		expectations.push({ statement: text, expected: JSON.parse(comment) });
		return `await mustBe(${expectations.length - 1}, ${statement.expression.getText(source)});`;
	});
	const arrows = example.match(/\/\/\s*=>/g)?.length ?? 0;
	if (arrows !== expectations.length)
		throw new Error(
			`${arrows} values are written with "// =>", ${expectations.length} of them after an expression.`,
		);
	return { code: lines.join("\n"), expectations };
}

/** How many values an example states. */
export function statedValues(example: string): number {
	return prepare(example).expectations.length;
}

function isText(value: object): boolean {
	return "kind" in value && "unit" in value && "standardUncertainty" in value;
}

function isTable(value: object): value is { readonly title: string } {
	return (
		"title" in value &&
		typeof value.title === "string" &&
		"columns" in value &&
		"rows" in value
	);
}

/** A value in the form in which an example states it: a quantity as its text, a table as its title. */
export function statedForm(value: unknown): unknown {
	if (Array.isArray(value)) return value.map(statedForm);
	if (typeof value !== "object" || value === null) return value;
	if (isText(value)) return String(value);
	if (isTable(value)) return value.title;
	return Object.fromEntries(
		Object.entries(value)
			.filter(([, child]) => child !== undefined)
			.map(([key, child]) => [key, statedForm(child)]),
	);
}

/** Equal to six digits. */
function sameNumber(value: number, expected: number): boolean {
	if (expected === 0) return Math.abs(value) < 1e-12;
	const sixthDigit = 10 ** (Math.floor(Math.log10(Math.abs(expected))) - 5);
	return Math.abs(value - expected) <= 0.5000001 * sixthDigit;
}

/** Is a value, in its stated form, what the example says? */
export function isAsStated(value: unknown, expected: unknown): boolean {
	if (typeof value === "number" && typeof expected === "number")
		return sameNumber(value, expected);
	if (Array.isArray(value) && Array.isArray(expected))
		return (
			value.length === expected.length &&
			value.every((child, i) => isAsStated(child, expected[i]))
		);
	if (
		typeof value === "object" &&
		value !== null &&
		typeof expected === "object" &&
		expected !== null &&
		!Array.isArray(value) &&
		!Array.isArray(expected)
	) {
		const [a, b] = [value, expected] as Record<string, unknown>[];
		return (
			isDeepStrictEqual(Object.keys(a).sort(), Object.keys(b).sort()) &&
			Object.keys(a).every((key) => isAsStated(a[key], b[key]))
		);
	}
	return value === expected;
}

function valueAtHand(
	name: string,
	at: Readonly<Record<string, unknown>>,
): unknown {
	return name in sheets
		? library.bench.readTrial(join(data, sheets[name]))
		: at[name];
}

/**
 * Runs an example with the names at hand that it mentions.
 * @param at the rooms of the library, or stand-ins that watch what is called
 * @throws Error where a value is not as stated, or what the example throws
 */
export async function runExample(
	example: string,
	at: Readonly<Record<string, unknown>> = rooms,
): Promise<void> {
	const { code, expectations } = prepare(example);
	const names = [...Object.keys(rooms), ...Object.keys(sheets)].filter((name) =>
		new RegExp(`(?<![.\\w])${name}\\b`).test(example),
	);
	const mustBe = async (i: number, found: unknown): Promise<void> => {
		const { statement, expected } = expectations[i];
		const value = statedForm(await found);
		if (!isAsStated(value, expected))
			throw new Error(
				`${statement}\n  is     ${JSON.stringify(value)}\n  not    ${JSON.stringify(expected)}`,
			);
	};
	const { outputText } = ts.transpileModule(
		`async function example() {\n${code}\n}`,
		{ compilerOptions: { target: ts.ScriptTarget.ES2022 } },
	);
	const run = new Function(
		"mustBe",
		...names,
		`${outputText}\nreturn example();`,
	);
	await run(mustBe, ...names.map((name) => valueAtHand(name, at)));
}

type Callable = (...args: unknown[]) => unknown;

/** The rooms with functions that tell `heard` of each call before they do their work. */
function listening(
	heard: (name: string, args: readonly unknown[]) => void,
): Record<string, unknown> {
	const listeningRoom = (room: string, members: object): object =>
		Object.fromEntries(
			Object.entries(members).map(([name, member]) => [
				name,
				typeof member !== "function" || !/^[a-z]/.test(name)
					? member
					: (...args: unknown[]) => {
							heard(`${room}.${name}`, args);
							return (member as Callable)(...args);
						},
			]),
		);
	return Object.fromEntries(
		Object.entries(rooms).map(([room, members]) => [
			room,
			listeningRoom(room, members as object),
		]),
	);
}

/** Runs every example and gives, by the name of the function, the arguments of its call that had the most of them. */
export async function callsOfExamples(): Promise<
	ReadonlyMap<string, readonly unknown[]>
> {
	const longest = new Map<string, readonly unknown[]>();
	const at = listening((name, args) => {
		if (args.length > (longest.get(name)?.length ?? -1))
			longest.set(name, args);
	});
	for (const { examples } of publicFunctions().functions)
		for (const example of examples) await runExample(example, at);
	return longest;
}
