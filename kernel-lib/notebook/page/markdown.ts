/** The Markdown of a notebook as safe HTML: HTML in it is text, links are checked, formulas become MathML, headings get a place in the contents list. */
import MarkdownIt from "markdown-it";
import { mathMl } from "./maths";

export interface Heading {
	readonly level: number;
	readonly text: string;
	readonly id: string;
}

export interface RenderedMarkdown {
	readonly html: string;
	readonly headings: readonly Heading[];
}

/** Where a `$` opens a formula, the formula and the place after it; null where it is a plain dollar sign (as in "$5 and $6"). */
function formulaAt(
	source: string,
	at: number,
): { tex: string; display: boolean; end: number } | null {
	const display = source.startsWith("$$", at);
	const mark = display ? "$$" : "$";
	const start = at + mark.length;
	let close = source.indexOf(mark, start);
	while (close > 0 && source[close - 1] === "\\")
		close = source.indexOf(mark, close + 1);
	if (close < 0) return null;
	const tex = source.slice(start, close);
	const loose =
		!display &&
		(/^\s|\s$/.test(tex) || /\d/.test(source[close + 1] ?? "") || tex === "");
	return loose ? null : { tex, display, end: close + mark.length };
}

function withMaths(md: MarkdownIt): void {
	md.inline.ruler.before("escape", "formula", (state, silent) => {
		if (state.src[state.pos] !== "$") return false;
		const formula = formulaAt(state.src, state.pos);
		if (formula === null) return false;
		if (!silent) {
			const token = state.push("formula", "math", 0);
			token.content = formula.tex;
			token.info = formula.display ? "display" : "";
		}
		state.pos = formula.end;
		return true;
	});
	md.renderer.rules.formula = (tokens, i) =>
		mathMl(tokens[i].content, tokens[i].info === "display");
}

/** Headings of the notebook stand under the page's own: # becomes h2 and so on. */
const levelShift = 1;

function plainHeading(content: string): string {
	return content.replace(/[*_`$\\]/g, "").trim();
}

const renderer = new MarkdownIt({ html: false, linkify: false });
withMaths(renderer);
renderer.renderer.rules.table_open = () =>
	'<div class="wide" role="group" tabindex="0" aria-label="Table"><table>';
renderer.renderer.rules.table_close = () => "</table></div>";

/**
 * @param newId gives an id for a heading that no other part of the page has
 * @param dropped text of a heading to leave out, because the page shows it already; "" for none
 */
export function renderMarkdown(
	source: string,
	newId: (text: string) => string,
	dropped: string,
): RenderedMarkdown {
	const environment = {};
	const tokens = renderer.parse(source, environment);
	const headings: Heading[] = [];
	let drop = dropped;
	for (let i = 0; i < tokens.length; i++) {
		if (tokens[i].type !== "heading_open") continue;
		const content = tokens[i + 1].content;
		if (drop !== "" && content.trim() === drop) {
			drop = "";
			tokens.splice(i, 3);
			i -= 1;
			continue;
		}
		const level = Math.min(Number(tokens[i].tag.slice(1)) + levelShift, 6);
		const text = plainHeading(content);
		const id = newId(text);
		tokens[i].tag = `h${level}`;
		tokens[i].attrSet("id", id);
		tokens[i + 2].tag = `h${level}`;
		headings.push({ level, text, id });
	}
	return {
		html: renderer.renderer.render(tokens, renderer.options, environment),
		headings,
	};
}
