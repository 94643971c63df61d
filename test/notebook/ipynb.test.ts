import { describe, expect, it } from "vitest";
import {
	notebookText,
	readNotebook,
	titleOf,
} from "../../kernel-lib/notebook/ipynb";
import { stripped } from "../../kernel-lib/notebook/strip";
import { valueOrThrow } from "../../kernel-lib/quantity/index";
import { hostileNotebook } from "./samples";

describe("notebook files", () => {
	it("come back from their own text", () => {
		const notebook = hostileNotebook();
		const text = notebookText(notebook);
		const again = valueOrThrow(readNotebook(text, "x.ipynb"));
		expect(again).toEqual(notebook);
		expect(notebookText(again)).toBe(text);
	});

	it("are refused with words when they are something else", () => {
		const notJson = readNotebook("sheet,flask", "sheet.csv");
		expect(notJson.ok).toBe(false);
		const old = readNotebook('{"nbformat": 3, "worksheets": []}', "old.ipynb");
		expect(old.ok ? [] : old.problems.map((p) => p.where.file)).toContain(
			"old.ipynb",
		);
	});

	it("give cells without ids the same ids every time", () => {
		const text = JSON.stringify({
			nbformat: 4,
			nbformat_minor: 2,
			metadata: {},
			cells: [
				{ cell_type: "markdown", metadata: {}, source: ["# A\n", "b"] },
				{ cell_type: "markdown", metadata: {}, source: "c" },
			],
		});
		const notebook = valueOrThrow(readNotebook(text, "x.ipynb"));
		expect(notebook.cells.map((c) => c.id)).toEqual(["cell-1", "cell-2"]);
		expect(titleOf(notebook)).toBe("A");
	});

	it("lose outputs, counts and traces of a session when stripped, and nothing else", () => {
		const notebook = hostileNotebook();
		notebook.cells[2].metadata.scrolled = true;
		notebook.cells[2].metadata.tags = ["parameters"];
		const clean = stripped(notebook);
		expect(clean.cells.map((c) => c.source)).toEqual(
			notebook.cells.map((c) => c.source),
		);
		expect(clean.cells[2]).toMatchObject({
			outputs: [],
			execution_count: null,
			metadata: { tags: ["parameters"] },
		});
		expect(clean.cells[2].metadata).not.toHaveProperty("scrolled");
		expect(stripped(clean)).toEqual(clean);
	});
});
