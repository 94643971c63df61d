/** What every template keeps to, read off the notebooks as they are. */
import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { describe, expect, test } from "vitest";
import { isDemoCell } from "../../kernel-lib/notebook/demo-cells";
import { type Notebook, readNotebook } from "../../kernel-lib/notebook/ipynb";
import { copyOfTemplate } from "../../kernel-lib/notebook/new-notebook";
import {
	parametersOf,
	parametersTag,
} from "../../kernel-lib/notebook/parameters";
import { valueOrThrow } from "../../kernel-lib/quantity/index";

const folder = join(import.meta.dirname, "../../notebooks");

const names = readdirSync(folder)
	.filter((file) => file.endsWith(".ipynb"))
	.map((file) => basename(file, ".ipynb"));

function notebookOf(name: string): Notebook {
	const file = `${name}.ipynb`;
	return valueOrThrow(
		readNotebook(readFileSync(join(folder, file), "utf8"), file),
	);
}

const codeOf = (notebook: Notebook): string =>
	notebook.cells
		.filter((c) => c.cell_type === "code")
		.map((c) => c.source)
		.join("\n");

/** Statistics and tables that a cell would build by hand. */
const byHand =
	/\.reduce\(|Math\.(?:sqrt|log|exp|pow|hypot)|quantity\.table\(|\.mean\(\)|\.std\(\)|<table/;

/** Words of the demo data, which may stand in cells of the demo alone. */
const demoWords =
	/hazelnut|school workshop|\*\*invented\*\*|rain-barrel water|is a demo\b/i;

test("there are eleven", () => {
	expect(names).toHaveLength(11);
});

describe.each(names)("%s", (name) => {
	const notebook = notebookOf(name);
	const code = codeOf(notebook);

	test("has fewer than 30 cells", () => {
		expect(notebook.cells.length).toBeLessThan(30);
	});

	test("has the place of its answer under its title and the word that its data are invented", () => {
		const [title, invented, head] = notebook.cells;
		expect(title.cell_type).toBe("markdown");
		expect(invented.metadata.tags).toEqual(["demo-sheet"]);
		expect(invented.source).toContain("invented");
		expect(head.source).toMatch(
			/^import \{.*\} from "charledger";\nnotebook\.head\(\);/,
		);
	});

	test("embeds its sheet and reports one verdict", () => {
		expect(code).toContain("notebook.attach(");
		expect(code.match(/notebook\.report\("verdict"/g)).toHaveLength(1);
	});

	test("says what it needs right after the sheet was read", () => {
		// A table of readings of its own kind is no trial: its reader says what it needs.
		expect(code).toMatch(
			name === "char-properties"
				? /properties\.readProperties\(sheet/
				: /bench\.readTrial\(sheet.*\n.*\n?notebook\.(?:requires|attach)\(trial[\s\S]{0,120}/,
		);
		expect(code.includes("notebook.requires(trial")).toBe(
			name !== "char-properties",
		);
	});

	test("builds no table and no statistics in its cells", () => {
		expect(code).not.toMatch(byHand);
	});

	test("asks for no solution by the name that the demo gives it", () => {
		expect(code).not.toMatch(/\.concentration\("/);
	});

	test("speaks of the demo in cells of the demo alone", () => {
		const others = notebook.cells.filter((c) => !isDemoCell(c));
		expect(notebook.cells.some(isDemoCell)).toBe(true);
		for (const cell of others)
			expect(cell.source.replace(/"[^"]*data\/demo-[^"]*"/g, "")).not.toMatch(
				demoWords,
			);
	});

	test("names neither demo data nor a char of the demo when it is set to another sheet", () => {
		const copy = copyOfTemplate(notebook, "mine.csv");
		expect(copy.cells.some(isDemoCell)).toBe(false);
		const source = copy.cells.map((c) => c.source).join("\n");
		expect(source).not.toMatch(/data\/demo-|"fired twice"|253\.8/);
		expect(
			parametersOf(copy, parametersTag).find((p) => p.name === "sheet")?.value,
		).toEqual({ is: "value", value: "mine.csv" });
	});
});
