/** Formulas as MathML, which browsers set themselves: no fonts and no scripts to carry along. */
import katex from "katex";

/** TeX to MathML. What cannot be set is shown as it was written, never dropped. */
export function mathMl(tex: string, display: boolean): string {
	return katex.renderToString(tex, {
		output: "mathml",
		displayMode: display,
		throwOnError: false,
		trust: false,
		strict: "ignore",
		maxExpand: 200,
	});
}
