import { describe, expect, it } from "vitest";
import { readTrial } from "../../kernel-lib/bench/index";
import { inputMimeType } from "../../kernel-lib/notebook/attach";
import { ledgerOf, reportedResults } from "../../kernel-lib/notebook/extract";
import type { Notebook } from "../../kernel-lib/notebook/ipynb";
import { pageHtml } from "../../kernel-lib/notebook/page/index";
import { paperParts } from "../../kernel-lib/notebook/page/paper-parts";
import { versionsHere } from "../../kernel-lib/notebook/versions";
import { type LedgerRow, valueOrThrow } from "../../kernel-lib/quantity/index";
import { uptakes } from "../../kernel-lib/uptake/index";
import { notebookReporting } from "./samples";

const sheet = "data/demo-run/small-trial.csv";
const trial = readTrial(sheet);

/** An executed notebook that carries the sheet of the small trial and reports these. */
function notebookOfTrial(
	...results: readonly (readonly [string, unknown])[]
): Notebook {
	const notebook = notebookReporting(...results);
	notebook.cells.unshift({
		cell_type: "code",
		id: "attached",
		metadata: {},
		source: "notebook.attach(trial);",
		execution_count: 1,
		outputs: trial.sources.map(({ file, hash, content }) => ({
			output_type: "display_data" as const,
			metadata: {},
			data: {
				[inputMimeType]: {
					formatVersion: 2,
					versions: versionsHere(),
					file,
					hash,
					bytes: content.length,
					base64: Buffer.from(content).toString("base64"),
				},
			},
		})),
	});
	return notebook;
}

const notebook = notebookOfTrial(["uptakes", uptakes(trial)]);
const page = pageHtml(notebook, { plotly: "" });

/** What stands in the element with an id, without its tags. */
function textAt(html: string, id: string): string {
	const at = html.indexOf(` id="${id}"`);
	if (at < 0) throw new Error(`No element has the id ${id}.`);
	const from = html.indexOf(">", at) + 1;
	return html.slice(from, html.indexOf("<", from));
}

/** The ledger's lines that name a cell. */
function readLines(): LedgerRow[] {
	return [...ledgerOf(valueOrThrow(reportedResults(notebook)))].filter(
		(line) => line.row > 0,
	);
}

describe("the sheets of a page", () => {
	it("leads every line that was read to its cell, which holds its number", () => {
		const lines = readLines();
		expect(lines.length).toBeGreaterThan(20);
		for (const line of lines) {
			const row = page.slice(page.indexOf(`<tr id="line-${line.id}"`));
			const address = /href="#(cell-[^"]*)"/.exec(
				row.slice(0, row.indexOf("</tr>")),
			)?.[1];
			if (address === undefined)
				throw new Error(`${line.meaning} leads to no cell.`);
			// Deviations from a nominal value are read as tolerances: the cell holds their limit.
			if (line.value !== 0)
				expect(Number(textAt(page, address))).toBeCloseTo(line.value, 9);
		}
	});

	it("leads a flask and its numbers to its working, and that to its cells", () => {
		const [first] = uptakes(trial);
		const id = `flask-${first.flask.name}`;
		const links = page.split(`href="#${id}"`).length - 1;
		// Its name and two numbers in the table, two lines of the ledger, the list of flasks, its row in the sheet.
		expect(links).toBe(7);
		const working = page.slice(
			page.indexOf(`id="${id}"`),
			page.indexOf("</article>", page.indexOf(`id="${id}"`)),
		);
		expect(working.includes("<strong>235 mg/g (u 11 mg/g)</strong>")).toBe(
			true,
		);
		expect(working.match(/href="#cell-1-2-\d+"/g)?.length).toBe(5);
	});
});

describe("a table that is too wide for paper", () => {
	it("comes in parts that each begin with the key and together hold every column once", () => {
		const parts = paperParts([6, ...Array.from({ length: 40 }, () => 12)], 1);
		expect(parts.length).toBeGreaterThan(3);
		expect(parts.every(([key]) => key === 0)).toBe(true);
		expect(parts.flatMap(([, ...columns]) => columns)).toEqual(
			Array.from({ length: 40 }, (_, i) => i + 1),
		);
		for (const part of parts)
			expect(6 + 12 * (part.length - 1)).toBeLessThan(97);
	});

	it("keeps a column that is wider than the paper alone", () => {
		expect(paperParts([6, 200, 10], 1)).toEqual([
			[0, 1],
			[0, 2],
		]);
	});
});
