/** The end of a page: the ledger, what was run, and the files inside the page. */

import { gzipSync } from "node:zlib";
import { escapeHtml, type LedgerRow, table } from "../../quantity";
import type { AttachedInput } from "../attach";
import { ledgerOf } from "../extract";
import type { Notebook } from "../ipynb";
import { type LedgerFile, ledgerFile } from "../large/ledger-file";
import { insideAsRead } from "../large/limits";
import { beside, lengthInside } from "../large/packed-file";
import { isPacked } from "../large/packed-ledger";
import { listHtml } from "../list-html";
import type { ReportedResult } from "../reported";
import { ledgerText, ledgerTextLines, resultsText } from "../results-file";
import type { RunRecord } from "../run-record";
import type { SetBy, Setting } from "../settings";
import { structuredTable } from "../structured-table";

import {
	downloadLink,
	type LedgerLinks,
	ledgerMarkup,
	packedLink,
	tableMarkup,
} from "./tables";

/** The ledger as a page has it. */
export type PageLedger =
	| { readonly is: "whole"; readonly rows: readonly LedgerRow[] }
	| { readonly is: "large"; readonly file: LedgerFile };

/** @param room how much the compressed ledger may add to the page */
export function pageLedger(
	notebook: Notebook,
	results: readonly ReportedResult[],
	room: number,
): PageLedger {
	if (!results.some(({ ledger }) => isPacked(ledger)))
		return { is: "whole", rows: [...ledgerOf(results)] };
	const file = ledgerFile(ledgerTextLines(notebook));
	return {
		is: "large",
		file:
			lengthInside(file.packed) <= room
				? file
				: { ...file, packed: beside(file.packed) },
	};
}

const everyNumber =
	"Every number that a reported result rests on, down to the cell that it was read from";

function largeLedger({ lines, sha256, packed }: LedgerFile): string {
	const inside =
		packed.inside.length === 0
			? ""
			: ` It is inside this page too: ${packedLink(packed)}.`;
	return `<p>${everyNumber}, has ${lines} lines, too many for a page. They are in the file ledger.csv, which a run writes beside its page (SHA-256 ${sha256}).${inside}</p><p>Look there for the name of a flask in the column "meaning". "inputs" holds the ids of the lines that a line was made from; a line without inputs was read from its file, sheet, row and column, or says its source.</p>`;
}

export function ledgerSection(ledger: PageLedger, links: LedgerLinks): string {
	if (ledger.is === "large")
		return `<h2 id="ledger">Ledger</h2>${largeLedger(ledger.file)}`;
	const { rows } = ledger;
	return rows.length === 0
		? ""
		: `<h2 id="ledger">Ledger</h2><p>${everyNumber}.</p><details class="ledger"><summary>Show the ${rows.length} lines</summary>${ledgerMarkup(rows, links)}</details>`;
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

function seedsText({ seeds }: RunRecord): string[] {
	if (seeds.length === 0) return [];
	const each = seeds.map((s) => `${s.for} "${s.seed}"`);
	return [`Seeds that chance was drawn from: ${each.join("; ")}.`];
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
	return `<h2 id="run">This run</h2><p>Run id <code>${escapeHtml(record.id)}</code>: the same for the same files, code, settings and versions, whenever and wherever they are run.</p>${settingsMarkup(record.settings)}${listHtml([...inputs, versionsText(record), ...seedsText(record), timesText(record)])}`;
}

function download(name: string, type: string, base64: string): string {
	return `<li>${downloadLink(name, type, base64)}</li>`;
}

function typeOf(input: AttachedInput): string {
	return /\.csv$/i.test(input.file) ? "text/csv" : "application/octet-stream";
}

/** A file as it is; a large one compressed. */
function fileDownload(name: string, type: string, base64: string): string {
	if (base64.length <= insideAsRead) return download(name, type, base64);
	const bytes = gzipSync(Buffer.from(base64, "base64"));
	return download(`${name}.gz`, "application/gzip", bytes.toString("base64"));
}

const inputDownload = (input: AttachedInput): string =>
	fileDownload(input.file, typeOf(input), input.base64);

function base64(text: string): string {
	return Buffer.from(text, "utf8").toString("base64");
}

function ledgerDownload(notebook: Notebook, ledger: PageLedger): string[] {
	return ledger.is === "large"
		? []
		: [download("ledger.csv", "text/csv", base64(ledgerText(notebook)))];
}

function filesText(withSheet: boolean, { is }: PageLedger): string {
	if (is === "large")
		return withSheet
			? "The sheet as it was read and the results"
			: "The results";
	return withSheet
		? "The sheet as it was read, the results and the ledger"
		: "The results and the ledger";
}

export function filesSection(
	notebook: Notebook,
	inputs: readonly AttachedInput[],
	results: readonly ReportedResult[],
	ledger: PageLedger,
): string {
	const made =
		results.length === 0
			? []
			: [
					fileDownload(
						"results.json",
						"application/json",
						base64(resultsText(notebook)),
					),
					...ledgerDownload(notebook, ledger),
				];
	const files = [...inputs.map(inputDownload), ...made];
	return files.length === 0
		? ""
		: `<h2 id="files">Files</h2><p>${filesText(inputs.length > 0, ledger)}, inside this page:</p><ul>${files.join("")}</ul>`;
}
