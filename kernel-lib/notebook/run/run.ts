/** One run, from a notebook file to the files that it leaves: the executed notebook, the page, the results, the ledger and the log of analyses. */
import {
	existsSync,
	mkdirSync,
	readFileSync,
	renameSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { basename, dirname, join, relative, resolve, sep } from "node:path";
import {
	type Checked,
	problem,
	throwProblems,
	valueOrThrow,
} from "../../quantity";
import { withoutStaleDemo } from "../demo-cells";
import { type Notebook, notebookText, readNotebook } from "../ipynb";
import { installedAssets, pageHtml } from "../page";
import { ledgerText, resultsText } from "../results-file";
import {
	analysesFile,
	analysesText,
	analysisOf,
	readAnalyses,
	withAnalysesTold,
	withAnalysis,
} from "./analyses";
import { executeNotebook, type Progress, type RunEnd } from "./execute";
import { withOtherSheet, withParameters } from "./parameters";
import { printerProblems, printPage } from "./pdf";

export interface RunRequest {
	/** Path of the notebook. */
	readonly notebook: string;
	/** Folder for what comes out; made where it is missing. */
	readonly out: string;
	/** Parameters as texts, by name. */
	readonly set: ReadonlyMap<string, string>;
	/** Bench sheet for the parameter `sheet`, seen from the caller's folder; "" for the notebook's own. With one, parameters that serve the demo alone are set to what they are for any other sheet. */
	readonly sheet: string;
	/** Print the page to a PDF as well; needs an installed Chromium. */
	readonly pdf: boolean;
	readonly timeoutSeconds: number;
	readonly progress: Progress;
	readonly signal: AbortSignal;
}

export interface RunReport {
	readonly end: RunEnd;
	/** The files that were written. */
	readonly files: readonly string[];
}

function readFile(path: string): Checked<string> {
	return existsSync(path)
		? { ok: true, value: readFileSync(path, "utf8") }
		: {
				ok: false,
				problems: [
					problem(
						"file-missing",
						{ file: path },
						"no such file",
						"a notebook (.ipynb)",
						"Look at the spelling and at the folder that you are in.",
					),
				],
			};
}

/** The sheet as the notebook must name it: seen from its own folder, with forward slashes, so that no path of this machine stands in the result. */
function sheetSeenFrom(folder: string, sheet: string): Checked<string> {
	const path = resolve(sheet);
	return existsSync(path)
		? { ok: true, value: relative(folder, path).split(sep).join("/") }
		: {
				ok: false,
				problems: [
					problem(
						"file-missing",
						{ file: sheet },
						"no such file",
						"a bench sheet (.csv or .xlsx)",
						"Look at the spelling and at the folder that you are in.",
					),
				],
			};
}

/** Writes beside and then renames: a reader never sees half a file, and an earlier one stays whole until the new one is. */
function writeWhole(path: string, text: string): void {
	const half = `${path}.part`;
	writeFileSync(half, text);
	renameSync(half, path);
}

function bannerCell(
	end: Extract<RunEnd, { is: "failed" }>,
): Notebook["cells"][0] {
	return {
		cell_type: "markdown",
		id: "charledger-stopped",
		metadata: { tags: ["charledger-stopped"] },
		source: `**This run stopped at code cell ${end.cell}.** What stands above that cell is complete; nothing below it was run. Do not use it as a result.`,
	};
}

function withBanner(
	notebook: Notebook,
	end: Extract<RunEnd, { is: "failed" }>,
): Notebook {
	return { ...notebook, cells: [bannerCell(end), ...notebook.cells] };
}

/** Banners of an earlier run, and what it said of analyses before it, do not belong to the notebook. */
function withoutBanner(notebook: Notebook): Notebook {
	const bare = withAnalysesTold(notebook, "");
	return {
		...bare,
		cells: bare.cells.filter(
			(c) => !c.metadata.tags?.includes("charledger-stopped"),
		),
	};
}

/**
 * Runs a notebook and writes what comes out. A run that fails leaves its evidence as NAME.failed.ipynb and NAME.failed.html and touches nothing that an earlier run wrote.
 * @throws ProblemError for a notebook that cannot be read, a parameter that does not exist, a sheet that is not there, a PDF without a Chromium
 */
export async function runNotebook(request: RunRequest): Promise<RunReport> {
	if (request.pdf) throwProblems(printerProblems());
	const path = resolve(request.notebook);
	const folder = dirname(path);
	const notebook = withoutBanner(
		valueOrThrow(
			readNotebook(
				valueOrThrow(readFile(request.notebook === "" ? "" : path)),
				basename(path),
			),
		),
	);
	const values = new Map(request.set);
	if (request.sheet !== "")
		values.set("sheet", valueOrThrow(sheetSeenFrom(folder, request.sheet)));
	const prepared = withoutStaleDemo(
		valueOrThrow(withParameters(notebook, withOtherSheet(notebook, values))),
	);
	mkdirSync(request.out, { recursive: true });
	const logPath = join(request.out, analysesFile);
	const log = valueOrThrow(
		readAnalyses(
			existsSync(logPath) ? readFileSync(logPath, "utf8") : "",
			logPath,
		),
	);
	const outcome = await executeNotebook(prepared, { ...request, folder });
	const stem = join(request.out, basename(path, ".ipynb"));
	const failed = [`${stem}.failed.ipynb`, `${stem}.failed.html`];
	const files: string[] = [];
	const write = (file: string, text: string): void => {
		writeWhole(file, text);
		files.push(file);
	};
	if (outcome.end.is === "failed") {
		const executed = withBanner(outcome.notebook, outcome.end);
		write(failed[0], notebookText(executed));
		write(failed[1], pageHtml(executed, installedAssets()));
		return { end: outcome.end, files };
	}
	for (const file of failed) rmSync(file, { force: true });
	const own = analysisOf(outcome.notebook, basename(path), new Date());
	const analyses = own.reduce(withAnalysis, log);
	const executed = withAnalysesTold(
		outcome.notebook,
		own.map((one) => analysesText(analyses, one)).join(""),
	);
	write(`${stem}.ipynb`, notebookText(executed));
	write(join(request.out, "results.json"), resultsText(executed));
	write(join(request.out, "ledger.csv"), ledgerText(executed));
	write(`${stem}.html`, pageHtml(executed, installedAssets()));
	if (own.length > 0)
		write(logPath, analyses.map((a) => `${JSON.stringify(a)}\n`).join(""));
	if (request.pdf)
		files.push(valueOrThrow(printPage(`${stem}.html`, `${stem}.pdf`)));
	return { end: outcome.end, files };
}
