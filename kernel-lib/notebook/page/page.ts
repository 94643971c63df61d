/** One self-contained HTML page from an executed notebook: the answer first, then how it was found. */
import { createHash } from "node:crypto";
import { escapeHtml, valueOrThrow } from "../../quantity";
import { attachedInputs, reportedResults } from "../extract";
import { headOf } from "../head";
import { type Notebook, titleOf } from "../ipynb";
import { insideThePage } from "../large/limits";
import { roomLeft } from "../large/placing";
import { runRecord } from "../run-record";
import { isDemo } from "../settings";
import { idMaker } from "./anchors";
import type { Chart } from "./chart";
import { differencesSection } from "./differences";
import { flasksSection } from "./flasks";
import {
	claimMarkup,
	forbiddenMarkup,
	leadMarkup,
	noticesMarkup,
	titleMarkup,
	titleText,
} from "./head";
import type { Heading } from "./markdown";
import type { PageContext } from "./outputs";
import { filesSection, ledgerSection, pageLedger, runSection } from "./record";
import { pageScript } from "./script";
import { sheetsSection } from "./sheets";
import { stampMarkup } from "./stamp";
import { pageStyle } from "./style";
import { linesShown, type Trace, traceOf } from "./trace";
import { contentsMarkup, workingMarkup } from "./working";

/** What a page needs beside its notebook. */
export interface PageAssets {
	/** Source of Plotly's basic build. */
	readonly plotly: string;
}

/** JSON inside a script element: "<" would end it early. */
function embeddedJson(value: unknown): string {
	return JSON.stringify(value).replaceAll("<", "\\u003c");
}

interface Script {
	readonly html: string;
	/** By which the page's policy lets it run, and nothing else. */
	readonly hash: string;
}

function script(source: string): Script {
	const safe = source.replace(/<\/script/gi, "<\\/script");
	const hash = createHash("sha256").update(safe, "utf8").digest("base64");
	return { html: `<script>${safe}</script>`, hash: `'sha256-${hash}'` };
}

/** The context of one page, and how many charts it has taken up so far. */
function newContext(trace: Trace): PageContext & { charts(): number } {
	let charts = 0;
	return {
		trace,
		newId: idMaker("part"),
		chart(chart: Chart) {
			charts += 1;
			return chart.html.replace(
				"</figure>",
				() =>
					`<script type="application/json">${embeddedJson(chart.data)}</script></figure>`,
			);
		},
		charts: () => charts,
	};
}

function policyOf(scripts: readonly Script[]): string {
	return [
		"default-src 'none'",
		`script-src ${scripts.map((s) => s.hash).join(" ")}`,
		// Figures set their own styles; no style can load anything, because nothing else may be loaded.
		"style-src 'unsafe-inline'",
		"img-src data:",
		"base-uri 'none'",
		"form-action 'none'",
	].join("; ");
}

function inContents(id: string, text: string, body: string): Heading[] {
	return body === "" ? [] : [{ level: 0, text, id }];
}

/**
 * The page of an executed notebook. A function of the notebook alone: whoever ran it, the page is the same.
 * @param room how much of large tables and of the ledger may be inside, in characters
 * @throws ProblemError when a reported result or an input in the notebook cannot be read, or cells were run by different versions
 */
export function pageHtml(
	notebook: Notebook,
	assets: PageAssets,
	room = insideThePage,
): string {
	const results = valueOrThrow(reportedResults(notebook));
	const inputs = valueOrThrow(attachedInputs(notebook));
	const title = titleOf(notebook);
	const head = headOf(results);
	const carried = pageLedger(notebook, results, roomLeft(notebook, room));
	const trace = traceOf(
		inputs,
		results,
		carried.is === "whole" ? carried.rows : linesShown(results),
		carried.is === "whole",
	);
	const context = newContext(trace);
	const notices = noticesMarkup(notebook, context);
	const body = workingMarkup(notebook, context, title);
	const ledger = ledgerSection(carried, trace);
	const differences = differencesSection(
		trace.differences,
		trace.lines,
		trace.flask,
	);
	const flasks = flasksSection(trace.flasks, trace.treatments, trace);
	const sheets = sheetsSection(trace.sheets, trace.row);
	const record = valueOrThrow(runRecord(notebook));
	const run = runSection(record);
	const files = filesSection(notebook, inputs, results, carried);
	const contents = contentsMarkup(body.headings, [
		...inContents("differences", "Differences", differences),
		...inContents("flasks", "Flasks", flasks),
		...inContents("ledger", "Ledger", ledger),
		...inContents("sheets", "Sheets", sheets),
		...inContents("run", "This run", run),
		...inContents("files", "Files", files),
	]);
	const scripts = [
		...(context.charts() > 0 ? [assets.plotly] : []),
		pageScript,
	].map(script);
	return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policyOf(scripts)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${escapeHtml(titleText(head, title))}</title>
<style>${pageStyle}</style>
</head>
<body>
<a class="skip" href="#notebook">To the working</a>
<header>${forbiddenMarkup(head)}${stampMarkup(record, results, trace.sheets, isDemo(notebook))}${notices}${claimMarkup(head)}${titleMarkup(head, title)}</header>
<main>
<div class="lead">${leadMarkup(head, trace)}</div>
${contents}
<div class="work" id="notebook">
${body.html}
${differences}
${flasks}
${ledger}
${sheets}
${run}
${files}
</div>
</main>
<footer><p>Made by Charledger from the executed notebook, and from nothing else. A page of measurements, not a certificate.</p></footer>
${scripts.map((s) => s.html).join("\n")}
</body>
</html>
`;
}
