/** The end of a page: the ledger, what was run, and the files inside the page. */
import { escapeHtml, table } from "../../quantity";
import type { AttachedInput } from "../attach";
import { ledgerOf } from "../extract";
import type { Notebook } from "../ipynb";
import type { ReportedResult } from "../reported";
import { ledgerText, resultsText } from "../results-file";
import type { RunRecord } from "../run-record";
import type { SetBy, Setting } from "../settings";
import { structuredTable } from "../structured-table";
import { listMarkup } from "./comparison";
import { ledgerMarkup, tableMarkup } from "./tables";

export function ledgerSection(results: readonly ReportedResult[]): string {
	const rows = ledgerOf(results);
	return rows.length === 0
		? ""
		: `<h2 id="ledger">Ledger</h2><p>Every number that a reported result rests on, down to the cell that it was read from.</p><details class="ledger"><summary>Show the ${rows.length} lines</summary>${ledgerMarkup(rows)}</details>`;
}

const setByText: Readonly<Record<SetBy, string>> = {
	user: "by the user",
	template: "the template's default",
	notebook: "as written in the notebook",
};

function valueText(setting: Setting): string {
	if (setting.is === "computed") return setting.code;
	return typeof setting.value === "string"
		? setting.value
		: JSON.stringify(setting.value);
}

function settingsMarkup(settings: readonly Setting[]): string {
	if (settings.length === 0) return "";
	return tableMarkup(
		structuredTable(
			table(
				"",
				["setting", "value", "set"],
				settings.map((s) => [s.name, valueText(s), setByText[s.setBy]]),
			),
		),
		"Settings of the notebook",
		true,
	);
}

function versionsText({ versions }: RunRecord): string {
	return versions.is === "known"
		? `Charledger ${versions.library}, Node ${versions.node}, tslab ${versions.tslab}.`
		: `Versions are not known: ${versions.because}.`;
}

function timesText({ times }: RunRecord): string {
	const minute = (text: string): string =>
		`${text.slice(0, 10)} ${text.slice(11, 16)} UTC`;
	if (times.is === "not known")
		return `When it was run is not known: ${times.because}.`;
	const [started, ended] = [minute(times.started), minute(times.ended)];
	return started === ended
		? `Run on ${started}.`
		: `Run from ${started} to ${ended}.`;
}

/** What was run, and the id that stands for it. */
export function runSection(record: RunRecord): string {
	const inputs = record.inputs.map(({ file, hash, sha256 }) =>
		sha256 === ""
			? `Read: ${file}, content hash ${hash}`
			: `Read: ${file}, content hash ${hash} (SHA-256 ${sha256})`,
	);
	return `<h2 id="run">This run</h2><p>Run id <code>${escapeHtml(record.id)}</code>: the same for the same files, code, settings and versions, whenever and wherever they are run.</p>${settingsMarkup(record.settings)}${listMarkup([...inputs, versionsText(record), timesText(record)])}`;
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

export function filesSection(
	notebook: Notebook,
	inputs: readonly AttachedInput[],
	results: readonly ReportedResult[],
): string {
	const made =
		results.length === 0
			? []
			: [
					download(
						"results.json",
						"application/json",
						base64(resultsText(notebook)),
					),
					download("ledger.csv", "text/csv", base64(ledgerText(notebook))),
				];
	const files = [
		...inputs.map((i) => download(i.file, typeOf(i), i.base64)),
		...made,
	];
	return files.length === 0
		? ""
		: `<h2 id="files">Files</h2><p>${inputs.length > 0 ? "The sheet as it was read, the results and the ledger" : "The results and the ledger"}, inside this page:</p><ul>${files.join("")}</ul>`;
}
