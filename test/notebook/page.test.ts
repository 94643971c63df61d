import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { pageHtml } from "../../kernel-lib/notebook/page/index";
import { renderMarkdown } from "../../kernel-lib/notebook/page/markdown";
import { resultMimeType } from "../../kernel-lib/notebook/reported";
import { versionsHere } from "../../kernel-lib/notebook/versions";
import { hostile, hostileNotebook } from "./samples";

const plotly = 'window.Plotly = { text: "</script>" };';
const page = pageHtml(hostileNotebook(), { plotly });

/** The page without what is meant to be there: its own scripts and the data of figures. */
const markup = page.replace(/<script[\s\S]*?<\/script>/g, "");

describe("the page", () => {
	it("gives the answer before anything else", () => {
		const order = [
			'id="answer"',
			'id="not-concluded"',
			'id="cautions"',
			'id="contents"',
			'id="notebook"',
			'id="ledger"',
			'id="files"',
		].map((part) => page.indexOf(part));
		expect(order.every((at) => at > 0)).toBe(true);
		expect([...order].sort((a, b) => a - b)).toEqual(order);
	});

	it.each(["verdict", "answer"])(
		"gives an answer in sentences, reported as %s",
		(name) => {
			const hostileSentence = `The char took up ${hostile.image}.`;
			const notebook = hostileNotebook();
			const answered = pageHtml(
				{
					...notebook,
					cells: notebook.cells.map((cell) =>
						cell.id === "results" && cell.cell_type === "code"
							? {
									...cell,
									outputs: [
										{
											output_type: "display_data" as const,
											metadata: {},
											data: {
												[resultMimeType]: {
													formatVersion: 2,
													name,
													versions: versionsHere(),
													note: "",
													content: {
														kind: "statements",
														statements: [hostileSentence],
													},
													ledger: [],
												},
											},
										},
									],
								}
							: cell,
					),
				},
				{ plotly },
			);
			const head = answered.slice(
				answered.indexOf('id="answer"'),
				answered.indexOf('id="contents"'),
			);
			expect(head).toContain("The char took up &lt;img");
			expect(answered).toContain('<a href="#answer">');
		},
	);

	it("runs the scripts that its policy names by their hash, and no others", () => {
		const policy = /Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1];
		const scripts = [...page.matchAll(/<script>([\s\S]*?)<\/script>/g)].map(
			(m) => m[1],
		);
		expect(scripts).toHaveLength(2);
		for (const script of scripts)
			expect(policy).toContain(
				`'sha256-${createHash("sha256").update(script).digest("base64")}'`,
			);
		expect(policy?.match(/sha256-/g)).toHaveLength(2);
		expect(policy).toContain("default-src 'none'");
		expect(policy).not.toMatch(/script-src[^;]*unsafe|https?:|\*/);
	});

	it("takes no name, text or HTML of the notebook for markup", () => {
		expect(markup).not.toMatch(/<script|<img src=x|<b>|href="javascript/i);
		expect(markup).toContain("&lt;img src=x onerror=");
		// Data of figures stays data: nothing in it can end the element early.
		for (const m of page.matchAll(
			/<script type="application\/json">([\s\S]*?)<\/script>/g,
		))
			expect(m[1]).not.toContain("<");
	});

	it("asks for nothing from elsewhere", () => {
		const addresses = [
			...markup.matchAll(/\b(?:src|href|srcset)="([^"]*)"/g),
		].map((m) => m[1]);
		expect(addresses.length).toBeGreaterThan(5);
		for (const address of addresses) expect(address).toMatch(/^(#|data:)/);
	});

	it("has every id once and leads every inner link somewhere", () => {
		const ids = [...markup.matchAll(/\bid="([^"]*)"/g)].map((m) => m[1]);
		expect(new Set(ids).size).toBe(ids.length);
		for (const [, target] of markup.matchAll(/href="#([^"]*)"/g))
			expect(ids).toContain(target);
	});

	it("carries Plotly only where there is a figure", () => {
		const bare = hostileNotebook();
		bare.cells.splice(2);
		expect(page).toContain("window.Plotly = {");
		expect(pageHtml(bare, { plotly })).not.toContain("window.Plotly = {");
	});

	it("is the same for the same notebook", () => {
		expect(pageHtml(hostileNotebook(), { plotly })).toBe(page);
	});

	it("says at its head that a run was stopped", () => {
		const stopped = hostileNotebook();
		stopped.cells.unshift({
			cell_type: "markdown",
			id: "charledger-stopped",
			metadata: { tags: ["charledger-stopped"] },
			source: "**This run stopped at code cell 2.**",
		});
		// Before the answer of cells that had run, not below it.
		expect(pageHtml(stopped, { plotly })).toMatch(
			/<header><p class="stamp">[^\n]*?<\/p><div class="stopped" role="alert"><p><strong>This run stopped[\s\S]*<h1/,
		);
	});
});

describe("Markdown on the page", () => {
	const html = (source: string): string =>
		renderMarkdown(source, (text) => text, "").html;

	it("sets formulas as MathML and leaves money alone", () => {
		expect(html("$x^2$")).toContain("<math");
		expect(html("$$\nx\n$$")).toContain('display="block"');
		expect(html("It costs $5 and $6.")).not.toContain("<math");
		expect(html("`$x$`")).not.toContain("<math");
	});

	it("shows a formula that cannot be set as it was written", () => {
		expect(html("$\\frac{1}$")).toContain("\\frac{1}");
	});

	it("takes HTML and links to scripts for text", () => {
		expect(html(hostile.image)).not.toContain("<img");
		expect(html("[x](javascript:alert(1))")).not.toContain("href");
		expect(html("[x](data:text/html,x)")).not.toContain("href");
	});
});
