/** The outputs of a cell as HTML, made from their structured forms only: HTML that a notebook holds is never taken over. */

import { figureMimeType, readFigure } from "../../figures";
import { bareNumber, escapeHtml, valueText } from "../../quantity";
import { inputMimeType } from "../attach";
import { headMimeType } from "../head-forms";
import type { Output } from "../ipynb";
import { listHtml } from "../list-html";
import { photographMimeType } from "../photographs";
import {
	headNames,
	type ReportedAnswer,
	type ReportedResult,
	resultMimeType,
} from "../reported";
import { photographSchema, resultSchema, tableSchema } from "../schema";
import { tableMimeType } from "../structured-table";
import { type Chart, chartOf } from "./chart";
import { comparisonMarkup } from "./comparison";
import { renderMarkdown } from "./markdown";
import { mathMl } from "./maths";
import { tableMarkup } from "./tables";
import type { Trace } from "./trace";

/** What the parts of a page share while it is made. */
export interface PageContext {
	/** Where links lead to. */
	readonly trace: Trace;
	/** An id that no other part of the page has. */
	newId(text: string): string;
	/** Takes a chart up for the page's script and gives its HTML. */
	chart(chart: Chart): string;
}

/** Colours and cursor movements that programs write for a terminal. */
const terminalCodes = new RegExp(
	`${String.fromCharCode(27)}\\[[0-9;?]*[A-Za-z]`,
	"g",
);

function preformatted(text: string, look: string): string {
	return `<pre class="${look}" tabindex="0">${escapeHtml(text.replace(terminalCodes, "").trimEnd())}</pre>`;
}

type Data = Record<string, unknown>;

/** Where the first list of all cautions stands. */
export const allCautions = "part-all-cautions";

/** Where the head of the page shows statements, by the name that they are reported under. */
export const headPlaces: ReadonlyMap<string, string> = new Map([
	[headNames.verdict, "answer"],
	[headNames.answer, "answer"],
	[headNames.notConcluded, "not-concluded"],
	[headNames.next, "next"],
]);

function chartMarkup(data: Data, context: PageContext): string {
	const description = readFigure(data[figureMimeType]);
	return description.ok
		? context.chart(
				chartOf(description.value, (flask) => context.trace.flask(flask)),
			)
		: `<p class="note">A figure could not be drawn: ${escapeHtml(description.problems[0].found)}.</p>`;
}

/** A figure that travels beside its result, or its words where there is none. */
function figureMarkup(alt: string, data: Data, context: PageContext): string {
	if (figureMimeType in data) return chartMarkup(data, context);
	return alt === "" ? "" : `<p>${escapeHtml(alt)}</p>`;
}

/** What stands at the head is not said again; its figure is, in the form that can be pointed at. */
function answerMarkup(
	name: string,
	answer: ReportedAnswer,
	data: Data,
	context: PageContext,
): string {
	const place = headPlaces.get(name);
	return `${place === undefined ? `<p class="value">${escapeHtml(answer.finding)}</p>${answer.tables.map((table) => tableMarkup(table, name, false, context.trace)).join("")}${listHtml(answer.statements)}` : `<p><a href="#${place}">Shown at the head of this page.</a></p>`}${figureMarkup(answer.figure, data, context)}`;
}

function contentMarkup(
	result: ReportedResult,
	data: Data,
	context: PageContext,
): string {
	const { content } = result;
	switch (content.kind) {
		case "comparison":
			return comparisonMarkup(content, context.trace);
		case "answer":
			return answerMarkup(result.name, content, data, context);
		case "table":
			return tableMarkup(content.table, result.name, false, context.trace);
		case "statements": {
			if (result.name === headNames.cautions)
				return `<div id="${context.newId("all cautions")}">${listHtml(content.statements)}</div>`;
			const place = headPlaces.get(result.name);
			return place === undefined
				? listHtml(content.statements)
				: `<p><a href="#${place}">Shown at the head of this page.</a></p>`;
		}
		case "text":
			return `<p class="value">${escapeHtml(content.text)}</p>`;
		case "number":
			return `<p class="value">${escapeHtml(bareNumber(content.value))}</p>`;
		case "quantity":
			return `<p class="value">${escapeHtml(valueText(content.value, content.standardUncertainty, content.unit))}</p>`;
		case "bound":
			return `<p class="value">${escapeHtml(`${content.side} ${valueText(content.value, content.standardUncertainty, content.unit)}`)}</p><p class="note">${escapeHtml(content.because)}</p>`;
		case "figure":
			return figureMarkup(content.alt, data, context);
	}
}

function resultMarkup(data: Data, context: PageContext): string {
	const parsed = resultSchema.safeParse(data[resultMimeType]);
	if (!parsed.success)
		return '<p class="note">A reported result could not be read. Run the notebook again with this version.</p>';
	const result = parsed.data;
	const note = result.note === "" ? "" : `<p>${escapeHtml(result.note)}</p>`;
	const working = context.trace.value(result);
	const link =
		working === "" ? "" : `, <a href="${working}">how it was had</a>`;
	return `<div class="result"><p class="name">Reported: ${escapeHtml(result.name)}${link}</p>${contentMarkup(result, data, context)}${note}</div>`;
}

function photographMarkup(data: Data): string {
	const known = photographSchema.safeParse(data[photographMimeType]);
	const picture = known.success
		? String(data[known.data.mediaType] ?? "").replace(/\s/g, "")
		: "";
	if (!known.success || !/^[A-Za-z0-9+/]+=*$/.test(picture))
		return '<p class="note">A photograph could not be read.</p>';
	const { caption, mediaType } = known.data;
	return `<figure class="photograph"><img src="data:${mediaType};base64,${picture}" alt="${escapeHtml(caption)}"><figcaption>${escapeHtml(caption)}</figcaption></figure>`;
}

function dataMarkup(data: Data, context: PageContext): string {
	const text = (type: string): string => String(data[type] ?? "");
	// A page has a head of its own.
	if (headMimeType in data) return "";
	if (resultMimeType in data) return resultMarkup(data, context);
	if (figureMimeType in data) return chartMarkup(data, context);
	if (tableMimeType in data) {
		const table = tableSchema.safeParse(data[tableMimeType]);
		if (table.success)
			return tableMarkup(table.data, "Table", false, context.trace);
	}
	if (photographMimeType in data) return photographMarkup(data);
	if (inputMimeType in data)
		return `<p class="note">${escapeHtml(text("text/plain"))}</p>`;
	if ("text/latex" in data)
		return mathMl(text("text/latex").replace(/^\$+|\$+$/g, ""), true);
	if ("text/markdown" in data)
		return renderMarkdown(text("text/markdown"), context.newId, "").html;
	if ("text/plain" in data) return preformatted(text("text/plain"), "text");
	return '<p class="note">This output has no form that this page can show.</p>';
}

export function outputMarkup(output: Output, context: PageContext): string {
	switch (output.output_type) {
		case "stream":
			return preformatted(
				output.text,
				output.name === "stderr" ? "messages" : "text",
			);
		case "error":
			return preformatted(
				output.traceback.length > 0
					? output.traceback.join("\n")
					: `${output.ename}: ${output.evalue}`,
				"error",
			);
		case "display_data":
		case "execute_result":
			return dataMarkup(output.data, context);
	}
}
