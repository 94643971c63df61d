/** One self-contained HTML page from an executed notebook: the answer first, then how it was found. */
import { createHash } from "node:crypto";
import { escapeHtml, valueOrThrow } from "../../quantity";
import type { AttachedInput } from "../attach";
import {
	attachedInputs,
	ledgerOf,
	ledgerText,
	reportedResults,
	resultsText,
} from "../extract";
import { type Cell, hasTag, type Notebook, titleOf } from "../ipynb";
import { headNames } from "../report";
import type { ReportedResult } from "../result";
import type { Chart } from "./chart";
import {
	answerMarkup,
	listMarkup,
	type ReportedComparison,
} from "./comparison";
import { type Heading, renderMarkdown } from "./markdown";
import { outputMarkup, type PageContext } from "./outputs";
import { pageScript } from "./script";
import { pageStyle } from "./style";
import { ledgerMarkup } from "./tables";

/** What a page needs beside its notebook. */
export interface PageAssets {
	/** Source of Plotly's basic build. */
	readonly plotly: string;
}

/** JSON inside a script element: "<" would end it early. */
function embeddedJson(value: unknown): string {
	return JSON.stringify(value).replaceAll("<", "\\u003c");
}

/** A script and the hash by which the page's policy lets it run, and nothing else. */
function script(source: string): { html: string; hash: string } {
	const safe = source.replace(/<\/script/gi, "<\\/script");
	const hash = createHash("sha256").update(safe, "utf8").digest("base64");
	return { html: `<script>${safe}</script>`, hash: `'sha256-${hash}'` };
}

function idMaker(): (text: string) => string {
	const used = new Set<string>();
	return (text) => {
		const base =
			text
				.toLowerCase()
				.replace(/[^\p{L}\p{N}]+/gu, "-")
				.replace(/^-+|-+$/g, "") || "part";
		let id = `part-${base}`;
		for (let n = 2; used.has(id); n++) id = `part-${base}-${n}`;
		used.add(id);
		return id;
	};
}

function statements(
	results: readonly ReportedResult[],
	name: string,
): readonly string[] {
	return results.flatMap((r) =>
		r.name === name && r.content.kind === "statements"
			? r.content.statements
			: [],
	);
}

function section(title: string, body: string, id: string): string {
	return body === ""
		? ""
		: `<section class="panel" aria-labelledby="${id}"><h2 id="${id}">${escapeHtml(title)}</h2>${body}</section>`;
}

function isComparison(
	content: ReportedResult["content"],
): content is ReportedComparison {
	return content.kind === "comparison";
}

/** The head of the page: the answer, what may not be concluded, the cautions. */
function answer(results: readonly ReportedResult[]): string {
	const answers =
		listMarkup(statements(results, headNames.answer), "answers") +
		results
			.map((r) => r.content)
			.filter(isComparison)
			.map(answerMarkup)
			.join("");
	return [
		answers === ""
			? ""
			: `<section aria-labelledby="answer"><h2 id="answer">The answer</h2>${answers}</section>`,
		section(
			"What may not be concluded",
			listMarkup(statements(results, headNames.notConcluded)),
			"not-concluded",
		),
		section(
			"Cautions",
			listMarkup(statements(results, headNames.cautions)),
			"cautions",
		),
		section(
			"What to do next",
			listMarkup(statements(results, headNames.next)),
			"next",
		),
	].join("");
}

interface Body {
	readonly html: string;
	readonly headings: readonly Heading[];
}

/** The notice that a run did not come to its end. */
function isStopNotice(cell: Cell): boolean {
	return hasTag(cell, "charledger-stopped");
}

function stopNotice(notebook: Notebook, context: PageContext): string {
	return notebook.cells
		.filter(isStopNotice)
		.map(
			(cell) =>
				`<div class="stopped" role="alert">${renderMarkdown(cell.source, context.newId, "").html}</div>`,
		)
		.join("");
}

function cellMarkup(
	cell: Cell,
	step: number,
	context: PageContext,
	title: string,
): Body {
	if (cell.cell_type === "raw") return { html: "", headings: [] };
	if (cell.cell_type === "markdown") {
		// Said before everything else, at the head of the page.
		return isStopNotice(cell)
			? { html: "", headings: [] }
			: renderMarkdown(cell.source, context.newId, title);
	}
	if (cell.source.trim() === "") return { html: "", headings: [] };
	const outputs = cell.outputs.map((o) => outputMarkup(o, context)).join("");
	return {
		html: `<details class="code"><summary>Code of step ${step}</summary><pre tabindex="0"><code>${escapeHtml(cell.source)}</code></pre></details>${outputs}`,
		headings: [],
	};
}

function notebookMarkup(
	notebook: Notebook,
	context: PageContext,
	title: string,
): Body {
	let step = 0;
	let dropped = title;
	const parts = notebook.cells.map((cell) => {
		if (cell.cell_type === "code" && cell.source.trim() !== "") step += 1;
		const part = cellMarkup(cell, step, context, dropped);
		if (cell.cell_type === "markdown" && cell.source.includes(title))
			dropped = "";
		return part;
	});
	return {
		html: parts.map((p) => p.html).join("\n"),
		headings: parts.flatMap((p) => p.headings),
	};
}

function contents(headings: readonly Heading[], extra: string): string {
	const shallow = Math.min(...headings.map((h) => h.level));
	const items = headings
		.filter((h) => h.level <= shallow + 1)
		.map(
			(h) =>
				`<li${h.level > shallow ? ' class="deeper"' : ""}><a href="#${escapeHtml(h.id)}">${escapeHtml(h.text)}</a></li>`,
		)
		.join("");
	return `<nav class="contents" aria-labelledby="contents"><div><h2 id="contents">Contents</h2><ol>${items}${extra}</ol><p id="code-switch"></p></div></nav>`;
}

function download(name: string, type: string, base64: string): string {
	return `<li><a download="${escapeHtml(name)}" href="data:${type};base64,${base64}" class="screen-only">${escapeHtml(name)}</a><span class="paper-only">${escapeHtml(name)}</span></li>`;
}

function typeOf(input: AttachedInput): string {
	return /\.csv$/i.test(input.file) ? "text/csv" : "application/octet-stream";
}

function base64(text: string): string {
	return Buffer.from(text, "utf8").toString("base64");
}

function filesMarkup(
	inputs: readonly AttachedInput[],
	results: readonly ReportedResult[],
): string {
	const files = [
		...inputs.map((i) => download(i.file, typeOf(i), i.base64)),
		...(results.length === 0
			? []
			: [
					download(
						"results.json",
						"application/json",
						base64(resultsText(results)),
					),
					download("ledger.csv", "text/csv", base64(ledgerText(results))),
				]),
	];
	return files.length === 0
		? ""
		: `<h2 id="files">Files</h2><p>${inputs.length > 0 ? "The sheet as it was read, the results and the ledger" : "The results and the ledger"}, inside this page:</p><ul>${files.join("")}</ul>`;
}

function ledgerSection(results: readonly ReportedResult[]): string {
	const rows = ledgerOf(results);
	return rows.length === 0
		? ""
		: `<h2 id="ledger">Ledger</h2><p>Every number that a reported result rests on, down to the cell that it was read from.</p><details class="ledger"><summary>Show the ${rows.length} lines</summary>${ledgerMarkup(rows)}</details>`;
}

/**
 * The page of an executed notebook. A function of the notebook alone: whoever ran it, the page is the same.
 * @throws ProblemError when a reported result or an input in the notebook cannot be read
 */
export function pageHtml(notebook: Notebook, assets: PageAssets): string {
	const results = valueOrThrow(reportedResults(notebook));
	const inputs = valueOrThrow(attachedInputs(notebook));
	const title = titleOf(notebook);
	let charts = 0;
	const context: PageContext = {
		newId: idMaker(),
		chart(chart: Chart) {
			charts += 1;
			return chart.html.replace(
				"</figure>",
				() =>
					`<script type="application/json">${embeddedJson(chart.data)}</script></figure>`,
			);
		},
	};
	const body = notebookMarkup(notebook, context, title);
	const files = filesMarkup(inputs, results);
	const ledger = ledgerSection(results);
	const scripts = [...(charts > 0 ? [assets.plotly] : []), pageScript].map(
		script,
	);
	const policy = [
		"default-src 'none'",
		`script-src ${scripts.map((s) => s.hash).join(" ")}`,
		// Figures set their own styles; no style can load anything, because nothing else may be loaded.
		"style-src 'unsafe-inline'",
		"img-src data:",
		"base-uri 'none'",
		"form-action 'none'",
	].join("; ");
	const extra = [
		ledger === "" ? "" : '<li><a href="#ledger">Ledger</a></li>',
		files === "" ? "" : '<li><a href="#files">Files</a></li>',
	].join("");
	return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${escapeHtml(title)}</title>
<style>${pageStyle}</style>
</head>
<body>
<a class="skip" href="#notebook">To the working</a>
<header><h1>${escapeHtml(title)}</h1>${stopNotice(notebook, context)}</header>
<main>
<div class="lead">${answer(results)}</div>
${contents(body.headings, extra)}
<div class="work" id="notebook">
${body.html}
${ledger}
${files}
</div>
</main>
<footer><p>Made by Charledger from the executed notebook, and from nothing else. A page of measurements, not a certificate.</p></footer>
${scripts.map((s) => s.html).join("\n")}
</body>
</html>
`;
}
