import { existsSync, readFileSync, statSync } from "node:fs";
import { basename, extname } from "node:path";
import { contentHash, type Problem, problem } from "../quantity";
import { type SheetName, sheetNames, sheets } from "./columns";
import type { RawTable } from "./raw-table";
import { readCsv } from "./read-csv";
import { readXlsx } from "./read-xlsx";
import { requirePath } from "./require-path";
import { keyHeads } from "./table-form";
import type { Source } from "./trial";

const csvNames = /\.(csv|tsv|txt)$/i;

/** A file of a sheet may have so many bytes: 10,000 rows of text are some 4 MB. Our decision. */
export const mostBytes = 50_000_000;

interface Tables {
	readonly tables: RawTable[];
	/** The files as they were read, so that whatever is shown or passed on is what was computed with. */
	readonly sources: Source[];
	readonly problems: Problem[];
}

function unreadableFile(path: string, found: string, mend: string): Tables {
	return {
		tables: [],
		sources: [],
		problems: [
			problem(
				"file-unreadable",
				{ file: basename(path) },
				found,
				"a bench sheet: a .csv file (with NAME.solutions.csv beside it) or an .xlsx workbook",
				mend,
			),
		],
	};
}

/** The files that hold the tables of a bench sheet in CSV, those that are there. The path of NAME.activation.csv leads to the same as that of NAME.csv. */
function csvFiles(path: string): { sheet: SheetName; file: string }[] {
	const extension = extname(path);
	const stem = path
		.slice(0, path.length - extension.length)
		.replace(/\.activation$/i, "");
	return sheetNames
		.map((sheet) => ({
			sheet,
			file:
				sheet === "flasks"
					? `${stem}${extension}`
					: `${stem}.${sheet}${extension}`,
		}))
		.filter(({ file }) => existsSync(file));
}

/** The files that a bench sheet consists of: a workbook alone, or NAME.csv with its sister files. */
export function sheetFiles(path: string): string[] {
	const files = csvNames.test(path) ? csvFiles(path).map((f) => f.file) : [];
	return files.includes(path) ? files : [path, ...files];
}

function sourceOf(path: string, content: Buffer): Source {
	return { file: basename(path), hash: contentHash(content), content };
}

/** @param start what was read of the path itself: no file is read twice */
function readCsvFiles(path: string, start: Buffer): Tables {
	const read = csvFiles(path).map(({ sheet, file }) => ({
		sheet,
		source: sourceOf(file, file === path ? start : readFileSync(file)),
	}));
	const tables = read.map(({ sheet, source: { file, hash, content } }) =>
		readCsv(content, keyHeads(sheets[sheet]), { file, hash, sheet }),
	);
	return { tables, sources: read.map((r) => r.source), problems: [] };
}

/**
 * Reads the raw tables of a bench sheet. A workbook (.xlsx) has them as sheets named flasks, solutions, deviations, glassware, activation, calibration; beside NAME.csv with the flasks stand
 * NAME.solutions.csv, NAME.deviations.csv, NAME.glassware.csv, NAME.activation.csv and NAME.calibration.csv.
 */
export function readFile(path: string): Tables {
	requirePath(path);
	try {
		const heavy = sheetFiles(path).find(
			(file) => existsSync(file) && statSync(file).size > mostBytes,
		);
		if (heavy !== undefined)
			return unreadableFile(
				heavy,
				`a file of ${Math.round(statSync(heavy).size / 1e6)} MB, more than a bench sheet has (${mostBytes / 1e6} MB)`,
				"Copy the tables alone into a new file.",
			);
		const start = readFileSync(path);
		const workbook = start[0] === 0x50 && start[1] === 0x4b;
		if (workbook) {
			const source = sourceOf(path, start);
			const { file, hash } = source;
			return { ...readXlsx(start, { file, hash }), sources: [source] };
		}
		if (csvNames.test(path)) return readCsvFiles(path, start);
		if (/\.xls[xm]?$/i.test(path))
			return unreadableFile(
				path,
				"a file that is named like a workbook but does not hold one",
				"Open it in the spreadsheet program and save it as .xlsx; or, if it holds text, name it .csv.",
			);
		return unreadableFile(
			path,
			`a file of the kind "${extname(path) || "without an extension"}"`,
			"Save the sheet as .xlsx or .csv.",
		);
	} catch (error) {
		const code = (error as { code?: string }).code ?? "";
		return unreadableFile(
			path,
			code === "ENOENT"
				? `no file at ${path}`
				: code === "EISDIR"
					? `a folder at ${path}`
					: `a file that cannot be read (${(error as Error).message})`,
			code === "ENOENT"
				? "Look at the path and the spelling; a relative path starts from the notebook's folder."
				: "Give the path of the sheet itself; if it is damaged or protected, save it again.",
		);
	}
}
