import { dirname, join, resolve } from "node:path";
import ts from "typescript";

const root = resolve(import.meta.dirname, "..");

/** The declarations of the library as users get them: the text of every .d.ts, by the path of its source. */
function declarationsOf(program: ts.Program): Map<string, ts.SourceFile> {
	const files = new Map<string, ts.SourceFile>();
	program.emit(
		undefined,
		(name, text, _mark, _error, sources) => {
			const source = sources?.[0]?.fileName;
			if (source !== undefined)
				files.set(
					source,
					ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true),
				);
		},
		undefined,
		true,
	);
	return files;
}

const printer = ts.createPrinter({ removeComments: true });

function declares(statement: ts.Statement, name: string): boolean {
	if (ts.isVariableStatement(statement))
		return statement.declarationList.declarations.some(
			(d) => ts.isIdentifier(d.name) && d.name.text === name,
		);
	const named = statement as ts.Statement & { readonly name?: ts.Node };
	return (
		named.name !== undefined &&
		ts.isIdentifier(named.name) &&
		named.name.text === name
	);
}

/** The declarations of a name as one text, without comments and without the words that all of them carry. */
function textOf(file: ts.SourceFile, name: string): string {
	return file.statements
		.filter((s) => declares(s, name))
		.map((s) =>
			printer
				.printNode(ts.EmitHint.Unspecified, s, file)
				.replace(/^export (declare )?/, "")
				.replace(/^declare /, ""),
		)
		.join("\n");
}

/** The options with which the library is compiled. */
export function libraryOptions(): ts.CompilerOptions {
	const { config } = ts.readConfigFile(
		join(root, "tsconfig.json"),
		ts.sys.readFile,
	);
	return ts.parseJsonConfigFileContent(config, ts.sys, root).options;
}

/** The door of the library. */
export const entry = join(root, "kernel-lib/index.ts");

/** Every exported name with what it stands for: "uptake.uptakeTable" and its symbol. Namespaces within namespaces are followed. */
export function publicSymbols(program: ts.Program): Map<string, ts.Symbol> {
	const checker = program.getTypeChecker();
	const symbols = new Map<string, ts.Symbol>();
	const walk = (module: ts.Symbol, prefix: string): void => {
		for (const exported of checker.getExportsOfModule(module)) {
			const name = `${prefix}${exported.name}`;
			const symbol =
				exported.flags & ts.SymbolFlags.Alias
					? checker.getAliasedSymbol(exported)
					: exported;
			if (symbol.flags & ts.SymbolFlags.ValueModule) walk(symbol, `${name}.`);
			else symbols.set(name, symbol);
		}
	};
	const source = program.getSourceFile(entry);
	const module = source && checker.getSymbolAtLocation(source);
	if (module === undefined) throw new Error(`${entry} exports nothing.`);
	walk(module, "");
	return symbols;
}

/** Every exported name with its signature: "uptake.uptakeTable" -> "function uptakeTable(...): Table;". */
export function publicFace(): Map<string, string> {
	const program = ts.createProgram([entry], {
		...libraryOptions(),
		declaration: true,
		emitDeclarationOnly: true,
		noEmit: false,
		outDir: join(dirname(entry), "dist"),
	});
	const files = declarationsOf(program);
	const face = new Map<string, string>();
	for (const [name, symbol] of publicSymbols(program)) {
		const source = symbol.declarations?.[0]?.getSourceFile().fileName ?? "";
		const file = files.get(source);
		const text = file === undefined ? "" : textOf(file, symbol.name);
		if (text === "")
			throw new Error(`No declaration found for ${name} (${source}).`);
		face.set(name, text);
	}
	return face;
}

/** The face as a text file: names in order, each followed by its declaration, indented. */
export function faceText(face: ReadonlyMap<string, string>): string {
	return [...face]
		.sort(([a], [b]) => (a < b ? -1 : 1))
		.map(([name, text]) => `${name}\n${text.replace(/^(?=.)/gm, "\t")}\n`)
		.join("\n");
}

/** Back from the text file. */
export function faceOfText(text: string): Map<string, string> {
	const face = new Map<string, string>();
	let name = "";
	for (const line of text.split("\n")) {
		if (line === "") continue;
		if (line.startsWith("\t")) {
			const before = face.get(name);
			face.set(
				name,
				before === undefined ? line.slice(1) : `${before}\n${line.slice(1)}`,
			);
		} else name = line;
	}
	return face;
}

/** What changed, one line for each name: "+ new", "- gone", "~ another signature". */
export function changes(
	before: ReadonlyMap<string, string>,
	after: ReadonlyMap<string, string>,
): string[] {
	const names = [...new Set([...before.keys(), ...after.keys()])].sort();
	return names.flatMap((name) => {
		const [was, is] = [before.get(name), after.get(name)];
		if (was === is) return [];
		if (was === undefined) return [`+ ${name}: ${is}`];
		if (is === undefined) return [`- ${name}: ${was}`];
		return [`~ ${name}\n    was ${was}\n    is  ${is}`];
	});
}
