/** A template executed by the built program, as users start it, for tests of what its page says. */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type {
	ReportedAnswer,
	ReportedResult,
} from "../../kernel-lib/notebook/reported";
import { numberFaults, repeatedSentences, wordsSaidTwice } from "./page-style";

const root = join(import.meta.dirname, "../..");
const cli = join(root, "kernel-lib/dist/cli.js");

export interface Executed {
	/** Reported results by name. */
	readonly results: ReadonlyMap<string, ReportedResult["content"]>;
	/** The HTML page. */
	readonly page: string;
}

/** Words that a page may say twice: what stands at the head and again where it is had. Our decision, to be lowered. */
const mostSaidTwice = 600;

/** Whatever a test asks of a page: its numbers are in our style, and its prose says nothing over and over. */
function requireStyle(page: string): void {
	const faults = numberFaults(page).map((f) => `${f.what}: ${f.found}`);
	const words = wordsSaidTwice(page);
	if (words > mostSaidTwice)
		faults.push(
			`${words} words said twice: ${[...repeatedSentences(page).keys()].join(" | ")}`,
		);
	if (faults.length > 0) throw new Error(faults.join("\n"));
}

/**
 * Runs a template of notebooks/.
 *
 * @param parameters what `--set` sets
 */
export function executed(
	template: string,
	parameters: Readonly<Record<string, string | number>> = {},
): Executed {
	if (!existsSync(cli))
		throw new Error("The program is not built: npm run build first.");
	const out = mkdtempSync(join(tmpdir(), "charledger-executed-"));
	try {
		const done = spawnSync(
			process.execPath,
			[
				cli,
				"run",
				join(root, "notebooks", `${template}.ipynb`),
				"--out",
				out,
				...Object.entries(parameters).flatMap(([name, value]) => [
					"--set",
					`${name}=${value}`,
				]),
			],
			{ encoding: "utf8" },
		);
		if (done.status !== 0) throw new Error(done.stderr + done.stdout);
		const { results } = JSON.parse(
			readFileSync(join(out, "results.json"), "utf8"),
		) as {
			results: readonly { name: string; content: ReportedResult["content"] }[];
		};
		const page = readFileSync(join(out, `${template}.html`), "utf8");
		requireStyle(page);
		return {
			results: new Map(results.map((r) => [r.name, r.content])),
			page,
		};
	} finally {
		rmSync(out, { recursive: true, force: true });
	}
}

/** Statements reported under a name. */
export function statementsOf(run: Executed, name: string): readonly string[] {
	const content = run.results.get(name);
	if (content?.kind !== "statements")
		throw new Error(`No statements named "${name}" were reported.`);
	return content.statements;
}

/** The answer of a notebook: finding, table and sentences. */
export function answerOf(run: Executed): ReportedAnswer {
	const content = run.results.get("verdict");
	if (content?.kind !== "answer") throw new Error("No answer was reported.");
	return content;
}

/** The cells of one of the tables of the answer as texts, row by row. */
export function answerCells(run: Executed, table = 0): string[][] {
	return answerOf(run).tables[table].rows.map((row) =>
		row.map((cell) => ("text" in cell ? cell.text : JSON.stringify(cell))),
	);
}

/** The cells of a reported table as texts, row by row. */
export function cellsOf(run: Executed, name: string): string[][] {
	const content = run.results.get(name);
	if (content?.kind !== "table")
		throw new Error(`No table named "${name}" was reported.`);
	return content.table.rows.map((row) =>
		row.map((cell) => ("text" in cell ? cell.text : JSON.stringify(cell))),
	);
}
