/** One run, from a notebook file to the files that it leaves: the executed notebook, the page, the results, the ledger and the log of analyses. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, dirname, join, relative, resolve, sep } from "node:path";
import {
	type Checked,
	problem,
	throwProblems,
	valueOrThrow,
} from "../../quantity";
import { withoutStaleDemo } from "../demo-cells";
import { clearGarbageSoon } from "../garbage";
import { type Notebook, notebookText, readNotebook } from "../ipynb";
import { hashedLines } from "../large/ledger-file";
import { insideThePage } from "../large/limits";
import { bytesOf, type PackedFile } from "../large/packed-file";
import { withLedgerPlaced, withTablesPlaced } from "../large/placing";
import { tableFileName } from "../large/table-file";
import { makeFolder } from "../make-folder";
import { installedAssets, pageHtml } from "../page";
import { ledgerTextLines, resultsText } from "../results-file";
import { withRunId } from "../run-id";
import {
	type Analysis,
	analysesFile,
	analysesText,
	analysisOf,
	readAnalyses,
	withAnalysesTold,
	withAnalysis,
} from "./analyses";
import { answerLines } from "./answer-lines";
import {
	executeNotebook,
	type Progress,
	type RunEnd,
	type RunOutcome,
} from "./execute";
import { type Lock, lock } from "./lock";
import { withOtherSheet, withParameters } from "./parameters";
import { printerProblems, printPage } from "./pdf";
import { repair, type StagedSet, stage } from "./result-set";

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
	/** How long the kernel may take to come up. */
	readonly startSeconds: number;
	readonly progress: Progress;
	readonly signal: AbortSignal;
}

export interface RunReport {
	readonly end: RunEnd;
	/** The files that were written. */
	readonly files: readonly string[];
	/** The answer in a few lines; none where the run stopped. */
	readonly answer: readonly string[];
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

/** What the folder holds besides, where it holds the results of an earlier run. */
function earlierText(out: string): string {
	const path = join(out, resultsFileName);
	if (!existsSync(path)) return "";
	const { runId } = JSON.parse(readFileSync(path, "utf8")) as {
		readonly runId?: unknown;
	};
	return ` The results in the folder above are those of an earlier run (${String(runId)}) and not of this one.`;
}

function bannerCell(
	end: Extract<RunEnd, { is: "failed" }>,
	earlier: string,
): Notebook["cells"][0] {
	return {
		cell_type: "markdown",
		id: "charledger-stopped",
		metadata: { tags: ["charledger-stopped"] },
		source: `**This run stopped at code cell ${end.cell}.** What stands above that cell is complete; nothing below it was run. Do not use it as a result.${earlier}`,
	};
}

/** Banners of an earlier run, and what it said of analyses before it, do not belong to the notebook. */
function withoutBanner(notebook: Notebook): Notebook {
	const bare = withAnalysesTold(notebook, "", "");
	return {
		...bare,
		cells: bare.cells.filter(
			(c) => !c.metadata.tags?.includes("charledger-stopped"),
		),
	};
}

const resultsFileName = "results.json";
/** Folder, in that of the results, for what is left of runs that stopped. */
const failedFolder = "failed";

const failedFiles = (stem: string): readonly [string, string] => [
	`${failedFolder}/${stem}.ipynb`,
	`${failedFolder}/${stem}.html`,
];

const ledgerFileName = "ledger.csv";

/** Folder for the large tables of an executed notebook, beside it. */
const tablesFolder = (notebook: string): string =>
	notebook.replace(/\.ipynb$/, "-tables");

function stageTables(
	set: StagedSet,
	files: readonly PackedFile[],
	notebook: string,
): void {
	for (const file of files)
		set.add(`${tablesFolder(notebook)}/${file.name}`, bytesOf(file));
}

/** Tables of an earlier run of a notebook that are not of this one. */
function staleTables(
	out: string,
	notebook: string,
	{ names }: Pick<StagedSet, "names">,
): string[] {
	const folder = tablesFolder(notebook);
	if (!existsSync(join(out, folder))) return [];
	return readdirSync(join(out, folder))
		.map((name) => `${folder}/${name}`)
		.filter((name) => tableFileName.test(name) && !names.includes(name));
}

/** What leaves with the earlier set: tables that are not of this run; and after a complete run, what is left of one that stopped. */
function leaving(
	out: string,
	stem: string,
	end: RunEnd,
	set: StagedSet,
): string[] {
	const failed = failedFiles(stem);
	const failedTables = staleTables(out, failed[0], set);
	return end.is === "failed"
		? failedTables
		: [...failedTables, ...failed, ...staleTables(out, `${stem}.ipynb`, set)];
}

/** What ran until a run stopped, apart from the results of an earlier one. */
function stageFailure(
	set: StagedSet,
	{ notebook }: RunOutcome,
	end: Extract<RunEnd, { is: "failed" }>,
	{ out }: RunRequest,
	stem: string,
): void {
	const executed: Notebook = {
		...notebook,
		cells: [bannerCell(end, earlierText(out)), ...notebook.cells],
	};
	const [evidence, page] = failedFiles(stem);
	// No ledger lies beside what is left of a run: all of it is inside.
	const everything = Number.POSITIVE_INFINITY;
	set.add(evidence, notebookText(executed));
	set.add(page, pageHtml(executed, installedAssets(), everything));
	stageTables(set, withTablesPlaced(executed, everything).files, evidence);
}

/** The log of earlier analyses, as it stood in the folder. */
interface AnalysesLog {
	readonly text: string;
	readonly analyses: readonly Analysis[];
}

function readLog(folder: string): AnalysesLog {
	const path = join(folder, analysesFile);
	const text = existsSync(path) ? readFileSync(path, "utf8") : "";
	return { text, analyses: valueOrThrow(readAnalyses(text, path)) };
}

/** Everything that a complete run leaves. */
function stageResults(
	set: StagedSet,
	{ notebook }: RunOutcome,
	{ pdf, notebook: path }: RunRequest,
	stem: string,
	log: AnalysesLog,
): void {
	const own = analysisOf(notebook, basename(path), new Date());
	const analyses = own.reduce(withAnalysis, log.analyses);
	const executed = withRunId(
		withAnalysesTold(
			notebook,
			own.map((one) => analysesText(analyses, one)).join(""),
			log.text,
		),
	);
	const placed = withTablesPlaced(executed, insideThePage);
	const ledger = hashedLines(ledgerTextLines(executed));
	set.add(ledgerFileName, ledger.texts);
	set.add(
		`${stem}.ipynb`,
		notebookText(
			withLedgerPlaced(placed.notebook, insideThePage, {
				name: ledgerFileName,
				sha256: ledger.sha256(),
			}),
		),
	);
	set.add(resultsFileName, resultsText(executed));
	set.add(`${stem}.html`, pageHtml(placed.notebook, installedAssets()));
	stageTables(set, placed.files, `${stem}.ipynb`);
	if (own.length > 0)
		set.add(
			analysesFile,
			analyses.map((a) => `${JSON.stringify(a)}\n`).join(""),
		);
	if (!pdf) return;
	valueOrThrow(printPage(set.path(`${stem}.html`), set.path(`${stem}.pdf`)));
	set.take(`${stem}.pdf`);
}

/** The notebook as it is to be run, read once. */
function prepared(request: RunRequest, path: string): Notebook {
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
		values.set(
			"sheet",
			valueOrThrow(sheetSeenFrom(dirname(path), request.sheet)),
		);
	return withoutStaleDemo(
		valueOrThrow(withParameters(notebook, withOtherSheet(notebook, values))),
	);
}

/** Runs and puts the files in place, in a folder that is ours meanwhile. */
async function runInto(
	request: RunRequest,
	notebook: Notebook,
	path: string,
	held: Lock,
): Promise<RunReport> {
	const { out } = request;
	repair(out);
	const log = readLog(out);
	const outcome = await executeNotebook(notebook, {
		...request,
		folder: dirname(path),
	});
	clearGarbageSoon();
	const { end } = outcome;
	const stem = basename(path, ".ipynb");
	const set = stage(out);
	try {
		if (end.is === "failed") stageFailure(set, outcome, end, request, stem);
		else stageResults(set, outcome, request, stem, log);
		if (!held.isOurs())
			throw new Error(
				`Another run took over the folder ${out}: nothing of this one was written.`,
			);
	} catch (error) {
		set.discard();
		throw error;
	}
	return {
		end,
		files: set.commit(leaving(out, stem, end, set)),
		answer: end.is === "failed" ? [] : answerLines(outcome.notebook),
	};
}

/**
 * Runs a notebook and writes what comes out, all of it or nothing. A run that fails leaves its evidence in a folder of its own and touches nothing that an earlier run wrote; so does one that is killed.
 * @throws ProblemError for a notebook that cannot be read, a parameter that does not exist, a sheet that is not there, a PDF without a Chromium, a folder that another run writes into
 */
export async function runNotebook(request: RunRequest): Promise<RunReport> {
	if (request.pdf) throwProblems(printerProblems());
	const path = resolve(request.notebook);
	const notebook = prepared(request, path);
	makeFolder(request.out);
	const held = lock(request.out);
	try {
		return await runInto(request, notebook, path, held);
	} finally {
		held.release();
	}
}
