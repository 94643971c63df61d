/** The cells of a notebook on its page, in their order, and the list of contents. */
import { escapeHtml } from "../../quantity";
import type { Cell, Notebook } from "../ipynb";
import { isDemo } from "../settings";
import { isSaidAtHead } from "./head";
import { type Heading, renderMarkdown } from "./markdown";
import { outputMarkup, type PageContext } from "./outputs";

export interface Body {
	readonly html: string;
	readonly headings: readonly Heading[];
}

const nothing: Body = { html: "", headings: [] };

function hasCode(cell: Cell): boolean {
	return cell.cell_type === "code" && cell.source.trim() !== "";
}

function cellMarkup(
	cell: Cell,
	step: number,
	context: PageContext,
	title: string,
): Body {
	if (cell.cell_type === "markdown")
		return renderMarkdown(cell.source, context.newId, title);
	if (cell.cell_type === "raw" || !hasCode(cell)) return nothing;
	const outputs = cell.outputs.map((o) => outputMarkup(o, context)).join("");
	return {
		html: `<details class="code"><summary>Code of step ${step}</summary><pre tabindex="0"><code>${escapeHtml(cell.source)}</code></pre></details>${outputs}`,
		headings: [],
	};
}

/** All cells; the heading that the page has as its title is left out once. */
export function workingMarkup(
	notebook: Notebook,
	context: PageContext,
	title: string,
): Body {
	const demo = isDemo(notebook);
	let step = 0;
	let dropped = title;
	const parts = notebook.cells
		.filter((cell) => !isSaidAtHead(cell, demo))
		.map((cell) => {
			if (hasCode(cell)) step += 1;
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

export function contentsMarkup(
	headings: readonly Heading[],
	extra: readonly Heading[],
): string {
	const shallow = Math.min(...headings.map((h) => h.level));
	const items = [...headings.filter((h) => h.level <= shallow + 1), ...extra]
		.map(
			(h) =>
				`<li${h.level > shallow ? ' class="deeper"' : ""}><a href="#${escapeHtml(h.id)}">${escapeHtml(h.text)}</a></li>`,
		)
		.join("");
	return `<nav class="contents" aria-labelledby="contents"><div><h2 id="contents">Contents</h2><ol>${items}</ol><p id="code-switch"></p></div></nav>`;
}
