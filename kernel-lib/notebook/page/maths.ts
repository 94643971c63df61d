/** Formulas as MathML, which browsers set themselves: no fonts and no scripts to carry along. */
import katex from "katex";

/** TeX to MathML. What cannot be set is shown as it was written, never dropped. */
export function mathMl(tex: string, display: boolean): string {
	const set = katex.renderToString(tex, {
		output: "mathml",
		displayMode: display,
		throwOnError: false,
		trust: false,
		strict: "ignore",
		maxExpand: 200,
	});
	// A long formula scrolls on a narrow screen, and must be reached by keyboard for that.
	return display
		? `<span class="formula" role="group" tabindex="0" aria-label="Formula">${set}</span>`
		: set;
}
