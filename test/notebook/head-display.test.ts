/** The head at the top of a notebook: filled by later cells, never an old answer that looks like the present one. */

import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { headBundle, headMimeType } from "../../kernel-lib/notebook/head-forms";
import type { Output } from "../../kernel-lib/notebook/ipynb";
import { pageHtml } from "../../kernel-lib/notebook/page/index";
import { resultOf } from "../../kernel-lib/notebook/result";
import type { KernelClient } from "../../kernel-lib/notebook/run/client";
import { comparison, hostile, notebookReporting } from "./samples";

// The kernel is a process of the built library.
const { startKernel } = createRequire(import.meta.url)(
	"../../kernel-lib/dist/notebook/run/client.js",
) as typeof import("../../kernel-lib/notebook/run/client");

const folder = mkdtempSync(join(tmpdir(), "charledger-head-"));
let kernel: KernelClient;

beforeAll(async () => {
	kernel = await startKernel(folder);
}, 60_000);

afterAll(async () => {
	await kernel.stop();
	rmSync(folder, { recursive: true, force: true });
});

/** What the head says after each cell, as a front end that follows updates has it. */
async function told(
	...cells: readonly (readonly [string, string])[]
): Promise<string[]> {
	let head = "";
	const said: string[] = [];
	for (const [id, source] of cells) {
		await kernel.execute(
			{ id, source },
			{ stopOnError: false, timeoutSeconds: 60 },
			(_, content) => {
				const data = content.data as Record<string, string> | undefined;
				if (data !== undefined && headMimeType in data)
					head = data["text/plain"];
			},
		);
		said.push(head.replace(/\[\d+\]/, "[n]"));
	}
	return said;
}

const top = ["top", "charledger.notebook.head()"] as const;
const verdict = [
	"verdict",
	'charledger.notebook.report("verdict", ["It is so."])',
] as const;

test("is empty, then filled, and says so when a cell is run again, even a changed one", async () => {
	expect(
		await told(top, ["a", "const a = 1;"], verdict, [
			"a",
			"console.log('changed');",
		]),
	).toEqual([
		"The answer comes here when the notebook has run: run all cells.",
		"The answer comes here when the notebook has run: run all cells.",
		"As of cell [n].\nIt is so.",
		"Out of date: cell [n] was run again after this. Run all cells.\nIt is so.",
	]);
}, 60_000);

test("says that a cell has failed, before and after the answer; a new run of all begins afresh", async () => {
	const failed = ["b", "throw new Error('no')"] as const;
	const [, before] = await told(top, failed);
	expect(before).toMatch(/^Cell \[n\] failed/);
	const [fresh, , after] = await told(top, verdict, failed);
	expect(fresh).toMatch(/^The answer comes here/);
	expect(after).toMatch(/^Cell \[n\] failed: .*\nIt is so\.$/);
}, 60_000);

test("takes a result that is reported again in place of the earlier", async () => {
	const said = await told(top, [
		"c",
		'charledger.notebook.report("verdict", ["First."]); charledger.notebook.report("verdict", ["Second."]);',
	]);
	expect(said[1]).toBe("As of cell [n].\nSecond.");
}, 60_000);

const state = { is: "filled", cell: 3 } as const;

test("shows what a page shows, and no name as markup", () => {
	const html = String(
		headBundle(
			[
				resultOf("verdict", comparison(), ""),
				resultOf("cautions", [`Must not be done: ${hostile.image}`], ""),
				resultOf("not concluded", ["This does not show x.", "Open."], ""),
				resultOf("what to do next", ["More."], ""),
			],
			state,
		)["text/html"],
	);
	for (const text of ["Must not be done", "Open.", "More.", "Not a test"])
		expect(html).toContain(text);
	expect(html).not.toMatch(/<img src=x|<script/);
});

test("stands on no page twice, and is no result", () => {
	const notebook = notebookReporting(["verdict", ["It is so."]]);
	const shownHead: Output = {
		output_type: "display_data",
		data: { ...headBundle([resultOf("verdict", ["It is so."], "")], state) },
		metadata: {},
	};
	const [cell] = notebook.cells;
	if (cell.cell_type === "code") cell.outputs.unshift(shownHead);
	expect(pageHtml(notebook, { plotly: "" })).toBe(
		pageHtml(notebookReporting(["verdict", ["It is so."]]), { plotly: "" }),
	);
});
