/**
 * The only file that knows the insides of tslab (pinned exactly; test/notebook/tslab-contract.test.ts watches over it). Nothing is loaded before it is asked for,
 * so that importing the library outside a kernel costs nothing and cannot fail.
 */
import { createRequire, SourceMap, type SourceMapPayload } from "node:module";
import { dirname, join } from "node:path";

/** A message of the compiler about a cell. Lines and columns count from 1. */
export interface Diagnostic {
	readonly line: number;
	readonly column: number;
	readonly message: string;
	/** TypeScript's error number. */
	readonly code: number;
}

/** What running one cell came to. */
export type CellOutcome =
	| { readonly is: "done" }
	/** The value of the last expression, for showing; never null. */
	| { readonly is: "value"; readonly value: unknown }
	| { readonly is: "rejected"; readonly diagnostics: readonly Diagnostic[] }
	| { readonly is: "threw"; readonly error: unknown };

/** Where in which cell a line of emitted code came from. Line counts from 1. */
export interface CellPlace {
	readonly cell: string;
	readonly line: number;
}

export interface Completion {
	readonly start: number;
	readonly end: number;
	readonly candidates: readonly string[];
}

/** A notebook session: variables live on from cell to cell. */
export interface Session {
	/** Runs a cell. `cell` names it in stack traces; no blanks. */
	execute(source: string, cell: string): Promise<CellOutcome>;
	complete(source: string, position: number): Completion;
	/** Type and docstring of what stands at a position; "" for nothing. */
	inspect(source: string, position: number): string;
	/** "" for complete code, else the indent of the next line. */
	isComplete(source: string): {
		readonly complete: boolean;
		readonly indent: string;
	};
	/** From a place in emitted code to the line that the person wrote; null when it is not in a cell. */
	placeOf(script: string, line: number, column: number): CellPlace | null;
	/** Rejects a cell that awaits. A busy one is stopped by SIGINT itself. */
	interrupt(): void;
	/** Where tslab's own `display` sends its output. */
	setDisplay(write: DisplayWriter): void;
	close(): void;
}

export interface DisplayMessage {
	readonly data: Readonly<Record<string, unknown>>;
	readonly metadata: Readonly<Record<string, unknown>>;
	readonly transient: { readonly display_id?: string };
}

export type DisplayWriter = (message: DisplayMessage, update: boolean) => void;

/** A package that cells can import by name, wherever the notebook lies. */
export interface MappedPackage {
	readonly name: string;
	readonly main: string;
	readonly types: string;
}

// What we use of tslab, typed here because its own declarations do not compile on their own.
interface TslabDiagnostic {
	start: { line: number; character: number };
	messageText: string;
	code: number;
}
interface TslabConverter {
	convert(
		declarations: string,
		source: string,
	): { output?: string; diagnostics: TslabDiagnostic[] };
	close(): void;
}
interface TslabExecutor {
	execute(source: string): Promise<boolean>;
	inspect(source: string, position: number): unknown;
	complete(
		source: string,
		position: number,
	): { start: number; end: number; candidates: string[] };
	interrupt(): void;
	close(): void;
}
interface TslabModules {
	converter: {
		createConverter(options: {
			isJS: boolean;
			isBrowser: boolean;
		}): TslabConverter;
		isCompleteCode(source: string): { completed: boolean; indent?: string };
	};
	executor: {
		createExecutor(
			folder: string,
			converters: { node: TslabConverter; close(): void },
			console: {
				log(value: unknown): void;
				error(...values: unknown[]): void;
			},
		): TslabExecutor;
	};
	jupyter: { lastWriteDisplayData: DisplayWriter | null };
	inspect: { printQuickInfo(info: unknown): string };
}

interface TranspileResult {
	outputText: string;
	sourceMapText?: string;
}
type CompilerOptions = Record<string, unknown>;

/** What the compiler's watch asks the system for, of which we change something. */
interface CompilerTimers {
	setTimeout(callback: () => void, milliseconds: number): unknown;
	clearTimeout(timer: unknown): void;
}

/** tslab's own TypeScript, in the parts that we use. */
export interface Compiler {
	readonly version: string;
	createWatchCompilerHost(
		files: string[],
		options: CompilerOptions,
		system: CompilerTimers,
		...rest: unknown[]
	): unknown;
	transpileModule(
		source: string,
		options: { compilerOptions: CompilerOptions },
	): TranspileResult;
}

const here = createRequire(__filename);
const compilerName = "@tslab/typescript-for-tslab";

/** tslab's TypeScript, for reading cells without running them. Typed loosely: callers state what they use. */
export function compilerOfCells<T>(): T {
	return here(compilerName) as T;
}
export function tslabVersion(): string {
	return (here("tslab/package.json") as { version: string }).version;
}

interface LastEmit {
	firstMap: string;
	secondMap: string;
}

/** What is kept of a cell that ran: how to get from its JavaScript back to its lines. */
interface EmittedCell extends LastEmit {
	readonly lines: number;
}

/** The compiler's timer for a rebuild, by the function that it calls. */
export const rebuildCallback = "updateProgramWithWatchStatus";

/**
 * tslab fires the rebuild itself and breaks off where a second timer is set. The compiler sets one when files near the notebook change (other programs write there, too): that one is a timer of its own here, and asks for a
 * rebuild when it is due.
 */
function separateTimers(system: CompilerTimers): void {
	const rebuild = system.setTimeout;
	const cancelRebuild = system.clearTimeout;
	const others = new Set<unknown>();
	system.setTimeout = (callback, milliseconds) => {
		if (callback.name === rebuildCallback)
			return rebuild(callback, milliseconds);
		const timer = setTimeout(() => {
			others.delete(timer);
			callback();
		}, milliseconds);
		timer.unref();
		others.add(timer);
		return timer;
	};
	system.clearTimeout = (timer) => {
		if (others.delete(timer)) clearTimeout(timer as NodeJS.Timeout);
		else cancelRebuild(timer);
	};
}

/**
 * Puts a TypeScript with our options in the place of tslab's, before tslab loads it: source maps on both of its passes (so that an error can point at the line that the
 * person wrote), our package's name known to the compiler, and the types of Node found where they are installed.
 */
function installCompiler(packages: readonly MappedPackage[]): LastEmit {
	const emit: LastEmit = { firstMap: "", secondMap: "" };
	const path = here.resolve(compilerName);
	const original = here(compilerName) as Compiler;
	const nodeTypes = dirname(
		dirname(
			createRequire(here.resolve("tslab/package.json")).resolve(
				"@types/node/package.json",
			),
		),
	);
	const patched: Compiler = {
		...original,
		createWatchCompilerHost(files, options, system, ...rest) {
			separateTimers(system);
			return original.createWatchCompilerHost(
				files,
				{
					...options,
					inlineSourceMap: true,
					paths: Object.fromEntries(packages.map((p) => [p.name, [p.types]])),
					typeRoots: [...(options.typeRoots as string[]), nodeTypes],
				},
				system,
				...rest,
			);
		},
		transpileModule(source, options) {
			const result = original.transpileModule(source, {
				...options,
				compilerOptions: { ...options.compilerOptions, sourceMap: true },
			});
			emit.firstMap =
				/\/\/# sourceMappingURL=data:[^,]*;base64,(.*)\s*$/.exec(source)?.[1] ??
				"";
			emit.secondMap = result.sourceMapText ?? "";
			return {
				...result,
				outputText: result.outputText.replace(
					/\n\/\/# sourceMappingURL=[^\n]*/g,
					"",
				),
			};
		},
	};
	const cached = here.cache[path];
	if (cached === undefined)
		throw new Error("The compiler of the notebook kernel could not be loaded.");
	cached.exports = patched;
	return emit;
}

/** Cells `require` what they import: the name of a mapped package leads to ours, from any folder. */
function mapRequires(packages: readonly MappedPackage[]): void {
	const loader = here("node:module") as unknown as {
		_resolveFilename(request: string, ...rest: unknown[]): string;
	};
	const resolve = loader._resolveFilename;
	const mains = new Map(packages.map((p) => [p.name, p.main]));
	loader._resolveFilename = function (request, ...rest) {
		return mains.get(request) ?? resolve.call(this, request, ...rest);
	};
}

function loadTslab(): TslabModules {
	return {
		converter: here("tslab/dist/converter.js"),
		executor: here("tslab/dist/executor.js"),
		jupyter: here("tslab/dist/jupyter.js"),
		inspect: here("tslab/dist/inspect.js"),
	} as TslabModules;
}

/**
 * Opens a session in a folder. One a process: tslab keeps its variables in the global object.
 * @param folder working folder; imports of files are relative to it
 * @param packages packages that cells can import by name from any folder
 */
export function openSession(
	folder: string,
	packages: readonly MappedPackage[],
): Session {
	const emit = installCompiler(packages);
	mapRequires(packages);
	const tslab = loadTslab();
	const cells = watchedConverter(tslab, emit);
	let outcome: CellOutcome = { is: "done" };
	const executor = tslab.executor.createExecutor(
		folder,
		{ node: cells.converter, close: () => cells.converter.close() },
		{
			log: (value) => {
				outcome = { is: "value", value };
			},
			error: (...values) => {
				// Diagnostics come through here too, one call each; they are taken from the converter.
				if (values.length === 1) outcome = { is: "threw", error: values[0] };
			},
		},
	);

	return {
		async execute(source, cell) {
			cells.begin(cell);
			outcome = { is: "done" };
			const ok = await executor.execute(source);
			const diagnostics = cells.diagnostics();
			if (!ok && diagnostics.length > 0)
				return { is: "rejected", diagnostics: diagnostics.map(diagnostic) };
			return outcome;
		},
		complete: (source, position) => executor.complete(source, position),
		inspect(source, position) {
			const info = executor.inspect(source, position);
			return info ? tslab.inspect.printQuickInfo(info) : "";
		},
		isComplete(source) {
			const result = tslab.converter.isCompleteCode(source);
			return { complete: result.completed, indent: result.indent ?? "" };
		},
		placeOf: cells.placeOf,
		interrupt: () => executor.interrupt(),
		setDisplay(write) {
			tslab.jupyter.lastWriteDisplayData = write;
		},
		close: () => executor.close(),
	};
}

/** tslab's converter, and what it said and made of each cell. */
interface WatchedConverter {
	readonly converter: TslabConverter;
	/** The cell that is converted next. */
	begin(cell: string): void;
	diagnostics(): readonly TslabDiagnostic[];
	placeOf: Session["placeOf"];
}

function watchedConverter(
	tslab: TslabModules,
	emit: Readonly<LastEmit>,
): WatchedConverter {
	const emitted = new Map<string, EmittedCell>();
	let name = "";
	let diagnostics: readonly TslabDiagnostic[] = [];
	const inner = tslab.converter.createConverter({
		isJS: false,
		isBrowser: false,
	});
	return {
		converter: {
			...inner,
			convert(declarations, source) {
				const result = inner.convert(declarations, source);
				diagnostics = result.diagnostics;
				if (result.output !== undefined) {
					const lines = result.output.split("\n").length;
					emitted.set(name, { ...emit, lines });
					// The name under which the JavaScript engine shows this cell in a stack.
					result.output += `\n//# sourceURL=${name}`;
				}
				return result;
			},
		},
		begin(cell) {
			name = cell;
			diagnostics = [];
		},
		diagnostics: () => diagnostics,
		placeOf(script, line, column) {
			const cell = emitted.get(script);
			// What stands below the cell's last line is tslab's call of it.
			return cell === undefined || line > cell.lines
				? null
				: placeIn(script, cell, line, column);
		},
	};
}

function diagnostic(d: TslabDiagnostic): Diagnostic {
	return {
		line: d.start.line + 1,
		column: d.start.character + 1,
		message: d.messageText,
		code: d.code,
	};
}

/** Back through both of tslab's passes: CommonJS to ES module to the cell. */
function placeIn(
	cell: string,
	maps: LastEmit,
	line: number,
	column: number,
): CellPlace | null {
	const second = findEntry(maps.secondMap, line - 1, column - 1);
	if (second === null) return null;
	const first = findEntry(
		Buffer.from(maps.firstMap, "base64").toString(),
		second.line,
		second.column,
	);
	// tslab puts one line of its own before the cell: its line n (from 0) is the person's line n (from 1).
	return first === null || first.line < 1 ? null : { cell, line: first.line };
}

function findEntry(
	map: string,
	line: number,
	column: number,
): { line: number; column: number } | null {
	if (map === "") return null;
	const payload = JSON.parse(map) as SourceMapPayload;
	const entry = new SourceMap(payload).findEntry(line, Math.max(column, 0));
	return "originalLine" in entry && entry.originalLine !== undefined
		? { line: entry.originalLine, column: entry.originalColumn }
		: null;
}

const jupyterModule = join("tslab", "dist", "jupyter.js");

/** tslab as this process has loaded it, ours or a kernel's of its own; null outside a kernel. Looks at what is loaded already and loads nothing. */
function runningTslab(): {
	readonly path: string;
	readonly write: DisplayWriter;
} | null {
	for (const [path, module] of Object.entries(here.cache)) {
		if (!path.endsWith(jupyterModule) || module === undefined) continue;
		const { lastWriteDisplayData } = module.exports as TslabModules["jupyter"];
		if (lastWriteDisplayData) return { path, write: lastWriteDisplayData };
	}
	return null;
}

/** The way to the notebook of the kernel that this process is; null outside a kernel. */
export function displayOfRunningKernel(): DisplayWriter | null {
	return runningTslab()?.write ?? null;
}

/** The version of the tslab that runs the cells; "none" outside a kernel. */
export function versionOfRunningTslab(): string {
	const running = runningTslab();
	if (running === null) return "none";
	const { version } = here(
		join(dirname(running.path), "..", "package.json"),
	) as { version: string };
	return version;
}
