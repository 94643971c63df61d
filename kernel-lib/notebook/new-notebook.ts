/** A template copied into the user's own folder, ready to run there, with the demo data that it names beside it. */
import {
	copyFileSync,
	existsSync,
	readdirSync,
	readFileSync,
	writeFileSync,
} from "node:fs";
import { basename, dirname, join, relative, resolve, sep } from "node:path";
import {
	didYouMean,
	type Problem,
	problem,
	throwProblems,
	valueOrThrow,
} from "../quantity";
import { withoutStaleDemo } from "./demo-cells";
import {
	type CodeCell,
	hasTag,
	type Notebook,
	notebookText,
	readNotebook,
} from "./ipynb";
import { makeFolder } from "./make-folder";
import { type Json, parametersOf, parametersTag } from "./parameters";
import { forOtherSheets, withTemplateDefaults } from "./settings";
import { stripped } from "./strip";

/** This file is kernel-lib/dist/notebook/new-notebook.js. */
const packageFolder = join(__dirname, "..", "..", "..");
const templateFolder = join(packageFolder, "notebooks");

/** A template: its name for `charledger new` and the first heading of its text. */
export interface Template {
	readonly name: string;
	readonly title: string;
}

/** The templates that come with the package. */
export function templates(): Template[] {
	return readdirSync(templateFolder)
		.filter((file) => file.endsWith(".ipynb"))
		.sort()
		.map((file) => {
			const cells = read(file).cells;
			const heading = cells
				.filter((c) => c.cell_type === "markdown")
				.map((c) => /^#\s+(.+)$/m.exec(c.source)?.[1])
				.find((title) => title !== undefined);
			return { name: basename(file, ".ipynb"), title: heading ?? "" };
		});
}

function read(file: string): ReturnType<typeof stripped> {
	return stripped(
		valueOrThrow(
			readNotebook(readFileSync(join(templateFolder, file), "utf8"), file),
		),
	);
}

export interface NewNotebook {
	readonly template: string;
	/** Folder to copy into; made where it is missing. */
	readonly into: string;
	/** The user's own bench sheet, seen from the caller's folder; "" for the demo data. */
	readonly sheet: string;
}

/** Data of the package as a template names them: seen from its own folder. */
const demoData = /(["'`])\.\.\/(data\/[^"'`]+)\1/g;
/** The same as a copy names them: seen from the user's folder. */
const copiedData = /(["'`])(data\/[^"'`]+)\1/g;

function withSources(
	notebook: Notebook,
	change: (source: string, cell: CodeCell) => string,
): Notebook {
	return {
		...notebook,
		cells: notebook.cells.map((cell) =>
			cell.cell_type === "code"
				? { ...cell, source: change(cell.source, cell) }
				: cell,
		),
	};
}

/** The declaration of a parameter with a text, a number or a flat list. */
function declaration(name: string): RegExp {
	return new RegExp(
		`(\\b(?:let|const|var)\\s+${name}\\s*=\\s*)(?:"(?:[^"\\\\]|\\\\.)*"|[-+.\\de]+|\\[[^\\]]*\\])`,
	);
}

/** A cell whose parameter has another default. */
function withValue(source: string, name: string, value: Json): string {
	return source.replace(
		declaration(name),
		(_, start: string) => `${start}${JSON.stringify(value)}`,
	);
}

/** The notebook set to somebody's own sheet; parameters that serve the demo alone are what they are for any other sheet. */
function withSheet(notebook: Notebook, sheet: string): Notebook {
	const others = Object.entries(forOtherSheets(notebook));
	return withSources(notebook, (source, cell) =>
		hasTag(cell, parametersTag)
			? others.reduce(
					(text, [name, value]) => withValue(text, name, value),
					withValue(source, "sheet", sheet),
				)
			: source,
	);
}

/** Files of the package's data that a copy names. */
function dataOf(copy: Notebook): string[] {
	const named = copy.cells.flatMap((cell) =>
		cell.cell_type === "code"
			? [...cell.source.matchAll(copiedData)].map((match) => match[2])
			: [],
	);
	return [...new Set(named)].filter((path) =>
		existsSync(join(packageFolder, path)),
	);
}

/**
 * A template as it stands in the user's folder. It remembers the defaults of the template; with a sheet of the user's own, the cells of the demo are gone.
 * @param sheet the user's own bench sheet, seen from the copy; "" for the demo data
 */
export function copyOfTemplate(template: Notebook, sheet: string): Notebook {
	const moved = withSources(template, (source) =>
		source.replace(demoData, "$1$2$1"),
	);
	const set = sheet === "" ? moved : withSheet(moved, sheet);
	return withTemplateDefaults(
		withoutStaleDemo(set),
		parametersOf(moved, parametersTag),
	);
}

/**
 * Copies a template. Nothing that is there already is overwritten.
 * @returns the files that were written, the notebook first
 * @throws ProblemError for a template that does not exist, a sheet that is not there or that the template does not ask for, a notebook of the name that exists already
 */
export function newNotebook(request: NewNotebook): string[] {
	const into = resolve(request.into);
	const target = join(into, `${request.template}.ipynb`);
	throwProblems(problemsOf(request, target));
	const copy = copyOfTemplate(
		read(`${request.template}.ipynb`),
		request.sheet === ""
			? ""
			: relative(into, resolve(request.sheet)).split(sep).join("/"),
	);
	makeFolder(into);
	writeFileSync(target, notebookText(copy), { flag: "wx" });
	return [target, ...dataOf(copy).flatMap((path) => copyData(path, into))];
}

/** A file of the package's data with its sister files and the note that says it is invented. */
function copyData(path: string, into: string): string[] {
	const folder = dirname(path);
	const stem = basename(path).replace(/\.[^.]+$/, "");
	return readdirSync(join(packageFolder, folder))
		.filter(
			(file) =>
				file === basename(path) ||
				file === "ABOUT.md" ||
				(file.startsWith(`${stem}.`) && /\.(csv|xlsx)$/.test(file)),
		)
		.flatMap((file) => {
			const target = join(into, folder, file);
			if (existsSync(target)) return [];
			makeFolder(dirname(target));
			copyFileSync(join(packageFolder, folder, file), target);
			return [target];
		});
}

function problemsOf(request: NewNotebook, target: string): Problem[] {
	const names = templates().map((t) => t.name);
	if (!names.includes(request.template))
		return [
			problem(
				"template-unknown",
				{},
				`no template called "${request.template}"`,
				"one of those that `charledger new` lists",
				didYouMean(request.template, names),
			),
		];
	const problems: Problem[] = [];
	if (existsSync(target))
		problems.push(
			problem(
				"notebook-exists",
				{ file: relative(process.cwd(), target) },
				"a file of this name",
				"a place for the new notebook",
				"Rename or move yours, or choose another folder with --into. Nothing was overwritten.",
			),
		);
	if (request.sheet === "") return problems;
	if (!existsSync(request.sheet))
		problems.push(
			problem(
				"file-missing",
				{ file: request.sheet },
				"no such file",
				"a bench sheet (.csv or .xlsx)",
				"Look at the spelling and at the folder that you are in.",
			),
		);
	const parameters = read(`${request.template}.ipynb`).cells.find((c) =>
		hasTag(c, parametersTag),
	);
	if (!declaration("sheet").test(parameters?.source ?? ""))
		problems.push(
			problem(
				"no-sheet-parameter",
				{},
				`--sheet, but "${request.template}" reads no single bench sheet`,
				"a template with a parameter `sheet`",
				"Leave --sheet out and set the files in the parameters cell.",
			),
		);
	return problems;
}
